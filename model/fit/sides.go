package fit

import (
	"math"

	"firstbolt/model"
)

// Sides are the two values that were compared: a fact, a constant, or the sum of several facts, which is known only
// where each of them is.
func (r Result) Sides() (left, right model.Value) {
	return total(r.Rule.Left, r.Left), total(r.Rule.Right, r.Right)
}

// total is the value of a side; the readings stand in the order of its terms that name a fact.
func total(side model.Side, readings []Reading) model.Value {
	if len(side) == 1 && len(readings) == 1 && side[0].Coef == 1 {
		return readings[0].Value
	}
	if len(side) == 1 && side[0].Slot == "" && side[0].Constant != "" {
		return model.ChoiceValue(model.Origin{}, side[0].Constant)
	}
	sum, at := 0.0, 0
	for _, t := range side {
		if t.Slot == "" {
			sum += t.Coef * 1000
			continue
		}
		v := readings[at].Value
		if at++; !v.Number {
			return model.Value{}
		}
		sum += t.Coef * float64(v.Milli)
	}
	return model.NumberValue(int64(math.Round(sum)), model.Origin{})
}
