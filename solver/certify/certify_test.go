package certify

import (
	"math"
	"slices"
	"strings"
	"testing"

	"firstbolt/solver/program"
)

// worked is a program small enough to reckon by hand. Chosen 1, 1, 0: option cash 1000 + 700 + 0, the tool once 300,
// shipping 500 because 1000 + 700 listed lie below 2000: cash 2500. Grip: base 1 + 3 + 2 = 6 steps on the curve 0 at 0,
// 10 a step to 4, then 5 a step: 40 + 10 = 50, weight 2: benefit 100. Two purchases.
func worked() (*program.Program, program.Solution) {
	fitted := program.Option{Name: "fitted", Shop: program.NoShop}
	tyre := func(name string, cash, grip int64) program.Option {
		return program.Option{Name: name, Cash: cash, Listed: cash, Shop: 0, Charges: []int{0}, Amounts: []program.Amount{{Measure: 0, Steps: grip}}, Purchases: 1}
	}
	p := &program.Program{
		Slots: []program.Slot{
			{Name: "front", Options: []program.Option{fitted, tyre("knobbly", 1000, 3)}},
			{Name: "rear", Options: []program.Option{fitted, tyre("slick", 700, 2)}},
			{Name: "tube", Options: []program.Option{fitted, {Name: "light", Cash: 300, Listed: 300, Shop: 0, Purchases: 1}}},
		},
		Relations: []program.Relation{{
			Name: "tube fits", Slots: []int{0, 2}, Class: [][]int{{0, 1}, {0, 1}}, Count: []int{2, 2},
			Allowed: []bool{true, true, true, false},
		}},
		Rows:      []program.Row{{Name: "at most two", Terms: []program.Term{{Slot: 0, Option: 1, Coef: 1}, {Slot: 1, Option: 1, Coef: 1}}, AtMost: 2}},
		Charges:   []program.Charge{{Name: "tyre lever", Cash: 300}},
		Shops:     []program.Shop{{Name: "corner", Shipping: 500, FreeOver: 2000}},
		Measures:  []program.Measure{{Name: "grip", Weight: 2, Base: 1, Curve: program.Curve{Knots: []int64{0, 4, 9}, Slopes: []int64{10, 5}}}},
		Budget:    2500,
		Floor:     100,
		Objective: program.Objective{Benefit: 1},
	}
	return p, program.Solution{Status: program.Optimal, Choice: []int{1, 1, 0}, Cash: 2500, Benefit: 100, Purchases: 2, Bound: 100}
}

func TestWorkedExampleIsCertified(t *testing.T) {
	t.Parallel()
	p, s := worked()
	if err := Solution(p, s); err != nil {
		t.Error(err)
	}
	p.Shops[0].FreeOver = 1700 // reached exactly: shipping is free
	s.Cash = 2000
	if err := Solution(p, s); err != nil {
		t.Errorf("free over reached exactly: %v", err)
	}
}

// Left and right of its knots a curve goes on with its first and last slope.
func TestCurveGoesOnBeyondItsKnots(t *testing.T) {
	t.Parallel()
	for amount, want := range map[int64]int64{-2: -40, 0: 0, 4: 80, 9: 130, 11: 150} {
		p, s := worked()
		p.Measures[0].Base = amount - 5
		p.Floor = program.NoFloor
		s.Benefit, s.Bound = want, want
		if err := Solution(p, s); err != nil {
			t.Errorf("amount %d: %v", amount, err)
		}
	}
}

func TestTamperedSolutionsAreCaught(t *testing.T) {
	t.Parallel()
	type problem = program.Program
	type answer = program.Solution
	for _, c := range []struct {
		name   string
		tamper func(*problem, *answer)
		want   string
	}{
		{"a slot is missing", func(_ *problem, s *answer) { s.Choice = s.Choice[:2] }, "2 slots have a choice"},
		{"a slot too many", func(_ *problem, s *answer) { s.Choice = append(s.Choice, 0) }, "4 slots have a choice"},
		{"no such option", func(_ *problem, s *answer) { s.Choice[1] = 2 }, `slot "rear": option 2`},
		{"a negative option", func(_ *problem, s *answer) { s.Choice[1] = -1 }, `slot "rear": option -1`},
		{"a relation", func(_ *problem, s *answer) { s.Choice[2] = 1 }, `relation "tube fits"`},
		{"a row", func(p *problem, _ *answer) { p.Rows[0].AtMost = 1 }, `row "at most two" comes to 2`},
		{"the budget by one", func(p *problem, _ *answer) { p.Budget = 2499 }, "above the budget 2499"},
		{"the floor by one", func(p *problem, _ *answer) { p.Floor = 101 }, "below the floor 101"},
		{"cash by one", func(_ *problem, s *answer) { s.Cash-- }, "cash is given as 2499"},
		{"a price", func(p *problem, _ *answer) { p.Slots[0].Options[1].Cash++ }, "comes to 2501"},
		{"a charge", func(p *problem, _ *answer) { p.Charges[0].Cash = 0 }, "comes to 2200"},
		{"a charge paid twice", func(_ *problem, s *answer) { s.Cash += 300 }, "cash is given as 2800"},
		{"shipping", func(p *problem, _ *answer) { p.Shops[0].Shipping++ }, "comes to 2501"},
		{"shipping left out", func(_ *problem, s *answer) { s.Cash -= 500 }, "cash is given as 2000"},
		{"free over", func(p *problem, _ *answer) { p.Shops[0].FreeOver = 1700 }, "comes to 2000"},
		{"never free", func(p *problem, s *answer) { p.Shops[0].FreeOver = program.NeverFree; s.Cash = 2000 }, "comes to 2500"},
		{"benefit by one", func(_ *problem, s *answer) { s.Benefit++ }, "benefit is given as 101"},
		{"an amount", func(p *problem, _ *answer) { p.Slots[0].Options[1].Amounts[0].Steps-- }, "comes to 90"},
		{"a slope", func(p *problem, _ *answer) { p.Measures[0].Curve.Slopes[1] = 4 }, "comes to 96"},
		{"a weight", func(p *problem, _ *answer) { p.Measures[0].Weight = 3 }, "comes to 150"},
		{"purchases", func(_ *problem, s *answer) { s.Purchases = 1 }, "purchases is given as 1"},
		{"the bound of an optimum", func(_ *problem, s *answer) { s.Bound++ }, "bound is 101"},
		{"the objective", func(p *problem, _ *answer) { p.Objective.Cash = 1 }, "optimal value comes to -2400"},
		{"a bound too low", func(_ *problem, s *answer) { s.Status, s.Bound = program.Stopped, 99 }, "bound 99 is below"},
		{"optimal without a choice", func(_ *problem, s *answer) { s.Choice = nil }, "no choice"},
		{"infeasible with a choice", func(_ *problem, s *answer) { s.Status = program.Infeasible }, "there is a choice"},
		{"an unknown status", func(_ *problem, s *answer) { s.Status = 7 }, "no status 7"},
		{"a faulty program", func(p *problem, _ *answer) { p.Slots[0].Options[1].Shop = 5 }, "program itself is faulty"},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			p, s := worked()
			c.tamper(p, &s)
			if err := Solution(p, s); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %v, want one with %q", err, c.want)
			}
		})
	}
}

// Sums beyond 64 bits must not wrap round to a number that fits.
func TestOverflowIsCaught(t *testing.T) {
	t.Parallel()
	p, s := worked()
	p.Budget = program.NoBudget
	p.Slots[0].Options[1].Cash = math.MaxInt64
	s.Cash = math.MinInt64 + 1499
	if err := Solution(p, s); err == nil || !strings.Contains(err.Error(), "comes to 9223372036854777307") {
		t.Errorf("error %v, want the true sum", err)
	}
}

func TestNothingClaimedIsNothingToRefuse(t *testing.T) {
	t.Parallel()
	p, _ := worked()
	for _, status := range []program.Status{program.Infeasible, program.Stopped} {
		if err := Solution(p, program.Solution{Status: status}); err != nil {
			t.Errorf("%v: %v", status, err)
		}
	}
}

func TestFrontier(t *testing.T) {
	t.Parallel()
	p, _ := worked()
	good := program.Frontier{UpTo: 2500, Points: []program.Point{
		{Cash: 0, Benefit: 20, Choice: []int{0, 0, 0}},
		{Cash: 1500, Benefit: 60, Choice: []int{0, 1, 0}},
		{Cash: 1800, Benefit: 80, Choice: []int{1, 0, 0}},
		{Cash: 2500, Benefit: 100, Choice: []int{1, 1, 0}},
	}}
	if err := Frontier(p, good); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name   string
		tamper func(*program.Frontier)
		want   string
	}{
		{"beyond the end", func(f *program.Frontier) { f.UpTo = 2499 }, "above the end at 2499"},
		{"out of order", func(f *program.Frontier) { f.Points[1], f.Points[2] = f.Points[2], f.Points[1] }, "does not rise"},
		{"twice", func(f *program.Frontier) { f.Points[2] = f.Points[1] }, "does not rise"},
		{"cash", func(f *program.Frontier) { f.Points[1].Cash++ }, "point 1: cash is given as 1501"},
		{"benefit", func(f *program.Frontier) { f.Points[1].Benefit++ }, "point 1: benefit is given as 61"},
		{"no choice", func(f *program.Frontier) { f.Points[3].Choice = nil }, "point 3: 0 slots"},
		{"relation", func(f *program.Frontier) { f.Points[3].Choice = []int{1, 1, 1} }, "tube fits"},
	} {
		f := good
		f.Points = slices.Clone(good.Points)
		c.tamper(&f)
		if err := Frontier(p, f); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want one with %q", c.name, err, c.want)
		}
	}
}
