package builtin

import (
	"math"
	"math/bits"
	"slices"
)

// rounds is how often a space is narrowed by its bounds before the tree is searched.
const rounds = 6

// manyNodes is when a tree is left for one search per option of a slot.
const manyNodes = 30000

// run looks among the living options for a choice that meets the goal and keeps the last one; true when the search
// was complete.
func (s *search) run(alive [][]int) bool {
	promise := make([]float64, len(alive))
	sp, lines, open := s.narrow(alive, promise)
	if !open {
		return true
	}
	if s.descend(sp, lines, manyNodes) {
		return true
	}
	return s.ctx.Err() == nil && s.split(sp.alive, promise)
}

// split searches the space once for every option of its loosest slot, each time with prices of its own. It is for trees
// that the prices of the whole space leave too wide.
func (s *search) split(alive [][]int, promise []float64) bool {
	slot := -1
	for i := range alive {
		if len(alive[i]) > 1 && (slot < 0 || promise[i] > promise[slot]) {
			slot = i
		}
	}
	known := cloneAll(s.prices)
	s.depth++
	defer func() { s.depth, s.prices = s.depth-1, known }()
	for _, k := range alive[slot] {
		s.prices = cloneAll(known)
		part := clone(alive)
		part[slot] = []int{k}
		if !s.run(part) || s.g.any && s.met {
			return false
		}
	}
	return true
}

// descend searches the tree of a space, at most so many nodes of it (0: all); true when it was complete.
func (s *search) descend(sp *space, lines []*line, limit int) bool {
	t := newTree(s.ctx, sp, s, lines)
	t.limit = limit
	done := t.run(1)
	s.nodes += t.nodes
	return done
}

// The search is the target of its trees, with one region.
func (s *search) regions() int                 { return 1 }
func (s *search) window(int) (low, high int64) { return math.MinInt64, s.g.budget }
func (s *search) need(_ int, l *line) int64    { return s.g.need(l) }
func (s *search) purchases() int64 {
	if s.g.any {
		return s.g.purchases
	}
	return math.MaxInt64
}

// offer keeps a choice that meets the goal as the best.
func (s *search) offer(choice []int, e evaluation) (changed regions, done bool) {
	if !s.g.accepts(e) {
		return 0, false
	}
	s.choice, s.is, s.met = slices.Clone(choice), e, true
	if !s.g.any {
		s.g.raise(e)
	}
	return 1, s.g.any
}

// narrow looks for prices and drops every option that no line can bring to the goal, again and again while that helps,
// each time with a longer look at the first nodes of the tree. promise becomes, per slot, about how many options are
// promising. It is false when nothing is left.
func (s *search) narrow(alive [][]int, promise []float64) (*space, []*line, bool) {
	for i := range alive {
		promise[i] = float64(len(alive[i]))
	}
	if s.depth == 0 {
		s.bound = math.MaxInt64
	}
	limit := 200
	for round := 0; ; round++ {
		if !s.m.filter(alive) {
			return nil, nil, false
		}
		sp := newSpace(s.m, alive)
		sp.arrange(sp.free(promise, s.options.Table, 300), s.options.Table)
		if round == 0 {
			s.try(sp, make([]int, len(alive))) // what is fitted
			s.begin(s.m.p.Start)
		}
		s.polish(sp)
		lines := s.price(sp, round)
		value := s.g.value
		s.polish(sp)
		if s.descend(sp, lines, limit) && s.ctx.Err() == nil {
			return nil, nil, false
		}
		limit *= 4
		left, dropped := drop(sp, lines, s, 1, alive, promise)
		if !left {
			return nil, nil, false
		}
		if dropped*16 < countOptions(alive) && s.g.value == value || round == rounds || s.ctx.Err() != nil {
			return s.again(alive, promise)
		}
	}
}

// again lays the space of the living options with the prices found last.
func (s *search) again(alive [][]int, promise []float64) (*space, []*line, bool) {
	if !s.m.filter(alive) {
		return nil, nil, false
	}
	sp := newSpace(s.m, alive)
	sp.arrange(sp.free(promise, s.options.Table, 300), s.options.Table)
	lines := []*line{}
	for i := range s.prices {
		l := newLine(s.m)
		l.set(s.m, &s.g, &s.prices[i])
		l.evaluate(sp)
		lines = append(lines, l)
	}
	return sp, lines, true
}

// price finds lines: the best for the budget, and then for smaller and larger ones.
func (s *search) price(sp *space, round int) []*line {
	d := newDual(sp, &s.g)
	d.tried = func(places []int) { s.try(sp, places) }
	steps := s.options.Steps
	from := (*prices)(nil)
	if round > 0 || s.depth > 0 {
		from, steps = &s.prices[0], steps/2
	}
	d.start(from)
	d.improve(steps)
	if s.depth == 0 {
		s.bound = min(s.bound, d.promise(d.l))
	}
	lines := []*line{d.l}
	s.prices = append(s.prices[:0], d.x)
	least := float64(s.cheapest(sp))
	for i := 1; i < s.options.Lines; i++ {
		part := []float64{0.85, 1.15, 0.7, 1.4, 0.5}[(i-1)%5]
		g := s.g
		g.budget = int64(least + part*(float64(s.g.budget)-least))
		e := newDual(sp, &g)
		e.start(&d.x)
		e.improve(12)
		lines = append(lines, e.l)
		s.prices = append(s.prices, e.x)
	}
	return lines
}

// cheapest is what the cheapest options cost without fees.
func (s *search) cheapest(sp *space) int64 {
	sum := int64(0)
	for slot := range sp.alive {
		least := int64(math.MaxInt64)
		for _, k := range sp.alive[slot] {
			least = min(least, s.m.options[slot][k].cash)
		}
		sum += least
	}
	return sum
}

// try keeps a decoded choice if it is better.
func (s *search) try(sp *space, places []int) {
	choice := make([]int, len(places))
	for slot, place := range places {
		choice[slot] = sp.alive[slot][place]
	}
	if e, ok := s.m.judge(choice); ok {
		s.offer(choice, e)
	}
}

// begin keeps a choice that was given to start from, if it meets the goal.
func (s *search) begin(start []int) {
	if s.depth > 0 || len(start) == 0 || len(start)+len(s.m.added) != len(s.m.options) {
		return
	}
	choice := append(slices.Clone(start), make([]int, len(s.m.added))...)
	for slot, k := range start {
		if k < 0 || k >= len(s.m.options[slot]) {
			return
		}
	}
	for i := range s.m.added {
		s.m.added[i].settle(choice)
	}
	for i := range s.m.relations {
		if !s.m.relations[i].holds(choice) {
			return
		}
	}
	if e, ok := s.m.evaluate(choice); ok {
		s.offer(choice, e)
	}
}

// polish exchanges single options of the best choice while that makes it better.
func (s *search) polish(sp *space) {
	if !s.met {
		return
	}
	choice := slices.Clone(s.choice)
	for better := true; better; {
		better = false
		for slot := range sp.alive {
			for _, k := range sp.alive[slot] {
				old := choice[slot]
				if k == old {
					continue
				}
				choice[slot] = k
				for i := range s.m.added {
					s.m.added[i].settle(choice)
				}
				if s.meets(slot, choice) {
					if e, ok := s.m.evaluate(choice); ok {
						if changed, _ := s.offer(choice, e); changed != 0 {
							better = true
							continue
						}
					}
				}
				choice[slot] = old
			}
		}
	}
}

// meets tells whether the choice meets the relations of a slot.
func (s *search) meets(slot int, choice []int) bool {
	for _, r := range s.m.of[slot] {
		if !r.holds(choice) {
			return false
		}
	}
	return true
}

// drop removes the living options that no region can have by the lines, counts them, and weighs for every slot how many
// of the others are promising. It is false when a slot has none left.
func drop(sp *space, lines []*line, goal target, wanted regions, alive [][]int, promise []float64) (bool, int) {
	v := &verdict{lines: lines}
	for ; wanted != 0; wanted &= wanted - 1 {
		r := bits.TrailingZeros64(uint64(wanted))
		need, open := make([]int64, len(lines)), true
		for k, l := range lines {
			need[k] = goal.need(r, l)
			open = open && l.bound >= need[k]
		}
		if open {
			v.need = append(v.need, need)
		}
	}
	if len(v.need) == 0 {
		return false, 0
	}
	for _, l := range lines {
		v.marginal = append(v.marginal, l.marginals(sp))
	}
	dropped := 0
	for slot := range sp.alive {
		keep := sp.alive[slot][:0:0]
		promise[slot] = 0
		for i, k := range sp.alive[slot] {
			if ratio := v.ratio(slot, i); ratio >= 0 {
				keep = append(keep, k)
				promise[slot] += ratio
			}
		}
		dropped += len(sp.alive[slot]) - len(keep)
		alive[slot] = keep
		if len(keep) == 0 {
			return false, dropped
		}
	}
	return true, dropped
}

// verdict judges single options by their marginals.
type verdict struct {
	lines    []*line
	need     [][]int64   // per region that is open and line
	marginal [][][]int64 // per line, slot and place
}

// ratio is how much of the margin an option leaves, 0 to 1, in the region that likes it best; negative when no region
// can have it.
func (v *verdict) ratio(slot, place int) float64 {
	top := -1.0
	for _, need := range v.need {
		least := 1.0
		for k, l := range v.lines {
			left := v.marginal[k][slot][place] - need[k]
			if left < 0 {
				least = -1
				break
			}
			least = math.Min(least, float64(left)/float64(l.bound-need[k]+1))
		}
		top = math.Max(top, least)
	}
	return top
}

func countOptions(alive [][]int) int {
	n := 0
	for _, options := range alive {
		n += len(options)
	}
	return n
}
