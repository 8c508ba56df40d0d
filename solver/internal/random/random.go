// Package random draws programs of the shape that bikes have: slots with a fitted option first, kits, interfaces,
// adapters, facts nobody knows, tools, shops with free shipping, and concave curves. The same Options always give the
// same program. Tests and benchmarks share it.
package random

import (
	"fmt"
	"math/rand/v2"

	"firstbolt/solver/program"
)

// Options says what to draw. Zero counts leave the feature out.
type Options struct {
	Seed       uint64
	Slots      int     // slots that hold parts
	Least      int     // fewest options of such a slot, at least 1
	Most       int     // most options of such a slot
	Adapters   int     // slots with adapters, each in a relation of two partners and the adapter
	Unknowns   int     // slots with the values of an unknown fact, free of charge
	Kits       int     // sets, each filling two to four neighbouring slots
	Pairs      int     // relations of two slots
	Wide       int     // relations of three or four slots
	Classes    int     // interface classes of a relation, at least 2
	Reach      int     // how far apart in the order related slots may stand, at least 1
	Tight      float64 // share of options that do not have the standard interface
	Charges    int     // tools and jobs
	Shops      int
	Rows       int // caps
	Measures   int
	Pieces     int  // pieces of a curve
	NearTied   bool // values that nearly agree
	Wild       bool // negative amounts, prices and bases, falling curves, rows of both signs, no way out guaranteed
	Objective  program.Objective
	Budget     float64 // share of the dearest choice's price, 0 for no budget
	Floor      float64 // share of the full benefit, 0 for no floor
	MaxBenefit int64   // full benefit, 0 for 1,000,000
}

// Small is a program of a few hundred to a hundred thousand choices with everything in it; the seed draws the counts.
func Small(seed uint64) Options {
	r := rand.New(rand.NewPCG(seed, 1))
	o := Options{
		Seed: seed, Slots: 3 + r.IntN(4), Least: 1, Most: 2 + r.IntN(3), Adapters: r.IntN(2), Unknowns: r.IntN(3),
		Kits: r.IntN(3), Pairs: r.IntN(6), Wide: r.IntN(3), Classes: 2 + r.IntN(2), Reach: 1 + r.IntN(4),
		Tight: 0.1 + 0.6*r.Float64(), Charges: r.IntN(5), Shops: r.IntN(4), Rows: r.IntN(4), Measures: 1 + r.IntN(4),
		Pieces: 1 + r.IntN(4), NearTied: r.IntN(3) == 0, Wild: r.IntN(2) == 0, Budget: r.Float64(),
		MaxBenefit: []int64{20, 1000, 0}[r.IntN(3)],
	}
	o.Objective = []program.Objective{{Benefit: 1}, {Benefit: 1}, {Cash: 1}, {Benefit: 7, Cash: 3}, {Benefit: 1, Cash: 40}, {}}[r.IntN(6)]
	if r.IntN(3) == 0 {
		o.Floor = r.Float64()
	}
	if r.IntN(4) == 0 {
		o.Budget = 0
	}
	return o
}

// Demo is a program of the embedded demo's size: 45 slots, about 200 options, 90 relations.
func Demo(seed uint64) Options {
	return Options{
		Seed: seed, Slots: 28, Least: 1, Most: 15, Adapters: 8, Unknowns: 9, Kits: 6, Pairs: 50, Wide: 30, Classes: 4, Reach: 4,
		Tight: 0.35, Charges: 15, Shops: 4, Rows: 4, Measures: 14, Pieces: 5, Objective: program.Objective{Benefit: 1}, Budget: 0.25,
	}
}

// Sheet is a program of 24 slots with so many options each.
func Sheet(seed uint64, options int) Options {
	return Options{
		Seed: seed, Slots: 24, Least: options, Most: options, Kits: 3 + options/6, Pairs: 23, Classes: 5, Reach: 4,
		Tight: 0.25, Charges: 10, Shops: 4, Rows: 2, Measures: 8, Pieces: 6, Objective: program.Objective{Benefit: 1}, Budget: 0.25,
	}
}

// New draws the program.
func New(o Options) *program.Program {
	o.Least, o.Most, o.Reach = max(o.Least, 1), max(o.Most, o.Least, 1), max(o.Reach, 1)
	o.Classes, o.Pieces = max(o.Classes, 2), max(o.Pieces, 1)
	if o.MaxBenefit == 0 {
		o.MaxBenefit = 1_000_000
	}
	d := &draw{Options: o, r: rand.New(rand.NewPCG(o.Seed, 2)), p: &program.Program{Name: fmt.Sprintf("random %d", o.Seed)}}
	d.shared()
	for range o.Slots {
		d.partSlot()
	}
	d.kits()
	for i := range o.Adapters {
		d.adapter(i)
	}
	for i := range o.Unknowns {
		d.unknown(i)
	}
	for range o.Pairs {
		d.relation(2)
	}
	for range o.Wide {
		d.relation(3 + d.r.IntN(2))
	}
	for range o.Rows {
		d.row()
	}
	d.limits()
	return d.p
}

// draw is a program being drawn.
type draw struct {
	Options
	r *rand.Rand
	p *program.Program
}

// shared draws measures, charges and shops.
func (d *draw) shared() {
	for i := range d.Measures {
		m := program.Measure{Name: fmt.Sprintf("measure %d", i), Weight: int64(1 + d.r.IntN(3)), Curve: d.curve()}
		if d.Wild {
			m.Weight, m.Base = int64(d.r.IntN(4)), int64(d.r.IntN(40)-20)
		}
		d.p.Measures = append(d.p.Measures, m)
	}
	for i := range d.Charges {
		d.p.Charges = append(d.p.Charges, program.Charge{Name: fmt.Sprintf("charge %d", i), Cash: int64(100 + d.r.IntN(2500))})
	}
	for i := range d.Shops {
		v := program.Shop{Name: fmt.Sprintf("shop %d", i), Shipping: int64(290 + d.r.IntN(600)), FreeOver: int64(3000 + d.r.IntN(9000))}
		if d.r.IntN(4) == 0 {
			v.FreeOver = program.NeverFree
		}
		d.p.Shops = append(d.p.Shops, v)
	}
}

// curve rises concavely over about 500 steps, to about the measure's share of the full benefit (weights are 1 to 3).
func (d *draw) curve() program.Curve {
	c := program.Curve{Knots: []int64{0}}
	slope := max(d.MaxBenefit/int64(max(d.Measures, 1))/1000, 1)
	for range d.Pieces {
		c.Knots = append(c.Knots, c.Knots[len(c.Knots)-1]+int64(1+d.r.IntN(1000/d.Pieces+1)))
		c.Slopes = append(c.Slopes, slope)
		slope -= max(slope, -slope) * int64(10+d.r.IntN(50)) / 100
		if d.Wild {
			slope -= int64(d.r.IntN(3))
		}
	}
	return c
}

// partSlot draws a slot: what is fitted first, free and without worth, then parts; a dearer part tends to bring more.
func (d *draw) partSlot() {
	n := d.Least + d.r.IntN(d.Most-d.Least+1)
	if d.Most > 6 && d.Least == 1 && d.r.IntN(3) > 0 {
		n = 1 + d.r.IntN(6)
	}
	s := program.Slot{Name: fmt.Sprintf("slot %d", len(d.p.Slots)), Options: []program.Option{{Name: "fitted", Shop: program.NoShop}}}
	span := int64(800 + d.r.IntN(7000))
	measures := d.r.Perm(max(d.Measures, 1))[:min(d.Measures, 1+d.r.IntN(4))]
	for k := 1; k < n; k++ {
		s.Options = append(s.Options, d.part(k, span, measures))
	}
	if d.Wild && d.r.IntN(3) == 0 {
		s.Options[0].Cash = int64(d.r.IntN(2000) - 1000)
	}
	d.p.Slots = append(d.p.Slots, s)
}

func (d *draw) part(k int, span int64, measures []int) program.Option {
	price := span/4 + d.r.Int64N(span)
	if d.NearTied {
		price = span/4 + 10*d.r.Int64N(4)
	}
	o := program.Option{Name: fmt.Sprintf("part %d", k), Cash: price, Listed: price, Shop: program.NoShop, Purchases: 1}
	if d.Shops > 0 && d.r.IntN(5) > 0 {
		o.Shop = d.r.IntN(d.Shops)
	}
	for range d.r.IntN(3) {
		if c := d.r.IntN(d.Charges + 1); c < d.Charges && (len(o.Charges) == 0 || o.Charges[0] != c) {
			o.Charges = append(o.Charges, c)
		}
	}
	for _, m := range measures {
		steps := int64(2+d.r.IntN(60)) * (2*span/3 + price) / (2 * span)
		if d.NearTied {
			steps = int64(20 + d.r.IntN(3))
		}
		if d.Wild && d.r.IntN(4) == 0 || d.r.IntN(12) == 0 {
			steps = -steps / 2
		}
		o.Amounts = append(o.Amounts, program.Amount{Measure: m, Steps: steps})
	}
	if d.Wild && d.r.IntN(8) == 0 {
		o.Cash = -o.Cash / 3
	}
	return o
}

// limits sets objective, budget and floor.
func (d *draw) limits() {
	d.p.Objective, d.p.Budget, d.p.Floor = d.Objective, program.NoBudget, program.NoFloor
	dearest, full := int64(0), int64(0)
	for _, s := range d.p.Slots {
		most := s.Options[0].Cash
		for _, o := range s.Options {
			most = max(most, o.Cash)
		}
		dearest += most
	}
	for _, m := range d.p.Measures {
		full += m.Weight * m.Curve.At(m.Curve.Knots[len(m.Curve.Knots)-1])
	}
	if d.Budget > 0 {
		d.p.Budget = int64(d.Budget * float64(dearest))
	}
	if d.Floor > 0 {
		d.p.Floor = int64(d.Floor * float64(full) / 3)
	}
}
