package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"firstbolt/datasets"
	"firstbolt/model"
)

// A page is printed, every box is filled in as a rider would, and it is read back: each answer arrives at its place, and
// none of the questions is asked again.
func TestPageThereAndBack(t *testing.T) {
	t.Parallel()
	shed := t.TempDir()
	for name, text := range map[string]string{
		"parts.csv":  "part,id,kind,price\ntyre A,A,knobbly tyre,10\nfork K,K,coil fork,60\nrear brake H,H,\"hydraulic disc brake complete, rear\",48\n",
		"bikes.csv":  "bike,owned,like\nmine,yes,store hardtail cable disc 3x7\nold,donor,\n",
		"fitted.csv": "bike,slot,part\nold,fork,old fork\n",
	} {
		if err := os.WriteFile(filepath.Join(shed, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	filled, asked := filledPage(t, firstbolt(t, "measure", shed))
	page := filepath.Join(shed, "page.txt")
	if err := os.WriteFile(page, []byte(filled), 0o644); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Read struct {
			Changed []struct{ Fact, After string }
		}
		Measure, Ask []struct{ Section, Line string }
	}
	if err := json.Unmarshal([]byte(firstbolt(t, "measure", shed, "--read", page, "--format", "json")), &got); err != nil {
		t.Fatal(err)
	}
	if len(got.Read.Changed) != len(asked) || len(asked) < 20 {
		t.Errorf("%d boxes were filled in, %d answers arrived", len(asked), len(got.Read.Changed))
	}
	for _, b := range append(got.Measure, got.Ask...) {
		if asked[b.Section+b.Line] {
			t.Errorf("%s: %s was answered and is asked again", b.Section, b.Line)
		}
	}
}

// filledPage fills in every box: numbers from the middle of what is plausible, the last choice of each row.
func filledPage(t *testing.T, page string) (filled string, asked map[string]bool) {
	t.Helper()
	tables, err := datasets.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	asked = map[string]bool{}
	lines, section := strings.Split(page, "\n"), ""
	for i, line := range lines {
		if strings.HasPrefix(line, "BIKE: ") || strings.HasPrefix(line, "PART: ") {
			section = line
		}
		if !strings.HasPrefix(line, "[") {
			continue
		}
		asked[section+line] = true
		fact := tables.FactNamed(line[strings.LastIndex(line, " ")+1:])
		box, at := "x", strings.LastIndex(line, "[")
		switch {
		case fact.Kind == model.Number:
			box = fmt.Sprint((fact.Low + fact.High) / 2000)
		case strings.HasPrefix(line, "[  "):
			box = fact.Allowed[0]
		}
		lines[i] = line[:at+1] + box + line[at+strings.Index(line[at:], "]"):]
	}
	return strings.Join(lines, "\n"), asked
}

// firstbolt runs one command line and gives what it prints.
func firstbolt(t *testing.T, args ...string) string {
	t.Helper()
	var out, failed bytes.Buffer
	a := &app{in: strings.NewReader(""), out: &out, err: &failed}
	if code := a.run(context.Background(), args); code != 0 {
		t.Fatalf("%q: exit code %d: %s", args, code, failed.String())
	}
	return out.String()
}
