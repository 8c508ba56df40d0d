package builtin

import (
	"context"
	"fmt"
	"math"

	"firstbolt/solver/program"
)

const (
	budgets  = 24  // for which the frontier has lines
	perTree  = 8   // regions searched together
	nearest  = 8   // lines used there
	peek     = 400 // nodes looked at for good choices first
	allSteps = 40  // steps for the prices of a further budget
)

// Frontier is every Pareto-optimal cash and benefit up to a cash of upTo, each with a choice that attains it; which one
// where several do is not said (Solve settles that for the plans that are shown). The program's Budget, Floor and
// Objective are not looked at. When ctx ends, Proved is false: points may be missing or too low.
func (e *Engine) Frontier(ctx context.Context, p *program.Program, upTo int64) (program.Frontier, error) {
	q := *p
	q.Budget, q.Floor, q.Objective = upTo, program.NoFloor, program.Objective{Benefit: 1}
	m, alive, err := prepare(&q)
	if err != nil {
		return program.Frontier{}, err
	}
	f := program.Frontier{UpTo: upTo, Proved: true}
	if !m.filter(alive) || float64(upTo) < -m.cashSize {
		return f, nil
	}
	m.dominate(alive)
	s := &sweep{ctx: ctx, m: m, options: e.options}
	f.Proved = s.run(alive, min(upTo, int64(m.cashSize)))
	f.Points = s.stairs.points
	for i := range f.Points {
		x := &f.Points[i]
		x.Choice = x.Choice[:len(p.Slots)]
		if err := p.Feasible(x.Choice); err != nil {
			return program.Frontier{}, fmt.Errorf("builtin: program %q: the frontier is wrong, please report it: %w", p.Name, err)
		}
	}
	return f, nil
}

// sweep is the search of a frontier.
type sweep struct {
	ctx     context.Context
	m       *model
	options Options
	stairs  *stairs
	goals   []goal   // one per budget that has a line
	prices  []prices // theirs
	nodes   int
}

// run finds the frontier; it is false when ctx ended first.
func (s *sweep) run(alive [][]int, upTo int64) bool {
	least := int64(0)
	for slot := range alive {
		low := int64(math.MaxInt64)
		for _, k := range alive[slot] {
			low = min(low, s.m.options[slot][k].cash)
		}
		least += low
	}
	s.stairs = newStairs(s.m, least, upTo, 64)
	sp := s.space(alive, even(alive))
	s.price(sp, least)
	for r := range s.stairs.low {
		s.search(sp, s.near(sp, r, 1), 1<<r, peek)
	}
	for from := 0; from < len(s.stairs.low); from += perTree {
		if !s.part(alive, from, min(perTree, len(s.stairs.low)-from)) {
			return false
		}
	}
	return s.ctx.Err() == nil
}

// even takes all options for promising.
func even(alive [][]int) []float64 {
	promise := make([]float64, len(alive))
	for i := range alive {
		promise[i] = float64(len(alive[i]))
	}
	return promise
}

func (s *sweep) space(alive [][]int, promise []float64) *space {
	sp := newSpace(s.m, alive)
	sp.arrange(sp.free(promise, s.options.Table, 300), s.options.Table)
	return sp
}

// price finds prices for every budget, each from those of the one before; the choices met on the way are offered.
func (s *sweep) price(sp *space, least int64) {
	choice := make([]int, len(sp.alive))
	s.offer(choice) // what is fitted
	last := (*prices)(nil)
	for i := 1; i <= budgets && s.ctx.Err() == nil; i++ {
		g := bestOf(s.m, program.Objective{Benefit: 1})
		g.floor = -int64(s.m.curveSize)
		g.budget = least + int64(float64(s.stairs.upTo-least)*math.Pow(float64(i)/budgets, 1.5))
		g.value, g.spent, g.known = s.stairs.at(g.budget)
		d := newDual(sp, &g)
		d.tried = func(places []int) {
			for slot, place := range places {
				choice[slot] = sp.alive[slot][place]
			}
			s.offer(choice)
			g.value, g.spent, g.known = s.stairs.at(g.budget)
		}
		d.start(last)
		steps := s.options.Steps
		if last != nil {
			steps = allSteps
		}
		d.improve(steps)
		last = &d.x
		s.goals, s.prices = append(s.goals, g), append(s.prices, d.x)
	}
}

func (s *sweep) offer(choice []int) {
	if e, ok := s.m.judge(choice); ok {
		s.stairs.offer(choice, e)
	}
}

// near are the lines for budgets around some regions, evaluated over the space.
func (s *sweep) near(sp *space, from, count int) []*line {
	low, _ := s.stairs.window(from)
	_, high := s.stairs.window(from + count - 1)
	first := len(s.goals) - 1
	for first > 0 && s.goals[first-1].budget >= low {
		first--
	}
	last := first
	for last < len(s.goals)-1 && s.goals[last].budget < high {
		last++
	}
	for last-first+1 < nearest && (first > 0 || last < len(s.goals)-1) {
		first, last = max(first-1, 0), min(last+1, len(s.goals)-1)
	}
	lines := []*line{}
	for i := first; i <= last; i++ {
		l := newLine(s.m)
		l.set(s.m, &s.goals[i], &s.prices[i])
		l.evaluate(sp)
		lines = append(lines, l)
	}
	return lines
}

// part proves some neighbouring regions: options that no line can bring there go first, as often as that helps.
func (s *sweep) part(all [][]int, from, count int) bool {
	wanted := (regions(1)<<count - 1) << from
	alive, promise := clone(all), even(all)
	for {
		if !s.m.filter(alive) {
			return true
		}
		sp := s.space(alive, promise)
		lines := s.near(sp, from, count)
		left, dropped := drop(sp, lines, s.stairs, wanted, alive, promise)
		if !left {
			return true
		}
		if dropped*16 < countOptions(alive) {
			return s.search(sp, lines, wanted, 0)
		}
	}
}

// search looks at the tree of a space for some regions, at most so many nodes of it (0: all).
func (s *sweep) search(sp *space, lines []*line, wanted regions, limit int) bool {
	t := newTree(s.ctx, sp, s.stairs, lines)
	t.limit = limit
	done := t.run(wanted)
	s.nodes += t.nodes
	return done
}
