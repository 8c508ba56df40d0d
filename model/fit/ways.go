package fit

import (
	"cmp"
	"slices"

	"firstbolt/model"
)

// option is one way in which one rule is met, and what it means for the piece in the rule's bridge slot.
type option struct {
	Way
	slot string // bridge slot; "" where the rule knows none
	uses use
}

// use is what becomes of the piece in a bridge slot. The zero value is asItIs.
type use int

const (
	asItIs use = iota
	takenOff
	another
)

// mostWays bounds how many combinations of options are tried; what lies beyond is not said.
const mostWays = 1000

// waysOf joins the options of the rules: each rule must be met in one of its ways. What does as it stands is not among
// them, nor what another way with fewer demands gives already.
func waysOf(clauses []Clause) []Way {
	joined := []chosen{{Way: Way{Values: numbers(NoLow, NoHigh)}}}
	for i := range clauses {
		c := &clauses[i]
		plain := option{Way: Way{Values: c.Does}}
		if c.Rule.Bridge != nil {
			plain.slot = c.Rule.Bridge.Slot
		}
		var next []chosen
		for _, one := range joined {
			for _, o := range append([]option{plain}, c.other...) {
				if both, possible := one.and(o); possible && len(next) < mostWays {
					next = append(next, both)
				}
			}
		}
		joined = next
	}
	var ways []Way
	for _, one := range joined {
		if one.demands() > 0 {
			ways = append(ways, one.Way)
		}
	}
	return leastDemanding(ways)
}

func leastDemanding(ways []Way) []Way {
	slices.SortStableFunc(ways, func(x, y Way) int { return cmp.Compare(x.demands(), y.demands()) })
	var least []Way
	for _, w := range ways {
		if !slices.ContainsFunc(least, func(l Way) bool { return w.Values.within(l.Values) && l.demandsNoMoreThan(w) }) {
			least = append(least, w)
		}
	}
	return least
}

// demands counts what a way asks for.
func (w Way) demands() int {
	n := len(w.Measure) + len(w.Pieces) + len(w.Off) + len(w.Allow)
	if w.AsNow {
		n++
	}
	return n
}

// demandsNoMoreThan tells whether everything that the way asks for is asked for by the other one too.
func (w Way) demandsNoMoreThan(other Way) bool {
	return (!w.AsNow || other.AsNow || len(other.Measure) > 0) && subset(w.Measure, other.Measure) && subset(w.Off, other.Off) && subset(w.Allow, other.Allow) &&
		!slices.ContainsFunc(w.Pieces, func(p Piece) bool { return !slices.ContainsFunc(other.Pieces, p.inPlaceOf) })
}

func subset[T comparable](list, of []T) bool {
	return !slices.ContainsFunc(list, func(x T) bool { return !slices.Contains(of, x) })
}

// inPlaceOf tells whether two pieces are for the same slot.
func (p Piece) inPlaceOf(q Piece) bool { return p.Bridge.Slot == q.Bridge.Slot }

// chosen is a way with what it means for the bridge slots.
type chosen struct {
	Way
	uses map[string]use
}

// and adds a rule's option; false where no value is left, or where one bridge slot would have to hold two things.
func (c chosen) and(o option) (both chosen, possible bool) {
	both = chosen{uses: map[string]use{}}
	for slot, u := range c.uses {
		both.uses[slot] = u
	}
	if o.slot != "" {
		if was, named := c.uses[o.slot]; named && was != o.uses {
			return both, false
		}
		both.uses[o.slot] = o.uses
	}
	both.Way = Way{
		Values: c.Values.and(o.Values), AsNow: c.AsNow || o.AsNow,
		Measure: union(c.Measure, o.Measure), Off: union(c.Off, o.Off), Allow: union(c.Allow, o.Allow), Pieces: slices.Clone(c.Pieces),
	}
	for _, p := range o.Pieces {
		if !slices.ContainsFunc(both.Pieces, p.inPlaceOf) {
			both.Pieces = append(both.Pieces, p)
		}
	}
	return both, !both.Values.None()
}

func union[T comparable](a, b []T) []T {
	all := slices.Clone(a)
	for _, x := range b {
		if !slices.Contains(all, x) {
			all = append(all, x)
		}
	}
	return all
}

// elseways are the ways besides the bike as it stands in which the rule is met.
func (a asking) elseways(missing []Ref) []option {
	var list []option
	bridge := ""
	if a.rule.Bridge != nil {
		bridge = a.rule.Bridge.Slot
	}
	add := func(w Way, u use) {
		if !w.Values.None() {
			list = append(list, option{Way: w, slot: bridge, uses: u})
		}
	}
	add(Way{Values: a.asNow(), AsNow: true}, asItIs)
	add(Way{Values: a.values(func(s sight, o Outcome) bool { return s.answer(o, a.place()) == MeasureFirst }), Measure: missing}, asItIs)
	add(Way{Values: a.values(func(s sight, o Outcome) bool { return s.answer(o, a.place()) == BothSides }), Allow: []string{a.rule.ID}}, asItIs)
	if bridge == "" || bridge == a.slot || len(missing) > 0 {
		return list
	}
	bare := a
	if _, there := a.b.now[bridge]; there && a.b.now[bridge].State != model.Empty {
		bare = a.without(bridge)
		add(Way{Values: bare.values(func(s sight, o Outcome) bool { return s.answer(o, a.place()) == Fits }), Off: []string{bridge}}, takenOff)
	}
	add(Way{Values: bare.values(sight.wantsPiece), Pieces: []Piece{bare.piece()}}, another)
	return list
}

// wantsPiece tells whether the two sides do not meet, and a piece could join them.
func (s sight) wantsPiece(o Outcome) bool { return o.State == Broken && s.bridgeable() }
