package builtin

import (
	"firstbolt/solver/program"
)

// goal says which choices a search looks for. With any false it is the best one: the most of benefit*b - cash*c within
// the budget and above the floor, then the least cash; it must beat value and spent. With any true it is the first one
// found within budget and floor that has at most so many purchases.
type goal struct {
	benefit, cash int64
	budget, floor int64
	value, spent  int64
	known         bool // a choice of that value and cash is known
	any           bool
	purchases     int64
	scale         int64 // lines count in 1/scale of the value
}

// bestOf is the goal of an objective. Budget and floor are cut to what the program can reach at all.
func bestOf(m *model, o program.Objective) goal {
	g := goal{benefit: o.Benefit, cash: o.Cash}
	g.budget = min(m.p.Budget, int64(m.cashSize))
	g.floor = max(m.p.Floor, -int64(m.curveSize))
	g.value = -int64(float64(o.Benefit)*m.curveSize+float64(o.Cash)*m.cashSize) - 1
	g.setScale(m)
	return g
}

// setScale takes the finest scale, at most 2^16, that leaves every sum far from overflow.
func (g *goal) setScale(m *model) {
	size := float64(g.benefit)*m.curveSize + float64(g.cash)*m.cashSize
	g.scale = 1
	for g.scale < 1<<16 && float64(2*g.scale)*size <= largest {
		g.scale *= 2
	}
}

// need is the least that a line must promise for a choice that meets the goal. Such a choice has b >= floor, c <= budget
// and either a larger value, or the same value for less cash; the line weighs value by scale, and what is left of its
// weights is >= 0.
func (g *goal) need(l *line) int64 {
	if g.any {
		return l.benefit*g.floor - l.cash*g.budget - l.purchase*g.purchases
	}
	more, money := l.benefit-g.scale*g.benefit, l.cash-g.scale*g.cash
	better := g.scale*(g.value+1) + more*g.floor - money*g.budget
	if !g.known || g.benefit == 0 {
		return better
	}
	return min(better, g.scale*g.value+more*g.floor-money*(min(g.spent, g.budget+1)-1))
}

// accepts tells whether a feasible choice meets the goal.
func (g *goal) accepts(e evaluation) bool {
	if e.cash > g.budget || e.benefit < g.floor {
		return false
	}
	if g.any {
		return e.purchases <= g.purchases
	}
	value := g.benefit*e.benefit - g.cash*e.cash
	return value > g.value || g.known && value == g.value && e.cash < g.spent
}

// raise makes the goal ask for more than a choice that it accepted.
func (g *goal) raise(e evaluation) {
	g.value, g.spent, g.known = g.benefit*e.benefit-g.cash*e.cash, e.cash, true
}

// evaluation is what a choice comes to.
type evaluation struct {
	cash, benefit, purchases int64
}
