package fit

import (
	"math"
	"slices"

	"firstbolt/model"
)

// test tells whether a value is among those looked for, by the rule's outcome with it.
type test func(s sight, o Outcome) bool

// values are all values of the fact or sum that pass the test. Each is tried by the rule itself, so that what is said
// here is what Alone will say; among numbers those that pass lie side by side, so that only the two ends are looked for.
func (a asking) values(pass test) Values {
	passes := func(v model.Value) bool {
		s, o := a.judge(v)
		return pass(s, o)
	}
	f := a.b.tables.FactNamed(a.fact)
	switch {
	case a.sum == nil && (f == nil || f.Kind != model.Number || a.rule.Relation == model.PairIn && !a.conditional()):
		return a.listed(passes)
	case a.conditional():
		return a.exception(passes)
	}
	low, high := a.reach()
	try := func(milli int64) bool { return passes(model.NumberValue(milli, stated)) }
	if try(low) && try(high) {
		return numbers(NoLow, NoHigh)
	}
	for _, p := range a.points() {
		if low <= p && p <= high && try(p) {
			return numbers(edge(low, p, NoLow, try), edge(high, p, NoHigh, try))
		}
	}
	return noNumber()
}

// edge is the outermost number between a passing one and an end; beyond where the end itself passes.
func edge(end, inside, beyond int64, try func(int64) bool) int64 {
	if try(end) {
		return beyond
	}
	for end-inside > 1 || inside-end > 1 {
		if middle := inside + (end-inside)/2; try(middle) {
			inside = middle
		} else {
			end = middle
		}
	}
	return inside
}

// conditional tells whether the fact asked about is one of the rule's conditions, so that it matters only whether it is
// the named value.
func (a asking) conditional() bool { return a.condition() != nil }

func (a asking) condition() *model.Term {
	for i, w := range a.rule.When {
		if w.Slot == a.slot && w.Fact == a.fact && a.fact != "" && !slices.Contains(a.given, w) {
			return &a.rule.When[i]
		}
	}
	return nil
}

// exception are the numbers that pass where only one of them is named.
func (a asking) exception(passes func(model.Value) bool) Values {
	named := a.value(a.fact, a.condition().Constant)
	there, elsewhere := passes(named), passes(model.NumberValue(named.Milli+1, stated))
	switch {
	case there && elsewhere:
		return numbers(NoLow, NoHigh)
	case elsewhere:
		v := numbers(NoLow, NoHigh)
		v.Except = []int64{named.Milli}
		return v
	case there:
		return numbers(named.Milli, named.Milli)
	default:
		return noNumber()
	}
}

// listed are the choices that pass.
func (a asking) listed(passes func(model.Value) bool) Values {
	v := Values{Listed: true}
	for _, c := range a.choices() {
		if passes(a.value(a.fact, c)) {
			v.Choices = append(v.Choices, c)
		}
	}
	return v
}

// choices are the values that a listed fact may have: those of facts.csv, else whatever the rule names.
func (a asking) choices() []string {
	if f := a.b.tables.FactNamed(a.fact); f != nil {
		switch {
		case len(f.Allowed) > 0:
			return f.Allowed
		case f.Kind == model.YesOrNo:
			return []string{"yes", "no"}
		}
	}
	var list []string
	for _, p := range a.b.tables.Pairs[a.rule.Table] {
		if slices.ContainsFunc(a.rule.Left, func(t model.Term) bool { return t.Slot == a.slot && t.Fact == a.fact }) {
			list = append(list, p.Left)
		} else {
			list = append(list, p.Right)
		}
	}
	for _, w := range a.rule.When {
		if w.Slot == a.slot && w.Fact == a.fact {
			list = append(list, w.Constant)
		}
	}
	s := a.with(model.Value{})
	for _, side := range []model.Side{a.rule.Left, a.rule.Right} {
		if v, missing := s.side(side); len(missing) == 0 {
			list = append(list, words(v)...)
		}
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// reach are the ends of what is plausible for the fact or sum.
func (a asking) reach() (low, high int64) {
	sum := a.sum
	if sum == nil {
		sum = model.Side{{Coef: 1, Slot: a.slot, Fact: a.fact}}
	}
	for _, t := range sum {
		one, other := int64(-1_000_000), int64(1_000_000)
		if f := a.b.tables.FactNamed(t.Fact); f != nil && f.Low < f.High {
			one, other = f.Low, f.High
		}
		if t.Coef < 0 {
			one, other = other, one
		}
		low += int64(t.Coef * float64(one))
		high += int64(t.Coef * float64(other))
	}
	return low, high
}

// points are numbers of which one passes wherever any does: the ends, what the other side has, and what solves the rule.
func (a asking) points() []int64 {
	low, high := a.reach()
	list := []int64{low, high}
	s := a.with(model.NumberValue(0, stated))
	left, _ := s.side(a.rule.Left)
	right, _ := s.side(a.rule.Right)
	list = append(list, left.Milli, right.Milli, right.Milli-left.Milli)
	gaps := []int64{right.Milli - left.Milli}
	if br := a.rule.Bridge; br != nil {
		piece := s.things[br.Slot].Facts
		list = append(list, piece[br.From].Milli, piece[br.To].Milli)
		gaps = append(gaps, gaps[0]-piece[br.Step].Milli)
	}
	if slope := a.slope(); slope != 0 {
		for _, gap := range gaps {
			list = append(list, int64(math.Round(float64(gap)/slope)))
		}
	}
	for _, p := range slices.Clone(list) {
		list = append(list, p-1, p+1)
	}
	return list
}

// slope is how much left less right grows with the fact or sum.
func (a asking) slope() float64 {
	lead := model.Term{Fact: a.fact, Coef: 1}
	if a.sum != nil {
		lead = a.sum[0]
	}
	for _, t := range a.sides() {
		if t.Fact == lead.Fact {
			return t.Coef / lead.Coef
		}
	}
	return 0
}

// turned tells whether a sum is better said the other way round, so that its bound is not below zero.
func (a asking) turned() bool {
	s := a.with(model.NumberValue(0, stated))
	left, missing := s.side(a.rule.Left)
	right, more := s.side(a.rule.Right)
	return len(missing)+len(more) == 0 && left.Milli > right.Milli
}

// samples are values among which one shows whether the rule concerns the slot, and what it does not know.
func (a asking) samples() []model.Value {
	if a.fact == "" && a.sum == nil {
		return []model.Value{{}}
	}
	f := a.b.tables.FactNamed(a.fact)
	var list []model.Value
	if c := a.condition(); c != nil {
		list = append(list, a.value(a.fact, c.Constant))
	}
	if a.sum == nil && (f == nil || f.Kind != model.Number || a.rule.Relation == model.PairIn) {
		for _, c := range a.choices() {
			list = append(list, a.value(a.fact, c))
		}
		return list
	}
	for _, p := range a.points() {
		list = append(list, model.NumberValue(p, stated))
	}
	return list
}

// asNow are the values with which a thing is no worse than what stands in the slot now.
func (a asking) asNow() Values {
	old := a.b.now[a.slot].Facts[a.fact]
	none := Values{Listed: true}
	if a.sum != nil || !old.Known() || !old.Number && len(old.Choices) != 1 {
		return none
	}
	s, _ := a.judge(old)
	if !AsBefore(a.rule, s.things, a.b.now) {
		return none
	}
	switch direction := safer(a.rule, Ref{a.slot, a.fact}); {
	case !old.Number:
		return Values{Listed: true, Choices: old.Choices}
	case direction > 0:
		return numbers(old.Milli, NoHigh)
	case direction < 0:
		return numbers(NoLow, old.Milli)
	default:
		return numbers(old.Milli, old.Milli)
	}
}
