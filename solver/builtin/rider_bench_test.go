package builtin_test

import (
	"context"
	"encoding/json"
	"fmt"
	"os"
	"testing"

	"firstbolt/solver/builtin"
	"firstbolt/solver/program"
)

// BenchmarkRider solves one budget of a rider's real program (testdata/hardtail.json: the demo's own bike as compiled,
// 59 slots, 187 options, 78 relations, 47 charges, 18 curves).
func BenchmarkRider(b *testing.B) {
	raw, err := os.ReadFile("testdata/hardtail.json")
	if err != nil {
		b.Fatal(err)
	}
	for _, budget := range []int64{60_00, 120_00, 275_00, 331_50, 400_00, 800_00} {
		b.Run(fmt.Sprint(budget), func(b *testing.B) {
			var p program.Program
			if err := json.Unmarshal(raw, &p); err != nil {
				b.Fatal(err)
			}
			p.Budget = budget
			for b.Loop() {
				if s, err := builtin.New(builtin.Options{}).Solve(context.Background(), &p); err != nil || s.Status != program.Optimal {
					b.Fatal(s.Status, err)
				}
			}
		})
	}
}
