package builtin

import (
	"context"
	"math/bits"
	"slices"

	"firstbolt/solver/program"
)

// target is what a tree is searched for. It splits the choices looked for into at most 64 regions by cash, so that a
// bound that is useless in one of them can still cut off the others.
type target interface {
	regions() int
	window(region int) (low, high int64)
	need(region int, l *line) int64                                // the least that a line must promise for a choice of the region
	purchases() int64                                              // the most there may be
	offer(choice []int, e evaluation) (changed regions, done bool) // a choice found; the regions that ask for more now
}

// regions is a set of a target's regions.
type regions uint64

// tree is the depth-first search of one space. It keeps the state of the path from the root, and for every line the
// bound of all completions of that path.
type tree struct {
	ctx     context.Context
	m       *model
	sp      *space
	goal    target
	lines   []*line
	need    []int64   // per region and line
	high    []int64   // per region: most cash
	low     []int64   // per region: least cash
	message [][]int64 // per table: the lines' messages side by side
	profit  [][]int64 // per slot: of every place and line
	levels  []level

	choice    []int // per slot, options
	places    []int
	amounts   []int64
	listed    []int64 // per fee
	named     []int   // per fee: chosen options naming it
	claimed   []int64 // per fee and line: shares of the chosen options
	rows      []int64
	cash      int64 // options and fees that are certain
	purchases int64
	floors    []int64 // scratch: curve values at the low end, per measure
	peaks     []int64 // at the high end
	left      []int64 // scratch: corrected bounds, per line

	purchasesMost int64

	nodes   int
	limit   int // of nodes, 0 for none
	stopped bool
	done    bool
}

// level is what a place in the order knows about the places behind it, and room for its children.
type level struct {
	low, high []int64 // what the slots behind add to every measure at least and at most
	cash      int64   // the least they cost, without fees
	most      int64   // the most they cost, with every fee there is
	purchases int64
	rows      []int64 // the least they add
	listed    []int64 // per fee: the most they add
	share     []int64 // per fee and line: the shares of the users behind
	asked     []int   // fees with this level's slot among its users
	children  []child
	bounds    []int64 // per child and line
	base      []int64 // scratch: per state and line
	seen      []int
}

// child is an option of a level's slot that may still lead to the goal.
type child struct {
	place int
	slack int64
	at    int     // into bounds
	open  regions // that it may lead to
}

func newTree(ctx context.Context, sp *space, goal target, lines []*line) *tree {
	m := sp.m
	t := &tree{ctx: ctx, m: m, sp: sp, goal: goal, lines: lines, purchasesMost: goal.purchases()}
	n := len(lines)
	t.choice, t.places = make([]int, len(sp.alive)), make([]int, len(sp.alive))
	t.amounts, t.floors, t.peaks = make([]int64, len(m.p.Measures)), make([]int64, len(m.p.Measures)), make([]int64, len(m.p.Measures))
	t.listed, t.named, t.claimed = make([]int64, len(m.fees)), make([]int, len(m.fees)), make([]int64, len(m.fees)*n)
	t.left = make([]int64, n)
	t.rows = make([]int64, len(m.rows))
	for i, x := range m.p.Measures {
		t.amounts[i] = x.Base
	}
	for i, tb := range sp.tables {
		side := make([]int64, tb.size*n)
		for k, l := range lines {
			for at, v := range l.message[i] {
				side[at*n+k] = v
			}
		}
		t.message = append(t.message, side)
	}
	t.profit = make([][]int64, len(sp.alive))
	for s := range sp.alive {
		t.profit[s] = make([]int64, len(sp.alive[s])*n)
		for k, l := range lines {
			for i, v := range l.profit[s] {
				t.profit[s][i*n+k] = v
			}
		}
	}
	t.need = make([]int64, goal.regions()*n)
	for r := range goal.regions() {
		low, high := goal.window(r)
		t.low, t.high = append(t.low, low), append(t.high, high)
	}
	t.lay()
	return t
}

// lay fills the levels from the last to the first.
func (t *tree) lay() {
	n, m := len(t.lines), t.m
	t.levels = make([]level, len(t.sp.order)+1)
	after := &t.levels[len(t.sp.order)]
	*after = level{
		low: make([]int64, len(m.p.Measures)), high: make([]int64, len(m.p.Measures)), rows: make([]int64, len(m.rows)),
		listed: make([]int64, len(m.fees)), share: make([]int64, len(m.fees)*n),
	}
	for f := range m.fees {
		after.most += m.fees[f].cash
	}
	for i := len(t.sp.order) - 1; i >= 0; i-- {
		s, v := t.sp.order[i], &t.levels[i]
		low, high := t.sp.slotSpan(s)
		for j := range low {
			low[j], high[j] = low[j]+after.low[j], high[j]+after.high[j]
		}
		*v = level{
			low: low, high: high, cash: after.cash, most: after.most, purchases: after.purchases, rows: slices.Clone(after.rows),
			listed: slices.Clone(after.listed), share: slices.Clone(after.share),
			children: make([]child, 0, len(t.sp.alive[s])), bounds: make([]int64, len(t.sp.alive[s])*n),
			base: make([]int64, t.sp.states[s]*n), seen: make([]int, t.sp.states[s]),
		}
		t.sumUp(v, s)
		after = v
	}
}

// sumUp adds the living options of a slot to what its level knows.
func (t *tree) sumUp(v *level, s int) {
	n, m := len(t.lines), t.m
	first := &m.options[s][t.sp.alive[s][0]]
	cash, most, purchases := first.cash, first.cash, first.purchases
	listed, rows := make([]int64, len(m.fees)), make([]int64, len(m.rows))
	for j, k := range t.sp.alive[s] {
		o := &m.options[s][k]
		cash, most, purchases = min(cash, o.cash), max(most, o.cash), min(purchases, o.purchases)
		if o.shop >= 0 {
			listed[o.shop] = max(listed[o.shop], o.listed)
		}
		for r := range rows {
			c := coefOf(o, r)
			if j == 0 {
				rows[r] = c
			}
			rows[r] = min(rows[r], c)
		}
		for _, f := range o.fees {
			if !slices.Contains(v.asked, f) {
				v.asked = append(v.asked, f)
			}
		}
	}
	v.cash, v.most, v.purchases = v.cash+cash, v.most+most, v.purchases+purchases
	for f := range listed {
		v.listed[f] += listed[f]
	}
	for r := range rows {
		v.rows[r] += rows[r]
	}
	for _, f := range v.asked {
		for k, l := range t.lines {
			v.share[f*n+k] += l.share[f*len(m.options)+s]
		}
	}
}

// run searches the space for the given regions. It is false when a limit or the context stopped it.
func (t *tree) run(wanted regions) bool {
	t.renew(wanted)
	bound := make([]int64, len(t.lines))
	for k, l := range t.lines {
		bound[k] = l.bound
	}
	for i := range t.sp.fixed {
		t.surcharge(i, 0, bound)
		t.place(t.sp.order[i], 0, 1)
	}
	if _, open := t.slack(t.sp.fixed, bound, wanted); open != 0 {
		t.walk(t.sp.fixed, bound, open)
	}
	return !t.stopped
}

// renew asks the target what the lines must promise in some regions.
func (t *tree) renew(wanted regions) {
	n := len(t.lines)
	for ; wanted != 0; wanted &= wanted - 1 {
		r := bits.TrailingZeros64(uint64(wanted))
		for k, l := range t.lines {
			t.need[r*n+k] = t.goal.need(r, l)
		}
	}
}

// walk visits the completions of the path at a place in the order; bound is per line, open are the regions left.
func (t *tree) walk(i int, bound []int64, open regions) {
	if i == len(t.sp.order) {
		t.leaf()
		return
	}
	if t.nodes++; t.nodes&255 == 0 && t.ctx.Err() != nil || t.limit > 0 && t.nodes > t.limit {
		t.stopped = true
	}
	if t.stopped {
		return
	}
	v, s, n := &t.levels[i], t.sp.order[i], len(t.lines)
	t.expand(i, bound, open)
	slices.SortFunc(v.children, bySlack)
	for j := range v.children {
		c := v.children[j]
		next := v.bounds[c.at : c.at+n]
		if c.open = t.promising(next, c.open); c.open == 0 {
			continue
		}
		t.place(s, c.place, 1)
		t.walk(i+1, next, c.open)
		t.place(s, c.place, -1)
		if t.stopped || t.done {
			return
		}
	}
}

func bySlack(a, b child) int {
	switch {
	case a.slack > b.slack:
		return -1
	case a.slack < b.slack:
		return 1
	}
	return a.place - b.place
}

// promising are the regions that no line closes.
func (t *tree) promising(bound []int64, open regions) regions {
	n := len(bound)
	for rest := open; rest != 0; rest &= rest - 1 {
		r := bits.TrailingZeros64(uint64(rest))
		for k, need := range t.need[r*n : r*n+n] {
			if bound[k] < need {
				open &^= 1 << r
				break
			}
		}
	}
	return open
}

// expand lists the children of a level that no bound cuts off.
func (t *tree) expand(i int, bound []int64, open regions) {
	v, s, n := &t.levels[i], t.sp.order[i], len(t.lines)
	t.gather(i)
	v.children = v.children[:0]
	tables := len(t.sp.at[i])
	for place := range t.sp.alive[s] {
		st := t.sp.state[s][place]
		if v.seen[st] < tables {
			continue
		}
		at := place * n
		next, base, profit := v.bounds[at:at+n], v.base[st*n:st*n+n], t.profit[s][at:at+n]
		for k := range next {
			next[k] = bound[k] + base[k] + profit[k]
		}
		left := t.promising(next, open)
		if left == 0 {
			continue
		}
		t.surcharge(i, place, next)
		t.place(s, place, 1)
		slack, left := t.slack(i+1, next, left)
		t.place(s, place, -1)
		if left != 0 {
			v.children = append(v.children, child{place: place, slack: slack, at: at, open: left})
		}
	}
}

// gather sums, per state of the level's slot and line, the messages that the state settles, less the messages that
// promised the best of them.
func (t *tree) gather(i int) {
	v, n := &t.levels[i], len(t.lines)
	clear(v.base)
	clear(v.seen)
	for _, tb := range t.sp.at[i] {
		out, kids := tb.out(t.sp, t.places), len(tb.children)
		promised := t.message[tb.number][out*n : out*n+n]
		for row := tb.start[out]; row < tb.start[out+1]; row++ {
			st := int(tb.rowState[row])
			v.seen[st]++
			base := v.base[st*n : st*n+n]
			for k, p := range promised {
				base[k] -= p
			}
			for c, at := range tb.rowChild[int(row)*kids : int(row)*kids+kids] {
				from := t.message[tb.children[c].number][int(at)*n : int(at)*n+n]
				for k, p := range from {
					base[k] += p
				}
			}
		}
	}
}

// place puts an option into (sign 1) or takes it off (sign -1) the path.
func (t *tree) place(s, place, sign int) {
	k := t.sp.alive[s][place]
	o, x := &t.m.options[s][k], int64(sign)
	t.choice[s], t.places[s] = k, place
	t.cash += x * o.cash
	t.purchases += x * o.purchases
	for _, a := range o.amounts {
		t.amounts[a.Measure] += x * a.Steps
	}
	n := len(t.lines)
	for _, f := range o.fees {
		t.named[f] += sign
		if sign == 1 && t.named[f] == 1 || sign == -1 && t.named[f] == 0 {
			if t.m.fees[f].freeOver == program.NeverFree {
				t.cash += x * t.m.fees[f].cash
			}
		}
	}
	if o.shop >= 0 {
		t.listed[o.shop] += x * o.listed
		for k, l := range t.lines {
			t.claimed[o.shop*n+k] += x * l.share[o.shop*len(t.m.options)+s]
		}
	}
	for _, c := range o.coefs {
		t.rows[c.Slot] += x * c.Coef
	}
}

// leaf judges a complete choice.
func (t *tree) leaf() {
	for _, r := range t.sp.dropped {
		if !r.holds(t.choice) {
			return
		}
	}
	e, ok := t.m.evaluate(t.choice)
	if !ok {
		return
	}
	changed, done := t.goal.offer(t.choice, e)
	t.done = done
	t.renew(changed)
}
