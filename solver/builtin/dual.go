package builtin

import "math"

// dual looks for prices whose line bounds the goal well: deflected subgradient steps of Polyak's length. Whatever it
// finds is a valid line, so its numbers may be inexact.
type dual struct {
	m      *model
	sp     *space
	g      *goal
	x      prices
	l      *line
	unit   prices // natural size of a step of every price
	step   prices // direction kept from the last steps
	places []int
	tried  func(places []int) // every decoded choice
}

func newDual(sp *space, g *goal) *dual {
	m := sp.m
	d := &dual{m: m, sp: sp, g: g, l: newLine(m), places: make([]int, len(sp.alive))}
	for _, x := range []*prices{&d.x, &d.unit, &d.step} {
		x.slope, x.row = make([]float64, len(m.p.Measures)), make([]float64, len(m.rows))
		x.share = make([]float64, len(m.fees)*len(m.options))
	}
	return d
}

// start sets first prices: those given or, without any, slopes from each range, equal shares, and the best of some
// prices on money.
func (d *dual) start(from *prices) {
	gain, spend := 1.0, 1.0
	for i := range d.m.p.Measures {
		x := &d.m.p.Measures[i]
		low, high := d.sp.low[i], d.sp.high[i]
		gain += float64(curveAt(x, high) - curveAt(x, low))
		quarter := low + (high-low)/4
		d.x.slope[i] = float64(x.Curve.At(quarter+1) - x.Curve.At(quarter))
		d.unit.slope[i] = float64(x.Curve.Slopes[0]-x.Curve.Slopes[len(x.Curve.Slopes)-1]) / 2
	}
	for f := range d.m.fees {
		users := d.m.fees[f].users
		for _, s := range users {
			d.x.share[f*len(d.m.options)+s] = 1 / float64(len(users))
		}
	}
	for _, s := range d.sp.order {
		low, high := int64(math.MaxInt64), int64(math.MinInt64)
		for _, k := range d.sp.alive[s] {
			c := d.m.options[s][k].cash
			low, high = min(low, c), max(high, c)
		}
		spend += float64(high - low)
	}
	a, b := float64(d.g.benefit), float64(d.g.cash)
	d.unit.money = (a*math.Abs(gain) + b*spend) / spend
	d.unit.worth = (a*math.Abs(gain) + b*spend) / math.Max(1, math.Abs(gain))
	for i := range d.unit.row {
		d.unit.row[i] = d.unit.money * spend / float64(len(d.sp.order)) / rowSize(d.m, i) * float64(len(d.m.rows))
	}
	if from != nil {
		d.x.copyFrom(from)
		return
	}
	d.scan(&d.x.money, d.unit.money)
	if d.g.floor > -int64(d.m.curveSize) {
		d.scan(&d.x.worth, d.unit.worth)
	}
}

// scan takes the best of some values of one price.
func (d *dual) scan(price *float64, unit float64) {
	best, top := 0.0, math.Inf(1)
	for k := -6; k <= 5; k++ {
		*price = unit * math.Exp2(float64(k))
		if k == -6 {
			*price = 0
		}
		if v := d.value(); v < top {
			best, top = *price, v
		}
	}
	*price = best
}

// value evaluates the line of the present prices; it is the bound on the goal's value, in scaled units.
func (d *dual) value() float64 {
	d.l.set(d.m, d.g, &d.x)
	d.l.evaluate(d.sp)
	return float64(d.promise(d.l))
}

// promise is the largest scaled value that the line allows within budget and floor.
func (d *dual) promise(l *line) int64 {
	more, money := l.benefit-d.g.scale*d.g.benefit, l.cash-d.g.scale*d.g.cash
	return l.bound + money*d.g.budget - more*d.g.floor
}

// improve takes so many steps from the present prices and leaves the best ones found, and their line.
func (d *dual) improve(steps int) {
	best := prices{}
	best.copyFrom(&d.x)
	top, since, factor := math.Inf(1), 0, 1.0
	d.clearStep()
	for range steps {
		v := d.value()
		if v < top-math.Abs(top)*1e-7 {
			since = 0
		}
		if v < top {
			top = v
			best.copyFrom(&d.x)
		}
		if d.l.bound < d.g.need(d.l) {
			break
		}
		if since++; since > 12 {
			since, factor = 0, factor*0.6
		}
		if !d.l.decode(d.sp, d.places) {
			break
		}
		if d.tried != nil {
			d.tried(d.places)
		}
		d.walk(v, factor)
	}
	d.x.copyFrom(&best)
	d.value()
}

func (d *dual) clearStep() {
	d.step.money, d.step.worth = 0, 0
	clear(d.step.slope)
	clear(d.step.share)
	clear(d.step.row)
}

// walk changes the prices against the subgradient at the decoded choice.
func (d *dual) walk(value, factor float64) {
	const keep = 0.75
	norm := d.gradient(keep)
	target := value - 0.1*math.Abs(value) - 1
	if d.g.known {
		target = math.Max(target, float64(d.g.scale)*float64(d.g.value))
	}
	length := factor * (value - target) / (norm + 1e-9)
	d.x.money = math.Max(0, d.x.money-length*d.step.money*d.unit.money)
	d.x.worth = math.Max(0, d.x.worth-length*d.step.worth*d.unit.worth)
	for i := range d.x.slope {
		slopes := d.m.p.Measures[i].Curve.Slopes
		x := d.x.slope[i] - length*d.step.slope[i]*d.unit.slope[i]
		d.x.slope[i] = math.Min(math.Max(x, float64(slopes[len(slopes)-1])), float64(slopes[0]))
	}
	for i := range d.x.row {
		d.x.row[i] = math.Max(0, d.x.row[i]-length*d.step.row[i]*d.unit.row[i])
	}
	for f := range d.m.fees {
		d.shareOut(f, length)
	}
}

// gradient renews the kept direction and returns the square of its length in natural units.
func (d *dual) gradient(keep float64) float64 {
	norm := 0.0
	blend := func(step *float64, slope, unit float64) {
		*step = keep**step + (1-keep)*slope*unit
		norm += *step * *step
	}
	scale := float64(d.g.scale)
	amounts, listed, used := d.read()
	cash, benefit := 0.0, 0.0
	for _, s := range d.sp.order {
		cash += float64(d.m.options[s][d.sp.alive[s][d.places[s]]].cash)
	}
	for i := range d.m.p.Measures {
		x := &d.m.p.Measures[i]
		gap := float64(amounts[i] - d.l.peakAt[i])
		weight := float64(x.Weight)
		benefit += weight * (float64(x.Curve.At(d.l.peakAt[i])) + d.x.slope[i]*gap)
		blend(&d.step.slope[i], float64(d.l.benefit)*weight*gap, d.unit.slope[i])
	}
	n := len(d.m.options)
	for f := range d.m.fees {
		free := 0.0
		if over := d.m.fees[f].freeOver; over > 0 {
			free = float64(listed[f]) / float64(over)
		}
		for _, s := range d.m.fees[f].users {
			v := -free
			if used[f*n+s] {
				v++
			}
			cash += v * d.x.share[f*n+s] * float64(d.m.fees[f].cash)
			blend(&d.step.share[f*n+s], -v*float64(d.l.cash)*float64(d.m.fees[f].cash), 1)
		}
	}
	for i := range d.m.rows {
		blend(&d.step.row[i], scale*(float64(d.m.rows[i].AtMost)-d.rowSum(i)), d.unit.row[i])
	}
	blend(&d.step.money, scale*(float64(d.g.budget)-cash), d.unit.money)
	if d.g.floor > -int64(d.m.curveSize) {
		blend(&d.step.worth, scale*(benefit-float64(d.g.floor)), d.unit.worth)
	}
	return norm
}

// read sums up the decoded choice: amounts, listed sums per fee, and which fee is named in which slot.
func (d *dual) read() (amounts, listed []int64, used []bool) {
	amounts, listed = make([]int64, len(d.m.p.Measures)), make([]int64, len(d.m.fees))
	used = make([]bool, len(d.m.fees)*len(d.m.options))
	for i, x := range d.m.p.Measures {
		amounts[i] = x.Base
	}
	for _, s := range d.sp.order {
		o := &d.m.options[s][d.sp.alive[s][d.places[s]]]
		for _, a := range o.amounts {
			amounts[a.Measure] += a.Steps
		}
		for _, f := range o.fees {
			used[f*len(d.m.options)+s] = true
		}
		if o.shop >= 0 {
			listed[o.shop] += o.listed
		}
	}
	return amounts, listed, used
}

func (d *dual) rowSum(i int) float64 {
	sum := 0.0
	for _, t := range d.m.rows[i].Terms {
		if d.sp.alive[t.Slot][d.places[t.Slot]] == t.Option {
			sum += float64(t.Coef)
		}
	}
	return sum
}

// shareOut moves the shares of a fee and puts them back to where they are >= 0 and at most 1 in all.
func (d *dual) shareOut(f int, length float64) {
	n, users := len(d.m.options), d.m.fees[f].users
	for _, s := range users {
		d.x.share[f*n+s] -= length * d.step.share[f*n+s]
	}
	for range len(users) + 1 { // the Euclidean projection, a few rounds of which suffice
		sum, positive := 0.0, 0
		for _, s := range users {
			if d.x.share[f*n+s] > 0 {
				sum, positive = sum+d.x.share[f*n+s], positive+1
			} else {
				d.x.share[f*n+s] = 0
			}
		}
		excess := sum - 1
		if positive == 0 || excess <= 1e-9 {
			break
		}
		for _, s := range users {
			if d.x.share[f*n+s] > 0 {
				d.x.share[f*n+s] -= excess / float64(positive)
			}
		}
	}
}
