package datasets_test

import (
	"slices"
	"strings"
	"testing"

	"firstbolt/model"
	"firstbolt/model/fit"
)

// kindOfFit is one of the ten kinds of fit that the demo is to show, with the rules of that kind which the demo uses.
type kindOfFit struct {
	says  string
	rules []string
}

// The ten kinds of fit that a mechanic goes through from the front of a bike to its rider (design of fit; common practice).
var kindsOfFit = []kindOfFit{
	{"steering", []string{"race_in_tube", "crown_race", "head_upper", "head_lower", "steerer_length", "stem_kind", "stem_steerer"}},
	{"axles", []string{"front_axle", "rear_axle", "rear_axle_aluminium"}},
	{"brakes", []string{
		"lever_caliper.front", "brake_mount.front", "rotor_step.front", "rotor_limit.front", "rotor_hub.front", "resin_only.front", "pad_shape.front",
	}},
	{"wheels and tyres", []string{"bead_seat.front", "tube_size.front", "tyre_room_rear", "valve_hole.front"}},
	{"seat", []string{"seat_clamp", "saddle_rail", "post_length", "dropper_routing"}},
	{"bottom bracket and crank", []string{"shell_width", "ring_mount"}},
	{"drivetrain", []string{
		"cog_carrier", "thread_on_cogs", "clicks", "pull_family", "chain_cogs", "chain_ring", "chain_length", "cog_max", "cog_least", "capacity",
		"hanger", "derailleur_rings", "single_ring",
	}},
	{"cockpit", []string{"bar_clamp", "grips_trigger"}},
	{"pedals and chain guide", []string{"pedal_thread", "guide_mount"}},
	{"frame and rider", []string{"fork_longer", "use_class_fork", "weight_wheel.front"}},
}

// heldAgainst says by rule what meets it and what does not meet it as it is (broken, bridged, or a fact is missing):
// every part of the demo alone on the rider's bike, and every bike for sale as it stands.
func heldAgainst(shed *model.Shed) (met, unmet map[string][]string) {
	met, unmet = map[string][]string{}, map[string][]string{}
	note := func(name string, results []fit.Result) {
		for _, r := range results {
			switch r.State {
			case fit.Met:
				met[r.Rule.ID] = append(met[r.Rule.ID], name)
			case fit.Broken, fit.Bridged, fit.Missing:
				unmet[r.Rule.ID] = append(unmet[r.Rule.ID], name)
			}
		}
	}
	bench := fit.On(shed.Tables, shed.OwnBike(), nil)
	for i := range shed.Parts {
		p := &shed.Parts[i]
		for _, place := range p.Places {
			_, results := bench.Alone(p, place)
			note(p.Name, results)
		}
	}
	for i := range shed.Bikes {
		if b := &shed.Bikes[i]; b.Ownership == model.Rival {
			note(b.Name, fit.Check(shed.Tables, shed.Tables.Standing(b), nil))
		}
	}
	return met, unmet
}

// Every kind of fit is at work in the demo: of each rule named here something meets it, and something does not.
func TestDemoUsesEveryKindOfFit(t *testing.T) {
	t.Parallel()
	met, unmet := heldAgainst(demoShed(t))
	if len(kindsOfFit) != 10 {
		t.Fatalf("%d kinds of fit, want 10", len(kindsOfFit))
	}
	for _, k := range kindsOfFit {
		for _, rule := range k.rules {
			if len(met[rule]) == 0 || len(unmet[rule]) == 0 {
				t.Errorf("%s: %s is met by %v and not met by %v, want some of both", k.says, rule, met[rule], unmet[rule])
			}
		}
	}
}

// For every rule that a piece in between can mend (in front at least) the demo has such a piece.
func TestDemoHasBridges(t *testing.T) {
	t.Parallel()
	shed := demoShed(t)
	bought := map[string]bool{}
	for _, p := range shed.Parts {
		for _, place := range p.Places {
			for _, slot := range place {
				bought[slot] = true
			}
		}
	}
	for _, r := range shed.Tables.Rules {
		if r.Bridge != nil && !strings.HasPrefix(r.Bridge.Slot, "rear ") && !bought[r.Bridge.Slot] {
			t.Errorf("%s: the demo has nothing for the %s", r.ID, r.Bridge.Slot)
		}
	}
}

// Of the bikes for sale one is too small for the rider and is no choice, however good it looks; the others are the right size.
func TestDemoHasABikeOfTheWrongSize(t *testing.T) {
	t.Parallel()
	shed := demoShed(t)
	for i := range shed.Bikes {
		b := &shed.Bikes[i]
		want := model.Yes
		if b.Name == "used hardtail U3" {
			want = model.No
		}
		if b.SizeOK != want {
			t.Errorf("%s: size %v, want %v", b.Name, b.SizeOK, want)
		}
	}
	small := shed.Bikes[slices.IndexFunc(shed.Bikes, func(b model.Bike) bool { return b.SizeOK == model.No })]
	if !slices.ContainsFunc(fit.Check(shed.Tables, shed.Tables.Standing(&small), nil), func(r fit.Result) bool {
		return r.Rule.ID == "size_tall" && r.State == fit.Broken
	}) {
		t.Errorf("%s is not kept out by size_tall", small.Name)
	}
}
