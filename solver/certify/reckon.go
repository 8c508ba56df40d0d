package certify

import "math/big"

// structure checks relations and rows.
func (a *audit) structure() {
	for i := range a.program.Relations {
		a.relation(i)
	}
	for i := range a.program.Rows {
		row := &a.program.Rows[i]
		left := new(big.Int)
		for _, t := range row.Terms {
			if a.choice[t.Slot] == t.Option {
				left.Add(left, big.NewInt(t.Coef))
			}
		}
		if left.Cmp(big.NewInt(row.AtMost)) > 0 {
			a.fault("row %q comes to %v, above %d", row.Name, left, row.AtMost)
		}
	}
}

// relation finds the combination's place in Allowed from the right: the last slot's class counts 1, the one before it
// as many as the last has classes, and so on.
func (a *audit) relation(i int) {
	r := &a.program.Relations[i]
	place, unit := 0, 1
	for j := len(r.Slots) - 1; j >= 0; j-- {
		place += unit * r.Class[j][a.choice[r.Slots[j]]]
		unit *= r.Count[j]
	}
	if !r.Allowed[place] {
		names := make([]string, len(r.Slots))
		for j, s := range r.Slots {
			names[j] = a.program.Slots[s].Name + " = " + a.chosen[s].Name
		}
		a.fault("relation %q does not allow %q together", r.Name, names)
	}
}

// cash is every chosen option, every charge somebody names, and every shop's shipping.
func (a *audit) cash() *big.Int {
	total := new(big.Int)
	for _, option := range a.chosen {
		total.Add(total, big.NewInt(option.Cash))
	}
	for c := range a.program.Charges {
		if a.named(c) {
			total.Add(total, big.NewInt(a.program.Charges[c].Cash))
		}
	}
	for v := range a.program.Shops {
		total.Add(total, a.shipping(v))
	}
	return total
}

func (a *audit) named(charge int) bool {
	for _, option := range a.chosen {
		for _, c := range option.Charges {
			if c == charge {
				return true
			}
		}
	}
	return false
}

func (a *audit) shipping(shop int) *big.Int {
	items, listed := 0, new(big.Int)
	for _, option := range a.chosen {
		if option.Shop == shop {
			items++
			listed.Add(listed, big.NewInt(option.Listed))
		}
	}
	s := &a.program.Shops[shop]
	free := s.FreeOver >= 0 && listed.Cmp(big.NewInt(s.FreeOver)) >= 0
	if items == 0 || free {
		return new(big.Int)
	}
	return big.NewInt(s.Shipping)
}

func (a *audit) purchases() *big.Int {
	total := new(big.Int)
	for _, option := range a.chosen {
		total.Add(total, big.NewInt(int64(option.Purchases)))
	}
	return total
}

func (a *audit) benefit() *big.Int {
	total := new(big.Int)
	for m := range a.program.Measures {
		total.Add(total, product(a.program.Measures[m].Weight, a.value(m)))
	}
	return total
}

// value is a measure's curve at the chosen amounts: a concave curve is the least of the lines through its pieces.
func (a *audit) value(measure int) *big.Int {
	m := &a.program.Measures[measure]
	amount := big.NewInt(m.Base)
	for _, option := range a.chosen {
		for _, add := range option.Amounts {
			if add.Measure == measure {
				amount.Add(amount, big.NewInt(add.Steps))
			}
		}
	}
	var least *big.Int
	height := new(big.Int) // of the curve at the left knot of the piece
	for i, slope := range m.Curve.Slopes {
		left, right := big.NewInt(m.Curve.Knots[i]), big.NewInt(m.Curve.Knots[i+1])
		line := product(slope, new(big.Int).Sub(amount, left))
		line.Add(line, height)
		if least == nil || line.Cmp(least) < 0 {
			least = line
		}
		height = new(big.Int).Add(height, product(slope, new(big.Int).Sub(right, left)))
	}
	return least
}
