package program

import (
	"math/rand/v2"
	"strings"
	"testing"
)

// enumerating solves a linear program by trying every choice: the referee of the stages.
func enumerating(p *Program) LinearSolver {
	return func(l *Linear) (Status, []int, error) {
		var found []int
		var most int64
		eachChoice(p, func(choice []int) {
			if value, ok := bestSetting(l, choice); ok && (found == nil || value > most) {
				found, most = choice, value
			}
		})
		if found == nil {
			return Infeasible, nil, nil
		}
		return Optimal, found, nil
	}
}

// Cash and benefit must be those of the rule in the package comment: best value, least cash, most benefit.
func TestStagesSettleCashAndBenefit(t *testing.T) {
	t.Parallel()
	for seed := range uint64(300) {
		p := smallProgram(rand.New(rand.NewPCG(seed, 2)))
		got, err := p.SolveLinear(enumerating(p))
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		want := Solution{Status: Infeasible}
		eachChoice(p, func(choice []int) {
			s, err := p.judged(choice)
			if err != nil {
				return
			}
			better := s.Bound > want.Bound || s.Bound == want.Bound && (s.Cash < want.Cash || s.Cash == want.Cash && s.Benefit > want.Benefit)
			if want.Status == Infeasible || better {
				want = s
			}
		})
		if got.Status != want.Status || got.Cash != want.Cash || got.Benefit != want.Benefit {
			t.Errorf("seed %d: %v cash %d benefit %d, want %v cash %d benefit %d", seed, got.Status, got.Cash, got.Benefit, want.Status, want.Cash, want.Benefit)
		}
	}
}

func TestStagesRefuseWhatBreaksTheProgram(t *testing.T) {
	t.Parallel()
	two := []Option{{Name: "out", Shop: NoShop}, {Name: "in", Shop: NoShop, Cash: 200, Amounts: []Amount{{0, 1}}}}
	p := &Program{
		Slots: []Slot{{"a", two}, {"b", two}}, Budget: 200, Floor: NoFloor, Objective: Objective{Benefit: 1},
		Measures: []Measure{{"m", 1, 0, Curve{[]int64{0, 1}, []int64{1}}}},
	}
	answer := func(answers ...any) LinearSolver {
		return func(*Linear) (Status, []int, error) {
			next := answers[0]
			answers = answers[1:]
			if choice, ok := next.([]int); ok {
				return Optimal, choice, nil
			}
			return next.(Status), nil, nil
		}
	}
	for _, c := range []struct {
		name   string
		solve  LinearSolver
		err    string
		status Status
	}{
		{"overspent", answer([]int{1, 1}), "above the budget", 0},
		{"second stage finds nothing", answer([]int{1, 0}, Infeasible), "no choice was found", 0},
		{"second stage is worse", answer([]int{1, 0}, []int{0, 0}), "objective fell", 0},
		{"second stage stops", answer([]int{1, 0}, Stopped), "", Stopped},
		{"both stages", answer([]int{1, 0}, []int{0, 1}), "", Optimal},
		{"stopped at once", answer(Stopped), "", Stopped},
	} {
		s, err := p.SolveLinear(c.solve)
		if c.err == "" && (err != nil || s.Status != c.status) {
			t.Errorf("%s: %v, %v, want %v", c.name, s.Status, err, c.status)
		}
		if c.err != "" && (err == nil || !strings.Contains(err.Error(), c.err)) {
			t.Errorf("%s: error %v, want one with %q", c.name, err, c.err)
		}
	}
}
