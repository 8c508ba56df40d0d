package random

import (
	"reflect"
	"testing"

	"firstbolt/solver/internal/brute"
	"firstbolt/solver/program"
)

func TestProgramsAreValidAndReproducible(t *testing.T) {
	t.Parallel()
	feasible, infeasible := 0, 0
	for seed := range uint64(300) {
		p := New(Small(seed))
		if err := p.Validate(); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if !reflect.DeepEqual(p, New(Small(seed))) {
			t.Fatalf("seed %d: two programs differ", seed)
		}
		s, err := brute.Solve(p)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if s.Status == program.Optimal {
			feasible++
		} else {
			infeasible++
		}
	}
	if feasible < 150 || infeasible < 10 {
		t.Errorf("%d feasible and %d infeasible programs, want both kinds", feasible, infeasible)
	}
	t.Logf("%d feasible, %d infeasible", feasible, infeasible)
	for _, o := range []Options{Demo(1), Demo(2), Sheet(1, 8), Sheet(1, 20), Sheet(1, 40)} {
		p := New(o)
		if err := p.Validate(); err != nil {
			t.Errorf("%v", err)
		}
		n := 0
		for _, s := range p.Slots {
			n += len(s.Options)
		}
		t.Logf("%d slots, %d options, %d relations, %d rows, budget %d", len(p.Slots), n, len(p.Relations), len(p.Rows), p.Budget)
		if err := p.Feasible(make([]int, len(p.Slots))); err != nil {
			t.Errorf("the fitted options clash: %v", err)
		}
	}
}
