package builtin

import (
	"math"
	"slices"
	"sort"

	"firstbolt/solver/program"
)

// stairs are the best choices known for every budget, and so the target of the trees of a frontier: a choice counts when
// it brings more than the best known for its cash. The range of cash is cut into regions.
type stairs struct {
	m      *model
	points []program.Point // rising in cash and benefit
	low    []int64         // per region
	upTo   int64
}

// newStairs cuts the range of cash into so many regions, finer where there is little money.
func newStairs(m *model, least, upTo int64, regions int) *stairs {
	st := &stairs{m: m, upTo: upTo, low: []int64{math.MinInt64 / 2}}
	for i := 1; i < regions; i++ {
		low := least + int64(float64(upTo-least)*math.Pow(float64(i)/float64(regions), 1.5))
		if low > st.low[len(st.low)-1] && low <= upTo {
			st.low = append(st.low, low)
		}
	}
	return st
}

func (st *stairs) regions() int     { return len(st.low) }
func (st *stairs) purchases() int64 { return math.MaxInt64 }

func (st *stairs) window(region int) (low, high int64) {
	if region+1 < len(st.low) {
		return st.low[region], st.low[region+1] - 1
	}
	return st.low[region], st.upTo
}

// need is the least promise of a choice of the region that brings more than is known for its cash. What is known is a
// step function, so the least is found at the last unit of cash of one of its steps.
func (st *stairs) need(region int, l *line) int64 {
	low, high := st.window(region)
	i := st.below(low)
	known := -int64(st.m.curveSize)
	if i >= 0 {
		known = st.points[i].Benefit
	}
	least := int64(math.MaxInt64)
	for i++; ; i++ {
		last := i == len(st.points) || st.points[i].Cash > high
		end := high
		if !last {
			end = st.points[i].Cash - 1
		}
		least = min(least, l.benefit*(known+1)-l.cash*end)
		if last {
			return least
		}
		known = st.points[i].Benefit
	}
}

// below is the last point of at most that cash, -1 for none.
func (st *stairs) below(cash int64) int {
	return sort.Search(len(st.points), func(i int) bool { return st.points[i].Cash > cash }) - 1
}

// offer puts a choice on the stairs, and takes those off that it beats.
func (st *stairs) offer(choice []int, e evaluation) (changed regions, done bool) {
	if e.cash > st.upTo {
		return 0, false
	}
	i := st.below(e.cash)
	if i >= 0 && st.points[i].Benefit >= e.benefit {
		return 0, false
	}
	from := i + 1
	if i >= 0 && st.points[i].Cash == e.cash {
		from = i
	}
	to := from
	for to < len(st.points) && st.points[to].Benefit <= e.benefit {
		to++
	}
	until := st.upTo
	if to < len(st.points) {
		until = st.points[to].Cash - 1
	}
	p := program.Point{Cash: e.cash, Benefit: e.benefit, Choice: slices.Clone(choice)}
	st.points = slices.Replace(st.points, from, to, p)
	for r := range st.low {
		if low, high := st.window(r); low <= until && high >= e.cash {
			changed |= 1 << r
		}
	}
	return changed, false
}

// at is the most benefit known within a budget.
func (st *stairs) at(budget int64) (benefit, cash int64, known bool) {
	i := st.below(budget)
	if i < 0 {
		return 0, 0, false
	}
	return st.points[i].Benefit, st.points[i].Cash, true
}
