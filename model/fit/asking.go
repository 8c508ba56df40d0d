package fit

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"firstbolt/model"
)

// asking is one rule asked about a slot: which values of one fact, or of a sum of facts, make it hold, given the facts
// that its conditions name.
type asking struct {
	b      *Bench
	rule   *model.Rule
	slot   string
	fact   string
	sum    model.Side
	given  []model.Term
	things map[string]model.Thing
}

// subjects are what a rule can be asked about in a slot: each end of a piece that joins, the one fact it compares, several
// facts together, the fact of a condition, or the mere presence of something.
func (b *Bench) subjects(r *model.Rule, slot string) []asking {
	a := asking{b: b, rule: r, slot: slot, things: map[string]model.Thing{}}
	for _, other := range Slots(r) {
		if th, there := b.now[other]; there {
			a.things[other] = th
		}
	}
	if !(sight{tables: b.tables, rule: r, things: a.things}).stated([]string{slot}) {
		return nil
	}
	var given []model.Term
	for _, w := range r.When {
		if w.Slot == slot && w.Fact != "" {
			given = append(given, w)
		}
	}
	a.given = given
	if br := r.Bridge; br != nil && br.Slot == slot {
		return a.ends(br)
	}
	own := slices.DeleteFunc(a.sides(), func(t model.Term) bool {
		return slices.ContainsFunc(given, func(w model.Term) bool { return w.Fact == t.Fact })
	})
	switch {
	case len(own) == 1:
		a.fact = own[0].Fact
	case len(own) > 1:
		a.sum = own
		if a.turned() {
			for i := range own {
				own[i].Coef = -own[i].Coef
			}
		}
	case len(given) > 0:
		a.fact, a.given = given[0].Fact, given[1:]
	}
	return []asking{a}
}

// ends asks for what the piece in the rule's own bridge slot must be.
func (a asking) ends(br *model.Bridge) []asking {
	var list []asking
	for _, fact := range []string{br.Step, br.From, br.To} {
		if fact != "" {
			a.fact = fact
			list = append(list, a)
		}
	}
	return list
}

// sides are the slot's facts that the rule compares, with their factors as they stand on the left.
func (a asking) sides() []model.Term {
	var own []model.Term
	add := func(side model.Side, sign float64) {
		for _, t := range side {
			if t.Slot != a.slot {
				continue
			}
			i := slices.IndexFunc(own, func(o model.Term) bool { return o.Fact == t.Fact })
			if i < 0 {
				i = len(own)
				own = append(own, model.Term{Slot: t.Slot, Fact: t.Fact})
			}
			own[i].Coef += sign * t.Coef
		}
	}
	add(a.rule.Left, 1)
	add(a.rule.Right, -1)
	return own
}

// belongs tells whether a requirement is about the same facts under the same conditions.
func (a asking) belongs(q Requirement) bool {
	return q.Fact == a.fact && slices.Equal(q.Sum, a.sum) && slices.Equal(q.If, a.given)
}

func (a asking) place() model.Place { return model.Place{a.slot} }

// stated is the origin of facts that a wanted thing is taken to have.
var stated = model.Origin{Sheet: "wanted", How: model.Measured}

// with is the bike with a thing in the slot that has the value; a sum is put into its first fact.
func (a asking) with(v model.Value) sight {
	facts := model.Facts{}
	if br := a.rule.Bridge; br != nil && br.Slot == a.slot && br.Step == "" {
		s := sight{tables: a.b.tables, rule: a.rule, things: a.things}
		left, _ := s.side(a.rule.Left)
		right, _ := s.side(a.rule.Right)
		facts[br.From], facts[br.To] = said(a.end(left, br.From)), said(a.end(right, br.To))
	}
	for _, w := range a.given {
		facts[w.Fact] = a.value(w.Fact, w.Constant)
	}
	for i, t := range a.sum {
		x := int64(0)
		if i == 0 {
			x = int64(math.Round(float64(v.Milli) / t.Coef))
		}
		facts[t.Fact] = model.NumberValue(x, stated)
	}
	if a.fact != "" {
		facts[a.fact] = said(v)
	}
	things := make(map[string]model.Thing, len(a.things))
	for slot, th := range a.things {
		things[slot] = th
	}
	part := &model.Part{ID: "wanted", Name: "wanted " + a.slot, Facts: facts}
	things[a.slot] = model.Thing{Slot: a.slot, State: model.Bought, Name: part.Name, Part: part, Place: a.place(), Facts: facts}
	return sight{tables: a.b.tables, rule: a.rule, things: things}
}

// end is what one end of a piece must be: as the bike wants it, or where that is unknown as the old piece has it.
func (a asking) end(wanted model.Value, fact string) model.Value {
	if wanted.Known() {
		return wanted
	}
	return a.b.now[a.slot].Facts[fact]
}

func said(v model.Value) model.Value {
	v.Origin = stated
	return v
}

// judge is the rule's outcome for one value.
func (a asking) judge(v model.Value) (sight, Outcome) {
	s := a.with(v)
	return s, Judge(a.b.tables, a.rule, s.things, a.b.allow)
}

// without is the same question with nothing in a slot.
func (a asking) without(slot string) asking {
	things := make(map[string]model.Thing, len(a.things))
	for name, th := range a.things {
		things[name] = th
	}
	things[slot] = model.Thing{Slot: slot, State: model.Empty, Fitted: a.b.now[slot].Fitted, Facts: model.Facts{}}
	a.things = things
	return a
}

// value reads a word of a table as the fact's value.
func (a asking) value(fact, text string) model.Value {
	if f := a.b.tables.FactNamed(fact); f != nil && f.Kind == model.Number {
		if n, err := strconv.ParseFloat(text, 64); err == nil {
			return model.NumberValue(int64(math.Round(n*1000)), stated)
		}
	}
	return model.ChoiceValue(stated, text)
}

// clause is what the rule asks; false where it does not concern whatever stands in the slot.
func (a asking) clause() (c Clause, answer Answer, concerned bool) {
	c = Clause{Rule: a.rule, Does: numbers(NoLow, NoHigh), Against: a.against()}
	for _, v := range a.samples() {
		s, o := a.judge(v)
		concerned = concerned || o.State != NotConcerned
		for _, ref := range o.Missing {
			if ref.Slot != a.slot && !slices.Contains(c.Missing, ref) {
				c.Missing = append(c.Missing, ref)
			}
		}
		if a.fact == "" && a.sum == nil && o.State != NotConcerned {
			c.Says, answer = s.says(o), s.verdict(o, a.b.now, a.place())
		}
	}
	if !concerned || a.fact == "" && a.sum == nil {
		return c, answer, concerned
	}
	if a.sum != nil {
		c.Says = a.sentence()
	}
	c.Does = a.values(func(s sight, o Outcome) bool { return s.answer(o, a.place()) == Fits })
	c.other = a.elseways(c.Missing)
	return c, Fits, true
}

// against are the facts of the rest of the bike that the rule reads, conditions and a piece between included.
func (a asking) against() []Reading {
	s := sight{tables: a.b.tables, rule: a.rule, things: a.things}
	terms := slices.Concat(a.rule.Left, a.rule.Right, a.rule.When)
	if br := a.rule.Bridge; br != nil {
		if _, there := s.between(); there {
			terms = append(terms, model.Term{Slot: br.Slot, Fact: br.From}, model.Term{Slot: br.Slot, Fact: br.To}, model.Term{Slot: br.Slot, Fact: br.Step})
		}
	}
	var others []model.Term
	for _, t := range terms {
		_, there := s.in(t.Slot)
		again := slices.ContainsFunc(others, func(o model.Term) bool { return o.Slot == t.Slot && o.Fact == t.Fact })
		if there && t.Slot != a.slot && t.Fact != "" && !again {
			others = append(others, t)
		}
	}
	return s.readings(others)
}

// piece is what must stand in the bridge slot, as far as the bike decides it.
func (a asking) piece() Piece {
	s := a.with(model.Value{})
	p := Piece{Bridge: a.rule.Bridge}
	p.From, _ = s.side(a.rule.Left)
	p.To, _ = s.side(a.rule.Right)
	return p
}

// sentence is the rule's own, with the names of the facts that are not chosen yet.
func (a asking) sentence() string {
	return sentence(a.rule.Fails, a.formula(a.rule.Left), a.formula(a.rule.Right))
}

// formula is a side as far as the bike decides it: "2*seatpost_mm + 190".
func (a asking) formula(side model.Side) string {
	var open []string
	rest := model.Side{}
	for _, t := range side {
		switch {
		case t.Slot != a.slot:
			rest = append(rest, t)
		case t.Coef == 1:
			open = append(open, t.Fact)
		default:
			open = append(open, strconv.FormatFloat(t.Coef, 'f', -1, 64)+"*"+t.Fact)
		}
	}
	if len(rest) > 0 {
		open = append(open, sight{tables: a.b.tables, rule: a.rule, things: a.things}.text(rest))
	}
	return strings.Join(open, " + ")
}
