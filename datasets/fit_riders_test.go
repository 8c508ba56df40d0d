package datasets_test

import (
	"slices"
	"strings"
	"testing"

	"firstbolt/model"
	"firstbolt/model/fit"
)

// TestRidersCases mounts one part on a bike with the numbers of a public report of a rider or mechanic. The reports
// stand in testdata/riders.csv (kind, decisive fact, verdict, what is to be measured, address); testdata/fit_riders.csv
// has one row for each that one part on one bike can decide, named by its id, and rows that turn the verdict over
// ("C17 enough"). What a report does not tell is an ordinary value where the part could not be judged on the report's
// point without it; slots that a row does not name are empty. The other reports are sheds in ../solver/testdata/riders.
//
// Of every row it is asked: the answer; that the rule named speaks, about the facts on which the report was decided;
// that without this rule the answer would be another; and that each fact of the column `measure` is asked for as soon
// as nobody has measured it.
func TestRidersCases(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	verdicts := riderVerdicts(t)
	for _, row := range records(t, "testdata/fit_riders.csv") {
		c := riderCase{id: row[0], bike: row[1], place: strings.Split(row[2], " + "), part: row[3]}
		want, rule, decisive, measure, differs := row[4], row[5], listed(row[6]), listed(row[7]), row[8]
		t.Run(c.id, func(t *testing.T) {
			t.Parallel()
			got, results := c.mount(t, tables, "")
			if got.String() != want {
				t.Errorf("got %s, want %s", got, want)
				logAll(t, results)
			}
			speaks(t, results, rule, decisive, got != fit.Fits)
			if without, _ := c.mount(t, withoutRule(tables, rule), ""); got != fit.Fits && (without != got) == (backed[c.id] != "") {
				t.Errorf("without %s: %s; backed by %q", rule, without, backed[c.id])
			}
			for _, fact := range measure {
				if got, results := c.mount(t, tables, fact); got == fit.Fits || !asksFor(results, fact) {
					t.Errorf("without %s: %s, and it is not asked for", fact, got)
					logAll(t, results)
				}
			}
			if len(c.id) > len("C00") {
				return // a row that turns the verdict over
			}
			verdict, known := verdicts[c.id]
			if agrees := slices.Contains(answersTo[verdict], got); !known || agrees != (differs == "") {
				t.Errorf("the report says %q, firstbolt %s; the reason why they differ: %q", verdict, got, differs)
			}
		})
	}
}

// backed are the rows whose answer would be the same without the decisive rule, and what else says so.
var backed = map[string]string{
	"C12 in front": "the wheel has no place for a rotor either",
	"C17":          "post_length asks for the same fact",
	"C20":          "adapter, lever and pads are wanted besides the rotor",
	"C21":          "rear_axle_aluminium",
	"C63":          "rotor_step_exact.front asks for the same fact",
}

func withoutRule(tables *model.Tables, id string) *model.Tables {
	less := *tables
	less.Rules = slices.DeleteFunc(slices.Clone(tables.Rules), func(r model.Rule) bool { return r.ID == id })
	return &less
}

// answersTo are the answers that say of one part what a report's verdict says of it.
var answersTo = map[string][]fit.Answer{
	"fits": {fit.Fits},
	// If: something else comes along, or something has to be measured and turns out well.
	"fits_if": {fit.FitsWith, fit.MeasureFirst},
	// No, as asked: nothing mends it, or only another purchase does. Never fits.
	"no": {fit.DoesNotFit, fit.FitsWith},
	// No, with one way out: another purchase, or a measurement that turns out well.
	"no_unless":     {fit.DoesNotFit, fit.FitsWith, fit.MeasureFirst},
	"measure_first": {fit.MeasureFirst},
	// Practice is divided: the rider decides.
	"uncertain":   {fit.BothSides},
	"bundle":      {fit.FitsWith},
	"replace_set": {fit.FitsWith},
	// The report tells of a makeshift that hurt; it must not be an answer at all.
	"avoid": {fit.DoesNotFit},
}

// riderVerdicts are the verdicts of the reports by id.
func riderVerdicts(t *testing.T) map[string]string {
	verdicts := map[string]string{}
	for _, row := range records(t, "testdata/riders.csv") {
		verdicts[row[0]] = row[3]
	}
	return verdicts
}

// riderCase is one row of testdata/fit_riders.csv.
type riderCase struct {
	id, bike string
	place    model.Place
	part     string
}

// mount judges the part on the bike, where one fact ("slot.fact") has not been measured.
func (c riderCase) mount(t *testing.T, tables *model.Tables, unmeasured string) (fit.Answer, []fit.Result) {
	t.Helper()
	slot, fact, _ := strings.Cut(unmeasured, ".")
	bike := &model.Bike{Name: c.id}
	there := factsBySlot(t, tables, c.bike)
	delete(there[slot], fact)
	for _, s := range tables.Slots {
		facts, ok := there[s.Name]
		bike.Fitted = append(bike.Fitted, model.Fitted{Slot: s.Name, None: !ok || facts == nil, Facts: facts})
	}
	part := &model.Part{ID: c.id, Name: "the part", Places: []model.Place{c.place}, Facts: model.Facts{}}
	for _, entry := range listed(c.part) {
		name, value, _ := strings.Cut(entry, "=")
		part.Facts[name] = measured(t, tables, name, value)
	}
	if slices.Contains(c.place, slot) {
		delete(part.Facts, fact)
	}
	return fit.Alone(tables, bike, part, c.place, nil)
}

// speaks tells whether a rule about all of these facts is among the results, with something to say or without.
func speaks(t *testing.T, results []fit.Result, rule string, facts []string, open bool) {
	t.Helper()
	for _, r := range results {
		if r.Rule.ID != rule || open != (r.Says != "") {
			continue
		}
		for _, fact := range facts {
			slot, name, _ := strings.Cut(fact, ".")
			if !slices.Contains(fit.Refs(r.Rule), fit.Ref{Slot: slot, Fact: name}) {
				t.Errorf("%s does not look at %s", rule, fact)
			}
		}
		return
	}
	t.Errorf("%s does not speak, or speaks where nothing is wrong", rule)
	logAll(t, results)
}

// asksFor tells whether a result names the fact as not known.
func asksFor(results []fit.Result, fact string) bool {
	return slices.ContainsFunc(results, func(r fit.Result) bool {
		return slices.ContainsFunc(r.Missing, func(ref fit.Ref) bool { return ref.Slot+"."+ref.Fact == fact })
	})
}

func logAll(t *testing.T, results []fit.Result) {
	t.Helper()
	for _, r := range results {
		t.Logf("%s %s %v %s", r.Rule.ID, r.State, r.Missing, r.Says)
	}
}

// listed are the entries of a cell.
func listed(cell string) []string {
	if cell == "" {
		return nil
	}
	return strings.Split(cell, "; ")
}
