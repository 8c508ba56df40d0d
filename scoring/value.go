package scoring

import "firstbolt/model"

// Value is the worth of things that count only together (values.csv), such as a tubeless tyre, rim and set.
type Value struct {
	Rule   *model.ValueRule
	Amount Amount
}

// Values are the worths of pairs in whole steps, in the order of values.csv. Rows of measures that no curve counts are
// left out.
func (s *Scorer) Values() []Value {
	var values []Value
	for i := range s.tables.Values {
		v := &s.tables.Values[i]
		m := s.tables.MeasureIndex(v.Measure)
		if m < 0 {
			continue
		}
		line := TraceLine{Value: v.Name, Form: "worth together " + number(v.Gives), Gives: v.Gives, Row: v.Origin, Source: v.Source}
		values = append(values, Value{Rule: v, Amount: s.sum(m, []TraceLine{line})})
	}
	return values
}
