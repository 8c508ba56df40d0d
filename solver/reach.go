package solver

import (
	"context"
	"time"

	"firstbolt/model"
	"firstbolt/solver/program"
)

// span is a range of purses with the same best plan: the best for Purse costs less than it, so it is the best for every
// purse from its own cost on.
type span struct {
	from, purse int64
	s           program.Solution
}

// value is the most benefit for a purse, by any of the plans that bring it.
func (a *asker) value(ctx context.Context, e *entrant, purse int64) (program.Solution, error) {
	a.mu.Lock()
	for _, known := range a.spans[e.c] {
		if known.from <= purse && purse <= known.purse {
			a.mu.Unlock()
			return known.s, nil
		}
	}
	a.mu.Unlock()
	s, _, err := a.ask(ctx, e, goal{purse: purse, floor: program.NoFloor, objective: mostBenefit, anyTie: true})
	if err == nil && s.Status == program.Optimal {
		a.mu.Lock()
		defer a.mu.Unlock()
		a.spans[e.c] = append(a.spans[e.c], span{from: s.Cash + int64(e.base), purse: purse, s: s})
	}
	return s, err
}

// start is the best choice that is known to be within a goal's purse, for the engine to begin with.
func (a *asker) start(e *entrant, g goal) []int {
	a.mu.Lock()
	defer a.mu.Unlock()
	var best *program.Solution
	for i := range a.spans[e.c] {
		known := &a.spans[e.c][i]
		if known.from <= g.purse && (best == nil || known.s.Benefit > best.Benefit) {
			best = &known.s
		}
	}
	if best == nil {
		return nil
	}
	return best.Choice
}

// least is the least cash that a bike needs at all.
func (a *asker) least(ctx context.Context, e *entrant) (program.Solution, error) {
	s, _, err := a.ask(ctx, e, goal{purse: program.NoBudget, floor: program.NoFloor, objective: leastCash, anyTie: true})
	return s, err
}

// climb is how often a purse is raised, each time by twice as much, and how often it is lowered to just below the last
// cost before the gap is halved instead.
const climb = 4

// reach is the least cash at which a bike has at least the floor, and Infeasible where it never has. below is a purse
// that is known not to do. It asks for the best plan at purses from there up until one does, and then at smaller ones:
// a budget bounds a search better than a floor does. It ends when the best for one unit less is below the floor, which
// proves it.
func (a *asker) reach(ctx context.Context, e *entrant, floor int64, below model.Money) (program.Solution, error) {
	enough, err := a.value(ctx, e, program.NoBudget)
	if err != nil || enough.Choice == nil || enough.Benefit < floor {
		return program.Solution{Status: program.Infeasible}, err
	}
	low, base := int64(below), int64(e.base)
	for step := max(low-base, 100) / 32; low+step < enough.Cash+base; step *= 2 {
		s, err := a.value(ctx, e, low+step)
		if err != nil {
			return s, err
		}
		if s.Choice != nil && s.Benefit >= floor {
			enough = s
			break
		}
		low += step
	}
	for tries := 0; enough.Cash+base-1 > low; tries++ {
		purse := enough.Cash + base - 1
		if tries > climb {
			purse = low + (purse+1-low)/2
		}
		s, err := a.value(ctx, e, purse)
		if err != nil {
			return s, err
		}
		if s.Choice != nil && s.Benefit >= floor {
			enough = s
		} else {
			low = purse
		}
	}
	return enough, nil
}

// asideWithin is how long what stands beside the plan may take: what more money would bring, and the switch point. The
// plan itself is not held up by them, nor called unproved where they are not finished.
const asideWithin = 20 * time.Second

// besides marks a context in which what stands beside the plan is asked: it is given up where it does not finish.
type besides struct{}

// aside answers a question beside the plan within a time of its own; false where it did not finish.
func (a *asker) aside(ctx context.Context, answer func(context.Context) error) (bool, error) {
	limited, cancel := context.WithTimeout(context.WithValue(ctx, besides{}, true), asideWithin)
	defer cancel()
	err := answer(limited)
	if isStopped(err) {
		if ctx.Err() != nil {
			a.mu.Lock()
			a.proof.Status = program.Stopped
			a.mu.Unlock()
		}
		return false, nil
	}
	return err == nil, err
}
