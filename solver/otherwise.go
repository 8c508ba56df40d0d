package solver

import (
	"cmp"
	"context"
	"fmt"
	"slices"

	"firstbolt/model"
	"firstbolt/model/fit"
	"firstbolt/solver/formulate"
	"firstbolt/solver/program"
)

// Otherwise is what to buy in place of the parts that wait for a measurement, if it comes out at another value, while
// the rest of the plan stays.
type Otherwise struct {
	Value model.Value
	Buy   []string    // parts; empty: none of those on the sheets goes then
	More  model.Money // more money than the plan, below zero for less
}

// mostOtherwise bounds how many measurements are followed up, and likeliest how many values of each.
const (
	mostOtherwise = 8
	likeliest     = 3
)

// otherwise works out, for every measurement that an order waits for, what to buy if it comes out otherwise. What does
// not finish in time is left out.
func (a *asker) otherwise(ctx context.Context, p *Plan) error {
	e := a.entrantOf(p.Bike)
	if e == nil {
		return nil
	}
	p.Others = map[fit.Ref][]Otherwise{}
	asked := 0
	for _, d := range p.Doubts() {
		if asked == mostOtherwise || !p.waits(d) {
			continue
		}
		asked++
		for _, v := range others(a.q.Shed.Tables.FactNamed(d.Fact), d.Value) {
			other, same, err := a.suppose(ctx, e, p, d, v)
			if err != nil {
				return err
			}
			if !same {
				ref := fit.Ref{Slot: d.Slot, Fact: d.Fact}
				p.Others[ref] = append(p.Others[ref], other)
			}
		}
	}
	return nil
}

func (a *asker) entrantOf(b *model.Bike) *entrant {
	for _, e := range a.all() {
		if e.bike == b {
			return e
		}
	}
	return nil
}

// waits tells whether a step is ordered only after the doubt is settled.
func (p *Plan) waits(d Doubt) bool {
	return slices.ContainsFunc(p.Steps, func(s Step) bool {
		return s.After && slices.ContainsFunc(s.Purchases, func(b formulate.Purchase) bool {
			return slices.ContainsFunc(b.Changes, func(ch formulate.Change) bool { return slices.Contains(d.Slots, ch.Label.Thing.Slot) })
		})
	})
}

// others are the likeliest values of a fact besides the one that is taken, the likeliest first.
func others(f *model.Fact, taken model.Value) []model.Value {
	if f == nil {
		return nil
	}
	plausible := slices.DeleteFunc(slices.Clone(f.Plausible), func(p model.Plausible) bool { return p.Value.String() == taken.String() })
	slices.SortStableFunc(plausible, func(x, y model.Plausible) int { return cmp.Compare(y.Share, x.Share) })
	var list []model.Value
	for _, p := range plausible[:min(len(plausible), likeliest)] {
		list = append(list, p.Value)
	}
	return list
}

// suppose plans the slots that wait for a doubt anew, with the fact measured to be the value and all else as planned;
// same where nothing changes.
func (a *asker) suppose(ctx context.Context, e *entrant, p *Plan, d Doubt, v model.Value) (other Otherwise, same bool, err error) {
	shed, bike := measuredAs(p.Program.Shed, p.Program.Bike, d, v)
	c, err := formulate.Compile(shed, bike, a.q.Options)
	if err != nil {
		return other, false, &Faulty{err}
	}
	q := *c.Program
	q.Budget, q.Objective = int64(a.q.Budget-e.base), a.worth()
	free := p.free(d)
	for s, label := range p.Program.Slots {
		if label.Role == formulate.OnBike && !slices.Contains(free, label.Slot) {
			q.Rows = append(q.Rows, held(c, s, label.Options[p.Choice[s]]))
		}
	}
	s, err := a.q.Lead.Solve(ctx, &q)
	switch {
	case err != nil:
		return other, false, fmt.Errorf("%s: %w", a.q.Lead.Name(), err)
	case s.Status == program.Stopped:
		return other, false, &Stopped{Bike: e.bike.Name}
	case s.Choice == nil:
		return Otherwise{Value: v}, false, nil
	}
	other = Otherwise{Value: v, More: model.Money(s.Cash) + e.base - p.Cash, Buy: boughtIn(c, s.Choice, free)}
	return other, slices.Equal(other.Buy, boughtIn(p.Program, p.Choice, free)), nil
}

// free are the slots that are planned anew: those of the parts that wait, and those where a piece may join what does
// not meet.
func (p *Plan) free(d Doubt) []string {
	list := slices.Clone(d.Slots)
	for _, r := range p.Fit {
		if b := r.Rule.Bridge; b != nil && slices.Contains(fit.Slots(r.Rule), d.Slot) {
			list = with(list, b.Slot)
		}
	}
	for _, s := range p.Steps {
		for _, b := range s.Purchases {
			if slices.ContainsFunc(b.Place, func(slot string) bool { return slices.Contains(d.Slots, slot) }) {
				list = with(list, b.Place...)
			}
		}
	}
	return list
}

// held is the row that keeps one slot as planned: one of the options that are the same thing in the same place.
func held(c *formulate.Compiled, s int, planned formulate.OptionLabel) program.Row {
	row := program.Row{Name: "as planned: " + c.Slots[s].Slot, AtMost: -1}
	for k, l := range c.Slots[s].Options {
		if l.Thing.State == planned.Thing.State && partID(l) == partID(planned) && slices.Equal(l.Place, planned.Place) && l.Owned == planned.Owned {
			row.Terms = append(row.Terms, program.Term{Slot: s, Option: k, Coef: -1})
		}
	}
	return row
}

func partID(l formulate.OptionLabel) string {
	if l.Thing.Part == nil {
		return ""
	}
	return l.Thing.Part.ID
}

// boughtIn are the names of the parts that a choice buys in the slots.
func boughtIn(c *formulate.Compiled, choice []int, slots []string) []string {
	var names []string
	for _, b := range c.Purchases(choice) {
		if b.Part != nil && slices.ContainsFunc(b.Place, func(slot string) bool { return slices.Contains(slots, slot) }) {
			names = append(names, b.Part.Name)
		}
	}
	return names
}

// measuredAs is the shed and the bike with one fact measured: of the part on offer, or of what is fitted.
func measuredAs(shed *model.Shed, bike *model.Bike, d Doubt, v model.Value) (*model.Shed, *model.Bike) {
	v.Origin = model.Origin{Sheet: "supposed", How: model.Measured}
	if part := d.Thing.Part; part != nil {
		known := *shed
		known.Parts = slices.Clone(shed.Parts)
		for i := range known.Parts {
			if known.Parts[i].ID == part.ID {
				known.Parts[i].Facts = withFact(known.Parts[i].Facts, d.Fact, v)
			}
		}
		return &known, bike
	}
	known := *bike
	known.Fitted = slices.Clone(bike.Fitted)
	for i := range known.Fitted {
		if known.Fitted[i].Slot == d.Slot {
			known.Fitted[i].Facts = withFact(known.Fitted[i].Facts, d.Fact, v)
			return shed, &known
		}
	}
	known.Fitted = append(known.Fitted, model.Fitted{Slot: d.Slot, Facts: model.Facts{d.Fact: v}, Origin: bike.Origin})
	return shed, &known
}

func withFact(facts model.Facts, name string, v model.Value) model.Facts {
	all := model.Facts{name: v}
	for known, value := range facts {
		if known != name {
			all[known] = value
		}
	}
	return all
}
