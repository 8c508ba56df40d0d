package builtin_test

import (
	"context"
	"fmt"
	"testing"

	"firstbolt/solver/builtin"
	"firstbolt/solver/internal/random"
	"firstbolt/solver/program"
)

// BenchmarkSolve is one budget on random programs; the time is per solve, all stages of ties included.
func BenchmarkSolve(b *testing.B) {
	for _, family := range []struct {
		name string
		of   func(seed uint64) random.Options
	}{
		{"demo", random.Demo},
		{"24x8", func(seed uint64) random.Options { return random.Sheet(seed, 8) }},
		{"24x20", func(seed uint64) random.Options { return random.Sheet(seed, 20) }},
		{"24x40", func(seed uint64) random.Options { return random.Sheet(seed, 40) }},
	} {
		for seed := uint64(1); seed <= 5; seed++ {
			for _, share := range []float64{0.1, 0.25, 0.5} {
				o := family.of(seed)
				o.Budget = share
				p := random.New(o)
				b.Run(fmt.Sprintf("%s/seed=%d/budget=%v", family.name, seed, share), func(b *testing.B) {
					for b.Loop() {
						s, err := builtin.New(builtin.Options{}).Solve(context.Background(), p)
						if err != nil || s.Status != program.Optimal {
							b.Fatal(s.Status, err)
						}
					}
				})
			}
		}
	}
}

// BenchmarkFrontier is the whole frontier up to everything, in one go.
func BenchmarkFrontier(b *testing.B) {
	for _, options := range []int{8, 20} {
		for seed := uint64(1); seed <= 3; seed++ {
			p := random.New(random.Sheet(seed, options))
			b.Run(fmt.Sprintf("24x%d/seed=%d", options, seed), func(b *testing.B) {
				for b.Loop() {
					f, err := builtin.New(builtin.Options{}).Frontier(context.Background(), p, 4*p.Budget)
					if err != nil || !f.Proved {
						b.Fatal(f.Proved, err)
					}
				}
			})
		}
	}
}
