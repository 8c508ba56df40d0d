package builtin

import (
	"math"
)

// prices are the multipliers of a line before rounding, in units of the objective's value.
type prices struct {
	money float64   // on the budget, >= 0
	worth float64   // on the floor, >= 0
	slope []float64 // per measure, a slope of its curve
	share []float64 // per fee and slot: its share of the fee, >= 0, at most 1 in all
	row   []float64 // >= 0
}

func (x *prices) copyFrom(y *prices) {
	x.money, x.worth = y.money, y.worth
	x.slope, x.share, x.row = append(x.slope[:0], y.slope...), append(x.share[:0], y.share...), append(x.row[:0], y.row...)
}

func cloneAll(from []prices) []prices {
	list := make([]prices, len(from))
	for i := range list {
		list[i].copyFrom(&from[i])
	}
	return list
}

// set rounds the prices to whole numbers. Any prices >= 0 make a valid line; they are cut to what keeps sums small.
func (l *line) set(m *model, g *goal, x *prices) {
	scale := float64(g.scale)
	l.benefit = whole(scale*(float64(g.benefit)+x.worth), 2*largest/m.curveSize)
	l.cash = whole(scale*(float64(g.cash)+x.money), 2*largest/(m.cashSize+1))
	l.benefit, l.cash = max(l.benefit, g.scale*g.benefit), max(l.cash, g.scale*g.cash)
	for i := range l.slope {
		weight := float64(l.benefit) * float64(m.p.Measures[i].Weight)
		l.slope[i] = int64(math.Round(weight * x.slope[i]))
	}
	for f := range m.fees {
		left := l.cash * m.fees[f].cash
		whole := float64(left)
		for _, s := range m.fees[f].users {
			at := f*len(m.options) + s
			l.share[at] = min(int64(whole*x.share[at]), left)
			left -= l.share[at]
		}
		if over := m.fees[f].freeOver; over > 0 {
			l.listed[f] = (l.cash*m.fees[f].cash - left + over - 1) / over
		}
	}
	for i := range l.row {
		l.row[i] = whole(scale*x.row[i], 2*largest/rowSize(m, i))
	}
}

func whole(x, most float64) int64 { return int64(math.Max(0, math.Round(math.Min(x, most)))) }

// rowSize is the magnitude of a row, counted as often as there are rows so that their sum stays small.
func rowSize(m *model, i int) float64 {
	size := math.Abs(float64(m.rows[i].AtMost))
	for _, t := range m.rows[i].Terms {
		size += math.Abs(float64(t.Coef))
	}
	return (size + 1) * float64(len(m.rows))
}
