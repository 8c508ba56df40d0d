package builtin

import (
	"math"
	"math/rand/v2"
	"slices"
)

// orderer looks for an order of decisions: slots with few promising options first (fail first), so that the tree stays
// narrow near its root, as far as the tables of the elimination stay small.
type orderer struct {
	sp     *space
	weight []float64 // per slot: logarithm of its promising options
	near   []set     // per slot: slots it shares a relation with
	size   []float64 // per slot: logarithm of its states
	most   float64   // logarithm of a table's size
	link   []set     // scratch
}

// set is a set of slots.
type set []uint64

func (s set) add(i int)      { s[i>>6] |= 1 << (i & 63) }
func (s set) remove(i int)   { s[i>>6] &^= 1 << (i & 63) }
func (s set) has(i int) bool { return s[i>>6]>>(i&63)&1 == 1 }
func (s set) join(t set) {
	for i := range s {
		s[i] |= t[i]
	}
}

// free are the slots with more than one option in an order for arrange. promise is, per slot, about how many of its
// options are promising.
func (sp *space) free(promise []float64, most, rounds int) []int {
	slots := []int{}
	for s := range sp.alive {
		if len(sp.alive[s]) > 1 {
			slots = append(slots, s)
		}
	}
	o := &orderer{sp: sp, most: math.Log(float64(most)), size: make([]float64, len(sp.alive)), weight: make([]float64, len(sp.alive))}
	for s := range sp.alive {
		o.size[s], o.weight[s] = math.Log(float64(sp.states[s])), math.Log(math.Max(promise[s], 1))
	}
	o.near, o.link = o.sets(), o.sets()
	for _, r := range sp.relations {
		for _, s := range r.slots {
			for _, t := range r.slots {
				if s != t {
					o.near[s].add(t)
				}
			}
		}
	}
	slices.SortStableFunc(slots, func(a, b int) int {
		switch {
		case o.weight[a] < o.weight[b]:
			return -1
		case o.weight[a] > o.weight[b]:
			return 1
		}
		return 0
	})
	narrow := o.narrow(slots)
	if o.cost(narrow) < o.cost(slots) {
		slots = narrow
	}
	return o.refine(slots, rounds)
}

func (o *orderer) sets() []set {
	sets := make([]set, len(o.sp.alive))
	for s := range sets {
		sets[s] = make(set, (len(sets)+63)/64)
	}
	return sets
}

// cost is the area under the logarithm of the tree's width, plus a toll on tables above the size allowed.
func (o *orderer) cost(order []int) float64 {
	area, width := 0.0, 0.0
	for _, s := range order {
		width += o.weight[s]
		area += width
	}
	for s := range o.link {
		copy(o.link[s], o.near[s])
	}
	for i := len(order) - 1; i >= 0; i-- {
		s := order[i]
		size := o.size[s]
		last := -1
		for j := i - 1; j >= 0; j-- {
			if t := order[j]; o.link[s].has(t) {
				size += o.size[t]
				last = max(last, j)
			}
		}
		if size > o.most {
			area += 6 * (size - o.most)
		}
		area += math.Exp(size-o.most) / 2
		if last >= 0 {
			o.link[order[last]].join(o.link[s])
		}
	}
	return area
}

// narrow orders by elimination: the slot with the smallest table goes last.
func (o *orderer) narrow(slots []int) []int {
	for s := range o.link {
		copy(o.link[s], o.near[s])
	}
	left := slices.Clone(slots)
	order := make([]int, len(slots))
	for i := len(order) - 1; i >= 0; i-- {
		best, least := 0, math.Inf(1)
		for j, s := range left {
			size := o.size[s]
			for _, t := range left {
				if t != s && o.link[s].has(t) {
					size += o.size[t]
				}
			}
			if size-o.weight[s] < least {
				best, least = j, size-o.weight[s]
			}
		}
		s := left[best]
		order[i], left = s, slices.Delete(left, best, best+1)
		for _, t := range left {
			if o.link[s].has(t) {
				o.link[t].join(o.link[s])
				o.link[t].remove(t)
			}
		}
	}
	return order
}

// refine moves single slots while that lowers the cost; the moves are drawn with a fixed seed.
func (o *orderer) refine(order []int, rounds int) []int {
	if len(order) < 3 {
		return order
	}
	r := rand.New(rand.NewPCG(7, 11))
	cost := o.cost(order)
	trial := make([]int, len(order))
	for range rounds {
		from, to := r.IntN(len(order)), r.IntN(len(order))
		if from == to {
			continue
		}
		copy(trial, order)
		s := trial[from]
		if from < to {
			copy(trial[from:to], trial[from+1:to+1])
		} else {
			copy(trial[to+1:from+1], trial[to:from])
		}
		trial[to] = s
		if c := o.cost(trial); c <= cost {
			cost = c
			copy(order, trial)
		}
	}
	return order
}
