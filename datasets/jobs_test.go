package datasets

import (
	"slices"
	"testing"

	"firstbolt/model"
)

// jobWanted is bench work that riders forget: its slot, what makes it necessary, and what must be said of it.
type jobWanted struct {
	name, slot string
	change     model.JobChange
	skill      int
	part       string // small part that is used up
	restores   string
	optional   bool
	low, high  int // minutes: bench estimates, common practice
}

// The rows of the trade tables (T7, judgement; minutes: bench estimates of common practice).
func TestForgottenJobsAreThere(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	for _, w := range []jobWanted{
		{"fit front pre-bled brake, hose as delivered", "front brake caliper", model.OnFit, 2, "caliper bolts", "", false, 20, 30},
		{"shorten rear hose", "rear brake line", model.OnFit, 3, "olive and insert", "", true, 15, 45},
		{"new front brake cable and set-up, standard", "front brake line", model.OnService, 1, "inner cable", "good", false, 20, 40},
		{"new gear cables and set-up", "gear cables", model.OnService, 2, "inner cables", "good", false, 20, 45},
		{"take off front derailleur and left shifter", "front derailleur", model.OnRemove, 1, "", "", false, 5, 20},
		{"take off front derailleur and left shifter", "front shifter", model.OnRemove, 1, "", "", false, 5, 20},
		{"bolts for one ring", "chainring", model.OnFit, 1, "short ring bolts", "", false, 5, 15},
		{"bolts for one ring, plain", "chainring", model.OnFit, 1, "short ring bolts", "", false, 5, 15},
		{"even out and tighten rear spokes", "rear wheel", model.OnFit, 3, "", "", false, 15, 40},
		{"true rear wheel", "rear wheel", model.OnService, 3, "nipples", "good", false, 15, 40},
		{"align the hanger", "rear derailleur", model.OnFit, 3, "", "", true, 10, 20},
		{"cut the steerer, set the star nut", "fork", model.OnFit, 3, "star nut", "", false, 15, 60},
		{"move the crown race", "fork", model.OnFit, 3, "", "", false, 5, 20},
		{"bed in front brake", "front pads", model.OnFit, 1, "", "", false, 10, 30},
		{"set up rear tubeless", "rear tubeless set", model.OnFit, 2, "", "", false, 15, 45},
		{"service the air fork", "fork", model.OnService, 3, "seals", "good", false, 45, 120},
	} {
		i := slices.IndexFunc(tables.Jobs, func(j model.Job) bool { return j.Name == w.name })
		if i < 0 {
			t.Errorf("there is no job %q", w.name)
			continue
		}
		if j := tables.Jobs[i]; !w.met(j) {
			t.Errorf("%q: %+v, want %+v", w.name, j, w)
		}
	}
}

func (w jobWanted) met(j model.Job) bool {
	uses := w.part == "" || slices.ContainsFunc(j.SmallParts, func(s model.SmallPart) bool { return s.Name == w.part })
	return slices.Contains(j.Slots, w.slot) && j.Change == w.change && j.Skill == w.skill && uses && j.Restores == w.restores &&
		j.Optional == w.optional && j.Minutes >= w.low && j.Minutes <= w.high
}
