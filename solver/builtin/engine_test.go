package builtin_test

import (
	"context"
	"slices"
	"testing"

	"firstbolt/solver/builtin"
	"firstbolt/solver/internal/brute"
	"firstbolt/solver/internal/random"
	"firstbolt/solver/program"
)

// Full enumeration is the referee: every stage of ties must agree, so the choices are equal.
func TestSolveAgainstBruteForce(t *testing.T) {
	t.Parallel()
	for seed := range uint64(2400) {
		p := random.New(random.Small(seed))
		want, err := brute.Solve(p)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		engine := builtin.New([]builtin.Options{{}, {Table: 6, Lines: 1, Steps: 5}, {Table: 30, Lines: 3, Steps: 20}}[seed%3])
		got, err := engine.Solve(context.Background(), p)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if got.Status != want.Status || !slices.Equal(got.Choice, want.Choice) || got.Status == program.Optimal && got.Bound != want.Bound {
			t.Fatalf("seed %d, objective %+v: got %+v, want %+v", seed, p.Objective, got, want)
		}
	}
}
