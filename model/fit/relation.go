package fit

import (
	"math"

	"firstbolt/model"
)

// side is the value of one side of the rule: a choice, a number, or a sum in thousandths; missing are its unknown facts.
func (s sight) side(side model.Side) (v model.Value, missing []Ref) {
	if len(side) == 1 {
		return s.term(side[0])
	}
	sum := 0.0
	for _, t := range side {
		one, unknown := s.term(t)
		missing = append(missing, unknown...)
		sum += float64(one.Milli)
	}
	return model.NumberValue(int64(math.Round(sum)), model.Origin{}), missing
}

func (s sight) term(t model.Term) (v model.Value, missing []Ref) {
	switch {
	case t.Slot == "" && t.Constant != "":
		return model.ChoiceValue(model.Origin{}, t.Constant), nil
	case t.Slot == "":
		return model.NumberValue(int64(math.Round(t.Coef*1000)), model.Origin{}), nil
	}
	v, known := s.fact(t.Slot, t.Fact)
	if !known {
		return v, []Ref{{t.Slot, t.Fact}}
	}
	if v.Number && t.Coef != 1 {
		v.Milli = int64(math.Round(t.Coef * float64(v.Milli)))
	}
	return v, nil
}

// compare tells whether two known values stand in the rule's relation.
func (s sight) compare(left, right model.Value) (State, model.Severity) {
	r := s.rule
	switch r.Relation {
	case model.AtMost:
		return state(left.Number && right.Number && left.Milli <= right.Milli+r.Margin), r.Severity
	case model.AtLeast:
		return state(left.Number && right.Number && left.Milli >= right.Milli-r.Margin), r.Severity
	case model.PairIn:
		return s.pair(left, right)
	default:
		return state(same(left, right, r.Margin)), r.Severity
	}
}

func state(met bool) State {
	if met {
		return Met
	}
	return Broken
}

// same: numbers within the margin, or a choice in common.
func same(left, right model.Value, margin int64) bool {
	if left.Number && right.Number {
		return -margin <= left.Milli-right.Milli && left.Milli-right.Milli <= margin
	}
	for _, choice := range words(left) {
		if holds(right, choice) {
			return true
		}
	}
	return false
}

// words are the alternatives of a value; a number is its own only word.
func words(v model.Value) []string {
	if v.Number {
		return []string{v.String()}
	}
	return v.Choices
}

// pair looks the two values up. Any of the alternatives will do; a disputed pair counts only where none else does.
func (s sight) pair(left, right model.Value) (State, model.Severity) {
	disputed := false
	for _, p := range s.tables.Pairs[s.rule.Table] {
		if !holds(left, p.Left) || !holds(right, p.Right) {
			continue
		}
		if p.Severity != model.BothSides {
			return Met, s.rule.Severity
		}
		disputed = true
	}
	if disputed {
		return Broken, model.BothSides
	}
	return Broken, s.rule.Severity
}

// bridge evaluates the rule over the piece that stands in its bridge slot: it must join the two sides, even where they
// would meet without it. A piece that joins other sizes does not go in.
func (s sight) bridge(piece model.Thing, left, right model.Value, missing []Ref) Outcome {
	b, o := s.rule.Bridge, Outcome{Severity: s.rule.Severity}
	var met bool
	if b.Step != "" {
		step, known := s.fact(b.Slot, b.Step)
		if !known {
			missing = append(missing, Ref{b.Slot, b.Step})
		}
		left.Milli += step.Milli
		met = same(left, right, s.rule.Margin)
	} else {
		from, knownFrom := s.fact(b.Slot, b.From)
		if !knownFrom {
			missing = append(missing, Ref{b.Slot, b.From})
		}
		to, knownTo := s.fact(b.Slot, b.To)
		if !knownTo {
			missing = append(missing, Ref{b.Slot, b.To})
		}
		met = same(from, left, s.rule.Margin) && same(to, right, s.rule.Margin)
	}
	switch {
	case len(missing) > 0:
		o.State, o.Missing = Missing, missing
	case met:
		o.State, o.Bridge = Bridged, piece.Name
	default:
		o.State = Broken
	}
	return o
}

// atWorst tells whether an at_most or at_least rule holds even if every unknown number in it lies at the worse end of
// its plausible range (facts.csv): then nobody need measure it.
func (s sight) atWorst() bool {
	r := s.rule
	if r.Relation != model.AtMost && r.Relation != model.AtLeast {
		return false
	}
	left, knownLeft := s.extreme(r.Left, r.Relation == model.AtMost)
	right, knownRight := s.extreme(r.Right, r.Relation == model.AtLeast)
	if !knownLeft || !knownRight {
		return false
	}
	met, _ := s.compare(model.NumberValue(left, model.Origin{}), model.NumberValue(right, model.Origin{}))
	return met == Met
}

// extreme is the largest or the smallest a side can be; false where a fact has no range.
func (s sight) extreme(side model.Side, largest bool) (milli int64, known bool) {
	sum := 0.0
	for _, t := range side {
		v, missing := s.term(t)
		if len(missing) == 0 {
			if !v.Number {
				return 0, false
			}
			sum += float64(v.Milli)
			continue
		}
		f := s.tables.FactNamed(t.Fact)
		if f == nil || f.Kind != model.Number || f.Low >= f.High {
			return 0, false
		}
		end := f.Low
		if largest == (t.Coef > 0) {
			end = f.High
		}
		sum += t.Coef * float64(end)
	}
	return int64(math.Round(sum)), true
}
