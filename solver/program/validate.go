package program

import "fmt"

// Validate tells the first fault of a program: an index out of range, a repeated term, a curve that is not concave, a
// negative weight, charge or shipping, a slot without options. Engines refuse what Validate refuses.
func (p *Program) Validate() error {
	for s := range p.Slots {
		if len(p.Slots[s].Options) == 0 {
			return fmt.Errorf("slot %q has no options", p.Slots[s].Name)
		}
		for k := range p.Slots[s].Options {
			if err := p.validOption(&p.Slots[s].Options[k]); err != nil {
				return fmt.Errorf("slot %q: %w", p.Slots[s].Name, err)
			}
		}
	}
	for i := range p.Relations {
		if err := p.validRelation(&p.Relations[i]); err != nil {
			return fmt.Errorf("relation %q: %w", p.Relations[i].Name, err)
		}
	}
	for i := range p.Rows {
		if err := p.validRow(&p.Rows[i]); err != nil {
			return fmt.Errorf("row %q: %w", p.Rows[i].Name, err)
		}
	}
	for _, c := range p.Charges {
		if c.Cash < 0 {
			return fmt.Errorf("charge %q is negative: %d", c.Name, c.Cash)
		}
	}
	for _, v := range p.Shops {
		if v.Shipping < 0 || v.FreeOver < NeverFree {
			return fmt.Errorf("shop %q: shipping %d and free over %d, want neither negative", v.Name, v.Shipping, v.FreeOver)
		}
	}
	for _, m := range p.Measures {
		if m.Weight < 0 {
			return fmt.Errorf("measure %q: weight %d is negative", m.Name, m.Weight)
		}
		if err := m.Curve.Validate(); err != nil {
			return fmt.Errorf("measure %q: %w", m.Name, err)
		}
	}
	if p.Objective.Benefit < 0 || p.Objective.Cash < 0 {
		return fmt.Errorf("the objective %+v has a negative weight", p.Objective)
	}
	return nil
}

// Validate tells what keeps a curve from being concave and well formed.
func (c Curve) Validate() error {
	if len(c.Slopes) == 0 || len(c.Knots) != len(c.Slopes)+1 {
		return fmt.Errorf("%d knots and %d slopes, want one knot more than slopes", len(c.Knots), len(c.Slopes))
	}
	for i := range c.Slopes {
		if c.Knots[i+1] <= c.Knots[i] {
			return fmt.Errorf("knot %d does not lie above knot %d", c.Knots[i+1], c.Knots[i])
		}
		if i > 0 && c.Slopes[i] > c.Slopes[i-1] {
			return fmt.Errorf("slope %d follows %d: the curve is not concave", c.Slopes[i], c.Slopes[i-1])
		}
	}
	return nil
}

func (p *Program) validOption(o *Option) error {
	if o.Listed < 0 || o.Purchases < 0 {
		return fmt.Errorf("option %q: negative listed price or purchases", o.Name)
	}
	if o.Shop < NoShop || o.Shop >= len(p.Shops) {
		return fmt.Errorf("option %q: there is no shop %d", o.Name, o.Shop)
	}
	seen := map[int]bool{}
	for _, c := range o.Charges {
		if c < 0 || c >= len(p.Charges) || seen[c] {
			return fmt.Errorf("option %q: charge %d does not exist or stands twice", o.Name, c)
		}
		seen[c] = true
	}
	for _, a := range o.Amounts {
		if a.Measure < 0 || a.Measure >= len(p.Measures) {
			return fmt.Errorf("option %q: there is no measure %d", o.Name, a.Measure)
		}
	}
	return nil
}

func (p *Program) validRelation(r *Relation) error {
	if len(r.Slots) < 2 || len(r.Class) != len(r.Slots) || len(r.Count) != len(r.Slots) {
		return fmt.Errorf("%d slots, %d class lists, %d counts, want as many of each and at least two", len(r.Slots), len(r.Class), len(r.Count))
	}
	size, seen := 1, map[int]bool{}
	for i, s := range r.Slots {
		if s < 0 || s >= len(p.Slots) || seen[s] {
			return fmt.Errorf("slot %d does not exist or stands twice", s)
		}
		seen[s] = true
		if len(r.Class[i]) != len(p.Slots[s].Options) {
			return fmt.Errorf("slot %q has %d options, %d have a class", p.Slots[s].Name, len(p.Slots[s].Options), len(r.Class[i]))
		}
		for _, c := range r.Class[i] {
			if c < 0 || c >= r.Count[i] {
				return fmt.Errorf("slot %q: there is no class %d", p.Slots[s].Name, c)
			}
		}
		size *= r.Count[i]
	}
	if len(r.Allowed) != size {
		return fmt.Errorf("%d combinations are judged, want %d", len(r.Allowed), size)
	}
	return nil
}

func (p *Program) validRow(r *Row) error {
	seen := map[[2]int]bool{}
	for _, t := range r.Terms {
		at := [2]int{t.Slot, t.Option}
		if t.Slot < 0 || t.Slot >= len(p.Slots) || t.Option < 0 || t.Option >= len(p.Slots[t.Slot].Options) || seen[at] {
			return fmt.Errorf("slot %d option %d does not exist or stands twice", t.Slot, t.Option)
		}
		seen[at] = true
	}
	return nil
}
