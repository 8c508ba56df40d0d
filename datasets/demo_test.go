package datasets_test

import (
	"regexp"
	"slices"
	"testing"

	"firstbolt/datasets"
	"firstbolt/model"
	"firstbolt/model/fit"
	"firstbolt/scoring"
)

func demoShed(t *testing.T) *model.Shed {
	t.Helper()
	shed, complaints, err := datasets.LoadDemo(datasets.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range complaints {
		t.Errorf("the demo shed is to be read without a word: %s", c)
	}
	return shed
}

func TestDemoHasWhatItShows(t *testing.T) {
	t.Parallel()
	shed := demoShed(t)
	slots, sets := map[string]bool{}, 0
	for _, p := range shed.Parts {
		for _, place := range p.Places {
			for _, slot := range place {
				slots[slot] = true
			}
			if len(place) > 1 {
				sets++
			}
		}
	}
	rivals, used := 0, 0
	for _, b := range shed.Bikes {
		if b.Ownership == model.Rival {
			rivals++
			if b.Used == model.Yes {
				used++
			}
		}
		for _, s := range shed.Tables.Slots {
			if f := b.InSlot(s.Name); f == nil || f.None && s.Required {
				t.Errorf("%s: nothing is said of the %s", b.Name, s.Name)
			}
		}
	}
	if len(shed.Parts) < 70 || len(slots) < 20 || len(shed.Shops) != 4 || sets < 4 || rivals != 4 || used != 3 || shed.OwnBike() == nil {
		t.Errorf("%d parts over %d slots from %d shops, %d sets; %d bikes for sale, %d of them used", len(shed.Parts), len(slots), len(shed.Shops), sets, rivals, used)
	}
	for _, slot := range []string{"front brake adapter", "seatpost sleeve", "bar sleeve"} {
		if !slots[slot] {
			t.Errorf("no part for the slot %s", slot)
		}
	}
}

// Plain invented names: trade words and a letter with a number, so that nobody's product is meant.
func TestDemoNamesNobody(t *testing.T) {
	t.Parallel()
	shed := demoShed(t)
	plain := regexp.MustCompile(`^[a-z -]+ [A-Z]{1,2}[0-9]{1,3}$|^my hardtail$`)
	var names []string
	for _, p := range shed.Parts {
		names = append(names, p.Name)
	}
	for _, b := range shed.Bikes {
		names = append(names, b.Name)
	}
	for _, s := range shed.Shops {
		names = append(names, s.Name)
	}
	for _, name := range names {
		if !plain.MatchString(name) {
			t.Errorf("%q is no plain invented name", name)
		}
	}
}

// The shed tempts: cheap parts whose facts do not fit this bike, each kept out by the rule that is meant to do so.
func TestDemoTempts(t *testing.T) {
	t.Parallel()
	shed := demoShed(t)
	own := shed.OwnBike()
	for _, c := range []struct{ part, rule string }{
		{"F9", "bead_seat.front"},
		{"F10", "bead_seat.front"},
		{"F7", "tyre_room_rear"},
		{"H3", "brake_mount.front"},
		{"C2", "lever_caliper.front"},
		{"G2", "grips_trigger"},
		{"B1", "bar_clamp"},
		{"PD2", "pedal_thread"},
		{"SP2", "post_bore"},
		{"DP2", "post_bore"},
		{"K3", "race_in_tube"},
		{"K4", "steerer_length"},
		{"W3", "rear_axle_aluminium"},
		{"CS8", "cog_carrier"},
		{"SH10", "pull_family"},
		{"NW1", "ring_mount"},
		{"CG1", "guide_rings"},
		{"P1", "resin_only.front"},
		{"P3", "pad_shape.front"},
		{"V1", "rim_surface.front"},
		{"Q1", "stem_kind"},
		{"ST3", "stem_steerer"},
		{"K5", "front_axle"},
		{"K6", "fork_longer"},
		{"W5", "hookless_tyre.front"},
		{"W6", "weight_wheel.front"},
		{"RS160", "rotor_hub.front"},
		{"SV2", "post_bore"},
		{"SP4", "post_length"},
		{"DP3", "dropper_routing"},
		{"SA3", "saddle_rail"},
		{"BB2", "shell_width"},
		{"FW2", "thread_on_cogs"},
		{"CH6", "chain_length"},
		{"SH7", "grips_twist"},
		{"RD3", "hanger"},
		{"CR1", "chain_ring"},
		{"FD1", "front_derailleur_mount"},
		{"CG2", "guide_mount"},
	} {
		i := slices.IndexFunc(shed.Parts, func(p model.Part) bool { return p.ID == c.part })
		if i < 0 {
			t.Errorf("there is no part %s", c.part)
			continue
		}
		p, kept := &shed.Parts[i], false
		for _, place := range p.Places {
			answer, results := fit.Alone(shed.Tables, own, p, place, nil)
			kept = kept || answer != fit.Fits && slices.ContainsFunc(results, func(r fit.Result) bool {
				return r.State == fit.Broken && r.Rule.ID == c.rule
			})
		}
		if !kept {
			t.Errorf("%s (%s) is not kept out by %s", p.Name, p.ID, c.rule)
		}
	}
}

// demoPoints are the benefit of a bike with parts put on and fitted things serviced, fit aside.
func demoPoints(t *testing.T, shed *model.Shed, b *model.Bike, parts, serviced []string) float64 {
	t.Helper()
	s, err := scoring.New(shed.Tables, shed, b)
	if err != nil {
		t.Fatal(err)
	}
	weights, err := scoring.Weigh(shed.Tables, shed.Rider)
	if err != nil {
		t.Fatal(err)
	}
	steps, levels := make([]int64, len(shed.Tables.Measures)), make([]int64, len(shed.Tables.Measures))
	built := demoBuilt(t, shed, b, parts, serviced)
	for _, slot := range shed.Tables.Slots {
		for _, a := range s.Amounts(built[slot.Name]) {
			steps[a.Measure] += a.Steps
		}
	}
	scales := s.Scales()
	for m := range levels {
		levels[m] = scales[m].Level(steps[m] + s.Base(m))
	}
	return float64(weights.Benefit(levels)) / 10_000
}

// demoBuilt is the bike with the named parts ("F6" goes in its first place, "F6@2" in its second).
func demoBuilt(t *testing.T, shed *model.Shed, b *model.Bike, parts, serviced []string) map[string]model.Thing {
	t.Helper()
	built := map[string]model.Thing{}
	for _, slot := range shed.Tables.Slots {
		built[slot.Name] = shed.Tables.FittedThing(b, slot.Name)
	}
	for _, slot := range serviced {
		built[slot] = shed.Tables.ServicedThing(b, slot, "good")
	}
	second := regexp.MustCompile(`@2$`)
	for _, id := range parts {
		i := slices.IndexFunc(shed.Parts, func(p model.Part) bool { return p.ID == second.ReplaceAllString(id, "") })
		if i < 0 {
			t.Fatalf("there is no part %s", id)
		}
		place := shed.Parts[i].Places[0]
		if second.MatchString(id) {
			place = shed.Parts[i].Places[1]
		}
		for _, slot := range place {
			built[slot] = shed.Tables.BoughtThing(&shed.Parts[i], place, slot)
		}
	}
	return built
}

// What an experienced rider says of such a bike (90-trade T11; common practice, no source): it stands at about 39 of 100;
// cables set up, a front tyre and a front hydraulic brake bring most for the money, fork and wheels little; the first
// 120 bring about 20 points; a clutch brings clearly less after a narrow-wide ring; 200 g off the post come last.
func TestDemoRanksAsARiderWould(t *testing.T) {
	t.Parallel()
	shed := demoShed(t)
	own := shed.OwnBike()
	start := demoPoints(t, shed, own, nil, nil)
	if start < 36 || start > 42 {
		t.Errorf("the bike as it stands has %.1f points, want about 39", start)
	}
	gain := func(parts, serviced []string) float64 { return demoPoints(t, shed, own, parts, serviced) - start }
	each := func(parts []string, serviced []string, cash float64) float64 { return gain(parts, serviced) / cash }
	cables := each(nil, []string{"front brake line", "rear brake line"}, 10)
	front, tyre := each([]string{"H1"}, nil, 43.8), each([]string{"F6"}, nil, 22.8)
	fork, wheel, post := each([]string{"K1"}, nil, 158.5), each([]string{"W1"}, nil, 75), each([]string{"SP3"}, nil, 35.8)
	if !(cables > tyre && tyre > fork && front > fork && fork > wheel && wheel > post) {
		t.Errorf("points for 1 of money: cables %.3f, tyre %.3f, front brake %.3f, fork %.3f, wheel %.3f, post %.3f", cables, tyre, front, fork, wheel, post)
	}
	first := []string{"H1", "F6", "F6@2", "FW1", "CH8"}
	if got := gain(first, []string{"rear brake line"}); got < 17 || got > 24 {
		t.Errorf("the first 120 bring %.1f points, want about 20", got)
	}
	clutch := gain([]string{"RD2"}, nil)
	if after := gain([]string{"NW1", "RD2"}, nil) - gain([]string{"NW1"}, nil); after > clutch/2 {
		t.Errorf("the clutch brings %.2f after a narrow-wide ring and %.2f before it, want clearly less", after, clutch)
	}
}

// Complete bikes for the sum of the later upgrades are ahead of this one (90-trade T11: 76.9 for the new one). The best
// of them is a size too small.
func TestDemoRivals(t *testing.T) {
	t.Parallel()
	shed := demoShed(t)
	got := map[string]float64{}
	for i := range shed.Bikes {
		got[shed.Bikes[i].Name] = demoPoints(t, shed, &shed.Bikes[i], nil, nil)
	}
	if !(got["new hardtail N1"] > got["used hardtail U1"] && got["used hardtail U1"] > got["used hardtail U2"] && got["used hardtail U2"] > got["my hardtail"]) {
		t.Errorf("bikes as they stand: %v", got)
	}
	if got["used hardtail U3"] <= got["new hardtail N1"] {
		t.Errorf("the bike of the wrong size is to look best, so that leaving it out says something: %v", got)
	}
	if n := got["new hardtail N1"]; n < 72 || n > 82 {
		t.Errorf("the new bike has %.1f points, want about 77", n)
	}
}

// What is fitted on the demo's bikes goes together, so that the first answer is not about the demo's own mistakes.
func TestDemoBikesGoTogether(t *testing.T) {
	t.Parallel()
	shed := demoShed(t)
	for i := range shed.Bikes {
		b := &shed.Bikes[i]
		for _, r := range fit.Check(shed.Tables, demoBuilt(t, shed, b, nil, nil), nil) {
			if r.State == fit.Broken {
				t.Errorf("%s: %s: %s", b.Name, r.Rule.ID, r.Says)
			}
		}
	}
}
