package builtin

import (
	"math"

	"firstbolt/solver/program"
)

// nothing is the value of a combination that cannot be completed.
const nothing = math.MinInt64 / 4

// line is one valid bound: for every choice x left in the space
//
//	benefit*b(x) - cash*c(x) - purchase*purchases(x) <= fixed + sum of the profits of x's options
//
// It replaces each curve by a supporting line of the given slope, each fee by shares of the slots that use it, and each
// row by its price. Every number is whole, so nothing is rounded after the prices were.
type line struct {
	benefit, cash, purchase int64
	slope                   []int64 // per measure, on its amount
	share                   []int64 // per fee and slot
	listed                  []int64 // per fee: taken back for every listed unit
	row                     []int64
	fixed                   int64
	peak, peakAt            []int64   // per measure: most of curve - slope*amount, and where
	profit                  [][]int64 // per slot and place in alive
	best                    [][]int64 // per slot and state
	leads                   [][]int   // per slot and state: place of the best option
	message                 [][]int64 // per table
	bound                   int64     // of the whole space
}

func newLine(m *model) *line {
	n := len(m.p.Measures)
	return &line{
		slope: make([]int64, n), peak: make([]int64, n), peakAt: make([]int64, n), row: make([]int64, len(m.rows)),
		share: make([]int64, len(m.fees)*len(m.options)), listed: make([]int64, len(m.fees)),
	}
}

// evaluate fills profits, messages and bound from the prices of the line over the space.
func (l *line) evaluate(sp *space) {
	l.fit(sp)
	l.support(sp)
	total := int64(0)
	for _, s := range sp.order[:sp.fixed] {
		total += l.profit[s][0]
	}
	for i := len(sp.tables) - 1; i >= 0; i-- {
		t := sp.tables[i]
		l.maximise(t)
		if t.parent == nil {
			if l.message[i][0] <= nothing {
				l.bound = nothing
				return
			}
			total += l.message[i][0]
		}
	}
	l.bound = total + l.fixed
}

// fit makes room for the space's options and tables, and reckons the profits.
func (l *line) fit(sp *space) {
	if len(l.message) != len(sp.tables) || len(l.profit) != len(sp.alive) {
		l.message = make([][]int64, len(sp.tables))
		l.profit, l.best, l.leads = make([][]int64, len(sp.alive)), make([][]int64, len(sp.alive)), make([][]int, len(sp.alive))
	}
	for i, t := range sp.tables {
		if len(l.message[i]) != t.size {
			l.message[i] = make([]int64, t.size)
		}
	}
	for s := range sp.alive {
		if len(l.profit[s]) != len(sp.alive[s]) || len(l.best[s]) != sp.states[s] {
			l.profit[s], l.best[s], l.leads[s] = make([]int64, len(sp.alive[s])), make([]int64, sp.states[s]), make([]int, sp.states[s])
		}
		for k := range l.best[s] {
			l.best[s][k] = nothing
		}
		for i, k := range sp.alive[s] {
			v := l.worth(sp.m, s, k)
			l.profit[s][i] = v
			if st := sp.state[s][i]; v > l.best[s][st] {
				l.best[s][st], l.leads[s][st] = v, i
			}
		}
	}
}

// worth is the profit of an option.
func (l *line) worth(m *model, s, k int) int64 {
	o := &m.options[s][k]
	v := -l.cash*o.cash - l.purchase*o.purchases
	for _, a := range o.amounts {
		v += l.slope[a.Measure] * a.Steps
	}
	for _, f := range o.fees {
		v -= l.share[f*len(m.options)+s]
	}
	if o.shop >= 0 {
		v += l.listed[o.shop] * o.listed
	}
	for _, t := range o.coefs {
		v -= l.row[t.Slot] * t.Coef
	}
	return v
}

// support finds the highest point of every curve above its line over the range of the space.
func (l *line) support(sp *space) {
	m := sp.m
	l.fixed = 0
	for i := range m.p.Measures {
		x := &m.p.Measures[i]
		weight := l.benefit * x.Weight
		at := sp.high[i]
		for j, slope := range x.Curve.Slopes {
			if weight*slope <= l.slope[i] {
				at = x.Curve.Knots[j]
				if j == 0 {
					at = sp.low[i]
				}
				break
			}
		}
		at = min(max(at, sp.low[i]), sp.high[i])
		l.peakAt[i], l.peak[i] = at, weight*x.Curve.At(at)-l.slope[i]*at
		l.fixed += l.peak[i] + l.slope[i]*x.Base
	}
	for i := range m.rows {
		l.fixed += l.row[i] * m.rows[i].AtMost
	}
}

// maximise fills the message of a table.
func (l *line) maximise(t *table) {
	message, children := l.message[t.number], t.children
	var best []int64
	if t.lead {
		best = l.best[t.slot]
	}
	n := len(children)
	for out := range message {
		top := int64(nothing)
		for row := t.start[out]; row < t.start[out+1]; row++ {
			v := int64(0)
			if best != nil {
				v = best[t.rowState[row]]
			}
			for c, at := range t.rowChild[int(row)*n : int(row)*n+n] {
				v += l.message[children[c].number][at]
			}
			top = max(top, v)
		}
		message[out] = top
	}
}

// decode reads the choice (places in alive) that attains the bound; with tables that were split it is a guess, and may
// break relations. It is false where the guess cannot be completed.
func (l *line) decode(sp *space, places []int) bool {
	for _, s := range sp.order[:sp.fixed] {
		places[s] = 0
	}
	value, seen := make([]int64, 64), make([]int, 64)
	for i := sp.fixed; i < len(sp.order); i++ {
		s := sp.order[i]
		if n := sp.states[s]; n > len(value) {
			value, seen = make([]int64, n), make([]int, n)
		}
		clear(value)
		clear(seen)
		for _, t := range sp.at[i] {
			out, n := t.out(sp, places), len(t.children)
			for row := t.start[out]; row < t.start[out+1]; row++ {
				st := t.rowState[row]
				seen[st]++
				if t.lead {
					value[st] += l.best[s][st]
				}
				for c, at := range t.rowChild[int(row)*n : int(row)*n+n] {
					value[st] += l.message[t.children[c].number][at]
				}
			}
		}
		top := -1
		for st := range sp.states[s] {
			if seen[st] == 0 {
				continue
			}
			if top < 0 || seen[st] > seen[top] || seen[st] == seen[top] && value[st] > value[top] {
				top = st
			}
		}
		if top < 0 {
			return false
		}
		places[s] = l.leads[s][top]
	}
	return true
}

// out is the combination of the table's scope in the given places.
func (t *table) out(sp *space, places []int) int {
	at := 0
	for i, s := range t.scope {
		at += t.step[i][sp.state[s][places[s]]]
	}
	return at
}

// marginals bound, per slot and place in alive, every choice with that option. nothing means there is none.
func (l *line) marginals(sp *space) [][]int64 {
	down := make([][]int64, len(sp.tables))
	led, other := make([][]int64, len(sp.alive)), make([][]int64, len(sp.alive)) // by the leading table, by the others
	for s := range led {
		led[s], other[s] = make([]int64, sp.states[s]), make([]int64, sp.states[s])
		for k := range other[s] {
			other[s][k] = math.MaxInt64
		}
	}
	for i, t := range sp.tables {
		if t.parent == nil {
			down[i] = []int64{l.bound - l.message[i][0]}
		}
		top := l.spread(t, down, sp.states[t.slot])
		if t.lead {
			led[t.slot] = top
			continue
		}
		for st, v := range top {
			other[t.slot][st] = min(other[t.slot][st], v)
		}
	}
	marginal := make([][]int64, len(sp.alive))
	for s := range marginal {
		marginal[s] = make([]int64, len(sp.alive[s]))
		for i := range marginal[s] {
			st := sp.state[s][i]
			switch v := led[s][st]; {
			case sp.place[s] < sp.fixed:
				marginal[s][i] = l.bound
			case v <= nothing:
				marginal[s][i] = nothing
			default:
				marginal[s][i] = min(v-l.best[s][st]+l.profit[s][i], other[s][st])
			}
		}
	}
	return marginal
}

// spread hands the best surrounding of every row down to the table's children and returns the best row of every state.
func (l *line) spread(t *table, down [][]int64, states int) []int64 {
	n := len(t.children)
	for _, c := range t.children {
		down[c.number] = make([]int64, c.size)
		for at := range down[c.number] {
			down[c.number][at] = nothing
		}
	}
	top := make([]int64, states)
	for k := range top {
		top[k] = nothing
	}
	for out := range t.size {
		around := down[t.number][out]
		if around <= nothing {
			continue
		}
		for row := t.start[out]; row < t.start[out+1]; row++ {
			st := t.rowState[row]
			v := around
			if t.lead {
				v += l.best[t.slot][st]
			}
			children := t.rowChild[int(row)*n : int(row)*n+n]
			for c, at := range children {
				v += l.message[t.children[c].number][at]
			}
			for c, at := range children {
				child := t.children[c].number
				down[child][at] = max(down[child][at], v-l.message[child][at])
			}
			top[st] = max(top[st], v)
		}
	}
	return top
}

// curveAt is the measure's weighted value.
func curveAt(x *program.Measure, amount int64) int64 { return x.Weight * x.Curve.At(amount) }
