package program

import (
	"fmt"
	"slices"
)

// linearizer builds a Linear from a Program, part by part in the order of the package comment.
type linearizer struct {
	program *Program
	linear  *Linear
	names   naming
}

func (b *linearizer) column(c Column, slot int) int {
	l := b.linear
	l.Columns = append(l.Columns, c)
	l.owner = append(l.owner, slot)
	return len(l.Columns) - 1
}

func (b *linearizer) binary(words ...string) int {
	return b.column(Column{Name: b.names.name(words...), Binary: true, Upper: 1}, noSlot)
}

// slots gives every option its column and every slot the row that exactly one option is chosen.
func (b *linearizer) slots() {
	l := b.linear
	for s, slot := range b.program.Slots {
		columns := make([]int, len(slot.Options))
		entries := make([]Entry, len(slot.Options))
		for k, option := range slot.Options {
			columns[k] = b.column(Column{Name: b.names.name("y", slot.Name, option.Name), Binary: true, Upper: 1}, s)
			entries[k] = Entry{columns[k], 1}
		}
		l.choice = append(l.choice, columns)
		l.Rows = append(l.Rows, LinearRow{Name: b.names.name("one", slot.Name), Entries: entries, Equal: true, Right: 1})
	}
}

// atMost adds the row that the entries sum to at most right. A row that always holds is left out; one that never can
// becomes a contradiction. In a row of binaries alone the left side is a multiple of the greatest common divisor, so
// the right side may be rounded down to one.
func (b *linearizer) atMost(name []string, entries []Entry, right int64) {
	l := b.linear
	entries = merged(entries)
	low, high := l.Range(entries)
	if high <= right {
		return
	}
	if low > right {
		never := b.binary("impossible")
		l.Rows = append(l.Rows, LinearRow{Name: b.names.name(name...), Entries: []Entry{{never, 1}}, Right: -1})
		return
	}
	divisor, whole := int64(0), true
	for _, e := range entries {
		divisor = commonDivisor(divisor, e.Coef)
		whole = whole && l.Columns[e.Column].Binary
	}
	if whole || right%divisor == 0 {
		right = floorDivide(right, divisor)
		for i := range entries {
			entries[i].Coef /= divisor
		}
	}
	l.Rows = append(l.Rows, LinearRow{Name: b.names.name(name...), Entries: entries, Right: right})
}

func (b *linearizer) row(r *Row) {
	entries := make([]Entry, len(r.Terms))
	for i, t := range r.Terms {
		entries[i] = Entry{b.linear.choice[t.Slot][t.Option], t.Coef}
	}
	b.atMost([]string{"row", r.Name}, entries, r.AtMost)
}

// perSlot gathers for each slot an entry for every option that has a number other than 0.
func (b *linearizer) perSlot(number func(*Option) int64) [][]Entry {
	var groups [][]Entry
	for s := range b.program.Slots {
		var group []Entry
		for k := range b.program.Slots[s].Options {
			if coef := number(&b.program.Slots[s].Options[k]); coef != 0 {
				group = append(group, Entry{b.linear.choice[s][k], coef})
			}
		}
		if len(group) > 0 {
			groups = append(groups, group)
		}
	}
	return groups
}

// covers adds, slot by slot, that the column is 1 when one of the slot's marked options is chosen.
func (b *linearizer) covers(column int, name string, marked [][]Entry) {
	for _, group := range marked {
		slot := b.program.Slots[b.linear.owner[group[0].Column]].Name
		b.atMost([]string{name, slot}, append(slices.Clone(group), Entry{column, -1}), 0)
	}
}

// limits adds the rows of Budget and Floor.
func (b *linearizer) limits() {
	l, p := b.linear, b.program
	if p.Budget != NoBudget {
		b.atMost([]string{"budget"}, l.Cash.Entries, p.Budget-l.Cash.Constant)
	}
	if p.Floor != NoFloor {
		b.atMost([]string{"floor"}, l.Benefit.times(-1).Entries, l.Benefit.Constant-p.Floor)
	}
}

// measures writes benefit: a curve that is one straight line within reach of its amounts goes into the expression as it
// is; any other gets a column for its value, kept below every piece. The column holds the value less the least the
// curve can reach, so that it is never negative.
func (b *linearizer) measures() {
	l := b.linear
	for m := range b.program.Measures {
		measure := &b.program.Measures[m]
		if measure.Weight == 0 {
			continue
		}
		amount := Expression{Constant: measure.Base, Entries: slices.Concat(b.perSlot(func(o *Option) int64 { return o.steps(m) })...)}
		low, high := l.Range(amount.Entries)
		low, high = low+measure.Base, high+measure.Base
		intercepts, slopes := measure.Curve.within(low, high)
		value := amount.times(slopes[0])
		value.Constant += intercepts[0]
		if len(slopes) > 1 {
			least, most := measure.Curve.extremes(low, high)
			column := b.column(Column{Name: b.names.name("value", measure.Name), Upper: most - least}, noSlot)
			value = Expression{Entries: []Entry{{column, 1}}, Constant: least}
			for i := range slopes {
				row := value.plus(amount.times(-slopes[i]))
				b.atMost([]string{"curve", measure.Name, fmt.Sprint(i + 1)}, row.Entries, intercepts[i]-row.Constant)
			}
		}
		l.Benefit = l.Benefit.plus(value.times(measure.Weight))
	}
}

// money writes cash: options, charges paid once, shipping unless the listed prices reach FreeOver.
func (b *linearizer) money() {
	cash := slices.Concat(b.perSlot(func(o *Option) int64 { return o.Cash })...)
	for c, charge := range b.program.Charges {
		marked := b.perSlot(func(o *Option) int64 {
			if slices.Contains(o.Charges, c) {
				return 1
			}
			return 0
		})
		if charge.Cash == 0 || len(marked) == 0 {
			continue
		}
		column := b.binary("charge", charge.Name)
		b.covers(column, "charge."+charge.Name, marked)
		cash = append(cash, Entry{column, charge.Cash})
	}
	for v := range b.program.Shops {
		if column, paid := b.shop(v); paid {
			cash = append(cash, Entry{column, b.program.Shops[v].Shipping})
		}
	}
	b.linear.Cash = Expression{Entries: merged(cash)}
}

// shop gives the column that is 1 when shipping is paid; false when it never is. A listed price above FreeOver counts
// as FreeOver: it reaches it alone, and the row stays small.
func (b *linearizer) shop(v int) (column int, paid bool) {
	shop := &b.program.Shops[v]
	here := b.perSlot(func(o *Option) int64 {
		if o.Shop == v {
			return 1
		}
		return 0
	})
	if shop.Shipping == 0 || shop.FreeOver == 0 || len(here) == 0 {
		return 0, false
	}
	open := b.binary("open", shop.Name)
	b.covers(open, "open."+shop.Name, here)
	listed := slices.Concat(b.perSlot(func(o *Option) int64 {
		if o.Shop == v {
			return -min(o.Listed, shop.FreeOver)
		}
		return 0
	})...)
	if low, _ := b.linear.Range(listed); shop.FreeOver == NeverFree || -low < shop.FreeOver {
		return open, true
	}
	free, ship := b.binary("free", shop.Name), b.binary("ship", shop.Name)
	b.atMost([]string{"free", shop.Name}, append(listed, Entry{free, shop.FreeOver}), 0)
	b.atMost([]string{"ship", shop.Name}, []Entry{{open, 1}, {free, -1}, {ship, -1}}, 0)
	return ship, true
}

// steps is all the option adds to the measure.
func (o *Option) steps(measure int) int64 {
	sum := int64(0)
	for _, a := range o.Amounts {
		if a.Measure == measure {
			sum += a.Steps
		}
	}
	return sum
}
