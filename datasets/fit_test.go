package datasets_test

import (
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"

	"firstbolt/model"
	"firstbolt/model/fit"
)

// records reads a file of testdata without its header.
func records(t *testing.T, path string) [][]string {
	t.Helper()
	file, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

// measured is a fact's value as a rider would have measured it.
func measured(t *testing.T, tables *model.Tables, fact, text string) model.Value {
	t.Helper()
	o := model.Origin{Sheet: "test", How: model.Measured}
	f := tables.FactNamed(fact)
	if f == nil {
		t.Fatalf("facts.csv has no %s", fact)
	}
	if f.Kind == model.Number {
		n, err := strconv.ParseFloat(text, 64)
		if err != nil {
			t.Fatalf("%s=%s: %v", fact, text, err)
		}
		return model.NumberValue(int64(n*1000+0.5), o)
	}
	return model.ChoiceValue(o, strings.Split(text, " or ")...)
}

// factsBySlot reads "fork.steerer_mm=28.6; front tubeless set=present; chain guide=none".
func factsBySlot(t *testing.T, tables *model.Tables, text string) map[string]model.Facts {
	t.Helper()
	all := map[string]model.Facts{}
	for _, entry := range strings.Split(text, "; ") {
		name, value, _ := strings.Cut(entry, "=")
		slot, fact, dotted := strings.Cut(name, ".")
		if slot != model.RiderSlot && tables.SlotNamed(slot) == nil {
			t.Fatalf("%q: there is no slot %q", entry, slot)
		}
		switch {
		case value == "none" && !dotted:
			all[slot] = nil
			continue
		case all[slot] == nil:
			all[slot] = model.Facts{}
		}
		if dotted {
			all[slot][fact] = measured(t, tables, fact, value)
		}
	}
	return all
}

// TestRulesHoldPublishedValues gives every rule values whose outcome is known from outside the project; the source
// stands beside each row of the file.
func TestRulesHoldPublishedValues(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	rules := map[string]*model.Rule{}
	for i := range tables.Rules {
		rules[tables.Rules[i].ID] = &tables.Rules[i]
	}
	seen := map[string]map[string]bool{}
	for _, row := range records(t, "testdata/fit_values.csv") {
		rule, things, want, source := row[0], row[1], row[2], row[3]
		r := rules[rule]
		for _, end := range []string{".front", ".rear"} {
			if one := rules[rule+end]; r == nil && one != nil && strings.Contains(things, end[1:]+" ") {
				r = one
			}
		}
		if r == nil {
			t.Errorf("%s: there is no such rule", rule)
			continue
		}
		built := map[string]model.Thing{}
		for slot, facts := range factsBySlot(t, tables, things) {
			part := &model.Part{Name: "bought " + slot, Facts: facts}
			built[slot] = tables.BoughtThing(part, model.Place{slot}, slot)
		}
		o := fit.Judge(tables, r, built, nil)
		got := o.State.String()
		if o.State == fit.Broken && o.Severity == model.BothSides {
			got = "both-sides"
			if allowed := fit.Judge(tables, r, built, []string{rule}); allowed.State != fit.Allowed {
				t.Errorf("%s under --allow: %s", rule, allowed.State)
			}
		}
		if got != want && !(want == "broken" && got == "both-sides") {
			t.Errorf("%s: %s: got %s, want %s (%s)", rule, things, got, want, source)
		}
		if source == "" {
			t.Errorf("%s: %s: no source", rule, things)
		}
		if seen[rule] == nil {
			seen[rule] = map[string]bool{}
		}
		seen[rule][want] = true
	}
	for id := range rules {
		id = strings.TrimSuffix(strings.TrimSuffix(id, ".rear"), ".front")
		if s := seen[id]; !(s["met"] || s["bridged"] || s["not concerned"]) || !(s["broken"] || s["both-sides"]) {
			t.Errorf("rule %s: want at least one case that passes and one that breaks it", id)
		}
	}
}

// TestRulesAreComplete: every rule tells why, how to mend it and where it comes from, and looks only at facts and
// slots of the tables.
func TestRulesAreComplete(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	if len(tables.Rules) < 12 {
		t.Fatalf("only %d rules", len(tables.Rules))
	}
	for i := range tables.Rules {
		r := &tables.Rules[i]
		if r.Fails == "" || r.Mend == "" || r.Source == "" {
			t.Errorf("%s: fails %q, mend %q, source %q", r.ID, r.Fails, r.Mend, r.Source)
		}
		for _, ref := range fit.Refs(r) {
			f := tables.FactNamed(ref.Fact)
			if f == nil || !f.Has(ref.Slot) {
				t.Errorf("%s: %s has no fact %s", r.ID, ref.Slot, ref.Fact)
			} else if f.How == "" {
				t.Errorf("%s: nobody says how %s is measured", r.ID, ref.Fact)
			}
		}
		for _, word := range []string{"{side}", "{end}"} {
			if strings.Contains(r.Fails+r.Mend, word) {
				t.Errorf("%s: %s was not written out", r.ID, word)
			}
		}
	}
}

// TestFactsSayHowTheyAreMeasured: whoever is asked for a fact learns how, with what, and what goes wrong.
func TestFactsSayHowTheyAreMeasured(t *testing.T) {
	t.Parallel()
	for _, f := range embedded(t).Facts {
		if f.How == "" || f.Tool == "" || f.Mistakes == "" || f.Source == "" || len(f.Slots) == 0 {
			t.Errorf("%s: how %q, tool %q, mistakes %q, source %q, slots %v", f.Name, f.How, f.Tool, f.Mistakes, f.Source, f.Slots)
		}
	}
}

// TestPlausibleValuesArePossible: a plausible value lies inside the fact's own range.
func TestPlausibleValuesArePossible(t *testing.T) {
	t.Parallel()
	for _, f := range embedded(t).Facts {
		for _, p := range f.Plausible {
			if f.Kind == model.Number && (p.Value.Milli < f.Low || p.Value.Milli > f.High) {
				t.Errorf("%s: %s is outside its range", f.Name, p.Value)
			}
		}
	}
}
