package builtin

import (
	"slices"
)

// space is a part of the search: the living options of every slot, the order in which slots are decided, and the tables
// of the elimination in the opposite order. Slots with one option stand first and have no table.
type space struct {
	m         *model
	low, high []int64 // range of every measure's amount
	alive     [][]int
	relations []*relation // projected on the living options
	order     []int       // slots
	place     []int       // of a slot in the order
	fixed     int         // so many slots of the order have one option
	state     [][]int     // per slot and place in alive: options no relation tells apart share a state
	states    []int       // per slot
	tables    []*table    // parents before children
	at        [][]*table  // per place in the order
	dropped   []*relation // too large for a table: checked at the end only
}

// table is a bucket of the elimination, or a part of one that would be too large (a mini-bucket). It maximises its slot
// out of the sum of its children's messages (and of the slot's own profits, if it leads) for every combination of states
// of its scope that can be completed.
type table struct {
	slot     int
	lead     bool
	scope    []int   // slots decided before
	step     [][]int // per scope slot and state: what it adds to the index; states that nothing here tells apart add alike
	size     int
	parent   *table
	children []*table
	start    []int32 // rows of a scope combination: start[out] to start[out+1]
	rowState []int32
	rowChild []int32 // per row and child: the combination of the child's scope
	number   int
}

// newSpace projects the relations and groups the options into states; arrange must follow.
func newSpace(m *model, alive [][]int) *space {
	sp := &space{m: m, alive: clone(alive), state: make([][]int, len(alive)), states: make([]int, len(alive))}
	sp.spans()
	for i := range m.relations {
		if r := m.relations[i].project(alive); r != nil && len(r.slots) > 0 {
			sp.relations = append(sp.relations, r)
		}
	}
	of := make([][][]int, len(alive))
	for _, r := range sp.relations {
		for i, s := range r.slots {
			of[s] = append(of[s], r.class[i])
		}
	}
	for s := range alive {
		number := map[string]int{}
		key := []byte{}
		for _, k := range alive[s] {
			key = key[:0]
			for _, class := range of[s] {
				key = append(key, byte(class[k]), byte(class[k]>>8), byte(class[k]>>16))
			}
			n, known := number[string(key)]
			if !known {
				n = len(number)
				number[string(key)] = n
			}
			sp.state[s] = append(sp.state[s], n)
		}
		sp.states[s] = len(number)
	}
	return sp
}

// spans finds the range of every amount.
func (sp *space) spans() {
	n := len(sp.m.p.Measures)
	sp.low, sp.high = make([]int64, n), make([]int64, n)
	for i, x := range sp.m.p.Measures {
		sp.low[i], sp.high[i] = x.Base, x.Base
	}
	for s := range sp.alive {
		low, high := sp.slotSpan(s)
		for i := range low {
			sp.low[i], sp.high[i] = sp.low[i]+low[i], sp.high[i]+high[i]
		}
	}
}

// slotSpan is the range of what the living options of a slot add to every measure.
func (sp *space) slotSpan(s int) (low, high []int64) {
	n := len(sp.m.p.Measures)
	low, high = make([]int64, n), make([]int64, n)
	sum := make([]int64, n)
	for j, k := range sp.alive[s] {
		clear(sum)
		for _, a := range sp.m.options[s][k].amounts {
			sum[a.Measure] += a.Steps
		}
		for i, v := range sum {
			if j == 0 {
				low[i], high[i] = v, v
			}
			low[i], high[i] = min(low[i], v), max(high[i], v)
		}
	}
	return low, high
}

// stateClass is the class of every state of the slot at place i of the relation.
func (sp *space) stateClass(r *relation, i int) []int {
	s := r.slots[i]
	class := make([]int, sp.states[s])
	for k, option := range sp.alive[s] {
		class[sp.state[s][k]] = r.class[i][option]
	}
	return class
}

// function is what a table is built from: a relation or a child's message.
type function struct {
	relation *relation
	child    *table
	slots    []int
	stride   [][]int // per slot and state: what it adds to the index
}

// arrange fixes the order of decisions and builds the tables, none of them with more than most combinations.
func (sp *space) arrange(free []int, most int) {
	sp.order, sp.place = sp.order[:0], make([]int, len(sp.alive))
	for s := range sp.alive {
		if len(sp.alive[s]) == 1 {
			sp.order = append(sp.order, s)
		}
	}
	sp.fixed = len(sp.order)
	sp.order = append(sp.order, free...)
	for i, s := range sp.order {
		sp.place[s] = i
	}
	sp.at, sp.tables, sp.dropped = make([][]*table, len(sp.order)), nil, nil
	waiting := make([][]function, len(sp.order))
	for _, r := range sp.relations {
		if len(r.allowed) > most {
			sp.dropped = append(sp.dropped, r)
			continue
		}
		f := sp.ofRelation(r)
		last := sp.last(f.slots)
		waiting[last] = append(waiting[last], f)
	}
	for i := len(sp.order) - 1; i >= sp.fixed; i-- {
		for g, group := range sp.partition(sp.order[i], waiting[i], most) {
			t := sp.build(sp.order[i], group)
			t.lead = g == 0
			sp.at[i] = append(sp.at[i], t)
			sp.tables = append(sp.tables, t)
			if len(t.scope) > 0 {
				last := sp.last(t.scope)
				waiting[last] = append(waiting[last], ofChild(t))
			}
		}
	}
	slices.Reverse(sp.tables)
	for i, t := range sp.tables {
		t.number = i
	}
}

func (sp *space) last(slots []int) int {
	last := 0
	for _, s := range slots {
		last = max(last, sp.place[s])
	}
	return last
}

func (sp *space) ofRelation(r *relation) function {
	f := function{relation: r, slots: r.slots, stride: make([][]int, len(r.slots))}
	step := 1
	for i := len(r.slots) - 1; i >= 0; i-- {
		f.stride[i] = sp.stateClass(r, i)
		for k := range f.stride[i] {
			f.stride[i][k] *= step
		}
		step *= r.count[i]
	}
	return f
}

func ofChild(t *table) function {
	return function{child: t, slots: t.scope, stride: t.step}
}

// partition groups the functions of a slot so that no group spans more combinations than most; there is at least one
// group. Larger functions come first.
func (sp *space) partition(slot int, functions []function, most int) [][]function {
	slices.SortStableFunc(functions, func(a, b function) int { return len(b.slots) - len(a.slots) })
	groups := [][]function{nil}
	for _, f := range functions {
		placed := false
		for g := range groups {
			if with := append(slices.Clone(groups[g]), f); sp.span(slot, with) <= most {
				groups[g], placed = with, true
				break
			}
		}
		if !placed {
			groups = append(groups, []function{f})
		}
	}
	return groups
}

// span is how many rows a table of the functions would be tried for.
func (sp *space) span(slot int, functions []function) int {
	scope := []int{slot}
	for _, f := range functions {
		scope = union(scope, f.slots)
	}
	size := sp.states[slot]
	for _, s := range scope[1:] {
		_, classes := sp.classes(s, functions)
		if size *= len(classes); size > 1<<40 {
			break
		}
	}
	return size
}

// classes groups the states of a slot that the functions do not tell apart: the class of every state, and per class
// what it adds to each function's index.
func (sp *space) classes(s int, functions []function) (class []int, steps [][]int) {
	class = make([]int, sp.states[s])
	at := make([]int, len(functions))
	for i, f := range functions {
		at[i] = slices.Index(f.slots, s)
	}
	for k := range class {
		step := make([]int, len(functions))
		for i, f := range functions {
			if at[i] >= 0 {
				step[i] = f.stride[at[i]][k]
			}
		}
		c := slices.IndexFunc(steps, func(other []int) bool { return slices.Equal(other, step) })
		if c < 0 {
			c = len(steps)
			steps = append(steps, step)
		}
		class[k] = c
	}
	return class, steps
}

func union(a, b []int) []int {
	c := slices.Clone(a)
	for _, s := range b {
		if !slices.Contains(c, s) {
			c = append(c, s)
		}
	}
	return c
}

// build lists the rows of a table: for every combination of the scope, the states of the slot that all functions allow.
func (sp *space) build(slot int, functions []function) *table {
	t := &table{slot: slot, size: 1}
	for _, f := range functions {
		t.scope = union(t.scope, f.slots)
		if f.child != nil {
			f.child.parent = t
			t.children = append(t.children, f.child)
		}
	}
	t.scope = slices.DeleteFunc(t.scope, func(s int) bool { return s == slot })
	slices.SortFunc(t.scope, func(a, b int) int { return sp.place[a] - sp.place[b] })
	w := &writer{t: t, states: sp.states[slot], functions: functions, own: make([][]int, len(functions)), index: make([]int, len(functions))}
	for i, f := range functions {
		w.own[i] = f.stride[slices.Index(f.slots, slot)]
	}
	w.steps, t.step = make([][][]int, len(t.scope)), make([][]int, len(t.scope))
	for j := len(t.scope) - 1; j >= 0; j-- {
		t.step[j], w.steps[j] = sp.classes(t.scope[j], functions)
		for k := range t.step[j] {
			t.step[j][k] *= t.size
		}
		t.size *= len(w.steps[j])
	}
	w.scope(0)
	t.start = append(t.start, int32(len(t.rowState)))
	return t
}

// writer walks the combinations of a table's scope in order and writes the rows.
type writer struct {
	t         *table
	states    int // of the slot
	functions []function
	own       [][]int   // per function: what a state of the slot adds to its index
	steps     [][][]int // per scope slot, class and function: what it adds
	index     []int     // per function: the index without the slot
}

func (w *writer) scope(depth int) {
	if depth == len(w.t.scope) {
		w.rows()
		return
	}
	for _, step := range w.steps[depth] {
		for i := range step {
			w.index[i] += step[i]
		}
		w.scope(depth + 1)
		for i := range step {
			w.index[i] -= step[i]
		}
	}
}

func (w *writer) rows() {
	t := w.t
	t.start = append(t.start, int32(len(t.rowState)))
	for k := range w.states {
		before := len(t.rowChild)
		ok := true
		for i := range w.functions {
			at := w.index[i] + w.own[i][k]
			if child := w.functions[i].child; child != nil {
				ok = child.start[at+1] > child.start[at]
				t.rowChild = append(t.rowChild, int32(at))
			} else {
				ok = w.functions[i].relation.allowed[at]
			}
			if !ok {
				break
			}
		}
		if !ok {
			t.rowChild = t.rowChild[:before]
			continue
		}
		t.rowState = append(t.rowState, int32(k))
	}
}
