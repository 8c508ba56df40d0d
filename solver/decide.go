package solver

import (
	"context"
	"fmt"

	"firstbolt/model"
	"firstbolt/solver/formulate"
	"firstbolt/solver/program"
)

// settleMusts binds every wanted part on each bike that can take it, drops it elsewhere and says so. Wants that one bike
// can take alone but not together are a clash on the kept bike.
func (a *asker) settleMusts(ctx context.Context) error {
	for _, e := range a.all() {
		for _, part := range e.c.Wanted {
			bound := e.c.WithMust(part)
			ok, err := a.possible(ctx, e, bound)
			if err != nil {
				return err
			}
			if ok {
				e.c = bound
				continue
			}
			if alone, err := a.possible(ctx, e, e.free.WithMust(part)); err != nil {
				return err
			} else if alone && e == a.kept {
				return &Clash{Bike: e.bike.Name, Wishes: mustNames(bound.Musts)}
			}
			e.c.Waived = append(e.c.Waived, part)
		}
	}
	return nil
}

// possible tells whether a program can be met at any price.
func (a *asker) possible(ctx context.Context, e *entrant, c *formulate.Compiled) (bool, error) {
	s, err := a.least(ctx, &entrant{bike: e.bike, base: e.base, c: c})
	return s.Status != program.Infeasible, err
}

func mustNames(parts []*model.Part) []string {
	var names []string
	for _, p := range parts {
		names = append(names, fmt.Sprintf("must buy %s (%s)", p.Name, p.Origin))
	}
	return names
}

func (a *asker) all() []*entrant {
	if a.kept == nil {
		return a.rivals
	}
	return append([]*entrant{a.kept}, a.rivals...)
}

// decide compares every bike at the budget. Across bikes only benefit counts; staying wins ties, then between rivals
// the one that comes first in benefit, cost, name.
func (a *asker) decide(ctx context.Context, ans *Answer) error {
	stay := program.Solution{Status: program.Infeasible}
	if a.kept != nil {
		var err error
		if stay, err = a.most(ctx, a.kept, a.q.Budget); err != nil {
			return err
		}
		ans.Weights = a.kept.c.Weights
	} else {
		ans.Weights = a.rivals[0].c.Weights
	}
	winner, top, err := a.contend(ctx, ans)
	if err != nil {
		return err
	}
	if stay.Choice != nil {
		if err := a.keep(ctx, ans, stay); err != nil {
			return err
		}
	}
	switch {
	case winner != nil && (stay.Choice == nil || top.Benefit > stay.Benefit):
		ans.Decision, ans.Rest, ans.Next = Switch, nil, nil // they speak of the kept bike
		floor := program.NoFloor
		if stay.Choice != nil {
			floor = stay.Benefit + 1
		}
		ans.Chosen, err = a.worthwhile(ctx, winner, floor, top)
		return err
	case stay.Choice == nil:
		return a.mend(ctx, ans)
	case ans.Kept.Cash == 0 && !ans.Kept.buys():
		ans.Decision = Wait
	default:
		ans.Decision = Stay
	}
	ans.Chosen = ans.Kept
	return nil
}

// contend plans every rival at the budget and returns the best.
func (a *asker) contend(ctx context.Context, ans *Answer) (*entrant, program.Solution, error) {
	var winner *entrant
	var top program.Solution
	for _, e := range a.rivals {
		s, err := a.most(ctx, e, a.q.Budget)
		if isStopped(err) {
			ans.Notes = append(ans.Notes, fmt.Sprintf("Stopped before any plan for %s was known.", e.bike.Name))
		} else if err != nil {
			return nil, top, err
		}
		con := Contender{Bike: e.bike, Base: e.base}
		if s.Choice != nil {
			if con.Plan, err = a.worthwhile(ctx, e, program.NoFloor, s); err != nil {
				return nil, top, err
			}
			if winner == nil || better(s, e, top, winner) {
				winner, top = e, s
			}
		}
		ans.Contenders = append(ans.Contenders, con)
	}
	return winner, top, nil
}

func better(s program.Solution, e *entrant, top program.Solution, winner *entrant) bool {
	if s.Benefit != top.Benefit {
		return s.Benefit > top.Benefit
	}
	if c, d := s.Cash+int64(e.base), top.Cash+int64(winner.base); c != d {
		return c < d
	}
	return e.bike.Name < winner.bike.Name
}

// keep makes the kept bike's plan: the point at or below the budget that is worth its money, what the rest of the
// budget would bring, and the next useful step above it.
func (a *asker) keep(ctx context.Context, ans *Answer, most program.Solution) error {
	kept, err := a.worthwhile(ctx, a.kept, program.NoFloor, most)
	if err != nil {
		return err
	}
	ans.Kept = kept
	more := func(s program.Solution) *Next {
		return &Next{More: model.Money(s.Cash) - kept.Cash, Benefit: Points(s.Benefit) - kept.Benefit}
	}
	if Points(most.Benefit) > kept.Benefit {
		ans.Rest = more(most)
	}
	finished, err := a.aside(ctx, func(ctx context.Context) error {
		next, err := a.reach(ctx, a.kept, most.Benefit+1, a.q.Budget)
		if err == nil && next.Choice != nil {
			ans.Next = more(next)
		}
		return err
	})
	if err == nil && !finished {
		ans.Notes = append(ans.Notes, "Stopped before it was known what a little more money would bring.")
	}
	return err
}

// mend answers for a bike that cannot be made safe within the budget.
func (a *asker) mend(ctx context.Context, ans *Answer) error {
	ans.Decision = Mend
	if a.kept == nil {
		ans.Notes = append(ans.Notes, "No bike is within the budget.")
		return nil
	}
	if err := a.clash(ctx); err != nil {
		return err
	}
	s, err := a.repair(ctx, a.kept)
	if err != nil || s.Choice == nil {
		ans.Notes = append(ans.Notes, "Nothing on the sheets makes this bike safe to ride.")
		return err
	}
	ans.Repair, err = a.plan(a.kept, s)
	return err
}

// clash tells whether it is the wishes, not the bike, that the budget does not reach.
func (a *asker) clash(ctx context.Context) error {
	if len(a.kept.c.Musts) == 0 {
		return nil
	}
	s, err := a.least(ctx, &entrant{bike: a.kept.bike, c: a.kept.free})
	if err != nil || s.Choice == nil || s.Cash > int64(a.q.Budget) {
		return err
	}
	least, err := a.least(ctx, a.kept)
	if err != nil {
		return err
	}
	format := a.q.Shed.Currency.Format
	return &Clash{Bike: a.kept.bike.Name, Least: model.Money(least.Cash), Wishes: append(mustNames(a.kept.c.Musts), "spend at most "+format(a.q.Budget))}
}

// buys tells whether the plan changes anything that has to be bought.
func (p *Plan) buys() bool {
	for _, s := range p.Steps {
		for _, b := range s.Purchases {
			if b.Part != nil {
				return true
			}
		}
	}
	return false
}
