package datasets_test

import (
	"fmt"
	"strings"
	"testing"

	"firstbolt/datasets"
)

// Reading 2,000 parts of a rider's sheet, and 20,000, the most there may be.
func BenchmarkLoadParts(b *testing.B) {
	for _, n := range []int{2000, 20_000} {
		var parts strings.Builder
		parts.WriteString("part,kind,price,grams,width_mm,facts\n")
		for i := range n {
			fmt.Fprintf(&parts, "tyre %d,knobbly tyre,%d.90,710 g,57?,tubeless_rated=no\n", i, 10+i%50)
		}
		files := shedOf(map[string]string{"parts.csv": parts.String(), "rider.csv": "setting,value\nlike," + hardtail + "\n"})
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				shed, complaints, err := datasets.LoadFS(files, "shed", datasets.Options{})
				if err != nil || len(complaints) > 0 || len(shed.Parts) != n {
					b.Fatal(err, complaints)
				}
			}
		})
	}
}
