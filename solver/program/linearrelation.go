package program

import "slices"

// relation writes a relation as rows. Over two slots s and t: where a class of s is chosen, so is an option of t that
// agrees with it, and the other way round. Over n slots: for each combination of classes of all slots but the last,
//
//	sum of the chosen classes <= n-2 + sum of the options of the last slot that are allowed with this combination.
//
// So an option of the last slot (an adapter, say) serves only the very combinations it is allowed with. Classes of the
// last but one slot that allow the same options of the last one share a row, which is sharper.
func (b *linearizer) relation(r *Relation) {
	order := make([]int, len(r.Slots))
	for i := range order {
		order[i] = i
	}
	b.clauses(r, order)
	if len(order) == 2 {
		b.clauses(r, []int{1, 0})
	}
}

// clauses writes the rows of a relation whose slots are taken in the given order.
func (b *linearizer) clauses(r *Relation, order []int) {
	n := len(order)
	grouping, last := order[n-2], order[n-1]
	classes := make([]int, n)
	for {
		groups, masks := b.groups(r, classes, grouping, last)
		for g, group := range groups {
			entries := b.options(r, grouping, group)
			for _, i := range order[:n-2] {
				entries = append(entries, b.options(r, i, []int{classes[i]})...)
			}
			for _, e := range b.options(r, last, masks[g]) {
				entries = append(entries, Entry{e.Column, -1})
			}
			b.atMost([]string{"rel", r.Name}, entries, int64(n-2))
		}
		if !r.next(classes, order[:n-2]) {
			return
		}
	}
}

// groups puts the classes of the grouping slot together that allow the same classes of the last slot, the other
// classes being given. It returns the groups and what each of them allows.
func (b *linearizer) groups(r *Relation, classes []int, grouping, last int) (groups, allowed [][]int) {
	at := slices.Clone(classes)
	for c := range r.Count[grouping] {
		at[grouping] = c
		var mask []int
		for d := range r.Count[last] {
			at[last] = d
			if r.Allows(at) {
				mask = append(mask, d)
			}
		}
		g := slices.IndexFunc(allowed, func(other []int) bool { return slices.Equal(other, mask) })
		if g < 0 {
			groups, allowed = append(groups, nil), append(allowed, mask)
			g = len(groups) - 1
		}
		groups[g] = append(groups[g], c)
	}
	return groups, allowed
}

// options are the columns of the options in the given classes of the relation's i-th slot.
func (b *linearizer) options(r *Relation, i int, classes []int) []Entry {
	var entries []Entry
	for k, column := range b.linear.choice[r.Slots[i]] {
		if slices.Contains(classes, r.Class[i][k]) {
			entries = append(entries, Entry{column, 1})
		}
	}
	return entries
}

// next goes to the next combination of classes of the slots at the given places, false after the last one.
func (r *Relation) next(classes, places []int) bool {
	for _, i := range slices.Backward(places) {
		classes[i]++
		if classes[i] < r.Count[i] {
			return true
		}
		classes[i] = 0
	}
	return false
}
