package fit

import "firstbolt/model"

// AsBefore tells whether, for this rule, every bought thing is no worse than what it replaces, while the rest stands as
// it is now and nobody has looked at a fact of it. Then the bike as it stands is the better witness: a rotor of the old
// one's size asks for no limit that was never asked before. For a danger rule the replaced thing's own facts must have
// been stated, not assumed.
func AsBefore(r *model.Rule, things, now map[string]model.Thing) bool {
	s := sight{rule: r, things: things}
	changed, unseen := false, false
	for _, slot := range Slots(r) {
		th := things[slot]
		switch {
		case th.State == model.Bought:
			changed = true
			if now[slot].State == model.Empty || !s.noWorse(slot, now[slot].Facts) {
				return false
			}
		case !th.AsItStands():
			return false
		case th.State != model.Empty:
			unseen = unseen || s.overlooked(slot)
		}
	}
	return changed && unseen
}

// overlooked tells whether the rule looks at a fact in the slot that nobody stated.
func (s sight) overlooked(slot string) bool {
	for _, ref := range Refs(s.rule) {
		if ref.Slot == slot && s.things[slot].Facts[ref.Fact].Origin.How <= model.Assumed {
			return true
		}
	}
	return false
}

// noWorse compares the facts that the rule reads in one slot with those of what stood there. A number in an at_most or at_least rule may differ to the
// safe side; anything else must be equal.
func (s sight) noWorse(slot string, replaced model.Facts) bool {
	for _, ref := range Refs(s.rule) {
		if ref.Slot != slot {
			continue
		}
		v, was := s.things[slot].Facts[ref.Fact], replaced[ref.Fact]
		if !v.Known() || !was.Known() || s.rule.Severity == model.Danger && was.Origin.How <= model.Assumed {
			return false
		}
		if v.String() != was.String() && (v.Milli-was.Milli)*safer(s.rule, ref) <= 0 {
			return false
		}
	}
	return true
}

// safer is 1 where a larger number is safer, -1 where a smaller one is, 0 where neither is.
func safer(r *model.Rule, ref Ref) int64 {
	direction := map[model.Relation]float64{model.AtMost: -1, model.AtLeast: 1}[r.Relation]
	sum := 0.0
	for _, t := range r.Left {
		if t.Slot == ref.Slot && t.Fact == ref.Fact {
			sum += direction * t.Coef
		}
	}
	for _, t := range r.Right {
		if t.Slot == ref.Slot && t.Fact == ref.Fact {
			sum -= direction * t.Coef
		}
	}
	switch {
	case sum > 0:
		return 1
	case sum < 0:
		return -1
	default:
		return 0
	}
}
