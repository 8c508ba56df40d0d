package builtin

import (
	"slices"
	"strconv"

	"firstbolt/solver/program"
)

// A measure is lifted when at most so many combinations of options move it, and the relation stays this small. Above
// that the tables cost more than the better bound saves.
const (
	liftCombinations = 128
	liftTable        = 4096
)

// lift is an equal program in which every bent curve that only a few combinations of options can move has become a slot
// of its own: its options are the levels that can be reached, each with its exact value, and a relation says which
// combination reaches which. A supporting line over a curve allows for mixtures of options that no choice can have; the
// elimination over the relations does not. The added slots stand last, so a choice of p is the front of one here.
func lift(p *program.Program) (*program.Program, []lifted) {
	q := *p
	q.Slots, q.Measures = slices.Clone(p.Slots), slices.Clone(p.Measures)
	q.Relations = slices.Clip(p.Relations)
	var added []lifted
	for m := range p.Measures {
		if x := &p.Measures[m]; x.Weight > 0 && len(x.Curve.Slopes) > 1 {
			if l, ok := liftMeasure(&q, m); ok {
				added = append(added, l)
			}
		}
	}
	return &q, added
}

// lifted is the added slot of a lifted measure.
type lifted struct {
	slot    int
	base    int64
	movers  []mover
	amounts []int64 // per option
}

// settle gives an added slot the only option that the rest of the choice allows.
func (l *lifted) settle(choice []int) {
	sum := l.base
	for i := range l.movers {
		v := &l.movers[i]
		sum += v.amounts[v.class[choice[v.slot]]]
	}
	choice[l.slot] = slices.Index(l.amounts, sum)
}

// mover is a slot whose options add different amounts to a measure.
type mover struct {
	slot    int
	class   []int   // per option
	amounts []int64 // per class
}

// liftMeasure adds the slot of one measure; false where it has too many combinations.
func liftMeasure(q *program.Program, m int) (lifted, bool) {
	base, combinations := q.Measures[m].Base, 1
	var movers []mover
	for s := range q.Slots {
		v := moverOf(q, s, m)
		if len(v.amounts) == 1 {
			base += v.amounts[0]
			continue
		}
		if combinations *= len(v.amounts); combinations > liftCombinations {
			return lifted{}, false
		}
		movers = append(movers, v)
	}
	reached := sums(base, movers)
	var levels []int64 // the level of the first options is the first
	for _, sum := range reached {
		if !slices.Contains(levels, sum) {
			levels = append(levels, sum)
		}
	}
	if len(movers) == 0 || len(reached)*len(levels) > liftTable {
		return lifted{}, false
	}
	curve := q.Measures[m].Curve
	slot := program.Slot{Name: "level of " + q.Measures[m].Name}
	relation := program.Relation{Name: slot.Name}
	for _, v := range movers {
		relation.Slots, relation.Class = append(relation.Slots, v.slot), append(relation.Class, v.class)
		relation.Count = append(relation.Count, len(v.amounts))
	}
	class := make([]int, len(levels))
	for k, amount := range levels {
		class[k] = k
		slot.Options = append(slot.Options, program.Option{
			Name: strconv.FormatInt(amount, 10), Shop: program.NoShop, Amounts: []program.Amount{{Measure: m, Steps: curve.At(amount)}},
		})
	}
	relation.Slots, relation.Class, relation.Count = append(relation.Slots, len(q.Slots)), append(relation.Class, class), append(relation.Count, len(levels))
	for _, sum := range reached {
		for _, amount := range levels {
			relation.Allowed = append(relation.Allowed, sum == amount)
		}
	}
	for s := range q.Slots {
		q.Slots[s] = without(q.Slots[s], m)
	}
	q.Slots, q.Relations = append(q.Slots, slot), append(q.Relations, relation)
	q.Measures[m].Base, q.Measures[m].Curve = 0, program.Curve{Knots: []int64{0, 1}, Slopes: []int64{1}}
	return lifted{slot: len(q.Slots) - 1, base: base, movers: movers, amounts: levels}, true
}

func moverOf(q *program.Program, s, m int) mover {
	v := mover{slot: s}
	for k := range q.Slots[s].Options {
		sum := int64(0)
		for _, a := range q.Slots[s].Options[k].Amounts {
			if a.Measure == m {
				sum += a.Steps
			}
		}
		c := slices.Index(v.amounts, sum)
		if c < 0 {
			c = len(v.amounts)
			v.amounts = append(v.amounts, sum)
		}
		v.class = append(v.class, c)
	}
	return v
}

// sums are the amounts of all combinations, the last mover's class running fastest.
func sums(base int64, movers []mover) []int64 {
	list := []int64{base}
	for _, v := range movers {
		next := make([]int64, 0, len(list)*len(v.amounts))
		for _, sum := range list {
			for _, a := range v.amounts {
				next = append(next, sum+a)
			}
		}
		list = next
	}
	return list
}

// without is the slot with the measure's amounts taken out of its options.
func without(slot program.Slot, m int) program.Slot {
	options := slices.Clone(slot.Options)
	for k := range options {
		options[k].Amounts = slices.DeleteFunc(slices.Clone(options[k].Amounts), func(a program.Amount) bool { return a.Measure == m })
	}
	return program.Slot{Name: slot.Name, Options: options}
}
