package datasets_test

import (
	"fmt"
	"testing"

	"firstbolt/datasets"
	"firstbolt/model"
	"firstbolt/model/fit"
)

// manyParts are the demo's parts over and over, each time with other numbers.
func manyParts(shed *model.Shed, n int) []model.Part {
	parts := make([]model.Part, n)
	for i := range parts {
		p := shed.Parts[i%len(shed.Parts)]
		p.ID = fmt.Sprintf("%s.%d", p.ID, i)
		facts := model.Facts{}
		for name, v := range p.Facts {
			if v.Number {
				v.Milli += int64(i / len(shed.Parts) * 100)
			}
			facts[name] = v
		}
		p.Facts = facts
		parts[i] = p
	}
	return parts
}

// BenchmarkVerdicts holds 2,000 parts, in each place they have, against 10 bikes, with all reasons: to be had in a second.
func BenchmarkVerdicts(b *testing.B) {
	shed, _, err := datasets.LoadDemo(datasets.Options{})
	if err != nil {
		b.Fatal(err)
	}
	parts := manyParts(shed, 2000)
	for b.Loop() {
		verdicts := 0
		for n := range 10 {
			bench := fit.On(shed.Tables, &shed.Bikes[n%len(shed.Bikes)], nil)
			for i := range parts {
				for _, place := range parts[i].Places {
					bench.Alone(&parts[i], place)
					verdicts++
				}
			}
		}
		b.ReportMetric(float64(verdicts), "verdicts/op")
	}
}
