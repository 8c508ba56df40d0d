package datasets_test

import (
	"testing"

	"firstbolt/datasets"
	"firstbolt/model"
)

// TestFiguresInThePhraseAreStated: what the rider's own phrase says in figures is no guess; what the kind adds is one.
func TestFiguresInThePhraseAreStated(t *testing.T) {
	t.Parallel()
	s, complaints, err := datasets.LoadFS(shedOf(map[string]string{
		"parts.csv": "part,kind,price\nrotor R,rotor 180,12\ncogs C,cassette 8-speed 11-34,20\nbrake B,\"hydraulic disc brake complete, front\",40\n",
	}), "shed", datasets.Options{})
	if err != nil || s == nil {
		t.Fatal(err, complaints)
	}
	for _, c := range []struct {
		part int
		fact string
		want string
		how  model.Certainty
	}{
		{0, "rotor_mm", "parts.csv:2 (B2)", model.Measured},
		{1, "cog_max", "parts.csv:3 (B3)", model.Measured},
		{1, "cog_min", "parts.csv:3 (B3)", model.Measured},
		{2, "prebled", "kind", model.Assumed},
	} {
		o := s.Parts[c.part].Facts[c.fact].Origin
		if o.String() != c.want || o.How != c.how {
			t.Errorf("%s of %s comes from %s (%s), want %s (%s)", c.fact, s.Parts[c.part].Name, o, o.How, c.want, c.how)
		}
	}
}
