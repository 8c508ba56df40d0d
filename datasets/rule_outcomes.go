package datasets

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"firstbolt/model"
)

// outcomes tells whether the rule's relation can hold, and whether it must, over all values that facts.csv allows.
// What has no limits there can be anything.
func (p prospect) outcomes() (can, must bool) {
	r := p.rule
	if r.Relation == model.PairIn {
		return p.pairOutcomes()
	}
	if p.isNumeric(r.Left) && p.isNumeric(r.Right) {
		can, must = p.numberOutcomes()
	} else {
		can, must = p.choiceOutcomes()
	}
	// A piece between the two sides may join what does not meet; a part that must not be there is "at_most 0".
	forbidden := r.Relation == model.AtMost && len(r.Right) == 1 && r.Right[0] == model.Term{}
	return can || r.Bridge != nil || forbidden, must && r.Bridge == nil
}

// numberOutcomes looks at the least and the greatest difference of the two sides.
func (p prospect) numberOutcomes() (can, must bool) {
	low, high := p.difference()
	margin := float64(p.rule.Margin)
	const rounding = 1 // thousandth
	switch p.rule.Relation {
	case model.AtMost:
		return low <= margin+rounding, high <= margin
	case model.AtLeast:
		return high >= -margin-rounding, low >= -margin
	default:
		return low <= margin+rounding && high >= -margin-rounding, low >= -margin && high <= margin
	}
}

// difference is the range of left minus right in thousandths. A fact that stands on both sides is one and the same,
// and what a condition says of a fact holds.
func (p prospect) difference() (low, high float64) {
	type key struct{ slot, fact string }
	factors, keys := map[key]float64{}, []key{}
	add := func(t model.Term, sign float64) {
		if t.Slot == "" {
			low, high = low+sign*t.Coef*1000, high+sign*t.Coef*1000
			return
		}
		k := key{t.Slot, t.Fact}
		if _, known := factors[k]; !known {
			keys = append(keys, k)
		}
		factors[k] += sign * t.Coef
	}
	for _, t := range p.rule.Left {
		add(t, 1)
	}
	for _, t := range p.rule.Right {
		add(t, -1)
	}
	for _, k := range keys {
		from, to := p.numbers(model.Term{Slot: k.slot, Fact: k.fact})
		a, b := factors[k]*from, factors[k]*to
		if factors[k] == 0 {
			a, b = 0, 0
		}
		low, high = low+min(a, b), high+max(a, b)
	}
	return low, high
}

// numbers is what a fact that is a number can be, in thousandths.
func (p prospect) numbers(t model.Term) (low, high float64) {
	if text, said := p.condition(t); said {
		if n, ok := milli(text); ok {
			return float64(n), float64(n)
		}
	}
	f := p.factOf(t)
	if f == nil || f.Low >= f.High {
		return math.Inf(-1), math.Inf(1)
	}
	return float64(f.Low), float64(f.High)
}

// condition is what the rule's conditions say of the fact.
func (p prospect) condition(t model.Term) (constant string, said bool) {
	i := slices.IndexFunc(p.rule.When, func(w model.Term) bool { return w.Slot == t.Slot && w.Fact == t.Fact && w.Fact != "" })
	if i < 0 {
		return "", false
	}
	return p.rule.When[i].Constant, true
}

// choiceOutcomes looks for choices that both sides can have.
func (p prospect) choiceOutcomes() (can, must bool) {
	left, right := p.rule.Left[0], p.rule.Right[0]
	if left == right {
		return true, true
	}
	all, limited := p.words(left)
	if !limited {
		all, limited = p.words(right)
		left, right = right, left
	}
	if !limited {
		return true, false
	}
	common := 0
	for _, word := range all {
		if p.possible(right, word) {
			common++
		}
	}
	others, few := p.words(right)
	return common > 0, common > 0 && few && len(all) == 1 && len(others) == 1
}

// pairOutcomes looks for rows of the lookup table whose values both sides can have.
func (p prospect) pairOutcomes() (can, must bool) {
	if len(p.rule.Left) != 1 || len(p.rule.Right) != 1 {
		return true, false
	}
	left, right := p.rule.Left[0], p.rule.Right[0]
	agreed := map[[2]string]bool{}
	for _, row := range p.tables.Pairs[p.rule.Table] {
		if p.possible(left, row.Left) && p.possible(right, row.Right) {
			can = true
			agreed[[2]string{row.Left, row.Right}] = row.Severity != model.BothSides
		}
	}
	lefts, fewLeft := p.words(left)
	rights, fewRight := p.words(right)
	must = can && fewLeft && fewRight
	for _, a := range lefts {
		for _, b := range rights {
			must = must && agreed[[2]string{a, b}]
		}
	}
	return can, must
}

// words are the choices that a term can be; not limited where it is a number that is measured, or any word will do.
func (p prospect) words(t model.Term) (all []string, limited bool) {
	if text, said := p.condition(t); said {
		return []string{text}, true
	}
	f := p.factOf(t)
	switch {
	case f == nil && t.Constant != "":
		return []string{t.Constant}, true
	case f == nil:
		return []string{tidyMilli(int64(math.Round(t.Coef * 1000)))}, true
	case f.Kind == model.Number:
		return nil, false
	default:
		return f.Allowed, len(f.Allowed) > 0
	}
}

// possible tells whether a term can have the value that a table or the other side writes so.
func (p prospect) possible(t model.Term, word string) bool {
	if all, limited := p.words(t); limited {
		return contains(all, word)
	}
	if f := p.factOf(t); f == nil || f.Kind != model.Number {
		return true
	}
	n, ok := milli(word)
	low, high := p.numbers(t)
	return ok && float64(n) >= low && float64(n) <= high
}

// says is what a side can be, in words: "chain.links goes from 80 to 130".
func (p prospect) says(s model.Side) string {
	if len(s) != 1 {
		low, high := prospect{p.tables, &model.Rule{Left: s, When: p.rule.When}}.difference()
		if math.IsInf(low, 0) || math.IsInf(high, 0) {
			return "the sum is any number"
		}
		return fmt.Sprintf("the sum goes from %s to %s", tidyMilli(int64(math.Round(low))), tidyMilli(int64(math.Round(high))))
	}
	t := s[0]
	f := p.factOf(t)
	if f == nil {
		words, _ := p.words(t)
		return "stands " + words[0]
	}
	name := t.Slot + "." + t.Fact
	if t.Coef != 1 {
		name = tidyMilli(int64(math.Round(t.Coef*1000))) + "*" + name
	}
	if text, said := p.condition(t); said {
		return name + " is " + text
	}
	switch {
	case f.Kind == model.Number && f.Low < f.High:
		return fmt.Sprintf("%s goes from %s to %s", name, tidyMilli(int64(t.Coef*float64(f.Low))), tidyMilli(int64(t.Coef*float64(f.High))))
	case f.Kind == model.Number:
		return name + " is a number"
	case len(f.Allowed) == 0:
		return name + " is a word"
	default:
		return name + " is one of " + strings.Join(f.Allowed, ", ")
	}
}
