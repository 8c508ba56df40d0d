package solver

import (
	"cmp"
	"context"
	"slices"

	"firstbolt/model"
	"firstbolt/solver/program"
)

// switchPoint finds the lowest budget at which a rival beats staying: from B = 0, the least cost c at which some rival
// reaches more than the best of staying at B; if c <= B the point is B, else B = c and again. Each round proves that no
// smaller budget will do, so the first stop is the lowest such budget.
func (a *asker) switchPoint(ctx context.Context) (*SwitchPoint, error) {
	if a.kept == nil || len(a.rivals) == 0 {
		return nil, nil
	}
	rivals := make([]search, 0, len(a.rivals))
	for _, e := range a.rivals {
		rivals = append(rivals, search{e: e, least: e.base})
	}
	for purse := model.Money(0); ; {
		stay, err := a.value(ctx, a.kept, int64(purse))
		if err != nil {
			return nil, err
		}
		floor := program.NoFloor
		if stay.Choice != nil {
			floor = stay.Benefit + 1
		}
		cost, found, err := a.cheapestRival(ctx, rivals, floor)
		if err != nil || !found {
			return nil, err
		}
		if cost <= purse {
			return a.reportSwitch(ctx, purse, stay)
		}
		purse = cost
	}
}

// search is what is known of a rival while the floor rises: its cost can only rise with it, so the last one found is a
// bound, and a rival that cannot reach one floor reaches no higher one.
type search struct {
	e     *entrant
	least model.Money
	never bool
}

// cheapestRival is the least whole cost at which some rival reaches the floor. Rivals whose bound is not below what is
// found already need not be asked.
func (a *asker) cheapestRival(ctx context.Context, rivals []search, floor int64) (model.Money, bool, error) {
	slices.SortStableFunc(rivals, func(x, y search) int { return cmp.Compare(x.least, y.least) })
	least, found := model.Money(0), false
	for i := range rivals {
		r := &rivals[i]
		if r.never || found && r.least >= least {
			continue
		}
		s, err := a.reach(ctx, r.e, floor, r.least-1)
		if err != nil {
			return 0, false, err
		}
		if s.Choice == nil {
			r.never = true
			continue
		}
		r.least = max(model.Money(s.Cash)+r.e.base, 0)
		if !found || r.least < least {
			least, found = r.least, true
		}
	}
	return least, found, nil
}

// reportSwitch plans both sides at the switch point, and claims both sides there and one unit below for the confirmer.
func (a *asker) reportSwitch(ctx context.Context, at model.Money, stay program.Solution) (*SwitchPoint, error) {
	var winner *entrant
	var top program.Solution
	for _, e := range a.rivals {
		s, err := a.most(ctx, e, at)
		if err != nil {
			return nil, err
		}
		if s.Choice != nil && (winner == nil || better(s, e, top, winner)) {
			winner, top = e, s
		}
	}
	top, err := a.best(ctx, winner, at)
	if err != nil {
		return nil, err
	}
	point := &SwitchPoint{At: at, StayPlan: stay.Choice != nil, Stay: Points(stay.Benefit)}
	if point.To, err = a.plan(winner, top); err != nil {
		return nil, err
	}
	for _, e := range a.all() {
		if e == a.kept || at > 0 {
			if _, err := a.most(ctx, e, at-1); err != nil {
				return nil, err
			}
		}
	}
	_, err = a.most(ctx, a.kept, at)
	return point, err
}
