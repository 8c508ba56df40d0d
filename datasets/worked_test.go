package datasets_test

import (
	"math"
	"testing"

	"firstbolt/datasets"
	"firstbolt/model"
	"firstbolt/scoring"
)

// scorerOf reckons with the embedded tables.
func scorerOf(t *testing.T) *scoring.Scorer {
	t.Helper()
	tables, err := datasets.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	s, err := scoring.New(tables, &model.Shed{Tables: tables}, &model.Bike{Name: "bike"})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// thingWith is a thing with facts that somebody measured; numbers are in thousandths.
func thingWith(slot string, facts map[string]any) model.Thing {
	said := model.Origin{How: model.Measured}
	th := model.Thing{Slot: slot, State: model.AsFitted, Fitted: &model.Fitted{Slot: slot}, Facts: model.Facts{}}
	for name, v := range facts {
		switch v := v.(type) {
		case string:
			th.Facts[name] = model.ChoiceValue(said, v)
		case int:
			th.Facts[name] = model.NumberValue(int64(v)*1000, said)
		}
	}
	return th
}

// sumOf is what things add to a measure, before rounding to steps.
func sumOf(t *testing.T, s *scoring.Scorer, measure string, things ...model.Thing) float64 {
	t.Helper()
	tables, err := datasets.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	sum := 0.0
	for _, th := range things {
		for _, a := range s.Amounts(th) {
			if tables.Measures[a.Measure].Key == measure {
				sum += a.Exact
			}
		}
	}
	return sum
}

// A brake's force at the rim grows with the effective radius of the rotor, the middle of its 28 mm wide band:
// (d/2 - 14) mm, against the 66 mm of a 160 rotor (statics; the band of 12 to 16 mm is a common figure of the trade).
func TestRotorFactors(t *testing.T) {
	t.Parallel()
	s := scorerOf(t)
	for _, mm := range []int{140, 160, 180, 203, 220} {
		got := math.Exp(sumOf(t, s, "braking.front", thingWith("front rotor", map[string]any{"rotor_mm": mm})))
		if want := (float64(mm)/2 - 14) / 66; math.Abs(got-want) > 0.006 {
			t.Errorf("rotor %d: factor %.3f, want %.3f", mm, got, want)
		}
	}
}

// Development is ring / cog x circumference. "22/34, 2.10 m: 1.36 m" and "32/42, 2.29 m: 1.74 m" are computed values of
// the handbook table of gears (2.10 m is about 57-559, 2.29 m about 57-622); 48/34 on 26 in gives 36.7 gear inches
// (published), which are 36.7 x 0.0254 x pi = 2.93 m: the rim of 26 in nominal turns 2.07 m, ours with a 57 mm tyre 2.10 m.
func TestDevelopmentOfTheEasiestGear(t *testing.T) {
	t.Parallel()
	s := scorerOf(t)
	for _, c := range []struct {
		ring, cog, bead int
		metres, within  float64
	}{
		{22, 34, 559, 1.36, 0.005}, {32, 42, 622, 1.74, 0.006}, {48, 34, 559, 2.93, 0.05},
	} {
		sum := sumOf(t, s, "range.easy",
			thingWith("chainring", map[string]any{"ring_min": c.ring}),
			thingWith("cassette", map[string]any{"cog_max": c.cog}),
			thingWith("rear wheel", map[string]any{"bead_mm": c.bead}))
		if got := math.Exp(-sum); math.Abs(got-c.metres) > c.within {
			t.Errorf("%d/%d on %d: %.3f m, want %.2f", c.ring, c.cog, c.bead, got, c.metres)
		}
	}
}

// The total range is the ratio of the hardest to the easiest gear: (42/24) x (28/14) = 3.5 (definition).
func TestTotalRange(t *testing.T) {
	t.Parallel()
	sum := sumOf(t, scorerOf(t), "range.total",
		thingWith("chainring", map[string]any{"ring_min": 24, "ring_max": 42}), thingWith("cassette", map[string]any{"cog_min": 14, "cog_max": 28}))
	if got := math.Exp(sum); math.Abs(got-3.5) > 1e-9 {
		t.Errorf("ratio %.4f, want 3.5", got)
	}
}

// Chances that do not depend on each other multiply (elementary probability). 90-trade T3, judgement: front mechanism .60,
// narrow-wide ring .15, clutch .50, guide .25; so triple and clutch .30 are worth 70, narrow-wide and clutch .075 are
// worth 92.5; the clutch adds 7.5 after the ring and 30 before it. The curve is made of chords, which lie a little below.
func TestRetentionHazardsMultiply(t *testing.T) {
	t.Parallel()
	s := scorerOf(t)
	ring := func(profile string) model.Thing {
		return thingWith("chainring", map[string]any{"ring_profile": profile})
	}
	clutch := func(has string) model.Thing {
		return thingWith("rear derailleur", map[string]any{"clutch": has})
	}
	mechanism, guide := thingWith("front derailleur", nil), thingWith("chain guide", nil)
	tables, err := datasets.Embedded()
	if err != nil {
		t.Fatal(err)
	}
	points := tables.Measures[tables.MeasureIndex("retention")].Points
	for _, c := range []struct {
		name          string
		things        []model.Thing
		hazard, level float64
	}{
		{"one plain ring", []model.Thing{ring("plain"), clutch("no")}, 1, 0},
		{"triple", []model.Thing{ring("shifting"), clutch("no"), mechanism}, 0.60, 40},
		{"triple and clutch", []model.Thing{ring("shifting"), clutch("yes"), mechanism}, 0.30, 70},
		{"narrow-wide", []model.Thing{ring("narrow-wide"), clutch("no")}, 0.15, 85},
		{"narrow-wide and clutch", []model.Thing{ring("narrow-wide"), clutch("yes")}, 0.075, 92.5},
		{"narrow-wide, clutch and guide", []model.Thing{ring("narrow-wide"), clutch("yes"), guide}, 0.01875, 98.125},
	} {
		sum := sumOf(t, s, "retention", c.things...)
		if got := math.Exp(-sum); math.Abs(got-c.hazard) > 1e-9 {
			t.Errorf("%s: hazard %.5f, want %.5f", c.name, got, c.hazard)
		}
		if got := levelOn(points, sum); c.level-got < -0.3 || c.level-got > 0.8 {
			t.Errorf("%s: level %.2f, want %.3f", c.name, got, c.level)
		}
	}
}

// 90-trade T3, judgement: tread 0 to 3.6 and width (mm - 47) / 20 between 0 and 0.6; worn 0.8 less.
func TestGripOfATyre(t *testing.T) {
	t.Parallel()
	s := scorerOf(t)
	tyre := func(tread string, mm int, condition string) model.Thing {
		return thingWith("front tyre", map[string]any{"tread": tread, "width_mm": mm, "condition": condition})
	}
	for _, c := range []struct {
		tyre model.Thing
		want float64
	}{
		{tyre("knobbly", 57, "good"), 3.5},
		{tyre("slick", 40, "good"), 0},
		{tyre("soft knobbly", 65, "good"), 4.2},
		{tyre("all-round", 53, "tired"), 2 + 0.3 - 0.8},
	} {
		if got := sumOf(t, s, "traction.front", c.tyre); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%v: %.3f, want %.3f", c.tyre.Facts, got, c.want)
		}
	}
}

// levelOn is a concave curve as the least of the lines through neighbouring points.
func levelOn(points []model.CurvePoint, x float64) float64 {
	least := math.Inf(1)
	for i := range points[1:] {
		a, b := points[i], points[i+1]
		least = min(least, a.Level+(b.Level-a.Level)*(x-a.Amount)/(b.Amount-a.Amount))
	}
	return least
}
