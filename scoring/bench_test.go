package scoring

import (
	"math/rand/v2"
	"testing"
)

// A plan asks for the scales of every bike.
func BenchmarkScales(b *testing.B) {
	w, _ := randomWorkshop(rand.New(rand.NewPCG(7, 11)))
	for b.Loop() {
		if _, err := Scales(&w.tables); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(len(w.tables.Measures)), "curves")
}
