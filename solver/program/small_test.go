package program

import (
	"fmt"
	"math/rand/v2"
)

// smallProgram draws a program of a few slots with everything in it that a program can hold.
func smallProgram(r *rand.Rand) *Program {
	p := &Program{Name: "small", Budget: NoBudget, Floor: NoFloor}
	for c := range r.IntN(3) {
		p.Charges = append(p.Charges, Charge{fmt.Sprint("tool ", c), int64(r.IntN(60))})
	}
	for v := range r.IntN(3) {
		p.Shops = append(p.Shops, Shop{fmt.Sprint("shop ", v), int64(r.IntN(40)), int64(r.IntN(160) - 1)})
	}
	for m := range 1 + r.IntN(2) {
		p.Measures = append(p.Measures, Measure{fmt.Sprint("measure ", m), int64(r.IntN(4)), int64(r.IntN(9) - 4), smallCurve(r)})
	}
	for s := range 2 + r.IntN(3) {
		slot := Slot{Name: fmt.Sprint("slot ", s)}
		for k := range 1 + r.IntN(3) {
			slot.Options = append(slot.Options, smallOption(r, p, k))
		}
		p.Slots = append(p.Slots, slot)
	}
	for range r.IntN(3) {
		p.Relations = append(p.Relations, smallRelation(r, p))
	}
	p.Rows = append(p.Rows, smallRow(r, p))
	if r.IntN(2) == 0 {
		p.Budget = int64(r.IntN(300))
	}
	if r.IntN(3) == 0 {
		p.Floor = int64(r.IntN(200) - 100)
	}
	p.Objective = []Objective{{1, 0}, {0, 1}, {2, 3}, {0, 0}}[r.IntN(4)]
	return p
}

func smallCurve(r *rand.Rand) Curve {
	knot, slope := int64(r.IntN(7)-3), int64(r.IntN(8))
	c := Curve{Knots: []int64{knot}}
	for range 1 + r.IntN(4) {
		knot += 1 + int64(r.IntN(4))
		c.Knots, c.Slopes = append(c.Knots, knot), append(c.Slopes, slope)
		slope -= int64(r.IntN(5))
	}
	return c
}

func smallOption(r *rand.Rand, p *Program, k int) Option {
	o := Option{Name: fmt.Sprint("part ", k), Shop: NoShop, Cash: int64(r.IntN(120) - 20), Purchases: r.IntN(2)}
	if len(p.Shops) > 0 && r.IntN(3) > 0 {
		o.Shop, o.Listed = r.IntN(len(p.Shops)), int64(r.IntN(100))
	}
	for c := range p.Charges {
		if r.IntN(2) == 0 {
			o.Charges = append(o.Charges, c)
		}
	}
	for range r.IntN(3) {
		o.Amounts = append(o.Amounts, Amount{r.IntN(len(p.Measures)), int64(r.IntN(11) - 3)})
	}
	return o
}

func smallRelation(r *rand.Rand, p *Program) Relation {
	rel := Relation{Name: "agree", Slots: r.Perm(len(p.Slots))[:2+r.IntN(len(p.Slots)-1)]}
	size := 1
	for _, s := range rel.Slots {
		count := 1 + r.IntN(3)
		classes := make([]int, len(p.Slots[s].Options))
		for k := range classes {
			classes[k] = r.IntN(count)
		}
		rel.Count, rel.Class, size = append(rel.Count, count), append(rel.Class, classes), size*count
	}
	for range size {
		rel.Allowed = append(rel.Allowed, r.IntN(3) > 0)
	}
	return rel
}

func smallRow(r *rand.Rand, p *Program) Row {
	row := Row{Name: "row", AtMost: int64(r.IntN(12) - 1)}
	for s := range p.Slots {
		for k := range p.Slots[s].Options {
			if r.IntN(2) == 0 {
				row.Terms = append(row.Terms, Term{s, k, int64(2 * (r.IntN(7) - 2))})
			}
		}
	}
	return row
}
