package builtin

import (
	"math"
	"math/bits"

	"firstbolt/solver/program"
)

// surcharge lowers the bounds by what fees without a threshold cost beyond the shares claimed for them, when the option
// at a place of a level's slot comes on the path. A fee that is paid costs its whole sum, less the shares of chosen
// options and of all users still to come.
func (t *tree) surcharge(i, place int, bound []int64) {
	s, n := t.sp.order[i], len(t.lines)
	o := &t.m.options[s][t.sp.alive[s][place]]
	behind := &t.levels[i+1]
	for _, f := range t.levels[i].asked {
		fee := &t.m.fees[f]
		if fee.freeOver != program.NeverFree {
			continue
		}
		names := false
		for _, g := range o.fees {
			names = names || g == f
		}
		at := f*len(t.m.options) + s
		switch {
		case names && t.named[f] == 0:
			for k, l := range t.lines {
				bound[k] -= l.cash*fee.cash - l.share[at] - behind.share[f*n+k]
			}
		case !names && t.named[f] > 0:
			for k, l := range t.lines {
				bound[k] -= l.share[at]
			}
		}
	}
}

// slack is how much the path could still lose in the best of its regions, and the regions it may still lead to. i is the
// place in the order of the next slot.
func (t *tree) slack(i int, bound []int64, open regions) (int64, regions) {
	v := &t.levels[i]
	if t.purchases+v.purchases > t.purchasesMost {
		return 0, 0
	}
	for r := range t.rows {
		if t.rows[r]+v.rows[r] > t.m.rows[r].AtMost {
			return 0, 0
		}
	}
	if open = t.within(i, open); open == 0 {
		return 0, 0
	}
	for j := range t.amounts {
		x := &t.m.p.Measures[j]
		low, high := t.amounts[j]+v.low[j], t.amounts[j]+v.high[j]
		t.floors[j] = curveAt(x, low)
		t.peaks[j] = t.floors[j]
		if high != low {
			t.peaks[j] = curveAt(x, high)
		}
	}
	n := len(t.lines)
	for k, l := range t.lines {
		left := bound[k] - t.correct(i, k, l)
		t.left[k] = left
		for rest := open; rest != 0; rest &= rest - 1 {
			if r := bits.TrailingZeros64(uint64(rest)); left < t.need[r*n+k] {
				open &^= 1 << r
			}
		}
		if open == 0 {
			return 0, 0
		}
	}
	return t.room(open), open
}

// within are the regions whose cash the path can still reach.
func (t *tree) within(i int, open regions) regions {
	least, most := t.cash+t.levels[i].cash, t.cash+t.levels[i].most
	for rest := open; rest != 0; rest &= rest - 1 {
		if r := bits.TrailingZeros64(uint64(rest)); least > t.high[r] || most < t.low[r] {
			open &^= 1 << r
		}
	}
	return open
}

// room is the largest of the regions' least margins.
func (t *tree) room(open regions) int64 {
	n, top := len(t.lines), int64(0)
	for rest := open; rest != 0; rest &= rest - 1 {
		r := bits.TrailingZeros64(uint64(rest))
		least := int64(math.MaxInt64)
		for k, need := range t.need[r*n : r*n+n] {
			least = min(least, t.left[k]-need)
		}
		top = max(top, least)
	}
	return top
}

// correct is what a line's bound promises too much at a path: curves whose highest point over the line lies outside the
// range still reachable, and shipping whose threshold is out of reach or passed.
func (t *tree) correct(i, k int, l *line) int64 {
	v, sum := &t.levels[i], int64(0)
	for j, at := range l.peakAt {
		if low := t.amounts[j] + v.low[j]; at < low {
			sum += l.peak[j] - l.benefit*t.floors[j] + l.slope[j]*low
		} else if high := t.amounts[j] + v.high[j]; at > high {
			sum += l.peak[j] - l.benefit*t.peaks[j] + l.slope[j]*high
		}
	}
	n := len(t.lines)
	for f := range t.m.fees {
		fee := &t.m.fees[f]
		if fee.freeOver == program.NeverFree || t.named[f] == 0 {
			continue
		}
		claim := t.claimed[f*n+k] + v.share[f*n+k]
		more := int64(math.MaxInt64)
		if t.listed[f] < fee.freeOver {
			more = l.cash*fee.cash - claim + l.listed[f]*t.listed[f]
		}
		if t.listed[f]+v.listed[f] >= fee.freeOver {
			more = min(more, l.listed[f]*max(t.listed[f], fee.freeOver)-claim)
		}
		sum += max(more, 0)
	}
	return sum
}

// evaluate reckons a choice as Program.Evaluate does; it is false when a row is broken.
func (m *model) evaluate(choice []int) (evaluation, bool) {
	e := evaluation{}
	amounts := make([]int64, len(m.p.Measures))
	named, listed := make([]bool, len(m.fees)), make([]int64, len(m.fees))
	rows := make([]int64, len(m.rows))
	for s, k := range choice {
		o := &m.options[s][k]
		e.cash += o.cash
		e.purchases += o.purchases
		for _, a := range o.amounts {
			amounts[a.Measure] += a.Steps
		}
		for _, f := range o.fees {
			named[f] = true
		}
		if o.shop >= 0 {
			listed[o.shop] += o.listed
		}
		for _, c := range o.coefs {
			rows[c.Slot] += c.Coef
		}
	}
	for f := range m.fees {
		if named[f] && (m.fees[f].freeOver == program.NeverFree || listed[f] < m.fees[f].freeOver) {
			e.cash += m.fees[f].cash
		}
	}
	for i := range m.p.Measures {
		x := &m.p.Measures[i]
		e.benefit += curveAt(x, x.Base+amounts[i])
	}
	for r := range m.rows {
		if rows[r] > m.rows[r].AtMost {
			return e, false
		}
	}
	return e, true
}

// judge is evaluate for a choice that may also break relations.
func (m *model) judge(choice []int) (evaluation, bool) {
	for i := range m.relations {
		if !m.relations[i].holds(choice) {
			return evaluation{}, false
		}
	}
	return m.evaluate(choice)
}

// holds tells whether the choice meets the relation.
func (r *relation) holds(choice []int) bool {
	at := 0
	for i, s := range r.slots {
		at = at*r.count[i] + r.class[i][choice[s]]
	}
	return r.allowed[at]
}
