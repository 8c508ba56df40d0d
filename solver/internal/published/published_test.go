package published

import (
	"testing"

	"firstbolt/solver/internal/brute"
	"firstbolt/solver/program"
)

// Every case that is small enough is enumerated: a program written wrongly would not have the published optimum.
func TestOptimaByEnumeration(t *testing.T) {
	t.Parallel()
	cases, err := Cases()
	if err != nil {
		t.Fatal(err)
	}
	tied, err := NearTied()
	if err != nil {
		t.Fatal(err)
	}
	if len(cases) != 43 || len(tied) != 8 {
		t.Errorf("%d cases and %d near-tied models, want 43 and 8", len(cases), len(tied))
	}
	for _, c := range append(cases, tied...) {
		t.Run(c.ID, func(t *testing.T) {
			t.Parallel()
			if err := c.Program.Validate(); err != nil {
				t.Fatal(err)
			}
			if choices(c.Program) > 1<<17 {
				t.Logf("%g choices are left to the engines", choices(c.Program))
				return
			}
			s, err := brute.Solve(c.Program)
			if err != nil || s.Status != program.Optimal || !c.Near(s.Bound, c.Value) {
				t.Errorf("%v, value %d, %v, want %d", s.Status, s.Bound, err, c.Value)
			}
		})
	}
}

func choices(p *program.Program) float64 {
	product := 1.0
	for _, s := range p.Slots {
		product *= float64(len(s.Options))
	}
	return product
}
