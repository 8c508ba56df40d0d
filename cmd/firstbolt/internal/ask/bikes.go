package ask

import (
	"slices"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/solver"
)

// rivals are the other bikes at the same budget, the rider's own among them where another is bought: those within reach first, best benefit first, then by base cost.
func (f *filler) rivals() []answer.Rival {
	contenders := slices.Clone(f.ans.Contenders)
	if f.ans.Decision == solver.Switch {
		chosen := f.ans.Chosen.Bike
		contenders = slices.DeleteFunc(contenders, func(c solver.Contender) bool { return c.Bike == chosen })
		if kept := f.ans.Kept; kept != nil {
			contenders = append(contenders, solver.Contender{Bike: kept.Bike, Plan: kept})
		}
	}
	slices.SortStableFunc(contenders, func(a, b solver.Contender) int {
		switch {
		case (a.Plan == nil) != (b.Plan == nil):
			if a.Plan == nil {
				return 1
			}
			return -1
		case a.Plan != nil && a.Plan.Benefit != b.Plan.Benefit:
			return int(b.Plan.Benefit - a.Plan.Benefit)
		default:
			return int(a.Base - b.Base)
		}
	})
	var list []answer.Rival
	for _, c := range contenders {
		r := answer.Rival{Bike: c.Bike.Name, Where: c.Bike.Origin.String(), BaseCost: f.money(c.Base), Affordable: c.Plan != nil}
		if c.Plan != nil {
			r.Buy = partNames(c.Plan)
			r.Cost = f.moneyOrNull(c.Plan.Cash)
			r.Benefit = &answer.RivalBenefit{After: points(c.Plan.Benefit)}
			for _, l := range c.Plan.Levels {
				r.Benefit.ByCriterion = append(r.Benefit.ByCriterion, answer.Entry[answer.RivalLevel]{
					Key: l.Criterion, Value: answer.RivalLevel{Weight: answer.Share(l.Weight), After: points(l.After)},
				})
			}
		}
		list = append(list, r)
	}
	return list
}

// partNames are the parts that a plan buys, in buying order.
func partNames(p *solver.Plan) []string {
	var names []string
	for _, s := range p.Steps {
		for _, b := range s.Purchases {
			if b.Part != nil {
				names = append(names, b.Part.Name)
			}
		}
	}
	return names
}

func (f *filler) switchPoint() *answer.Switch {
	s := f.ans.Switch
	if s == nil {
		return nil
	}
	sw := &answer.Switch{
		At: f.money(s.At), Away: f.money(s.At - f.ans.Question.Budget), To: s.To.Bike.Name, Buy: partNames(s.To),
		BenefitSwitch: points(s.To.Benefit),
	}
	if s.StayPlan {
		sw.BenefitStay, sw.Gain = pointsOrNull(s.Stay), pointsOrNull(s.To.Benefit-s.Stay)
	}
	return sw
}

func (f *filler) mend() *answer.Mend {
	if f.ans.Decision != solver.Mend {
		return nil
	}
	m := &answer.Mend{}
	if f.ans.Repair != nil {
		m.Least = f.moneyOrNull(f.ans.Repair.Cash)
		m.Receipt = f.receipt(f.ans.Repair)
	}
	for _, c := range f.ans.Contenders {
		if c.Plan != nil {
			m.Within = append(m.Within, c.Bike.Name)
		}
	}
	return m
}
