package fit

import (
	"cmp"
	"slices"

	"firstbolt/model"
)

// Requirement is what a thing must have to stand in a slot of the bike: of one fact, of several that count together,
// or of nothing but its being there. All rules that ask it under the same conditions are in it.
type Requirement struct {
	Slot string
	// Fact is empty where several facts count together in Sum, and where the thing's mere presence is asked about.
	Fact string
	Sum  model.Side   // facts of the slot with their factors; Does and Ways are then about the sum
	If   []model.Term // facts of the slot that must be so, or the requirement does not concern the thing

	Does    Values // what does with the bike as it stands; of mere presence unlimited
	Ways    []Way  // what does besides, the fewest demands first
	Answer  Answer // of mere presence: what the rules say of anything in the slot
	Clauses []Clause
}

// Clause is what one rule asks. Rules that practice disagrees on are among them, cautions are not.
type Clause struct {
	Rule    *model.Rule
	Does    Values
	Against []Reading // what the rest of the bike has, with values and origins
	Missing []Ref     // facts of the rest of the bike that decide it and that nobody has measured
	Says    string    // the rule's own sentence, of mere presence where something is wrong, and of sums with the facts' names
	other   []option
}

// Way is how further values come to do: all that is named here must hold.
type Way struct {
	Values  Values
	AsNow   bool     // no worse than what stands in the slot now, so nobody need measure the other side; not said of sums
	Measure []Ref    // facts of the bike to be measured first: they may come out so that it fits
	Pieces  []Piece  // a sleeve, adapter or converter between the thing and the bike
	Off     []string // slots whose piece must come out
	Allow   []string // rules that the rider must allow by name, because practice disagrees
}

// Piece is what must join two sides in a bridge slot: From the left value To the right one. The side of the wanted
// thing is not known before a thing is chosen.
type Piece struct {
	Bridge   *model.Bridge
	From, To model.Value
}

// Wants is what a thing must have to stand in the slot, given all else as it stands: in the order of facts.csv, after
// what is asked of the thing's mere presence.
func (b *Bench) Wants(slot string) []Requirement {
	var list []Requirement
	for _, i := range b.rules[slot] {
		r := &b.tables.Rules[i]
		if r.Severity == model.Advice {
			continue
		}
		for _, a := range b.subjects(r, slot) {
			clause, answer, concerned := a.clause()
			if !concerned {
				continue
			}
			at := slices.IndexFunc(list, a.belongs)
			if at < 0 {
				at = len(list)
				list = append(list, Requirement{Slot: slot, Fact: a.fact, Sum: a.sum, If: a.given})
			}
			list[at].Answer = max(list[at].Answer, answer)
			list[at].Clauses = append(list[at].Clauses, clause)
		}
	}
	for i := range list {
		list[i].settle()
	}
	slices.SortStableFunc(list, func(x, y Requirement) int {
		return cmp.Or(cmp.Compare(b.rank(x), b.rank(y)), cmp.Compare(len(x.If), len(y.If)), cmp.Compare(x.Clauses[0].Rule.ID, y.Clauses[0].Rule.ID))
	})
	return list
}

// rank is a requirement's place in the list: presence, facts in the order of facts.csv, sums.
func (b *Bench) rank(q Requirement) int {
	switch {
	case q.Sum != nil:
		return len(b.tables.Facts)
	case q.Fact == "":
		return -1
	}
	return slices.IndexFunc(b.tables.Facts, func(f model.Fact) bool { return f.Name == q.Fact })
}

// settle sorts the rules and works out what does for all of them.
func (q *Requirement) settle() {
	slices.SortFunc(q.Clauses, func(x, y Clause) int {
		return cmp.Or(cmp.Compare(x.Rule.Severity, y.Rule.Severity), cmp.Compare(x.Rule.ID, y.Rule.ID))
	})
	q.Does = q.Clauses[0].Does
	for _, c := range q.Clauses[1:] {
		q.Does = q.Does.and(c.Does)
	}
	if q.Fact == "" && q.Sum == nil {
		return
	}
	q.Ways = waysOf(q.Clauses)
	q.Ways = slices.DeleteFunc(q.Ways, func(w Way) bool { return w.Values.within(q.Does) })
}
