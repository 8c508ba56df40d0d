package solver_test

import (
	"context"
	"fmt"
	"testing"

	"firstbolt/datasets"
	"firstbolt/model"
	"firstbolt/solver"
	"firstbolt/solver/builtin"
	"firstbolt/solver/formulate"
)

// BenchmarkFormulate compiles the demo's own bike, with its parts as they are and repeated at other prices up to 2,000.
func BenchmarkFormulate(b *testing.B) {
	for _, parts := range []int{0, 2000} {
		s, _, err := datasets.LoadDemo(datasets.Options{})
		if err != nil {
			b.Fatal(err)
		}
		for i, n := 0, len(s.Parts); len(s.Parts) < parts; i++ {
			p := s.Parts[i%n]
			p.ID, p.Price = fmt.Sprintf("%s %d", p.ID, i), p.Price+model.Money(i)
			s.Parts = append(s.Parts, p)
		}
		b.Run(fmt.Sprintf("parts=%d", len(s.Parts)), func(b *testing.B) {
			for b.Loop() {
				if _, err := formulate.Compile(s, s.OwnBike(), formulate.Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkAsk answers the whole question of `plan` for the demo: all four bikes and the switch point, without a confirmer.
func BenchmarkAsk(b *testing.B) {
	s, _, err := datasets.LoadDemo(datasets.Options{})
	if err != nil {
		b.Fatal(err)
	}
	for _, budget := range []model.Money{60_00, 120_00, 400_00} {
		b.Run(fmt.Sprintf("budget=%d", budget), func(b *testing.B) {
			for b.Loop() {
				if _, err := solver.Ask(context.Background(), solver.Question{Shed: s, Budget: budget, Lead: builtin.New(builtin.Options{})}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
