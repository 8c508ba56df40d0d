package builtin

import (
	"fmt"
	"math"

	"firstbolt/solver/program"
)

// largest is the greatest magnitude that any sum of the program may have; above it the engine refuses to reckon.
const largest = float64(1 << 56)

// fee is a sum paid once for all chosen options that name it: a charge, or the shipping of a shop.
type fee struct {
	cash     int64
	freeOver int64 // the shop's listed sum that makes it free; NeverFree for charges too
	users    []int // slots with an option that names it, rising
}

// option is a program.Option with its fees in one list.
type option struct {
	cash      int64
	purchases int64
	amounts   []program.Amount
	fees      []int
	listed    int64 // counted towards thresholds[shop]
	shop      int   // fee with a threshold, or -1
	coefs     []program.Term
}

// model is the program as the search reads it. It is never changed after compile.
type model struct {
	p         *program.Program
	options   [][]option
	relations []relation    // rows over few slots among them
	of        [][]*relation // per slot
	rows      []program.Row
	fees      []fee
	low, high []int64 // range of every measure's amount
	curveSize float64 // magnitude of benefit and of every slope times every amount
	cashSize  float64
	added     []lifted // slots that lift added, at the end
}

// compile checks the program and its magnitudes and restates it; the second result is all options of every slot.
func compile(p *program.Program) (*model, [][]int, error) {
	if err := p.Validate(); err != nil {
		return nil, nil, fmt.Errorf("builtin: program %q: %w", p.Name, err)
	}
	m := &model{p: p}
	m.shareFees()
	alive := m.restate()
	for i := range p.Relations {
		r := &p.Relations[i]
		m.relations = append(m.relations, relation{slots: r.Slots, class: r.Class, count: r.Count, allowed: r.Allowed})
	}
	if err := m.measure(); err != nil {
		return nil, nil, fmt.Errorf("builtin: program %q: %w", p.Name, err)
	}
	for i := range p.Rows {
		if err := m.row(&p.Rows[i]); err != nil {
			return nil, nil, fmt.Errorf("builtin: program %q: %w", p.Name, err)
		}
	}
	m.of = make([][]*relation, len(p.Slots))
	for i := range m.relations {
		for _, s := range m.relations[i].slots {
			m.of[s] = append(m.of[s], &m.relations[i])
		}
	}
	return m, alive, nil
}

// shareFees lists charges and shops that cost something as fees.
func (m *model) shareFees() {
	for _, c := range m.p.Charges {
		m.fees = append(m.fees, fee{cash: c.Cash, freeOver: program.NeverFree})
	}
	for _, v := range m.p.Shops {
		f := fee{cash: v.Shipping, freeOver: v.FreeOver}
		if v.FreeOver == 0 {
			f = fee{freeOver: program.NeverFree} // every sum reaches 0
		}
		m.fees = append(m.fees, f)
	}
}

func (m *model) restate() [][]int {
	alive := make([][]int, len(m.p.Slots))
	m.options = make([][]option, len(m.p.Slots))
	for s := range m.p.Slots {
		from := m.p.Slots[s].Options
		m.options[s], alive[s] = make([]option, len(from)), make([]int, len(from))
		for k := range from {
			o := option{cash: from[k].Cash, purchases: int64(from[k].Purchases), amounts: from[k].Amounts, shop: -1}
			named := append([]int{}, from[k].Charges...)
			if from[k].Shop != program.NoShop {
				named = append(named, len(m.p.Charges)+from[k].Shop)
			}
			for _, f := range named {
				if m.fees[f].cash == 0 {
					continue
				}
				o.fees = append(o.fees, f)
				if u := m.fees[f].users; len(u) == 0 || u[len(u)-1] != s {
					m.fees[f].users = append(u, s)
				}
				if m.fees[f].freeOver != program.NeverFree {
					o.shop, o.listed = f, min(from[k].Listed, m.fees[f].freeOver) // one beyond it is as good as one at it
				}
			}
			m.options[s][k], alive[s][k] = o, k
		}
	}
	return alive
}

// measure finds the range of every amount and refuses programs whose sums could leave 64 bits.
func (m *model) measure() error {
	low, high := make([]float64, len(m.p.Measures)), make([]float64, len(m.p.Measures))
	for i := range m.p.Measures {
		low[i] = float64(m.p.Measures[i].Base)
		high[i] = low[i]
	}
	listed := 0.0
	for s := range m.options {
		least, most := make([]float64, len(low)), make([]float64, len(low))
		cash, price := 0.0, 0.0
		for k := range m.options[s] {
			sum := make([]float64, len(low))
			for _, a := range m.options[s][k].amounts {
				sum[a.Measure] += float64(a.Steps)
			}
			for i := range sum {
				least[i], most[i] = math.Min(least[i], sum[i]), math.Max(most[i], sum[i])
			}
			cash = math.Max(cash, math.Abs(float64(m.options[s][k].cash)))
			price = math.Max(price, float64(m.options[s][k].listed))
		}
		for i := range low {
			low[i], high[i] = low[i]+least[i], high[i]+most[i]
		}
		m.cashSize, listed = m.cashSize+cash, listed+price
	}
	for i := range m.fees {
		m.cashSize += float64(m.fees[i].cash) * float64(len(m.fees[i].users)+1)
	}
	for i, x := range m.p.Measures {
		m.curveSize += curveSize(x, low[i], high[i])
	}
	value := float64(m.p.Objective.Benefit)*m.curveSize + float64(m.p.Objective.Cash)*m.cashSize
	if size := math.Max(math.Max(m.curveSize, m.cashSize), math.Max(value, listed)); size > largest {
		return fmt.Errorf("sums may reach %.3g, want at most %.3g: use coarser units", size, largest)
	}
	for i := range low {
		m.low, m.high = append(m.low, int64(low[i])), append(m.high, int64(high[i]))
	}
	return nil
}

// curveSize bounds the measure's value and each of its slopes times each amount and knot.
func curveSize(x program.Measure, low, high float64) float64 {
	slope, reach := 1.0, math.Max(math.Abs(low), math.Abs(high))
	for _, k := range x.Curve.Knots {
		reach = math.Max(reach, math.Abs(float64(k)))
	}
	for _, s := range x.Curve.Slopes {
		slope = math.Max(slope, math.Abs(float64(s)))
	}
	return 2 * math.Max(float64(x.Weight), 1) * slope * (reach + 1) * float64(len(x.Curve.Slopes)+1)
}

// row turns a row over at most three slots into a relation, and keeps the others.
func (m *model) row(row *program.Row) error {
	r := relation{}
	coefs := [][]int64{}
	size := 0.0
	for _, t := range row.Terms {
		at := -1
		for i, s := range r.slots {
			if s == t.Slot {
				at = i
			}
		}
		if at < 0 {
			at = len(r.slots)
			r.slots, r.class = append(r.slots, t.Slot), append(r.class, make([]int, len(m.options[t.Slot])))
			r.count, coefs = append(r.count, 1), append(coefs, []int64{0})
		}
		r.class[at][t.Option] = r.count[at]
		r.count[at]++
		coefs[at] = append(coefs[at], t.Coef)
		size += math.Abs(float64(t.Coef))
	}
	if size > largest {
		return fmt.Errorf("row %q: its sum may reach %.3g, want at most %.3g: use coarser units", row.Name, size, largest)
	}
	if len(r.slots) > 3 || product(r.count) > 4096 {
		for _, t := range row.Terms {
			o := &m.options[t.Slot][t.Option]
			o.coefs = append(o.coefs, program.Term{Slot: len(m.rows), Coef: t.Coef})
		}
		m.rows = append(m.rows, *row)
		return nil
	}
	r.allowed = make([]bool, product(r.count))
	for at := range r.allowed {
		sum, rest := int64(0), at
		for i := len(r.count) - 1; i >= 0; i-- {
			sum += coefs[i][rest%r.count[i]]
			rest /= r.count[i]
		}
		r.allowed[at] = sum <= row.AtMost
	}
	m.relations = append(m.relations, r)
	return nil
}

func product(counts []int) int {
	size := 1
	for _, c := range counts {
		if size *= c; size > 1<<40 {
			return size
		}
	}
	return size
}
