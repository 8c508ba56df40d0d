package datasets_test

import (
	"maps"
	"testing"

	"firstbolt/model"
	"firstbolt/scoring"
)

// The worked example of the trade tables: 85 kg, a 27.5-inch hardtail, triple 42/34/24 with 11-34, tired cable discs on
// 160 mm, worn 53 mm tyres, coil fork of 80 mm without damping, bar 600, stem 90, plastic pedals. All of it is judgement
// ("what an experienced rider would sign"): the order of size is tested, not the decimals.
var worked = map[string]model.Facts{
	"frame":               facts("head_angle_deg", 70, "hanger", "M10 replaceable", "rear_brake_mount", "IS"),
	"fork":                facts("fork_travel_mm", 80, "fork_damping", "none", "fork_spring", "coil", "fork_chassis", "28 open"),
	"stem":                facts("stem_mm", 90),
	"handlebar":           facts("bar_width_mm", 600),
	"grips":               facts("grip_fixing", "push-on"),
	"front brake caliper": facts("brake_kind", "cable disc one-side"),
	"rear brake caliper":  facts("brake_kind", "cable disc one-side"),
	"front brake line":    facts("condition", "tired"),
	"rear brake line":     facts("condition", "tired"),
	"front pads":          facts("pad_compound", "resin"),
	"rear pads":           facts("pad_compound", "resin"),
	"front rotor":         facts("rotor_mm", 160),
	"rear rotor":          facts("rotor_mm", 160),
	"front wheel":         facts("bead_mm", 584, "rim_inner_mm", 19),
	"rear wheel":          facts("bead_mm", 584, "rim_inner_mm", 19),
	"front tyre":          facts("tread", "all-round", "width_mm", 53, "condition", "tired"),
	"rear tyre":           facts("tread", "all-round", "width_mm", 53, "condition", "tired"),
	"crankset":            facts("ring_mount", "riveted"),
	"chainring":           facts("ring_profile", "shifting", "ring_min", 24, "ring_max", 42),
	"cassette":            facts("cog_min", 11, "cog_max", 34, "cog_carrier", "9-spline 8-10"),
	"rear derailleur":     facts("clutch", "no"),
	"front derailleur":    facts(),
	"pedals":              facts("pedal_kind", "plastic"),
	"seatpost":            facts("dropper", "no"),
}

func facts(pairs ...any) model.Facts {
	f := model.Facts{}
	for i := 0; i < len(pairs); i += 2 {
		switch v := pairs[i+1].(type) {
		case string:
			f[pairs[i].(string)] = model.ChoiceValue(said, v)
		case int:
			f[pairs[i].(string)] = model.NumberValue(int64(v)*1000, said)
		}
	}
	return f
}

// points is the benefit of the worked bike with some slots changed; nil facts empty a slot.
func points(t *testing.T, tables *model.Tables, profile string, changed map[string]model.Facts) float64 {
	t.Helper()
	bike := &model.Bike{Name: "worked"}
	for _, slot := range tables.Slots {
		if f, ok := worked[slot.Name]; ok || slot.Required {
			fitted := model.Fitted{Slot: slot.Name, Facts: f, Origin: said}
			if f["condition"].Is("tired") {
				fitted.Condition = model.Tired
			}
			bike.Fitted = append(bike.Fitted, fitted)
		}
	}
	rider := model.Rider{Mass: model.Say(model.Grams(85_000), said)}
	if profile != "" {
		rider.Profile = model.Say(profile, said)
	}
	w, err := scoring.Weigh(tables, rider)
	if err != nil {
		t.Fatal(err)
	}
	s, err := scoring.New(tables, &model.Shed{Rider: rider}, bike)
	if err != nil {
		t.Fatal(err)
	}
	steps := make([]int64, len(tables.Measures))
	for m := range steps {
		steps[m] = s.Base(m)
	}
	for _, slot := range tables.Slots {
		th := tables.FittedThing(bike, slot.Name)
		if f, ok := changed[slot.Name]; ok && f == nil {
			th = model.Thing{Slot: slot.Name, State: model.Empty, Fitted: th.Fitted}
		} else if ok {
			p := &model.Part{Name: "new", Facts: f}
			th = tables.BoughtThing(p, model.Place{slot.Name}, slot.Name)
		}
		for _, a := range s.Amounts(th) {
			steps[a.Measure] += a.Steps
		}
	}
	scales, levels := s.Scales(), make([]int64, len(steps))
	for m := range steps {
		levels[m] = scales[m].Level(steps[m])
	}
	return float64(w.Benefit(levels)) / 10_000
}

func with(base map[string]model.Facts, slot string, f model.Facts) map[string]model.Facts {
	changed := maps.Clone(base)
	changed[slot] = f
	return changed
}

func TestWorkedExampleHasTheRightOrderOfSize(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	before := points(t, tables, "", nil)
	t.Logf("before: %.1f points (the example: 38.9)", before)
	if before < 29 || before > 49 {
		t.Errorf("the worked bike has %.1f points, want about 39", before)
	}
	knobbly := facts("tread", "knobbly", "width_mm", 57)
	hydraulic := facts("brake_kind", "hydraulic 2-piston")
	for _, c := range []struct {
		name    string
		changed map[string]model.Facts
		want    float64
	}{
		{"brake cables new, calipers set up", map[string]model.Facts{"front brake line": facts(), "rear brake line": facts()}, 3.4},
		{"front tyre", map[string]model.Facts{"front tyre": knobbly}, 5.1},
		{"front hydraulic brake", map[string]model.Facts{"front brake caliper": hydraulic, "front brake line": facts(), "front pads": facts("pad_compound", "resin")}, 8.7},
		{"rear tyre", map[string]model.Facts{"rear tyre": knobbly}, 3.4},
		{"lock-on grips", map[string]model.Facts{"grips": facts("grip_fixing", "lock-on")}, 1.4},
		{"rear hydraulic brake", map[string]model.Facts{"rear brake caliper": hydraulic, "rear brake line": facts(), "rear pads": facts("pad_compound", "resin")}, 4.3},
		{"bar 740, stem 50, grips", map[string]model.Facts{"handlebar": facts("bar_width_mm", 740), "stem": facts("stem_mm", 50), "grips": facts("grip_fixing", "lock-on")}, 3.6},
		{"pinned pedals", map[string]model.Facts{"pedals": facts("pedal_kind", "pinned")}, 1.4},
		{"front rotor 180", map[string]model.Facts{"front rotor": facts("rotor_mm", 180)}, 1.5},
		{"air fork", map[string]model.Facts{"fork": facts("fork_travel_mm", 100, "fork_damping", "adjustable", "fork_spring", "air", "fork_chassis", "32 open")}, 4.9},
		{"dropper of 120", map[string]model.Facts{"seatpost": facts("dropper", "yes", "dropper_drop_mm", 120)}, 0.9},
	} {
		gain := points(t, tables, "", c.changed) - before
		t.Logf("%-36s %5.2f points, the example %.1f", c.name, gain, c.want)
		if gain < c.want*0.55 || gain > c.want*1.7 {
			t.Errorf("%s brings %.2f points, want about %.1f (between 0.55 and 1.7 times)", c.name, gain, c.want)
		}
	}
}

// Common practice, no source: a clutch brings clearly less after a narrow-wide ring than before it, and a single ring
// brings more to a downhill-minded rider than by default, where it costs easy gears.
func TestRingAndClutchShareTheirGain(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	none := map[string]model.Facts{}
	ring := map[string]model.Facts{"chainring": facts("ring_profile", "narrow-wide", "ring_min", 32, "ring_max", 32), "front derailleur": nil}
	clutch := facts("clutch", "yes")
	before := points(t, tables, "", with(none, "rear derailleur", clutch)) - points(t, tables, "", none)
	after := points(t, tables, "", with(ring, "rear derailleur", clutch)) - points(t, tables, "", ring)
	if after > before/2 {
		t.Errorf("the clutch brings %.2f before a narrow-wide ring and %.2f after it, want at most half", before, after)
	}
	byDefault := points(t, tables, "", ring) - points(t, tables, "", none)
	downhill := points(t, tables, "downhill-minded", ring) - points(t, tables, "downhill-minded", none)
	t.Logf("clutch %.2f before, %.2f after; ring %.2f by default, %.2f downhill-minded", before, after, byDefault, downhill)
	if downhill < 2*byDefault {
		t.Errorf("a single ring brings %.2f by default and %.2f to the downhill-minded, want at least twice as much", byDefault, downhill)
	}
}
