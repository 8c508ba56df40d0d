package solver

import (
	"context"

	"firstbolt/model"
	"firstbolt/solver/program"
)

// switchPoint finds the lowest budget at which a rival beats staying: from B = 0, the least cost c at which some rival
// reaches more than the best of staying at B; if c <= B the point is B, else B = c and again. Each round proves that no
// smaller budget will do, so the first stop is the lowest such budget.
func (a *asker) switchPoint(ctx context.Context, ans *Answer) error {
	if a.kept == nil || len(a.rivals) == 0 {
		return nil
	}
	for purse := model.Money(0); ; {
		stay, _, err := a.ask(ctx, a.kept, goal{purse: int64(purse), floor: program.NoFloor, objective: mostBenefit})
		if err != nil {
			return err
		}
		floor := program.NoFloor
		if stay.Choice != nil {
			floor = stay.Benefit + 1
		}
		cost, found, err := a.cheapestRival(ctx, floor)
		if err != nil || !found {
			return err
		}
		if cost <= purse {
			return a.reportSwitch(ctx, ans, purse, stay)
		}
		purse = cost
	}
}

// cheapestRival is the least whole cost at which some rival reaches the floor.
func (a *asker) cheapestRival(ctx context.Context, floor int64) (model.Money, bool, error) {
	least, found := model.Money(0), false
	for _, e := range a.rivals {
		s, err := a.reach(ctx, e, floor)
		if err != nil {
			return 0, false, err
		}
		if cost := model.Money(s.Cash) + e.base; s.Choice != nil && (!found || cost < least) {
			least, found = max(cost, 0), true
		}
	}
	return least, found, nil
}

// reportSwitch plans both sides at the switch point, and claims both sides there and one unit below for the confirmer.
func (a *asker) reportSwitch(ctx context.Context, ans *Answer, at model.Money, stay program.Solution) error {
	var winner *entrant
	var top program.Solution
	for _, e := range a.rivals {
		s, err := a.best(ctx, e, at)
		if err != nil {
			return err
		}
		if s.Choice != nil && (winner == nil || better(s, e, top, winner)) {
			winner, top = e, s
		}
	}
	ans.Switch = &SwitchPoint{At: at, StayPlan: stay.Choice != nil, Stay: Points(stay.Benefit)}
	var err error
	if ans.Switch.To, err = a.plan(winner, top); err != nil {
		return err
	}
	for _, e := range a.all() {
		if e == a.kept || at > 0 {
			if _, err := a.best(ctx, e, at-1); err != nil {
				return err
			}
		}
	}
	_, err = a.best(ctx, a.kept, at)
	return err
}
