package scoring

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"firstbolt/model"
)

// workshop is a small shed with one bike, put together fact by fact.
type workshop struct {
	tables model.Tables
	shed   model.Shed
	bike   model.Bike
}

// measure adds a measure with a straight curve, 500 steps over its amounts.
func (w *workshop) measure(key string, from, to float64) {
	criterion, _, _ := strings.Cut(key, ".")
	w.tables.Measures = append(w.tables.Measures, model.Measure{
		Key: key, Criterion: criterion, Says: key, Share: 100,
		Points: []model.CurvePoint{{Amount: from}, {Amount: to, Level: 100}},
	})
	if w.tables.CriterionNamed(criterion) == nil {
		w.tables.Criteria = append(w.tables.Criteria, model.Criterion{Key: criterion, Says: criterion})
	}
}

func (w *workshop) slots(names ...string) {
	for _, name := range names {
		w.tables.Slots = append(w.tables.Slots, model.Slot{Name: name, Required: true})
	}
}

// rule adds a rule, its fact and its row number; rows are choice, number or amount in turn.
func (w *workshop) rule(r model.AmountRule, rows ...any) {
	kind := model.Number
	for i := 0; i < len(rows); i += 2 {
		row := model.AmountRow{Gives: rows[i+1].(float64)}
		switch at := rows[i].(type) {
		case string:
			row.Choice, kind = at, model.Choice
		case float64:
			row.At = at
		}
		r.Rows = append(r.Rows, row)
	}
	r.Origin = model.Origin{Sheet: "measures.csv", Row: len(w.tables.Amounts) + 2}
	w.tables.Amounts = append(w.tables.Amounts, r)
	if r.Fact != "" && r.Fact != "grams" && r.Fact != "condition" && r.Fact != "seasons" {
		w.tables.Facts = append(w.tables.Facts, model.Fact{Name: r.Fact, Kind: kind, Slots: []string{r.Slot}})
	}
}

func (w *workshop) scorer(t *testing.T) *Scorer {
	t.Helper()
	s, err := New(&w.tables, &w.shed, &w.bike)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func choice(words ...string) model.Value {
	return model.ChoiceValue(model.Origin{Sheet: "parts.csv", Row: 2, Cell: "D2", How: model.Measured}, words...)
}

func measured(x float64) model.Value {
	return model.NumberValue(int64(math.Round(x*1000)), model.Origin{Sheet: "parts.csv", Row: 2, Cell: "E2", How: model.Measured})
}

func assumed(v model.Value) model.Value {
	v.Origin = model.Origin{Sheet: "kind", How: model.Assumed}
	return v
}

// part is a bought thing that leads its place.
func part(slot string, facts model.Facts) model.Thing {
	return model.Thing{Slot: slot, State: model.Bought, Name: "part", Part: &model.Part{Name: "part"}, Place: model.Place{slot}, Facts: facts}
}

// only is the exact amount of a thing that takes part in one measure.
func only(t *testing.T, s *Scorer, th model.Thing) Amount {
	t.Helper()
	amounts := s.Amounts(th)
	if len(amounts) != 1 {
		t.Fatalf("%d amounts, want one", len(amounts))
	}
	return amounts[0]
}

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if math.Abs(got-want) > within {
		t.Errorf("%s: %v, want %v within %v", what, got, want, within)
	}
}

// Chances of failure multiply, so their logarithms add. Source of the first row: road-safety practice question on the
// product rule, two measures with remaining risks 0.69 and 0.78 leave 0.54 (exactly 0.5382). The others are the worked
// values of the trade tables (judgement): levels 100 x (1 - product).
func TestHazardsMultiply(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name          string
		first, second float64
		left          float64
	}{
		{"two road-safety measures", 0.69, 0.78, 0.5382},
		{"narrow-wide ring and clutch", 0.15, 0.50, 0.075},
		{"triple and clutch", 0.60, 0.50, 0.30},
	} {
		w := &workshop{}
		w.measure("retention", 0, 5)
		w.slots("chainring", "rear derailleur")
		w.rule(model.AmountRule{Measure: "retention", Slot: "chainring", Fact: "ring", Form: model.Factor, Coef: -1}, "it", c.first)
		w.rule(model.AmountRule{Measure: "retention", Slot: "rear derailleur", Fact: "clutch", Form: model.Factor, Coef: -1}, "yes", c.second)
		s := w.scorer(t)
		x := only(t, s, part("chainring", model.Facts{"ring": choice("it")})).Exact +
			only(t, s, part("rear derailleur", model.Facts{"clutch": choice("yes")})).Exact
		near(t, c.name, math.Exp(-x), c.left, 1e-12)
	}
}

// Source: gear inches = ring / cog x wheel diameter (48/24 and 48/34 on 26 in give 52 and 36.7), and development =
// gear inches x 0.0254 x pi (20 in: 1.6 m, 70 in: 5.6 m, 125 in: 10 m): pages "Calculating Gear Inches" and
// "Engineering: Gear inches". The rows with a circumference are computed: 2.29 m is about 57-622, 2.10 m 57-559.
func TestGearDevelopment(t *testing.T) {
	t.Parallel()
	w := &workshop{}
	w.measure("range.easy", -math.Log(2.6), -math.Log(1.1))
	w.slots("chainring", "cassette", "rear wheel")
	w.rule(model.AmountRule{Measure: "range.easy", Slot: "chainring", Fact: "ring_min", Form: model.Log, Coef: -1})
	w.rule(model.AmountRule{Measure: "range.easy", Slot: "cassette", Fact: "cog_max", Form: model.Log, Coef: 1})
	w.rule(model.AmountRule{Measure: "range.easy", Slot: "rear wheel", Fact: "around_m", Form: model.Log, Coef: -1})
	s := w.scorer(t)
	const inch = 0.0254
	for _, c := range []struct{ ring, cog, around, want, within float64 }{
		{48, 24, 26 * inch * math.Pi, 52 * inch * math.Pi, 0.005},
		{48, 34, 26 * inch * math.Pi, 36.7 * inch * math.Pi, 0.005},
		{20, 20, 20 * inch * math.Pi, 1.6, 0.005},
		{20, 20, 70 * inch * math.Pi, 5.6, 0.02},
		{32, 11, 2.29, 6.66, 0.005},
		{32, 42, 2.29, 1.74, 0.005},
		{22, 34, 2.10, 1.36, 0.005},
	} {
		x := only(t, s, part("chainring", model.Facts{"ring_min": measured(c.ring)})).Exact +
			only(t, s, part("cassette", model.Facts{"cog_max": measured(c.cog)})).Exact +
			only(t, s, part("rear wheel", model.Facts{"around_m": measured(c.around)})).Exact
		near(t, fmt.Sprintf("%v/%v", c.ring, c.cog), math.Exp(-x), c.want, c.within)
	}
}

func TestForms(t *testing.T) {
	t.Parallel()
	w := &workshop{}
	w.measure("m", 0, 500) // one step is 1
	w.slots("a", "b", "c", "d", "e")
	w.rule(model.AmountRule{Measure: "m", Slot: "a", Fact: "width", Form: model.Table}, 580.0, 0.0, 680.0, 100.0, 780.0, 150.0)
	w.rule(model.AmountRule{Measure: "m", Slot: "b", Fact: "tread", Form: model.Table}, "slick", 0.0, "knobbly", 3.0, "none", -2.0)
	w.rule(model.AmountRule{Measure: "m", Slot: "c", Fact: "", Form: model.Linear, Coef: 7})
	w.rule(model.AmountRule{Measure: "m", Slot: "d", Fact: "grams", Form: model.Linear, Coef: -1.25})
	w.rule(model.AmountRule{Measure: "m", Slot: "e", Fact: "rotor", Form: model.Factor, Coef: 100}, 160.0, 1.0, 180.0, 1.15)
	s := w.scorer(t)
	heavy := part("d", nil)
	heavy.Grams = model.Say(model.Grams(800), model.Origin{Sheet: "parts.csv", Row: 3, How: model.Measured})
	for _, c := range []struct {
		name  string
		thing model.Thing
		steps int64
	}{
		{"between two rows", part("a", model.Facts{"width": measured(640)}), 60},
		{"below the rows", part("a", model.Facts{"width": measured(500)}), 0},
		{"above the rows", part("a", model.Facts{"width": measured(900)}), 150},
		{"a choice", part("b", model.Facts{"tread": choice("knobbly")}), 3},
		{"of alternatives the least", part("b", model.Facts{"tread": choice("knobbly", "slick")}), 0},
		{"a choice without a row", part("b", model.Facts{"tread": choice("studded")}), 0},
		{"an empty slot with a row", model.Thing{Slot: "b", State: model.Empty}, -2},
		{"presence", part("c", nil), 7},
		{"an empty slot without a row", model.Thing{Slot: "c", State: model.Empty}, 0},
		{"grams", heavy, -1000},
		{"ln of a factor", part("e", model.Facts{"rotor": measured(180)}), 14}, // 100 ln 1.15 = 13.98
	} {
		if got := only(t, s, c.thing).Steps; got != c.steps {
			t.Errorf("%s: %d steps, want %d", c.name, got, c.steps)
		}
	}
}

// What stands in for facts: said facts, then ratings, then assumed facts, then assumptions by the class of bike.
func TestWhatStandsInForFacts(t *testing.T) {
	t.Parallel()
	w := &workshop{}
	w.measure("grip.front", 0, 500)
	w.slots("tyre")
	w.rule(model.AmountRule{Measure: "grip.front", Slot: "tyre", Fact: "tread", Form: model.Table}, "slick", 10.0, "knobbly", 300.0)
	w.rule(model.AmountRule{Measure: "grip.front", Slot: "tyre", Fact: "condition", Form: model.Table}, "good", 0.0, "tired", -80.0)
	w.rule(model.AmountRule{Measure: "grip.front", Slot: "tyre", Fact: "casing", Form: model.Table}, "supple", 30.0)
	w.tables.Assumptions = []model.Assumption{
		{Measure: "grip.front", Slot: "tyre", Low: 50, Likely: 100, High: 200, Rated: true, RatedLow: 0, RatedHigh: 400},
		{Measure: "grip.front", Slot: "tyre", Like: "store", Low: 50, Likely: 60, High: 200, Rated: true, RatedLow: 0, RatedHigh: 400},
	}
	w.bike = model.Bike{Name: "mine", Like: "store", Fitted: []model.Fitted{{Slot: "tyre", Condition: model.Tired}}}
	s := w.scorer(t)
	fitted, rated := w.tables.FittedThing(&w.bike, "tyre"), map[string]model.Stated[float64]{"grip": model.Say(7.5, model.Origin{})}
	with := func(th model.Thing, ratings map[string]model.Stated[float64]) model.Thing {
		th.Ratings = ratings
		return th
	}
	for _, c := range []struct {
		name   string
		thing  model.Thing
		steps  int64
		ground Ground
	}{
		{"fitted and unknown: likely for this class, less the wear", fitted, -20, ByAssumption},
		{"serviced: the wear is gone", w.tables.ServicedThing(&w.bike, "tyre", "good"), 60, ByAssumption},
		{"bought and unknown: no better than what is fitted", part("tyre", nil), 60, ByAssumption},
		{"bought, and a refinement alone says nothing", part("tyre", model.Facts{"casing": choice("supple")}), 60, ByAssumption},
		{"a said fact, refined", part("tyre", model.Facts{"tread": choice("knobbly"), "casing": choice("supple")}), 330, ByFact},
		{"an assumed fact", part("tyre", model.Facts{"tread": assumed(choice("knobbly"))}), 300, ByAssumedFact},
		{"a rating stands for nothing said", with(part("tyre", nil), rated), 300, ByRating},
		{"a rating beats an assumed fact", with(part("tyre", model.Facts{"tread": assumed(choice("slick"))}), rated), 300, ByRating},
		{"a said fact beats a rating", with(part("tyre", model.Facts{"tread": choice("slick")}), rated), 10, ByFact},
	} {
		a := only(t, s, c.thing)
		if a.Steps != c.steps || a.Trace[0].Ground != c.ground {
			t.Errorf("%s: %d steps by %v, want %d by %v; trace %v", c.name, a.Steps, a.Trace[0].Ground, c.steps, c.ground, a.Trace)
		}
	}
}

// Half a ratio says nothing: a cassette whose smallest cog is unknown is not scored as if it had one tooth.
func TestAMissingLogarithmLeavesTheGroupUndecided(t *testing.T) {
	t.Parallel()
	w := &workshop{}
	w.measure("range.total", 0, 5)
	w.slots("cassette")
	w.rule(model.AmountRule{Measure: "range.total", Slot: "cassette", Fact: "cog_max", Form: model.Log, Coef: 1})
	w.rule(model.AmountRule{Measure: "range.total", Slot: "cassette", Fact: "cog_min", Form: model.Log, Coef: -1})
	w.tables.Assumptions = []model.Assumption{{Measure: "range.total", Slot: "cassette", Low: 0.5, Likely: 0.9, High: 1.5}}
	s := w.scorer(t)
	a := only(t, s, model.Thing{Slot: "cassette", State: model.AsFitted, Facts: model.Facts{"cog_max": measured(34)}})
	near(t, "unknown smallest cog", a.Exact, 0.9, 0)
	a = only(t, s, model.Thing{Slot: "cassette", State: model.AsFitted, Facts: model.Facts{"cog_max": measured(34), "cog_min": measured(0)}})
	near(t, "a cog of no teeth", a.Exact, 0.9, 0)
	a = only(t, s, part("cassette", model.Facts{"cog_max": measured(34), "cog_min": measured(11)}))
	near(t, "both known", a.Exact, math.Log(34.0/11), 1e-12)
}

// A set's grams stand on its first slot; a set of which nobody knows the mass is as heavy as its pieces.
func TestASetWeighsOnce(t *testing.T) {
	t.Parallel()
	w := &workshop{}
	w.measure("weight", -18000, -10000)
	w.slots("crankset", "chainring")
	for _, slot := range []string{"crankset", "chainring"} {
		w.rule(model.AmountRule{Measure: "weight", Slot: slot, Fact: "grams", Form: model.Linear, Coef: -1})
		w.tables.Assumptions = append(w.tables.Assumptions, model.Assumption{Measure: "weight", Slot: slot, Low: -700, Likely: -400, High: -300})
	}
	s := w.scorer(t)
	place := model.Place{"crankset", "chainring"}
	set := &model.Part{Name: "set", Grams: model.Say(model.Grams(640), model.Origin{Sheet: "parts.csv", Row: 9, How: model.Measured})}
	near(t, "crankset", only(t, s, w.tables.BoughtThing(set, place, "crankset")).Exact, -640, 0)
	near(t, "chainring", only(t, s, w.tables.BoughtThing(set, place, "chainring")).Exact, 0, 0)
	unknown := &model.Part{Name: "set"}
	near(t, "unknown crankset", only(t, s, w.tables.BoughtThing(unknown, place, "crankset")).Exact, -400, 0)
	near(t, "unknown chainring", only(t, s, w.tables.BoughtThing(unknown, place, "chainring")).Exact, -400, 0)
}

func TestBase(t *testing.T) {
	t.Parallel()
	w := &workshop{}
	w.measure("braking.front", -1, 1)
	w.measure("looks", 0, 10)
	w.measure("weight", -18000, -10000)
	w.slots("frame", "fork")
	for _, slot := range []string{"frame", "fork"} {
		w.rule(model.AmountRule{Measure: "weight", Slot: slot, Fact: "grams", Form: model.Linear, Coef: -1})
	}
	w.tables.Assumptions = []model.Assumption{
		{Measure: "weight", Slot: "fork", Low: -2600, Likely: -2200, High: -1600},
		{Measure: "looks", Low: 3, Likely: 5, High: 7, Rated: true, RatedLow: 0, RatedHigh: 10},
	}
	w.bike = model.Bike{Name: "mine", Fitted: []model.Fitted{{Slot: "frame", Grams: model.Say(model.Grams(12_800), model.Origin{How: model.Measured})}, {Slot: "fork"}}}
	s := w.scorer(t)
	// 85 kg assumed + 12.8 kg + 2.2 kg = 100 kg, whose ln is 0.
	if got := s.Base(0); got != 0 || s.Mass().Total() != 100_000 {
		t.Errorf("base of braking is %d at %d g, want 0 at 100,000 g", got, s.Mass().Total())
	}
	near(t, "looks, nobody asked", s.BaseAmount(1).Exact, 5, 0)
	if got := s.Base(2); got != 0 {
		t.Errorf("base of weight is %d, want 0: everything is carried by a slot", got)
	}
	if notes := s.Notes(); len(notes) != 2 || notes[0].Says != "rider_kg is not stated: 85 kg is assumed" || notes[1].Code != "assumed-mass" {
		t.Errorf("notes %+v, want the assumed rider and the assumed fork", notes)
	}
	w.shed.Rider.Mass = model.Say(model.Grams(110_000), model.Origin{})
	w.shed.Rider.Load = model.Say(model.Grams(10_000), model.Origin{})
	w.bike.Ratings = map[string]model.Stated[float64]{"looks": model.Say(8.0, model.Origin{})}
	s = w.scorer(t)
	near(t, "135 kg", s.BaseAmount(0).Exact, -math.Log(1.35), 1e-12)
	near(t, "looks rated 8", s.BaseAmount(1).Exact, 8, 1e-12)
}

func TestNotesSayWhatIsNotScored(t *testing.T) {
	t.Parallel()
	w := &workshop{}
	w.measure("grip.front", 0, 5)
	w.tables.Criteria = append(w.tables.Criteria, model.Criterion{Key: "looks", Says: "looks"})
	w.slots("tyre")
	w.rule(model.AmountRule{Measure: "grip.front", Slot: "tyre", Fact: "tread", Form: model.Table}, "slick", 0.0)
	w.bike = model.Bike{Name: "mine"}
	w.shed.Rider.Mass = model.Say(model.Grams(80_000), model.Origin{})
	var said []string
	for _, n := range w.scorer(t).Notes() {
		said = append(said, n.Code+" "+n.Where)
	}
	if got := strings.Join(said, "; "); got != "assumed-mass mine; not-scored looks; not-scored tyre" {
		t.Errorf("%s; want the bike's mass, looks and the tyre named", got)
	}
}

func TestValues(t *testing.T) {
	t.Parallel()
	w := &workshop{}
	w.measure("grip.front", 0, 5)
	w.tables.Values = []model.ValueRule{{Name: "tubeless, front", Measure: "grip.front", Gives: 0.6}, {Name: "of no measure", Measure: "speed", Gives: 1}}
	values := w.scorer(t).Values()
	if len(values) != 1 || values[0].Amount.Steps != 60 || values[0].Rule.Name != "tubeless, front" {
		t.Errorf("%+v, want one worth of 60 steps of 0.01", values)
	}
}

func TestNewRefuses(t *testing.T) {
	t.Parallel()
	for want, spoil := range map[string]func(*workshop){
		`there is no measure "speed" in curves.csv`:          func(w *workshop) { w.tables.Amounts[0].Measure = "speed" },
		`there is no slot "tire" in slots.csv`:               func(w *workshop) { w.tables.Amounts[0].Slot = "tire" },
		`there is no fact "thread" in facts.csv`:             func(w *workshop) { w.tables.Amounts[0].Fact = "thread" },
		`the fact "tread" is no number`:                      func(w *workshop) { w.tables.Amounts[0].Form = model.Log },
		`has no rows`:                                        func(w *workshop) { w.tables.Amounts[0].Rows = nil },
		`the factor 0 has no logarithm`:                      func(w *workshop) { w.tables.Amounts[0].Form = model.Factor },
		`no slot is named`:                                   func(w *workshop) { w.tables.Amounts[0].Slot = "" },
		`low 2, likely 1, high 3, want them in this order`:   func(w *workshop) { w.tables.Assumptions[0].Low = 2 },
		`measures.csv:2: measure speed, slot tyre: there is`: func(w *workshop) { w.tables.Amounts[0].Measure = "speed" },
		`curves.csv: measure grip.front: 1 points`:           func(w *workshop) { w.tables.Measures[0].Points = curve(0, 0) },
	} {
		w := &workshop{}
		w.measure("grip.front", 0, 5)
		w.slots("tyre")
		w.rule(model.AmountRule{Measure: "grip.front", Slot: "tyre", Fact: "tread", Form: model.Table}, "slick", 0.0)
		w.tables.Assumptions = []model.Assumption{{Measure: "grip.front", Slot: "tyre", Low: 0, Likely: 1, High: 3}}
		spoil(w)
		if _, err := New(&w.tables, &w.shed, &w.bike); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v, want it to hold %q", err, want)
		}
	}
}

// The Gives of a trace add up to the amount, so that a rider can follow it with a pocket calculator.
func TestTraceAddsUp(t *testing.T) {
	t.Parallel()
	w := &workshop{}
	w.measure("braking.front", -1, 1)
	w.slots("rotor")
	w.rule(model.AmountRule{Measure: "braking.front", Slot: "rotor", Fact: "rotor_mm", Form: model.Factor}, 160.0, 1.0, 180.0, 1.15)
	w.rule(model.AmountRule{Measure: "braking.front", Slot: "rotor", Fact: "condition", Form: model.Factor}, "good", 1.0, "tired", 0.8)
	a := only(t, w.scorer(t), part("rotor", model.Facts{"rotor_mm": measured(180), "condition": choice("tired")}))
	if len(a.Trace) != 2 || a.Trace[0].String() != "rotor_mm 180: ln 1.15, row 180 = 0.13976 (fact)" || a.Trace[1].String() != "condition tired: ln 0.8, row tired = -0.22314 (fact)" {
		t.Errorf("trace %v", a.Trace)
	}
	near(t, "sum", a.Exact, math.Log(1.15*0.8), 1e-12)
	if o := a.Trace[0]; o.Origin.String() != "parts.csv:2 (E2)" || o.Row.String() != "measures.csv:2" {
		t.Errorf("origins %v and %v, want the cell and the row", o.Origin, o.Row)
	}
}
