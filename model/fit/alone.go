package fit

import (
	"fmt"
	"slices"

	"firstbolt/model"
)

// Answer is what can be said of one part on one bike, before any other purchase.
type Answer int

// The answers, from the best to the worst.
const (
	Fits         Answer = iota
	FitsWith            // only together with another purchase, or once something is taken off
	BothSides           // practice disagrees and the rider did not allow it
	MeasureFirst        // a fact is missing that could decide it
	DoesNotFit          // no purchase mends it on this bike
)

// String is the word used in answers.
func (a Answer) String() string {
	return [...]string{"fits", "fits_with", "both_sides", "measure_first", "does_not_fit"}[a]
}

// Alone is what Bench.Alone says of one part; whoever asks about several prepares the bike once.
func Alone(t *model.Tables, bike *model.Bike, part *model.Part, place model.Place, allow []string) (Answer, []Result) {
	return On(t, bike, allow).Alone(part, place)
}

// verdict is the answer that one rule gives of the part in the place.
func (s sight) verdict(o Outcome, now map[string]model.Thing, place model.Place) Answer {
	answer := s.answer(o, place)
	if answer != Fits && AsBefore(s.rule, s.things, now) {
		return Fits
	}
	return answer
}

func (s sight) answer(o Outcome, place model.Place) Answer {
	switch {
	case o.Standing || o.Severity == model.Advice:
		return Fits
	case len(o.Missing) > 0:
		if s.rule.Severity != model.Danger && s.whateverItIs(o.Missing) {
			return Fits
		}
		return MeasureFirst
	case o.State != Broken:
		return Fits
	case o.Severity == model.BothSides:
		return BothSides
	case s.canBeMended(place):
		return FitsWith
	default:
		return DoesNotFit
	}
}

// canBeMended tells whether another purchase, or taking something off, could make a broken rule hold: another thing
// in a slot that is neither the frame, the rider nor one of the part's own, or a piece in the bridge slot.
func (s sight) canBeMended(place model.Place) bool {
	for _, slot := range Slots(s.rule) {
		bridge := s.rule.Bridge != nil && slot == s.rule.Bridge.Slot
		if slot == "frame" || slot == model.RiderSlot || slices.Contains(place, slot) {
			continue
		}
		if !bridge || s.bridgeable() {
			return true
		}
	}
	return false
}

// bridgeable tells whether a piece that joins the two sides can exist at all. Sleeves go one way: a thin post stands in
// a wide tube, never the reverse, and an adapter only ever adds to the rotor.
func (s sight) bridgeable() bool {
	left, missing := s.side(s.rule.Left)
	right, more := s.side(s.rule.Right)
	if len(missing)+len(more) > 0 {
		return true
	}
	if direct, _ := s.compare(left, right); direct == Met {
		return true // once the piece that is too much is taken off
	}
	b := s.rule.Bridge
	if left.Number && right.Number {
		return left.Milli < right.Milli
	}
	return s.possible(b.From, left) && s.possible(b.To, right)
}

// possible tells whether a choice fact can have one of the value's choices.
func (s sight) possible(fact string, v model.Value) bool {
	f := s.tables.FactNamed(fact)
	return f != nil && slices.ContainsFunc(v.Choices, func(c string) bool { return slices.Contains(f.Allowed, c) })
}

// mostSuppositions bounds how many combinations of plausible values are tried.
const mostSuppositions = 500

// Whatever tells whether a rule holds for every combination of plausible values of these facts, so that nobody need
// measure them.
func Whatever(t *model.Tables, r *model.Rule, things map[string]model.Thing, facts []Ref) bool {
	return sight{tables: t, rule: r, things: things}.whateverItIs(facts)
}

// whateverItIs tells whether the rule holds for every combination of plausible values of the missing facts.
func (s sight) whateverItIs(missing []Ref) bool {
	count := 1
	for _, ref := range missing {
		f := s.tables.FactNamed(ref.Fact)
		if f == nil || len(f.Plausible) == 0 {
			return false
		}
		if count *= len(f.Plausible); count > mostSuppositions {
			return false
		}
	}
	for n := range count {
		things := map[string]model.Thing{}
		for slot, th := range s.things {
			things[slot] = th
		}
		for _, ref := range missing {
			plausible := s.tables.FactNamed(ref.Fact).Plausible
			things[ref.Slot] = Suppose(things[ref.Slot], ref.Fact, plausible[n%len(plausible)].Value)
			n /= len(plausible)
		}
		if o := Judge(s.tables, s.rule, things, nil); o.State == Broken || o.State == Missing {
			return false
		}
	}
	return true
}

// Suppose is the thing with one unknown fact taken to have the value, marked as supposed: nobody said so.
func Suppose(th model.Thing, fact string, v model.Value) model.Thing {
	facts := make(model.Facts, len(th.Facts)+1)
	for name, known := range th.Facts {
		facts[name] = known
	}
	v.Origin = model.Origin{Sheet: "facts table", How: model.Unknown}
	facts[fact] = v
	th.Facts = facts
	return th
}

// Unofferable is the reason why a part is not to be offered for a place on any bike: a danger rule needs a fact that
// the part does not state. It is empty where the part may be offered.
func Unofferable(t *model.Tables, part *model.Part, place model.Place) string {
	ref, r := Lacks(t, part, place)
	if r == nil {
		return ""
	}
	return fmt.Sprintf("%s is not stated, and a danger rule needs it: %s", sight{tables: t}.ask(ref), r.ID)
}

// Lacks is the first fact that a danger rule needs of a part in a place and that the part does not state, with that
// rule; nil where it lacks none. Rules that apply only under a condition on another slot are left to Judge.
func Lacks(t *model.Tables, part *model.Part, place model.Place) (Ref, *model.Rule) {
	things := map[string]model.Thing{}
	for _, slot := range place {
		things[slot] = t.BoughtThing(part, place, slot)
	}
	for i := range t.Rules {
		r := &t.Rules[i]
		s := sight{tables: t, rule: r, things: things}
		if r.Severity != model.Danger || !s.certain() || s.within(place) || s.atWorst() {
			continue
		}
		for _, side := range []model.Side{r.Left, r.Right} {
			for _, term := range side {
				if _, known := s.fact(term.Slot, term.Fact); term.Slot != "" && slices.Contains(place, term.Slot) && !known {
					return Ref{term.Slot, term.Fact}, r
				}
			}
		}
	}
	return Ref{}, nil
}

// certain tells whether the rule applies whatever else stands on the bike.
func (s sight) certain() bool {
	if slices.Contains(Slots(s.rule), model.RiderSlot) || !s.stated(nil) {
		return false
	}
	for _, w := range s.rule.When {
		v, known := s.fact(w.Slot, w.Fact)
		if _, there := s.in(w.Slot); w.Fact == "" && there == (w.Constant == "present") && there {
			continue
		}
		if !known || !holds(v, w.Constant) {
			return false
		}
	}
	return true
}

// within tells whether the rule looks only at slots of the place, which the part then fills as one set.
func (s sight) within(place model.Place) bool {
	for _, side := range []model.Side{s.rule.Left, s.rule.Right} {
		for _, t := range side {
			if t.Slot != "" && !slices.Contains(place, t.Slot) {
				return false
			}
		}
	}
	return len(place) > 1
}
