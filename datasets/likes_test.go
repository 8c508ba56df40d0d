package datasets

import (
	"slices"
	"strings"
	"testing"
)

// The typical bikes of the trade tables (T6, judgement): these and no others.
func TestTypicalBikes(t *testing.T) {
	t.Parallel()
	want := []string{
		"commuter or hybrid 28 inch 3x8", "entry hardtail cable disc 3x8", "entry hardtail hydraulic 2x9", "modern entry hardtail hydraulic 1x10",
		"modern trail hardtail 1x12", "older good hardtail rim brakes 3x9 26", "older hardtail hydraulic 2x10", "store full suspension",
		"store hardtail cable disc 3x7", "store hardtail rim brakes 3x7 thread-on 26",
	}
	var got []string
	for _, k := range embedded(t).Likes {
		if !slices.Contains(got, k.Name) {
			got = append(got, k.Name)
		}
	}
	slices.Sort(got)
	if !slices.Equal(got, want) {
		t.Errorf("typical bikes %q, want %q", got, want)
	}
}

// A typical bike names what it does not know of a slot: at least the facts that are told wrongly most often (trade tables, T6),
// and none of those that it does state.
func TestTypicalBikesSayWhatTheyDoNotKnow(t *testing.T) {
	t.Parallel()
	never := map[string][]string{
		"frame":              {"head_upper_mm", "head_lower_mm", "seat_tube_bore_mm", "rear_rotor_max_mm", "use_class"},
		"fork":               {"steerer_thread", "steerer_mm", "crown_race_mm", "front_rotor_max_mm", "use_class"},
		"headset":            {"steerer_thread", "crown_race_mm", "head_upper_mm", "head_lower_mm"},
		"stem":               {"steerer_clamp_mm", "bar_clamp_mm"},
		"handlebar":          {"bar_clamp_mm"},
		"seatpost":           {"seatpost_mm"},
		"front brake lever":  {"drive"},
		"rear brake caliper": {"drive"},
		"front wheel":        {"tubeless_rated", "use_class"},
		"rear wheel":         {"tubeless_rated", "use_class"},
		"front tyre":         {"tubeless_rated"},
		"rear tyre":          {"tubeless_rated"},
		"rear derailleur":    {"pull_family", "derailleur_capacity"},
		"rear shifter":       {"pull_family"},
	}
	tables := embedded(t)
	for _, k := range tables.Likes {
		_, text, _ := strings.Cut(k.Source, "not known: ")
		unknown := strings.Fields(text)
		for _, fact := range never[k.Slot] {
			if k.Part != "none" && !slices.Contains(unknown, fact) {
				t.Errorf("%s, %s: does not say that it does not know %s", k.Name, k.Slot, fact)
			}
		}
		for fact := range k.Facts {
			if slices.Contains(unknown, fact) {
				t.Errorf("%s, %s: states %s and says that it is not known", k.Name, k.Slot, fact)
			}
		}
		for _, fact := range unknown {
			if f := tables.FactNamed(fact); f == nil || !f.Has(k.Slot) {
				t.Errorf("%s, %s: %q is no fact of the slot", k.Name, k.Slot, fact)
			}
		}
	}
}
