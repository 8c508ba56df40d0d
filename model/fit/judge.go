package fit

import (
	"slices"
	"strings"

	"firstbolt/model"
)

// State is how a rule comes out. The zero value is NotConcerned.
type State int

// The states of a rule.
const (
	NotConcerned State = iota // a slot is empty, or a condition does not hold
	Met
	Bridged // met by the piece in the rule's bridge slot
	Missing // a fact is not known and could decide it
	Allowed // broken, but practice disagrees and the rider allowed it by name
	Broken
)

// String is the word used in answers.
func (s State) String() string {
	return [...]string{"not concerned", "met", "bridged", "missing", "allowed", "broken"}[s]
}

// Outcome is how one rule comes out on the things in its slots.
type Outcome struct {
	State State
	// Severity is the rule's own, or BothSides where a pair would do that only some practice accepts.
	Severity model.Severity
	// Missing are the facts that are not known. A danger rule is Broken, with Missing facts, when a bought part does
	// not state what the rule needs.
	Missing  []Ref
	Bridge   string // name of the piece that joins, when Bridged
	Standing bool   // all that the rule looks at stands so on the bike now
}

// Forbids tells whether a bike may not be built so.
func (o Outcome) Forbids() bool {
	return o.State == Broken && !o.Standing && o.Severity != model.Advice
}

// Judge evaluates one rule. A slot that is not among the things counts as empty. allow lists rules by their id, with
// or without the ".front" or ".rear" at its end; it counts only for what practice disagrees on.
func Judge(t *model.Tables, r *model.Rule, things map[string]model.Thing, allow []string) Outcome {
	s := sight{tables: t, rule: r, things: things}
	o := Outcome{State: NotConcerned, Severity: r.Severity}
	applies, open := s.conditions()
	if !applies {
		return o
	}
	o = s.relate()
	o.Standing = s.standing()
	switch {
	case o.State == Broken && len(open) > 0:
		o.State, o.Missing = Missing, open
	case o.State == Missing:
		o.Missing = append(o.Missing, open...)
	}
	switch {
	case o.State == Missing && s.oneSet():
		o.State, o.Missing = Met, nil
	case o.State == Missing && r.Severity == model.Danger && (s.bought(open) || len(open) == 0 && s.bought(o.Missing)):
		o.State = Broken
	case o.State == Broken && o.Severity == model.BothSides && allowed(r.ID, allow):
		o.State = Allowed
	}
	return o
}

func allowed(id string, allow []string) bool {
	return slices.ContainsFunc(allow, func(name string) bool { return named(id, name) })
}

// named tells whether a name means the rule: its id, with or without the ".front" or ".rear" at its end.
func named(id, name string) bool {
	return id == name || strings.TrimSuffix(strings.TrimSuffix(id, ".front"), ".rear") == name
}

// Named are the rules that a name means; front and rear may have one name.
func Named(t *model.Tables, name string) []*model.Rule {
	var rules []*model.Rule
	for i := range t.Rules {
		if named(t.Rules[i].ID, name) {
			rules = append(rules, &t.Rules[i])
		}
	}
	return rules
}

// Disputed tells whether practice disagrees on the rule, or on some of the pairs that it looks up, so that it can be
// allowed. What keeps people from getting hurt never can.
func Disputed(t *model.Tables, r *model.Rule) bool {
	if r.Severity != model.Firm {
		return r.Severity == model.BothSides
	}
	return r.Relation == model.PairIn && slices.ContainsFunc(t.Pairs[r.Table], func(p model.Pair) bool { return p.Severity == model.BothSides })
}

// sight is one rule with what stands in its slots.
type sight struct {
	tables *model.Tables
	rule   *model.Rule
	things map[string]model.Thing
}

// in is what stands in the slot; false when it is empty.
func (s sight) in(slot string) (model.Thing, bool) {
	th, ok := s.things[slot]
	return th, ok && th.State != model.Empty
}

// between is the piece in the rule's bridge slot.
func (s sight) between() (model.Thing, bool) {
	if s.rule.Bridge == nil {
		return model.Thing{}, false
	}
	return s.in(s.rule.Bridge.Slot)
}

// fact is the value of a fact. A value that was only supposed (certainty Unknown) does not count as known where it
// must be stated: for a bought part under a danger rule, and inside a set.
func (s sight) fact(slot, fact string) (model.Value, bool) {
	th, ok := s.in(slot)
	if !ok {
		return model.Value{}, false
	}
	v := th.Facts[fact]
	supposed := v.Origin.How == model.Unknown
	if supposed && th.State == model.Bought && (s.rule.Severity == model.Danger || s.oneSet()) {
		return v, false
	}
	return v, v.Known()
}

// conditions tells whether the rule applies; open are the facts that would have to be known to say so.
func (s sight) conditions() (applies bool, open []Ref) {
	for _, w := range s.rule.When {
		_, there := s.in(w.Slot)
		if w.Fact == "" {
			if there != (w.Constant == "present") {
				return false, nil
			}
			continue
		}
		v, known := s.fact(w.Slot, w.Fact)
		switch {
		case !there || known && !holds(v, w.Constant):
			return false, nil
		case !known:
			open = append(open, Ref{w.Slot, w.Fact})
		}
	}
	return true, open
}

func holds(v model.Value, constant string) bool { return v.Is(constant) || v.String() == constant }

// relate evaluates the two sides, directly or over the piece in the bridge slot.
func (s sight) relate() Outcome {
	o := Outcome{Severity: s.rule.Severity}
	if s.riderIsSilent() || !s.stated(nil) {
		return o
	}
	if empty, sure := s.lacksASide(); empty {
		if s.rule.Needs && sure {
			o.State = Broken
		}
		return o
	}
	left, missing := s.side(s.rule.Left)
	right, more := s.side(s.rule.Right)
	missing = append(missing, more...)
	if piece, there := s.between(); there {
		return s.bridge(piece, left, right, missing)
	}
	switch {
	case len(missing) == 0:
		o.State, o.Severity = s.compare(left, right)
	case s.atWorst():
		o.State = Met
	default:
		o.State, o.Missing = Missing, missing
	}
	return o
}

// riderIsSilent tells whether a side asks for something that the rider did not say: nobody is measured without wanting it.
func (s sight) riderIsSilent() bool {
	for _, side := range []model.Side{s.rule.Left, s.rule.Right} {
		for _, t := range side {
			if t.Slot == model.RiderSlot && !s.things[t.Slot].Facts[t.Fact].Known() {
				return true
			}
		}
	}
	return false
}

// stated tells whether everything that must be stated for the rule to apply is; of the slots to leave out that is taken
// to be so.
func (s sight) stated(except []string) bool {
	for _, t := range s.rule.Stated {
		v, known := s.fact(t.Slot, t.Fact)
		if !slices.Contains(except, t.Slot) && (!known || v.Origin.How == model.Unknown && v.Origin.Sheet != "") {
			return false
		}
	}
	return true
}

// lacksASide tells whether a slot that a side names is empty, and whether that is sure: of an optional slot that no
// sheet mentions nobody knows whether it is.
func (s sight) lacksASide() (empty, sure bool) {
	for _, side := range []model.Side{s.rule.Left, s.rule.Right} {
		for _, t := range side {
			if _, there := s.in(t.Slot); t.Slot == "" || there {
				continue
			}
			th, listed := s.things[t.Slot]
			empty = true
			sure = sure || !listed || th.Fitted != nil
		}
	}
	return empty, sure
}

// standing tells whether everything the rule looks at is how the bike is now.
func (s sight) standing() bool {
	for _, slot := range Slots(s.rule) {
		if th, ok := s.things[slot]; ok && !th.AsItStands() {
			return false
		}
	}
	return true
}

// oneSet tells whether all that stands in the rule's slots was delivered together, as one part for several slots.
func (s sight) oneSet() bool {
	var part *model.Part
	count := 0
	for _, slot := range Slots(s.rule) {
		th, there := s.in(slot)
		if !there {
			continue
		}
		if th.State != model.Bought || th.Part == nil || part != nil && th.Part != part {
			return false
		}
		part = th.Part
		count++
	}
	return count > 1
}

// bought tells whether one of the facts belongs to a bought part.
func (s sight) bought(refs []Ref) bool {
	for _, ref := range refs {
		if s.things[ref.Slot].State == model.Bought {
			return true
		}
	}
	return false
}
