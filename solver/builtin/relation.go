package builtin

import "slices"

// relation is a program.Relation that may also have one slot or none.
type relation struct {
	slots   []int
	class   [][]int
	count   []int
	allowed []bool
}

// each visits every allowed combination of classes.
func (r *relation) each(visit func(classes []int)) {
	classes := make([]int, len(r.slots))
	for at := range r.allowed {
		if r.allowed[at] {
			visit(classes)
		}
		for i := len(classes) - 1; i >= 0; i-- {
			if classes[i]++; classes[i] < r.count[i] {
				break
			}
			classes[i] = 0
		}
	}
}

// revise drops options that stand in no allowed combination of living options; it tells whether any was dropped.
func (r *relation) revise(alive [][]int) bool {
	lives, held := r.living(alive), make([][]bool, len(r.slots))
	for i := range held {
		held[i] = make([]bool, r.count[i])
	}
	none := true
	r.each(func(classes []int) {
		for i, c := range classes {
			if !lives[i][c] {
				return
			}
		}
		none = false
		for i, c := range classes {
			held[i][c] = true
		}
	})
	changed := false
	for i, s := range r.slots {
		before := len(alive[s])
		alive[s] = slices.DeleteFunc(alive[s], func(k int) bool { return !held[i][r.class[i][k]] })
		changed = changed || len(alive[s]) < before
	}
	if none && len(r.slots) == 0 && len(alive) > 0 {
		changed = changed || len(alive[0]) > 0
		alive[0] = nil // a row without terms that cannot hold
	}
	return changed
}

func (r *relation) living(alive [][]int) [][]bool {
	lives := make([][]bool, len(r.slots))
	for i, s := range r.slots {
		lives[i] = make([]bool, r.count[i])
		for _, k := range alive[s] {
			lives[i][r.class[i][k]] = true
		}
	}
	return lives
}

// project restates the relation for the living options: classes that no living partner tells apart become one, slots
// left with one class go. It is nil when nothing is forbidden any more.
func (r *relation) project(alive [][]int) *relation {
	q := *r
	q.slots, q.class, q.count = slices.Clone(r.slots), slices.Clone(r.class), slices.Clone(r.count)
	for range 2 { // the second time without the classes that the first one dropped
		for i := range q.slots {
			q.merge(i, alive)
		}
	}
	if !slices.Contains(q.allowed, false) {
		return nil
	}
	keep := relation{allowed: q.allowed}
	for i, s := range q.slots {
		if q.count[i] > 1 {
			keep.slots, keep.class, keep.count = append(keep.slots, s), append(keep.class, q.class[i]), append(keep.count, q.count[i])
		}
	}
	return &keep
}

// merge renumbers the classes of the slot at place i: dead ones go, equal ones become one.
func (r *relation) merge(i int, alive [][]int) {
	lives := r.living(alive)
	inner := product(r.count[i+1:])
	outer := product(r.count[:i])
	number, sample := map[string]int{}, []int{}
	class := make([]int, r.count[i])
	text := make([]byte, 0, inner*outer)
	for c := range r.count[i] {
		if !lives[i][c] {
			continue
		}
		text = text[:0]
		for o := range outer {
			for _, ok := range r.allowed[(o*r.count[i]+c)*inner : (o*r.count[i]+c+1)*inner] {
				text = append(text, bit(ok))
			}
		}
		n, known := number[string(text)]
		if !known {
			n = len(sample)
			number[string(text)] = n
			sample = append(sample, c)
		}
		class[c] = n
	}
	allowed := make([]bool, 0, outer*len(sample)*inner)
	for o := range outer {
		for _, c := range sample {
			allowed = append(allowed, r.allowed[(o*r.count[i]+c)*inner:(o*r.count[i]+c+1)*inner]...)
		}
	}
	of := make([]int, len(r.class[i]))
	for k, c := range r.class[i] {
		of[k] = class[c]
	}
	r.class[i], r.count[i], r.allowed = of, len(sample), allowed
}

func bit(b bool) byte {
	if b {
		return 1
	}
	return 0
}

// covers tells whether option a may stand wherever option b may, at place i of the relation.
func (r *relation) covers(i, a, b int) bool {
	ca, cb := r.class[i][a], r.class[i][b]
	if ca == cb {
		return true
	}
	inner, n := product(r.count[i+1:]), r.count[i]
	for from := 0; from < len(r.allowed); from += n * inner {
		for x := range inner {
			if r.allowed[from+cb*inner+x] && !r.allowed[from+ca*inner+x] {
				return false
			}
		}
	}
	return true
}
