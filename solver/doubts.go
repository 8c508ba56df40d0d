package solver

import (
	"slices"

	"firstbolt/model"
	"firstbolt/model/fit"
)

// Doubt is a fact that a purchase depends on and that nobody measured.
type Doubt struct {
	Slot, Fact string
	Thing      model.Thing // what stands in the slot, bought or fitted
	Value      model.Value // the value that the plan rests on; its origin says how far it can be relied on
	Needed     []string    // purchases that depend on it
	Slots      []string    // where those purchases go
	Otherwise  []Otherwise // what to buy instead, where the plan worked that out
}

// Doubts are the facts that the purchases of a plan depend on and that nobody measured: unknown ones with the value that
// the plan takes for them, remembered ones and assumed ones. Each stands once, in the order of the rules.
func (p *Plan) Doubts() []Doubt {
	var list []Doubt
	for _, r := range p.Fit {
		if r.Outcome.State == fit.NotConcerned {
			continue
		}
		slots, needed := p.bought(r.Rule)
		for _, ref := range p.Program.InDoubt(r.Rule, p.Built) {
			th := p.Built[ref.Slot]
			list = doubt(list, Doubt{
				Slot: ref.Slot, Fact: ref.Fact, Thing: th, Value: p.restsOn(ref, th.Facts[ref.Fact]), Needed: needed, Slots: slots, Otherwise: p.Others[ref],
			})
		}
	}
	return list
}

// bought are the slots that a rule looks at and that hold something bought, and the names of what is bought.
func (p *Plan) bought(r *model.Rule) (slots, names []string) {
	for _, slot := range fit.Slots(r) {
		if th := p.Built[slot]; th.State == model.Bought {
			slots, names = append(slots, slot), with(names, th.Name)
		}
	}
	return slots, names
}

// restsOn is the value of a fact, or where it is unknown the one that the plan takes.
func (p *Plan) restsOn(ref fit.Ref, stated model.Value) model.Value {
	for _, r := range p.Rests {
		if !stated.Known() && r.Slot == ref.Slot && r.Fact == ref.Fact {
			v := r.Value
			v.Origin = model.Origin{}
			return v
		}
	}
	return stated
}

// doubt adds a doubt, or its purchases to the one that is there.
func doubt(list []Doubt, d Doubt) []Doubt {
	for i := range list {
		if list[i].Slot == d.Slot && list[i].Fact == d.Fact {
			list[i].Needed, list[i].Slots = with(list[i].Needed, d.Needed...), with(list[i].Slots, d.Slots...)
			return list
		}
	}
	d.Needed, d.Slots = slices.Clone(d.Needed), slices.Clone(d.Slots)
	return append(list, d)
}

// with adds what is not there yet.
func with(list []string, more ...string) []string {
	for _, m := range more {
		if !slices.Contains(list, m) {
			list = append(list, m)
		}
	}
	return list
}
