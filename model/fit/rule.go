package fit

import "firstbolt/model"

// Ref names one fact of the thing in one slot.
type Ref struct{ Slot, Fact string }

// Refs are the facts that a rule looks at, each once: left, right, conditions, bridge. Conditions that only ask
// whether something stands in a slot name no fact.
func Refs(r *model.Rule) []Ref {
	var refs []Ref
	add := func(slot, fact string) {
		if slot == "" || fact == "" {
			return
		}
		for _, known := range refs {
			if known == (Ref{slot, fact}) {
				return
			}
		}
		refs = append(refs, Ref{slot, fact})
	}
	for _, terms := range [][]model.Term{r.Left, r.Right, r.When} {
		for _, t := range terms {
			add(t.Slot, t.Fact)
		}
	}
	if b := r.Bridge; b != nil {
		add(b.Slot, b.Step)
		add(b.Slot, b.From)
		add(b.Slot, b.To)
	}
	return refs
}

// Slots are the slots that a rule looks at, each once: left, right, conditions, bridge.
func Slots(r *model.Rule) []string {
	var slots []string
	add := func(slot string) {
		for _, known := range slots {
			if slot == known {
				return
			}
		}
		if slot != "" {
			slots = append(slots, slot)
		}
	}
	for _, terms := range [][]model.Term{r.Left, r.Right, r.When} {
		for _, t := range terms {
			add(t.Slot)
		}
	}
	if r.Bridge != nil {
		add(r.Bridge.Slot)
	}
	return slots
}
