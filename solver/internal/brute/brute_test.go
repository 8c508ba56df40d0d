package brute

import (
	"slices"
	"testing"

	"firstbolt/solver/program"
)

// A program reckoned by hand: two slots, a charge shared by both, one shop that is free over 50.
func TestSolveByHand(t *testing.T) {
	t.Parallel()
	none := program.Option{Name: "none", Shop: program.NoShop}
	part := func(cash, steps int64) program.Option {
		return program.Option{Cash: cash, Listed: cash, Shop: 0, Charges: []int{0}, Amounts: []program.Amount{{Measure: 0, Steps: steps}}, Purchases: 1}
	}
	p := &program.Program{
		Slots:    []program.Slot{{Name: "a", Options: []program.Option{none, part(30, 4)}}, {Name: "b", Options: []program.Option{none, part(20, 3), part(20, 3)}}},
		Charges:  []program.Charge{{Name: "tool", Cash: 5}},
		Shops:    []program.Shop{{Name: "shop", Shipping: 7, FreeOver: 50}},
		Measures: []program.Measure{{Name: "m", Weight: 10, Curve: program.Curve{Knots: []int64{0, 5, 10}, Slopes: []int64{2, 1}}}},
		Budget:   55, Floor: program.NoFloor, Objective: program.Objective{Benefit: 1},
	}
	// a: 30+5+7 = 42 brings 80; b: 20+5+7 = 32 brings 60; both: 50+5 = 55, free shipping, 7 steps, 10+2 = 12, brings 120.
	s, err := Solve(p)
	if err != nil || s.Cash != 55 || s.Benefit != 120 || !slices.Equal(s.Choice, []int{1, 1}) {
		t.Errorf("got %+v, %v", s, err)
	}
	f, err := Frontier(p, 100)
	if err != nil || len(f.Points) != 4 {
		t.Fatalf("got %+v, %v", f, err)
	}
	for i, want := range [][2]int64{{0, 0}, {32, 60}, {42, 80}, {55, 120}} {
		if f.Points[i].Cash != want[0] || f.Points[i].Benefit != want[1] {
			t.Errorf("point %d: got %+v, want %v", i, f.Points[i], want)
		}
	}
}
