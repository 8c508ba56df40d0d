package solver

import (
	"fmt"

	"firstbolt/model"
	"firstbolt/model/fit"
	"firstbolt/solver/certify"
	"firstbolt/solver/formulate"
	"firstbolt/solver/program"
	"firstbolt/solver/receipt"
)

// check certifies a solution from the program alone.
func check(p *program.Program, s program.Solution) error { return certify.Solution(p, s) }

// plan makes a certified Plan of a solution.
func (a *asker) plan(e *entrant, s program.Solution) (*Plan, error) {
	if s.Choice == nil {
		return nil, fmt.Errorf("%s has no plan here", e.bike.Name)
	}
	c := e.c
	p := &Plan{
		Bike: e.bike, Base: e.base, Cash: model.Money(s.Cash) + e.base, Benefit: Points(s.Benefit),
		Built: c.Built(s.Choice), Choice: s.Choice, Program: c,
	}
	standing := c.StandingAmounts()
	p.Before = Points(c.BenefitOf(standing))
	p.Levels = levels(c, standing, c.Program.Evaluate(s.Choice).Amounts)
	p.Fit = receipt.Fit(a.q.Shed, p.Built, a.q.Options.Allow)
	if err := a.tradeCheck(p); err != nil {
		return nil, err
	}
	p.Steps = order(c, s.Choice)
	p.rests()
	return p, nil
}

// tradeCheck checks the built bike's fit and adds the receipt up from the sheets' own lines.
func (a *asker) tradeCheck(p *Plan) error {
	for _, r := range p.Fit {
		if r.Forbids() && !fit.AsBefore(r.Rule, p.Built, p.Program.Now) {
			return fmt.Errorf("%s: the plan breaks the fit rule %s on the built bike", a.q.Lead.Name(), r.Rule.ID)
		}
	}
	var kept *model.Bike
	if a.kept != nil {
		kept = a.kept.bike
	}
	var err error
	if p.Receipt, err = receipt.Add(a.q.Shed, p.Bike, kept, items(p.Program, p.Choice)); err != nil {
		return fmt.Errorf("receipt of %s: %w", p.Bike.Name, err)
	}
	if p.Receipt.Total != p.Cash {
		format := a.q.Shed.Currency.Format
		return fmt.Errorf("the receipt of %s adds up to %s, the plan says %s", p.Bike.Name, format(p.Receipt.Total), format(p.Cash))
	}
	return nil
}

// levels are the criteria before and after.
func levels(c *formulate.Compiled, before, after []int64) []Level {
	var list []Level
	for i, criterion := range c.Shed.Tables.Criteria {
		l := Level{Criterion: criterion.Key, Weight: c.Weights.Criteria[i].Percent, Gain: gain(c, i, before, after)}
		for m, measure := range c.Shed.Tables.Measures {
			if measure.Criterion != criterion.Key {
				continue
			}
			pm := &c.Program.Measures[m]
			l.Before += Points(pm.Curve.At(before[m])) * Points(measure.Share)
			l.After += Points(pm.Curve.At(after[m])) * Points(measure.Share)
			l.Counts += Points(pm.Weight * pm.Curve.At(before[m]))
		}
		list = append(list, l)
	}
	return list
}

// rests finds which purchases stand on facts that nobody measured, and the values that the plan takes for unknown ones.
func (p *Plan) rests() {
	guesses := p.Program.Guesses(p.Choice)
	uncertain := map[string]bool{} // by slot
	for _, r := range p.Fit {
		if r.Outcome.State == fit.NotConcerned {
			continue
		}
		_, needed := p.bought(r.Rule)
		if len(needed) == 0 || r.Rule.Severity == model.Advice {
			continue
		}
		if p.Program.Uncertain(r.Rule, p.Built) {
			for _, slot := range fit.Slots(r.Rule) {
				uncertain[slot] = true
			}
		}
		for _, m := range r.Outcome.Missing {
			p.rest(m, guesses[[2]string{m.Slot, m.Fact}], needed)
		}
	}
	for i := range p.Steps {
		for _, b := range p.Steps[i].Purchases {
			for _, ch := range b.Changes {
				p.Steps[i].After = p.Steps[i].After || b.Part != nil && uncertain[ch.Label.Thing.Slot]
			}
		}
	}
}

func (p *Plan) rest(m fit.Ref, value model.Value, needed []string) {
	for i := range p.Rests {
		if r := &p.Rests[i]; r.Slot == m.Slot && r.Fact == m.Fact {
			r.Needed = with(r.Needed, needed...)
			return
		}
	}
	p.Rests = append(p.Rests, Rest{Slot: m.Slot, Fact: m.Fact, Value: value, Needed: needed})
}

// items are the changes of a choice for the receipt.
func items(c *formulate.Compiled, choice []int) []receipt.Item { return itemsOf(c.Changes(choice)) }
