package formulate

import (
	"fmt"
	"slices"

	"firstbolt/model"
	"firstbolt/solver/program"
)

// pairWorths gives every pair whose worth depends on several parts together a slot of its own: "no" and "yes", and a
// relation that says yes exactly where all its conditions hold.
func (c *Compiled) pairWorths() error {
	for _, v := range c.Scorer.Values() {
		if v.Amount.Steps == 0 {
			continue
		}
		if err := c.pairWorth(v.Rule, program.Amount{Measure: v.Amount.Measure, Steps: v.Amount.Steps}); err != nil {
			return err
		}
	}
	return nil
}

func (c *Compiled) pairWorth(v *model.ValueRule, gives program.Amount) error {
	worth := len(c.Slots)
	relation := program.Relation{Name: v.Name, Slots: []int{worth}, Class: [][]int{{0, 1}}, Count: []int{2}}
	standing := 1
	for _, slot := range slotsOf(v.When) {
		at := c.Shed.Tables.SlotIndex(slot)
		if at < 0 {
			return fmt.Errorf("the worth %q names the slot %q, which does not exist", v.Name, slot)
		}
		class := make([]int, len(c.Slots[at].Options))
		for k, l := range c.Slots[at].Options {
			if holds(l.Thing, slot, v.When) {
				class[k] = 1
			}
		}
		if !holds(c.Now[slot], slot, v.When) {
			standing = 0
		}
		if !slices.Contains(class, 1) {
			return nil // never to be had on this bike
		}
		relation.Slots, relation.Class, relation.Count = append(relation.Slots, at), append(relation.Class, class), append(relation.Count, 2)
	}
	relation.Allowed = make([]bool, 1<<len(relation.Slots))
	at := make([]int, len(relation.Slots))
	for i := range relation.Allowed {
		both := !slices.Contains(at[1:], 0)
		relation.Allowed[i] = both == (at[0] == 1)
		advance(at, relation.Count)
	}
	c.Program.Relations = append(c.Program.Relations, relation)
	c.Slots = append(c.Slots, SlotLabel{Role: Worth, Name: v.Name, Options: []OptionLabel{{}, {Holds: true}}})
	c.AsItStands = append(c.AsItStands, standing)
	c.Program.Slots = append(c.Program.Slots, program.Slot{Name: "worth: " + v.Name, Options: []program.Option{
		{Name: "no", Shop: program.NoShop}, {Name: "yes", Shop: program.NoShop, Amounts: []program.Amount{gives}},
	}})
	return nil
}

func slotsOf(terms []model.Term) []string {
	var slots []string
	for _, t := range terms {
		if !slices.Contains(slots, t.Slot) {
			slots = append(slots, t.Slot)
		}
	}
	return slots
}

// holds tells whether a thing meets every condition on its slot. An unknown fact meets none.
func holds(th model.Thing, slot string, when []model.Term) bool {
	for _, w := range when {
		if w.Slot != slot {
			continue
		}
		met := th.State != model.Empty && th.Facts[w.Fact].Is(w.Constant)
		if w.Fact == "" {
			met = (th.State == model.Empty) == (w.Constant == "none")
		}
		if !met {
			return false
		}
	}
	return true
}

// SettleWorths gives every pair's worth in a choice the only answer that its relation allows.
func (c *Compiled) SettleWorths(choice []int) {
	for i := range c.Program.Relations {
		r := &c.Program.Relations[i]
		if c.Slots[r.Slots[0]].Role != Worth {
			continue
		}
		choice[r.Slots[0]] = 1
		for j, s := range r.Slots[1:] {
			if r.Class[j+1][choice[s]] == 0 {
				choice[r.Slots[0]] = 0
			}
		}
	}
}
