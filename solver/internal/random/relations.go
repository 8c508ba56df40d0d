package random

import (
	"fmt"

	"firstbolt/solver/program"
)

// kits adds sets: one more option in each of two to four neighbouring slots, tied along them; the price stands on the
// first.
func (d *draw) kits() {
	ties := [][2]int{}
	for n := 1; n <= d.Kits && d.Slots > 1; n++ {
		length := min(2+d.r.IntN(3), d.Slots)
		first := d.r.IntN(d.Slots - length + 1)
		measures := d.r.Perm(max(d.Measures, 1))[:min(d.Measures, 3)]
		for i := range length {
			s := &d.p.Slots[first+i]
			o := d.part(len(s.Options), 6000*int64(length), measures)
			o.Name = fmt.Sprintf("kit %d", n)
			if i > 0 {
				o = program.Option{Name: o.Name, Shop: program.NoShop}
			}
			s.Options = append(s.Options, o)
			if i > 0 {
				ties = append(ties, [2]int{n, first + i - 1})
			}
		}
	}
	for _, t := range ties {
		d.tie(t[0], t[1])
	}
}

// tie makes the kit stand in slot s exactly when it stands in s+1.
func (d *draw) tie(kit, s int) {
	r := program.Relation{Name: fmt.Sprintf("kit %d", kit), Slots: []int{s, s + 1}, Count: []int{2, 2}, Allowed: []bool{true, false, false, true}}
	for _, t := range r.Slots {
		class := make([]int, len(d.p.Slots[t].Options))
		for k, o := range d.p.Slots[t].Options {
			if o.Name == r.Name {
				class[k] = 1
			}
		}
		r.Class = append(r.Class, class)
	}
	d.p.Relations = append(d.p.Relations, r)
}

// adapter draws a slot with adapters and its relation: two partners agree, or an adapter bridges their pair of classes.
func (d *draw) adapter(i int) {
	s := program.Slot{Name: fmt.Sprintf("adapter slot %d", i), Options: []program.Option{{Name: "none", Shop: program.NoShop}}}
	count := 1 + d.r.IntN(3)
	for k := 1; k <= count; k++ {
		price := int64(150 + d.r.IntN(1500))
		s.Options = append(s.Options, program.Option{Name: fmt.Sprintf("adapter %d", k), Cash: price, Listed: price, Shop: d.r.IntN(d.Shops+1) - 1, Purchases: 1})
	}
	d.p.Slots = append(d.p.Slots, s)
	left, right := d.near(d.Slots)
	r := program.Relation{Name: fmt.Sprintf("adapter %d", i), Slots: []int{left, right, len(d.p.Slots) - 1}, Count: []int{d.Classes, d.Classes, count + 1}}
	r.Class = [][]int{d.classes(left, d.Classes), d.classes(right, d.Classes), make([]int, count+1)}
	for k := range r.Class[2] {
		r.Class[2][k] = k
	}
	for a := range d.Classes {
		for b := range d.Classes {
			for k := range count + 1 {
				r.Allowed = append(r.Allowed, a == b || k > 0 && d.r.IntN(3) == 0)
			}
		}
	}
	d.p.Relations = append(d.p.Relations, r)
}

// unknown draws a slot with the values of a fact and relations to one or two part slots.
func (d *draw) unknown(i int) {
	s := program.Slot{Name: fmt.Sprintf("unknown fact %d", i)}
	values := 2 + d.r.IntN(3)
	for k := range values {
		s.Options = append(s.Options, program.Option{Name: fmt.Sprintf("value %d", k), Shop: program.NoShop})
	}
	d.p.Slots = append(d.p.Slots, s)
	for range 1 + d.r.IntN(2) {
		part := d.r.IntN(d.Slots)
		r := program.Relation{Name: s.Name, Slots: []int{part, len(d.p.Slots) - 1}, Count: []int{d.Classes, values}}
		r.Class = [][]int{d.classes(part, d.Classes), make([]int, values)}
		for k := range values {
			r.Class[1][k] = k
		}
		for c := range d.Classes {
			for k := range values {
				r.Allowed = append(r.Allowed, c == 0 || (c+k)%2 == 0)
			}
		}
		d.p.Relations = append(d.p.Relations, r)
	}
}

// relation ties slots that stand near each other: equal classes, at most, or a table.
func (d *draw) relation(arity int) {
	if len(d.p.Slots) < arity {
		return
	}
	r := program.Relation{Name: fmt.Sprintf("relation %d", len(d.p.Relations)), Slots: d.neighbours(arity)}
	size := 1
	for _, s := range r.Slots {
		r.Class, r.Count = append(r.Class, d.classes(s, d.Classes)), append(r.Count, d.Classes)
		size *= d.Classes
	}
	form := d.r.IntN(3)
	for at := range size {
		first, last, sum := at*d.Classes/size, at%d.Classes, 0
		for rest := at; rest > 0; rest /= d.Classes {
			sum += rest % d.Classes
		}
		allowed := [...]bool{first == last, first <= last || sum%2 == 0, d.r.IntN(3) > 0}[form]
		r.Allowed = append(r.Allowed, allowed || at == 0 && !d.Wild)
	}
	d.p.Relations = append(d.p.Relations, r)
}

// classes draws the interface of every option of a slot; 0 is the standard, and what is fitted has it.
func (d *draw) classes(slot, count int) []int {
	class := make([]int, len(d.p.Slots[slot].Options))
	for k := range class {
		if (k > 0 || d.Wild) && d.r.Float64() < d.Tight {
			class[k] = d.r.IntN(count)
		}
	}
	return class
}

func (d *draw) near(slots int) (int, int) {
	if slots < 2 {
		return 0, 1
	}
	a := d.r.IntN(slots - 1)
	return a, min(slots-1, a+1+d.r.IntN(d.Reach))
}

// neighbours are so many different slots within reach of each other.
func (d *draw) neighbours(arity int) []int {
	width := min(len(d.p.Slots), max(d.Reach+1, arity))
	first := d.r.IntN(len(d.p.Slots) - width + 1)
	slots := d.r.Perm(width)[:arity]
	for i := range slots {
		slots[i] += first
	}
	return slots
}

// row caps how many of some options are chosen, over up to eight slots or, in a wild program, over most of them.
func (d *draw) row() {
	r := program.Row{Name: fmt.Sprintf("row %d", len(d.p.Rows)), AtMost: int64(1 + d.r.IntN(3))}
	for _, s := range d.r.Perm(len(d.p.Slots)) {
		n := len(d.p.Slots[s].Options)
		if n < 2 || d.r.IntN(3) == 0 || !d.Wild && len(r.Terms) == 8 {
			continue
		}
		t := program.Term{Slot: s, Option: 1 + d.r.IntN(n-1), Coef: 1}
		if d.Wild {
			t.Coef = int64(d.r.IntN(7) - 3)
		}
		r.Terms = append(r.Terms, t)
	}
	if d.Wild {
		r.AtMost = int64(d.r.IntN(5) - 2)
	}
	d.p.Rows = append(d.p.Rows, r)
}
