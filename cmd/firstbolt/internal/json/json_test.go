package json_test

import (
	"bytes"
	stdjson "encoding/json"
	"fmt"
	"os"
	"testing"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/cmd/firstbolt/internal/answer/example"
	"firstbolt/cmd/firstbolt/internal/json"
)

// testdata/contract*.json are the agreed examples of a plan and of what fits: every member of them, and every figure, must
// come out again from the same answer made by hand. Members that were agreed later may stand beside them.
func TestAnswersKeepTheContract(t *testing.T) {
	t.Parallel()
	for file, a := range map[string]answer.Answer{"contract.json": example.Plan(), "contract-fits.json": example.Fits()} {
		var out bytes.Buffer
		if err := json.Write(&out, a); err != nil {
			t.Fatal(err)
		}
		agreed, err := os.ReadFile("testdata/" + file)
		if err != nil {
			t.Fatal(err)
		}
		want := decode(t, agreed).(map[string]any)
		delete(want, "version") // it rises
		for _, fault := range missing("", want, decode(t, out.Bytes())) {
			t.Errorf("%s%s", file, fault)
		}
	}
}

func TestEmptyListsAreNotNull(t *testing.T) {
	t.Parallel()
	plan := example.Plan()
	plan.Buy, plan.Warnings, plan.Rivals[0].Buy = nil, nil, nil
	var out bytes.Buffer
	if err := json.Write(&out, plan); err != nil {
		t.Fatal(err)
	}
	got := decode(t, out.Bytes()).(map[string]any)
	for name, value := range map[string]any{"buy": got["buy"], "warnings": got["warnings"], "rivals[0].buy": got["rivals"].([]any)[0].(map[string]any)["buy"]} {
		if list, ok := value.([]any); !ok || len(list) != 0 {
			t.Errorf("%s is %v, want an empty list", name, value)
		}
	}
}

func decode(t *testing.T, data []byte) any {
	t.Helper()
	dec := stdjson.NewDecoder(bytes.NewReader(data))
	dec.UseNumber()
	var v any
	if err := dec.Decode(&v); err != nil {
		t.Fatal(err)
	}
	return v
}

// missing names what of want is not in got. Lists may be longer in got.
func missing(at string, want, got any) []string {
	switch w := want.(type) {
	case map[string]any:
		g, ok := got.(map[string]any)
		if !ok {
			return []string{fmt.Sprintf("%s: got %v, want an object", at, got)}
		}
		var faults []string
		for name, value := range w {
			if _, ok := g[name]; !ok {
				faults = append(faults, at+"."+name+" is missing")
				continue
			}
			faults = append(faults, missing(at+"."+name, value, g[name])...)
		}
		return faults
	case []any:
		g, ok := got.([]any)
		if !ok || len(g) < len(w) {
			return []string{fmt.Sprintf("%s: got %v, want a list of at least %d", at, got, len(w))}
		}
		var faults []string
		for i := range w {
			faults = append(faults, missing(fmt.Sprintf("%s[%d]", at, i), w[i], g[i])...)
		}
		return faults
	default:
		if fmt.Sprint(want) != fmt.Sprint(got) {
			return []string{fmt.Sprintf("%s: got %v, want %v", at, got, want)}
		}
		return nil
	}
}
