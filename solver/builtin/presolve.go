package builtin

import (
	"slices"

	"firstbolt/solver/program"
)

// filter drops options until every living option of a relation stands in an allowed combination of living options. It
// tells whether every slot still has an option.
func (m *model) filter(alive [][]int) bool {
	for changed := true; changed; {
		changed = false
		for i := range m.relations {
			changed = m.relations[i].revise(alive) || changed
		}
	}
	return !slices.ContainsFunc(alive, func(options []int) bool { return len(options) == 0 })
}

// dominate drops an option when another of its slot is as good in every respect in every surrounding, and comes first
// in the order of ties: exchanging the two never breaks a relation or row and leads to an earlier solution.
func (m *model) dominate(alive [][]int) {
	of := make([][][2]int, len(alive))
	for i := range m.relations {
		for j, s := range m.relations[i].slots {
			of[s] = append(of[s], [2]int{i, j})
		}
	}
	rising := make([]bool, len(m.p.Measures))
	for i, x := range m.p.Measures {
		rising[i] = x.Weight == 0 || x.Curve.Slopes[len(x.Curve.Slopes)-1] >= 0
	}
	for s := range alive {
		sums := m.sums(s)
		for i := 0; i < len(alive[s]); i++ {
			b := alive[s][i]
			beaten := slices.ContainsFunc(alive[s], func(a int) bool {
				return a != b && m.cheaper(s, a, b) && atLeast(sums[a], sums[b], rising) && m.asFree(of[s], a, b)
			})
			if beaten {
				alive[s] = slices.Delete(alive[s], i, i+1)
				i--
			}
		}
	}
}

// sums are the amounts of every option of the slot, per measure.
func (m *model) sums(s int) [][]int64 {
	sums := make([][]int64, len(m.options[s]))
	for k := range sums {
		sums[k] = make([]int64, len(m.p.Measures))
		for _, a := range m.options[s][k].amounts {
			sums[k][a.Measure] += a.Steps
		}
	}
	return sums
}

// cheaper tells whether a never costs more than b, counts no more in any row, and comes first where all is equal.
func (m *model) cheaper(s, a, b int) bool {
	x, y := &m.options[s][a], &m.options[s][b]
	if x.cash > y.cash || x.cash == y.cash && a > b || x.purchases > y.purchases && x.cash == y.cash {
		return false
	}
	if x.shop != y.shop || x.listed != y.listed {
		return false // more listed at a shop may save its shipping
	}
	for _, f := range x.fees {
		if !slices.Contains(y.fees, f) {
			return false
		}
	}
	for _, t := range x.coefs {
		if t.Coef > coefOf(y, t.Slot) {
			return false
		}
	}
	for _, t := range y.coefs {
		if coefOf(x, t.Slot) > t.Coef {
			return false
		}
	}
	return true
}

func coefOf(o *option, row int) int64 {
	i := slices.IndexFunc(o.coefs, func(t program.Term) bool { return t.Slot == row })
	if i < 0 {
		return 0
	}
	return o.coefs[i].Coef
}

func atLeast(a, b []int64, rising []bool) bool {
	for i := range a {
		if a[i] != b[i] && (a[i] < b[i] || !rising[i]) {
			return false
		}
	}
	return true
}

func (m *model) asFree(places [][2]int, a, b int) bool {
	for _, at := range places {
		if !m.relations[at[0]].covers(at[1], a, b) {
			return false
		}
	}
	return true
}
