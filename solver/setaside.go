package solver

import (
	"slices"

	"firstbolt/model"
	"firstbolt/model/fit"
	"firstbolt/solver/formulate"
)

// Aside is a part that a plan could not choose in some or all of its places. Either its row lacks a fact that keeps
// people from getting hurt, or it goes nowhere on this bike.
type Aside struct {
	Part  *model.Part
	Fact  string   // that the row lacks; empty where nothing is lacking
	Slots []string // the places that wait for the fact
	Says  string   // why it goes nowhere, in the failing rule's words; empty where a fact is lacking
	Mend  string   // what could be done instead
	Allow string   // rule that could be allowed, because practice disagrees; empty for none
}

// SetAside are the parts of the sheets that the plan could not choose, in the order of the sheets. Parts that are never
// to be bought are not among them.
func (p *Plan) SetAside(allow []string) []Aside {
	var list []Aside
	bench := fit.On(p.Program.Shed.Tables, p.Program.Bike, allow)
	for i := range p.Program.Shed.Parts {
		part := &p.Program.Shed.Parts[i]
		if part.Wish == model.Never || len(part.Places) == 0 {
			continue
		}
		if a := p.setAside(bench, part, allow); a.Fact != "" || a.Says != "" {
			list = append(list, a)
		}
	}
	return list
}

// setAside looks at every place of a part. What goes nowhere says why for the first place; one open place is enough for
// a part not to be set aside, but a place that lacks a fact is said in any case.
func (p *Plan) setAside(bench *fit.Bench, part *model.Part, allow []string) Aside {
	lacking, barred := Aside{Part: part}, Aside{Part: part}
	count := 0
	for _, place := range part.Places {
		b := p.bar(bench, part, place, allow)
		switch {
		case b.Fact != "" && (lacking.Fact == "" || lacking.Fact == b.Fact):
			lacking.Fact, lacking.Slots = b.Fact, append(lacking.Slots, b.Slots...)
		case b.Says != "":
			if count++; count == 1 {
				barred = b
			}
		}
	}
	if count == len(part.Places) {
		return barred
	}
	return lacking
}

// bar is what keeps a part from one place; empty where nothing does.
func (p *Plan) bar(bench *fit.Bench, part *model.Part, place model.Place, allow []string) Aside {
	t := p.Program.Shed.Tables
	answer, results := bench.Alone(part, place)
	if ref, r := fit.Lacks(t, part, place); r != nil && answer != fit.DoesNotFit {
		return Aside{Part: part, Fact: ref.Fact, Slots: []string{ref.Slot}}
	}
	for _, n := range p.Program.NotOffered {
		if n.Part == part && slices.Equal(n.Place, place) && answer != fit.DoesNotFit {
			return Aside{Part: part, Says: n.Reason}
		}
	}
	for _, r := range results {
		if !r.Forbids() {
			continue
		}
		try := trial{p: p, rule: r.Rule, allow: allow, things: map[string]model.Thing{}}
		for _, slot := range place {
			try.things[slot] = t.BoughtThing(part, place, slot)
		}
		missing, never := try.never(place)
		switch {
		case !never:
		case len(missing) == 0:
			a := Aside{Part: part, Says: r.Says, Mend: r.Rule.Mend}
			if r.Severity == model.BothSides {
				a.Allow = r.Rule.ID
			}
			return a
		case slices.Contains(place, missing[0].Slot):
			return Aside{Part: part, Fact: missing[0].Fact, Slots: []string{missing[0].Slot}}
		}
	}
	if ref, r := fit.Lacks(t, part, place); r != nil {
		return Aside{Part: part, Fact: ref.Fact, Slots: []string{ref.Slot}}
	}
	return Aside{}
}

// trial puts a part together with everything else that the plan may choose where one rule looks.
type trial struct {
	p      *Plan
	rule   *model.Rule
	allow  []string
	things map[string]model.Thing
}

// mostTrials bounds how many sets of things are tried; beyond it a rule counts as mendable.
const mostTrials = 20_000

// never tells whether the rule forbids the part with every choice in the other slots, and which facts are missing with
// all of those choices.
func (t *trial) never(place model.Place) (missing []fit.Ref, never bool) {
	var slots []string
	var choices [][]model.Thing
	count := 1
	for _, slot := range fit.Slots(t.rule) {
		if slices.Contains(place, slot) {
			continue
		}
		things := t.choices(slot)
		slots, choices = append(slots, slot), append(choices, things)
		if count *= len(things); count > mostTrials {
			return nil, false
		}
	}
	stated := false // some choice breaks the rule with every fact known
	for n := range count {
		for i, slot := range slots {
			t.things[slot] = choices[i][n%len(choices[i])]
			n /= len(choices[i])
		}
		o := fit.Judge(t.p.Program.Shed.Tables, t.rule, t.things, t.allow)
		if !o.Forbids() {
			return nil, false
		}
		if stated = stated || len(o.Missing) == 0; !stated {
			missing = o.Missing
		}
	}
	if stated {
		missing = nil
	}
	return missing, true
}

// choices are the things that may stand in a slot: what is there now, what the program offers, and nothing where the
// bike can do without.
func (t *trial) choices(slot string) []model.Thing {
	list := []model.Thing{t.p.Program.Now[slot]}
	for _, s := range t.p.Program.Shed.Tables.Slots {
		if s.Name == slot && !s.Required {
			list = append(list, model.Thing{Slot: slot, State: model.Empty})
		}
	}
	for _, s := range t.p.Program.Slots {
		if s.Role != formulate.OnBike || s.Slot != slot {
			continue
		}
		for _, o := range s.Options {
			list = append(list, o.Thing)
		}
	}
	return list
}
