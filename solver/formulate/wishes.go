package formulate

import (
	"fmt"
	"slices"
	"strings"

	"firstbolt/model"
	"firstbolt/solver/program"
)

// sets ties the slots that one set fills: neighbours along its slots hold the same set or none of it. A path, not a
// clique: neighbours suffice, and the graph stays narrow.
func (c *Compiled) sets() error {
	neighbours := map[[2]int]map[int]bool{}
	for s, label := range c.Slots {
		for _, l := range label.Options {
			at := slices.Index(l.Place, label.Slot)
			if l.kit == 0 || len(l.Place) < 2 || at == len(l.Place)-1 {
				continue
			}
			key := [2]int{s, c.Shed.Tables.SlotIndex(l.Place[at+1])}
			if neighbours[key] == nil {
				neighbours[key] = map[int]bool{}
			}
			neighbours[key][l.kit] = true
		}
	}
	for s := range c.Slots {
		for u := range c.Slots {
			if kits := neighbours[[2]int{s, u}]; kits != nil {
				c.Program.Relations = append(c.Program.Relations, c.setRelation(s, u, kits))
			}
		}
	}
	return nil
}

func (c *Compiled) setRelation(s, u int, kits map[int]bool) program.Relation {
	dense := map[int]int{}
	classOf := func(slot int) []int {
		class := make([]int, len(c.Slots[slot].Options))
		for k, l := range c.Slots[slot].Options {
			if !kits[l.kit] {
				continue
			}
			if _, ok := dense[l.kit]; !ok {
				dense[l.kit] = len(dense) + 1
			}
			class[k] = dense[l.kit]
		}
		return class
	}
	classes := [][]int{classOf(s), classOf(u)}
	return c.equal("sets: "+c.Slots[s].Slot+" and "+c.Slots[u].Slot, [2]int{s, u}, classes)
}

// equal is the relation that two slots are in the same class.
func (c *Compiled) equal(name string, slots [2]int, class [][]int) program.Relation {
	n := 1 + max(slices.Max(class[0]), slices.Max(class[1]))
	r := program.Relation{Name: name, Slots: slots[:], Class: class, Count: []int{n, n}, Allowed: make([]bool, n*n)}
	for i := range n {
		r.Allowed[i*n+i] = true
	}
	return r
}

// bound ties fitted things that cannot be parted: both stay or both go.
func (c *Compiled) bound() error {
	for _, f := range c.Bike.Fitted {
		if f.BoundTo == "" {
			continue
		}
		s, u := c.Shed.Tables.SlotIndex(f.Slot), c.Shed.Tables.SlotIndex(f.BoundTo)
		if s < 0 || u < 0 || s == u {
			return fmt.Errorf("%s: %q cannot be bound to %q", f.Origin, f.Slot, f.BoundTo)
		}
		stays := func(slot int) []int {
			class := make([]int, len(c.Slots[slot].Options))
			for k, l := range c.Slots[slot].Options {
				if l.Thing.State == model.AsFitted || l.Thing.State == model.Serviced {
					class[k] = 1
				}
			}
			return class
		}
		c.Program.Relations = append(c.Program.Relations, c.equal(f.Slot+" cannot be parted from "+f.BoundTo, [2]int{s, u}, [][]int{stays(s), stays(u)}))
	}
	return nil
}

// wishes notes what must be bought, and writes how many copies there are and the most purchases.
func (c *Compiled) wishes() error {
	for i := range c.Shed.Parts {
		p := &c.Shed.Parts[i]
		if p.Wish == model.Must || slices.Contains(c.Options.Force, p.ID) {
			c.want(p)
		}
		c.cap(p, true, model.Say(p.Owned, p.Origin))
		c.cap(p, false, p.Available)
	}
	if c.Options.Most > 0 {
		row := program.Row{Name: "most purchases", AtMost: int64(c.Options.Most)}
		for s := range c.Program.Slots {
			for k, o := range c.Program.Slots[s].Options {
				if o.Purchases > 0 {
					row.Terms = append(row.Terms, program.Term{Slot: s, Option: k, Coef: int64(o.Purchases)})
				}
			}
		}
		c.Program.Rows = append(c.Program.Rows, row)
	}
	return nil
}

// places are the options on which a part's price stands.
func (c *Compiled) places(p *model.Part, keep func(OptionLabel) bool, coef int64) []program.Term {
	var terms []program.Term
	for s, label := range c.Slots {
		for k, l := range label.Options {
			if l.Thing.Part == p && l.Thing.Leads() && keep(l) {
				terms = append(terms, program.Term{Slot: s, Option: k, Coef: coef})
			}
		}
	}
	return terms
}

// want notes a part that must be bought: it binds only once WithMust says so, since it may not go on this bike at all.
func (c *Compiled) want(p *model.Part) {
	if len(c.places(p, anyOption, -1)) == 0 {
		c.Waived = append(c.Waived, p)
		return
	}
	c.Wanted = append(c.Wanted, p)
}

func anyOption(OptionLabel) bool { return true }

// WithMust is the same program in which the part must be bought, in at least one of its places.
func (c *Compiled) WithMust(p *model.Part) *Compiled {
	bound, rows := *c, *c.Program
	rows.Rows = append(slices.Clip(rows.Rows), program.Row{Name: "must: " + p.Name, Terms: c.places(p, anyOption, -1), AtMost: -1})
	bound.Program = &rows
	bound.Musts = append(slices.Clip(bound.Musts), p)
	return &bound
}

// cap limits copies where a part has more places than there are copies of it.
func (c *Compiled) cap(p *model.Part, owned bool, most model.Stated[int]) {
	if !most.Known || most.Value >= len(p.Places) || most.Value == 0 {
		return
	}
	terms := c.places(p, func(l OptionLabel) bool { return l.Owned == owned }, 1)
	if len(terms) > most.Value {
		c.Program.Rows = append(c.Program.Rows, program.Row{Name: "copies of " + p.Name, Terms: terms, AtMost: int64(most.Value)})
	}
}

// tidyGuesses merges plausible values that no rule tells apart; the likeliest one speaks for them.
func (c *Compiled) tidyGuesses() {
	for s := range c.Slots {
		if c.Slots[s].Role == Guess {
			c.tidyGuess(s)
		}
	}
}

func (c *Compiled) tidyGuess(s int) {
	first, kept := map[string]int{}, []int{}
	for k := range c.Slots[s].Options {
		sign := c.signature(s, k)
		if at, ok := first[sign]; ok {
			speaker := &c.Slots[s].Options[at]
			speaker.Also = append(speaker.Also, c.Slots[s].Options[k].Value)
			continue
		}
		first[sign] = k
		kept = append(kept, k)
	}
	c.Slots[s].Options = pick(c.Slots[s].Options, kept)
	c.Program.Slots[s].Options = pick(c.Program.Slots[s].Options, kept)
	for i := range c.Program.Relations {
		r := &c.Program.Relations[i]
		if at := slices.Index(r.Slots, s); at >= 0 {
			r.Class[at] = pick(r.Class[at], kept)
		}
	}
}

// signature is everything that the relations say of one option.
func (c *Compiled) signature(s, k int) string {
	var b strings.Builder
	for i := range c.Program.Relations {
		r := &c.Program.Relations[i]
		at := slices.Index(r.Slots, s)
		if at < 0 {
			continue
		}
		classes := make([]int, len(r.Slots))
		for j := range r.Allowed {
			if classes[at] == r.Class[at][k] {
				fmt.Fprint(&b, r.Allowed[j], " ")
			}
			advance(classes, r.Count)
		}
		b.WriteByte('/')
	}
	return b.String()
}

func pick[T any](list []T, kept []int) []T {
	out := make([]T, 0, len(kept))
	for _, k := range kept {
		out = append(out, list[k])
	}
	return out
}
