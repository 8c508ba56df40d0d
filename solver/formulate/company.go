package formulate

import (
	"slices"

	"firstbolt/model"
	"firstbolt/solver/program"
)

// Bare is the same program without its benefit: all that is left to ask is what goes together, and for how much. No order
// ships free in it, so that nothing is bought only to save postage.
func (c *Compiled) Bare() *Compiled {
	bare, p := *c, *c.Program
	p.Measures = nil
	p.Shops = slices.Clone(p.Shops)
	for i := range p.Shops {
		p.Shops[i].FreeOver = program.NeverFree
	}
	p.Slots = slices.Clone(p.Slots)
	for s := range p.Slots {
		options := slices.Clone(p.Slots[s].Options)
		for k := range options {
			options[k].Amounts = nil
		}
		p.Slots[s].Options = options
	}
	p.Objective = program.Objective{Cash: 1}
	bare.Program = &p
	return &bare
}

// With is the same program in which the part stands in the place; false where it is not offered there.
func (c *Compiled) With(part *model.Part, place model.Place) (*Compiled, bool) {
	terms := c.places(part, func(l OptionLabel) bool { return slices.Equal(l.Place, place) }, -1)
	if len(terms) == 0 {
		return nil, false
	}
	held, p := *c, *c.Program
	p.Rows = append(slices.Clip(p.Rows), program.Row{Name: "with " + part.Name, Terms: terms, AtMost: -1})
	held.Program = &p
	return &held, true
}

// Refused is the reason why nobody would fit the part in the place; empty where somebody would.
func (c *Compiled) Refused(part *model.Part, place model.Place) string {
	for _, n := range c.NotOffered {
		if n.Part == part && slices.Equal(n.Place, place) {
			return n.Reason
		}
	}
	return ""
}
