package datasets

import (
	"slices"
	"testing"

	"firstbolt/datasets/sheet"
)

// For every slot there is a phrase that a rider may write; about 90 phrases are wanted in all (trade tables, T2: judgement).
func TestEverySlotHasAPhrase(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	if len(tables.Kinds) < 90 {
		t.Errorf("%d kinds, want at least 90", len(tables.Kinds))
	}
	said := map[string]bool{}
	for _, k := range tables.Kinds {
		for _, place := range k.Places {
			for _, slot := range place {
				said[slot] = true
			}
		}
	}
	for _, s := range tables.Slots {
		if !said[s.Name] {
			t.Errorf("no phrase for the %s", s.Name)
		}
	}
}

// What riders type, in the singular and the plural, and the slots they mean by it (common practice).
func TestPhrasesThatRidersType(t *testing.T) {
	t.Parallel()
	l := &loader{tables: embedded(t)}
	for phrase, slots := range map[string][]string{
		"front hydraulic brake":       {"front brake lever", "front brake caliper", "front brake line", "front pads"},
		"rim brakes":                  {"front brake caliper", "rear brake caliper", "front pads", "rear pads"},
		"IS to PM adapter, rear":      {"rear brake adapter"},
		"pull converter":              {"front pull converter"},
		"rotor adapter, front":        {"front rotor adapter"},
		"splined rotor 180":           {"front rotor"},
		"Knobbly Tyre":                {"front tyre"},
		"knobbly tyres":               {"front tyre", "rear tyre"},
		"29 tube":                     {"front tube"},
		"crank":                       {"crankset"},
		"1x crankset":                 {"crankset", "chainring"},
		"plain ring 32":               {"chainring"},
		"7-speed chain, 116 links":    {"chain"},
		"front mech":                  {"front derailleur"},
		"chain catcher":               {"chain guide"},
		"shifters":                    {"rear shifter", "front shifter"},
		"quill stem":                  {"stem"},
		"race reducer":                {"headset reducer"},
		"seatpost shim":               {"seatpost sleeve"},
		"handlebar sleeve":            {"bar sleeve"},
		"stem shim":                   {"stem shim"},
		"seat collar":                 {"seat clamp"},
		"tubeless kit":                {"front tubeless set"},
		"grips for twist shifters":    {"grips"},
		"pinned pedals":               {"pedals"},
		"dropper post, internal":      {"seatpost"},
		"threaded headset":            {"headset"},
		"suspension fork":             {"fork"},
		"gear cables":                 {"gear cables"},
		"square taper bottom bracket": {"bottom bracket"},
	} {
		k := l.kindNamed(phrase)
		if k == nil {
			t.Errorf("%q means nothing", sheet.Key(phrase))
			continue
		}
		if !slices.Equal([]string(k.Places[0]), slots) {
			t.Errorf("%q goes in %v, want %v", phrase, k.Places[0], slots)
		}
	}
}
