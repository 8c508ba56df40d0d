package formulate

import (
	"fmt"
	"slices"
	"strings"

	"firstbolt/model"
	"firstbolt/model/fit"
	"firstbolt/solver/program"
)

// mostCombinations bounds the table of one rule. Above it the unknown facts of the rule are left unguessed: the parts
// then count as "measure first" without a value of their own.
const mostCombinations = 50_000

// fitRules writes every rule that can forbid something as a relation.
func (c *Compiled) fitRules() error {
	for i := range c.Shed.Tables.Rules {
		r := &c.Shed.Tables.Rules[i]
		if r.Severity == model.Advice {
			continue
		}
		if err := c.rule(r); err != nil {
			return fmt.Errorf("fit rule %s: %w", r.ID, err)
		}
	}
	return nil
}

// axis is one slot of a rule's table: options in groups that the rule cannot tell apart.
type axis struct {
	slot   int           // program slot
	class  []int         // of every option
	things []model.Thing // one for each class, on the bike
	values []model.Value // one for each class, of a guess
	fact   string        // of a guess
	of     int           // of a guess: the axis whose fact it is
}

func (c *Compiled) rule(r *model.Rule) error {
	facts := map[string][]string{}
	for _, ref := range fit.Refs(r) {
		facts[ref.Slot] = append(facts[ref.Slot], ref.Fact)
	}
	var axes []axis
	for _, slot := range fit.Slots(r) {
		if slot == model.RiderSlot {
			continue
		}
		at := c.Shed.Tables.SlotIndex(slot)
		if at < 0 {
			return fmt.Errorf("there is no slot %q", slot)
		}
		axes = append(axes, c.group(at, facts[slot]))
	}
	onBike := len(axes)
	if onBike == 0 {
		return nil
	}
	if !c.Options.Sure {
		for i := range onBike {
			axes = append(axes, c.guessAxes(axes[i], i, facts[c.Slots[axes[i].slot].Slot])...)
		}
		if combinations(axes) > mostCombinations {
			axes = axes[:onBike]
		}
	}
	relation := program.Relation{Name: r.ID}
	for _, a := range axes {
		relation.Slots = append(relation.Slots, a.slot)
		relation.Class = append(relation.Class, a.class)
		relation.Count = append(relation.Count, max(len(a.things), len(a.values)))
	}
	relation.Allowed = make([]bool, combinations(axes))
	all, at := true, make([]int, len(axes))
	for i := range relation.Allowed {
		relation.Allowed[i] = c.agrees(r, axes, at)
		all = all && relation.Allowed[i]
		advance(at, relation.Count)
	}
	if !all && len(axes) > 1 {
		c.Program.Relations = append(c.Program.Relations, relation)
	} else if !all {
		c.forbid(relation)
	}
	return nil
}

// forbid writes a rule over a single slot as rows that keep the refused options out.
func (c *Compiled) forbid(r program.Relation) {
	row := program.Row{Name: r.Name}
	for k, class := range r.Class[0] {
		if !r.Allowed[class] {
			row.Terms = append(row.Terms, program.Term{Slot: r.Slots[0], Option: k, Coef: 1})
		}
	}
	c.Program.Rows = append(c.Program.Rows, row)
}

// agrees judges one combination of classes.
func (c *Compiled) agrees(r *model.Rule, axes []axis, at []int) bool {
	things := map[string]model.Thing{model.RiderSlot: c.Now[model.RiderSlot]}
	for i, a := range axes {
		if a.things == nil {
			slot := axes[a.of].things[at[a.of]].Slot
			if th := things[slot]; !th.Facts[a.fact].Known() && th.State != model.Empty {
				things[slot] = fit.Suppose(th, a.fact, a.values[at[i]])
			}
			continue
		}
		th := a.things[at[i]]
		things[th.Slot] = th
	}
	o := fit.Judge(c.Shed.Tables, r, things, c.Options.Allow)
	if c.Options.Sure && o.State != fit.NotConcerned && c.Uncertain(r, things) {
		return false
	}
	return !o.Forbids() || fit.AsBefore(r, things, c.Now)
}

// Uncertain tells whether the rule's judgement of what is bought rests on a fact that nobody measured, so that the
// purchase belongs after the measuring. A new part that can be sent back may be ordered on a harmless unknown.
func (c *Compiled) Uncertain(r *model.Rule, things map[string]model.Thing) bool {
	returnable := true
	for _, slot := range fit.Slots(r) {
		if th := things[slot]; th.State == model.Bought {
			returnable = returnable && th.Part.Returnable == model.Yes && th.Part.Used != model.Yes
		}
	}
	return (!returnable || r.Severity == model.Danger) && len(c.InDoubt(r, things)) > 0
}

// InDoubt are the facts that nobody measured and that the rule's judgement of what is bought depends on. A set agrees
// with itself, the rider's phrase for a part is believed, what goes without saying is not asked, and a fact is not in
// doubt where the rule holds whatever it is, or where like replaces like; only a danger rule wants it measured even then.
func (c *Compiled) InDoubt(r *model.Rule, things map[string]model.Thing) []fit.Ref {
	if r.Severity == model.Advice || !mixes(r, things) || fit.AsBefore(r, things, c.Now) {
		return nil
	}
	var doubts []fit.Ref
	for _, ref := range fit.Refs(r) {
		th := things[ref.Slot]
		o := th.Facts[ref.Fact].Origin
		presumed := o.How == model.Assumed && o.Sheet == model.FactsTable
		if th.State != model.Empty && o.How != model.Measured && !presumed && !phrased(r, th, ref) && ref.Fact != "condition" {
			doubts = append(doubts, ref)
		}
	}
	if r.Severity != model.Danger && fit.Whatever(c.Shed.Tables, r, things, doubts) {
		return nil
	}
	return doubts
}

// phrased tells whether the rider's own phrase for a bought part says the fact (kinds.csv): it is taken at its word,
// except where a danger rule compares it.
func phrased(r *model.Rule, th model.Thing, ref fit.Ref) bool {
	o := th.Facts[ref.Fact].Origin
	if th.State != model.Bought || o.Sheet != "kind" {
		return false
	}
	compared := slices.ContainsFunc(slices.Concat(r.Left, r.Right), func(t model.Term) bool { return t.Slot == ref.Slot && t.Fact == ref.Fact })
	return r.Severity != model.Danger || !compared
}

// mixes tells whether a rule brings something bought together with anything but its own set, or looks at it alone.
func mixes(r *model.Rule, things map[string]model.Thing) bool {
	var set *model.Part
	slots := fit.Slots(r)
	bought, others := false, len(slots) == 1
	for _, slot := range slots {
		th := things[slot]
		switch {
		case th.State == model.Empty:
		case th.State != model.Bought:
			others = true
		case !bought:
			bought, set = true, th.Part
		default:
			others = others || th.Part != set
		}
	}
	return bought && others
}

// group puts a slot's options into classes of equal facts; what is fitted stays apart from what is bought, since the
// bike as it stands is never forbidden.
func (c *Compiled) group(slot int, facts []string) axis {
	a := axis{slot: slot, things: []model.Thing{}}
	classes := map[string]int{}
	for _, l := range c.Slots[slot].Options {
		key := fmt.Sprint(l.Thing.State == model.Empty, l.Thing.AsItStands())
		for _, f := range facts {
			key += "|" + l.Thing.Facts[f].String()
			if c.Options.Sure {
				key += fmt.Sprint(l.Thing.Facts[f].Origin.How, l.Thing.Facts[f].Origin.Sheet == "kind")
			}
		}
		if l.Thing.Part != nil && len(l.Place) > 1 {
			key += "|set " + fmt.Sprint(l.kit) // what comes as one set is taken to go together
		}
		if c.Options.Sure && l.Thing.Part != nil {
			key += fmt.Sprint(l.Thing.Part.Returnable, l.Thing.Part.Used)
		}
		class, ok := classes[key]
		if !ok {
			class = len(a.things)
			classes[key] = class
			a.things = append(a.things, l.Thing)
		}
		a.class = append(a.class, class)
	}
	return a
}

// guessAxes are the axes for the facts that some option of the slot lacks.
func (c *Compiled) guessAxes(of axis, index int, facts []string) []axis {
	var list []axis
	for _, fact := range facts {
		lacking := slices.ContainsFunc(of.things, func(th model.Thing) bool {
			return th.State != model.Empty && !th.Facts[fact].Known()
		})
		already := slices.ContainsFunc(list, func(a axis) bool { return a.fact == fact })
		if !lacking || already {
			continue
		}
		slot, ok := c.guess(c.Slots[of.slot].Slot, fact)
		if !ok {
			continue
		}
		a := axis{slot: slot, fact: fact, of: index}
		for k, o := range c.Slots[slot].Options {
			a.class = append(a.class, k)
			a.values = append(a.values, o.Value)
		}
		list = append(list, a)
	}
	return list
}

// guess finds or makes the slot of plausible values of a fact; false where the table knows none.
func (c *Compiled) guess(slot, fact string) (int, bool) {
	key := [2]string{slot, fact}
	if at, ok := c.guesses[key]; ok {
		return at, true
	}
	f := c.Shed.Tables.FactNamed(fact)
	if f == nil || len(f.Plausible) == 0 {
		return 0, false
	}
	at := len(c.Slots)
	label := SlotLabel{Role: Guess, Slot: slot, Fact: fact}
	ps := program.Slot{Name: slot + ": " + fact}
	for _, p := range likely(f.Plausible) {
		v := p.Value
		v.Origin = model.Origin{Sheet: "facts table", How: model.Unknown}
		label.Options = append(label.Options, OptionLabel{Value: v})
		ps.Options = append(ps.Options, program.Option{Name: strings.TrimSpace(v.String()), Shop: program.NoShop})
	}
	c.guesses[key] = at
	c.Slots = append(c.Slots, label)
	c.AsItStands = append(c.AsItStands, 0)
	c.Program.Slots = append(c.Program.Slots, ps)
	return at, true
}

// likely drops the values that are less than a third as likely as the likeliest: no plan rests on a stroke of luck.
func likely(values []model.Plausible) []model.Plausible {
	most := 0
	for _, p := range values {
		most = max(most, p.Share)
	}
	return slices.DeleteFunc(slices.Clone(values), func(p model.Plausible) bool { return p.Share > 0 && 3*p.Share < most })
}

func combinations(axes []axis) int {
	n := 1
	for _, a := range axes {
		n *= max(len(a.things), len(a.values))
		if n > mostCombinations*1000 {
			return n
		}
	}
	return n
}

// advance counts up, the last place running fastest.
func advance(at, count []int) {
	for i := len(at) - 1; i >= 0; i-- {
		if at[i]++; at[i] < count[i] {
			return
		}
		at[i] = 0
	}
}
