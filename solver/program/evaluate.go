package program

import "fmt"

// Evaluation is a choice reckoned out line by line.
type Evaluation struct {
	Cash      int64
	Benefit   int64
	Purchases int
	Amounts   []int64 // per measure, Base included
	Paid      []bool  // per charge
	Open      []bool  // per shop: something is bought there
	Shipping  []int64 // per shop, what is paid
}

// Evaluate reckons cash, benefit and purchases of a choice (one option index per slot) without looking at relations,
// rows, budget or floor. The choice must have the right length and indices in range.
func (p *Program) Evaluate(choice []int) Evaluation {
	e := Evaluation{
		Amounts: make([]int64, len(p.Measures)), Paid: make([]bool, len(p.Charges)),
		Open: make([]bool, len(p.Shops)), Shipping: make([]int64, len(p.Shops)),
	}
	listed := make([]int64, len(p.Shops))
	for m := range p.Measures {
		e.Amounts[m] = p.Measures[m].Base
	}
	for s, k := range choice {
		o := &p.Slots[s].Options[k]
		e.Cash += o.Cash
		e.Purchases += o.Purchases
		for _, a := range o.Amounts {
			e.Amounts[a.Measure] += a.Steps
		}
		for _, c := range o.Charges {
			e.Paid[c] = true
		}
		if o.Shop != NoShop {
			e.Open[o.Shop] = true
			listed[o.Shop] += o.Listed
		}
	}
	for c, paid := range e.Paid {
		if paid {
			e.Cash += p.Charges[c].Cash
		}
	}
	for v := range p.Shops {
		sh := &p.Shops[v]
		if e.Open[v] && (sh.FreeOver == NeverFree || listed[v] < sh.FreeOver) {
			e.Shipping[v] = sh.Shipping
			e.Cash += sh.Shipping
		}
	}
	for m := range p.Measures {
		e.Benefit += p.Measures[m].Weight * p.Measures[m].Curve.At(e.Amounts[m])
	}
	return e
}

// Feasible tells what a choice breaks, nil when it meets every relation and row (budget and floor are not looked at).
func (p *Program) Feasible(choice []int) error {
	if len(choice) != len(p.Slots) {
		return fmt.Errorf("%d slots are chosen, want %d", len(choice), len(p.Slots))
	}
	for s, k := range choice {
		if k < 0 || k >= len(p.Slots[s].Options) {
			return fmt.Errorf("slot %q: option %d is not one of %d", p.Slots[s].Name, k, len(p.Slots[s].Options))
		}
	}
	for i := range p.Relations {
		r := &p.Relations[i]
		classes := make([]int, len(r.Slots))
		for j, s := range r.Slots {
			classes[j] = r.Class[j][choice[s]]
		}
		if !r.Allows(classes) {
			return fmt.Errorf("relation %q is broken by %s", r.Name, p.names(r.Slots, choice))
		}
	}
	for i := range p.Rows {
		sum := int64(0)
		for _, t := range p.Rows[i].Terms {
			if choice[t.Slot] == t.Option {
				sum += t.Coef
			}
		}
		if sum > p.Rows[i].AtMost {
			return fmt.Errorf("row %q: %d is above %d", p.Rows[i].Name, sum, p.Rows[i].AtMost)
		}
	}
	return nil
}

func (p *Program) names(slots, choice []int) string {
	text := ""
	for i, s := range slots {
		if i > 0 {
			text += ", "
		}
		text += fmt.Sprintf("%s = %q", p.Slots[s].Name, p.Slots[s].Options[choice[s]].Name)
	}
	return text
}

// Solution wraps a choice with its reckoned values; Bound is its own objective value.
func (p *Program) Solution(status Status, choice []int) Solution {
	e := p.Evaluate(choice)
	s := Solution{Status: status, Choice: choice, Cash: e.Cash, Benefit: e.Benefit, Purchases: e.Purchases}
	s.Bound = s.Value(p.Objective)
	return s
}
