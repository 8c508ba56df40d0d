package answer_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/cmd/firstbolt/internal/answer/example"
	"firstbolt/cmd/firstbolt/internal/golden"
	view "firstbolt/cmd/firstbolt/internal/json"
)

func TestSchemaIsMadeFromTheStructs(t *testing.T) {
	t.Parallel()
	got, err := answer.JSONSchema()
	if err != nil {
		t.Fatal(err)
	}
	golden.Compare(t, "answer.schema.json", append(got, '\n'))
}

func compiled(t *testing.T) *jsonschema.Schema {
	t.Helper()
	text, err := answer.JSONSchema()
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("answer.schema.json", doc); err != nil {
		t.Fatal(err)
	}
	return c.MustCompile("answer.schema.json")
}

func failure(code string) *answer.Failure {
	f := &answer.Failure{Head: answer.NewHead("plan")}
	f.Error = &answer.Error{Code: code, Sentence: "said", Complaints: []answer.Complaint{{Where: "parts.csv:14 (D14)", Wanted: "an amount", Text: "all of it"}}}
	return f
}

func TestAnswersValidate(t *testing.T) {
	t.Parallel()
	schema := compiled(t)
	version := &answer.Versions{Head: answer.NewHead("version"), Engines: []answer.EngineInfo{{Name: "builtin", Says: "own", Licence: "Apache-2.0"}}}
	for name, a := range map[string]answer.Answer{
		"plan":    example.Plan(),
		"failure": failure(answer.Sheets),
		"check":   &answer.Check{Head: answer.NewHead("check")},
		"program": &answer.Program{Head: answer.NewHead("program"), Form: "mps"},
		"version": version,
		"fits":    example.Fits(),
		"one fit": example.FitsOne(),
		"measure": example.Measuring(),
		"read":    example.ReadBack(),
		"want":    example.Want(),
	} {
		if err := schema.Validate(written(t, a)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// A schema that accepts anything would be no contract.
func TestSchemaRefuses(t *testing.T) {
	t.Parallel()
	schema := compiled(t)
	for name, spoil := range map[string]func(map[string]any){
		"a member is missing":     func(m map[string]any) { delete(m, "left") },
		"a member is unknown":     func(m map[string]any) { m["colour"] = "red" },
		"an unknown decision":     func(m map[string]any) { m["decision"] = "perhaps" },
		"a list is null":          func(m map[string]any) { m["buy"] = nil },
		"money is a float":        func(m map[string]any) { m["left"].(map[string]any)["minor"] = 1.5 },
		"another schema's number": func(m map[string]any) { m["schema"] = "firstbolt/answer/0" },
		"a step without a price":  func(m map[string]any) { delete(m["buy"].([]any)[0].(map[string]any), "price") },
	} {
		doc := written(t, example.Plan()).(map[string]any)
		spoil(doc)
		if schema.Validate(doc) == nil {
			t.Errorf("%s: the schema accepts it", name)
		}
	}
}

func written(t *testing.T, a answer.Answer) any {
	t.Helper()
	var out bytes.Buffer
	if err := view.Write(&out, a); err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(&out)
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

// The codes are the promise of the README's table.
func TestExitCodes(t *testing.T) {
	t.Parallel()
	for code, want := range map[string]int{
		answer.Clash: 1, answer.Sheets: 3, answer.Engine: 4, answer.Disagreement: 4, answer.Stopped: 5, answer.Interrupted: 130,
	} {
		if got := answer.Exit(failure(code)); got != want {
			t.Errorf("%s: exit code %d, want %d", code, got, want)
		}
	}
	if got := answer.Exit(example.Plan()); got != 0 {
		t.Errorf("a plan: exit code %d, want 0", got)
	}
}

// Digits of minor units: ISO 4217 (JPY 0, EUR 2, BHD 3).
func TestMoneyString(t *testing.T) {
	t.Parallel()
	for want, m := range map[string]answer.Money{
		"212.70": {Minor: 21270, Currency: "EUR"}, "-0.05": {Minor: -5, Currency: "EUR"}, "300": {Minor: 300, Currency: "JPY"}, "0.300": {Minor: 300, Currency: "BHD"},
	} {
		if got := m.String(); got != want {
			t.Errorf("%+v is written %q, want %q", m, got, want)
		}
	}
}

func TestNumbersInJSON(t *testing.T) {
	t.Parallel()
	for want, v := range map[string]any{
		"4.55": answer.Points(45500), "-0.05": answer.Points(-500), "30": answer.Points(300000), "0.0001": answer.Points(1),
		"0.4": answer.Share(40), "0": answer.Share(0), "13.382": answer.Rate(13382), "0.084": answer.Seconds(84),
	} {
		got, err := json.Marshal(v)
		if err != nil || string(got) != want {
			t.Errorf("%v is written %s (%v), want %s", v, got, err, want)
		}
	}
}

// 4.55 points for 34.00 are 13.382 per 100 (4.55 / 34.00 * 100), whatever the currency's digits.
func TestPerHundred(t *testing.T) {
	t.Parallel()
	for _, paid := range []answer.Money{{Minor: 3400, Currency: "EUR"}, {Minor: 34, Currency: "JPY"}, {Minor: 34000, Currency: "BHD"}} {
		got := answer.PerHundred(45500, paid)
		if got == nil || *got != 13382 {
			t.Errorf("%v: %v, want 13.382", paid, got)
		}
	}
	if got := answer.PerHundred(45500, answer.Money{Currency: "EUR"}); got != nil {
		t.Errorf("what costs nothing has the rate %v, want none", *got)
	}
	if got := *answer.PerHundred(-45500, answer.Money{Minor: 3400, Currency: "EUR"}); got != -13382 {
		t.Errorf("a loss has the rate %d, want -13382", got)
	}
}

func TestShort(t *testing.T) {
	t.Parallel()
	for want, p := range map[string]answer.Points{"4.6": 45500, "-0.1": -500, "0.0": -499, "12.3": 123456, "100.0": 1000000} {
		if got := p.Short(); got != want {
			t.Errorf("%d is said as %s, want %s", p, got, want)
		}
	}
}

func TestKeyedKeepsItsOrder(t *testing.T) {
	t.Parallel()
	got, err := json.Marshal(answer.Keyed[answer.Points]{{Key: "z", Value: 10000}, {Key: "a", Value: 0}})
	if err != nil || strings.Compare(string(got), `{"z":1,"a":0}`) != 0 {
		t.Errorf("got %s (%v), want the members in the order given", got, err)
	}
}
