package ask

import (
	"cmp"
	"fmt"
	"slices"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/model"
	"firstbolt/model/fit"
	"firstbolt/solver"
)

// before is what comes before any spending: what is unsafe on the bike, and what costs nothing.
func (f *filler) before(p *solver.Plan) []answer.Before {
	var list []answer.Before
	for i := range p.Bike.Fitted {
		fitted := &p.Bike.Fitted[i]
		if fitted.Condition != model.Unsafe {
			continue
		}
		name := fitted.Slot
		if fitted.Part != "" {
			name += " (" + fitted.Part + ")"
		}
		list = append(list, answer.Before{
			Code: "unsafe", Kind: "unsafe", Text: fmt.Sprintf("%s of %s is marked unsafe.", name, p.Bike.Name),
			CheckWith: some("a qualified mechanic"), Where: some(fitted.Origin.String()),
		})
	}
	for _, c := range f.shed.Tables.Cautions {
		if c.When == "free" {
			list = append(list, answer.Before{Code: c.Code, Kind: "free", Text: c.Text, CheckWith: some(c.CheckWith)})
		}
	}
	return list
}

// cautions are the list to look the bike over with, and, where something is bought, those of the work and of the first
// ride that the plan touches. What is odd about the fit of the bike as it stands is among them.
func (f *filler) cautions(p *solver.Plan, buys bool) []answer.Caution {
	touched := map[string]string{} // slot to the part that goes there
	if buys {
		for _, s := range p.Steps {
			for _, b := range s.Purchases {
				for _, ch := range b.Changes {
					touched[ch.Label.Thing.Slot] = ch.Label.Thing.Name
				}
			}
		}
	}
	list := ruleCautions(p.Fit)
	for _, when := range []string{"before", "work", "first-ride"} {
		for _, c := range f.shed.Tables.Cautions {
			if c.When != when {
				continue
			}
			part, touches := touchedBy(c, touched)
			if when != "before" && !touches {
				continue
			}
			said := answer.Caution{Code: c.Code, Severity: "caution", When: when, Text: c.Text, CheckWith: c.CheckWith, Source: c.Source}
			if when == "work" {
				said.Part = some(part)
			}
			list = append(list, said)
		}
	}
	return list
}

// touchedBy tells whether a caution's slots are touched, and by which part first.
func touchedBy(c model.Caution, touched map[string]string) (string, bool) {
	if len(c.Slots) == 0 {
		return "", len(touched) > 0
	}
	for _, slot := range c.Slots {
		if part, ok := touched[slot]; ok {
			return part, true
		}
	}
	return "", false
}

// ruleCautions are fit rules that the built bike breaks as it already stands, that only warn, or that were allowed.
func ruleCautions(results []fit.Result) []answer.Caution {
	var list []answer.Caution
	for _, r := range results {
		if r.Says == "" || len(r.Missing) > 0 {
			continue
		}
		severity := "caution"
		if r.Rule.Severity == model.Danger {
			severity = "danger"
		}
		list = append(list, answer.Caution{
			Code: r.Rule.ID, Severity: severity, When: "before", Text: asSentence(r.Says) + mendText(r.Rule.Mend),
			CheckWith: "a qualified mechanic", Source: r.Rule.Source,
		})
	}
	return list
}

func mendText(mend string) string {
	if mend == "" {
		return ""
	}
	return " " + asSentence(mend)
}

// measures are the facts in doubt, with how to measure them; those that most money waits for first.
func (f *filler) measures(p *solver.Plan) []answer.Measure {
	var list []answer.Measure
	for _, d := range p.Doubts() {
		m := answer.Measure{
			Bike: p.Bike.Name, Slot: d.Slot, Fact: d.Fact, OnOffer: d.Thing.State == model.Bought, Origin: d.Value.Origin.How.String(), NeededFor: d.Needed, Where: whereOf(d),
		}
		if d.Value.Known() {
			m.Assumed = some(d.Value.String())
		}
		m.Share, m.Waits = f.share(d), f.waits(p, d)
		for _, o := range d.Otherwise {
			m.Otherwise = append(m.Otherwise, answer.Otherwise{Value: o.Value.String(), Buy: o.Buy, More: f.money(o.More)})
		}
		if d.Value.Origin.How == model.Remembered {
			m.Found = some(d.Value.Origin.Raw)
		}
		if fact := f.shed.Tables.FactNamed(d.Fact); fact != nil {
			m.How, m.Tool = some(fact.How), some(fact.Tool)
			if fact.Mistakes != "" {
				m.Mistakes = []string{fact.Mistakes}
			}
		}
		list = append(list, m)
	}
	slices.SortStableFunc(list, func(a, b answer.Measure) int { return cmp.Compare(b.Waits.Minor, a.Waits.Minor) })
	return list
}

// share is how many in a hundred bikes have the value that stands for an unknown fact, by the facts table.
func (f *filler) share(d solver.Doubt) *answer.Share {
	fact := f.shed.Tables.FactNamed(d.Fact)
	if fact == nil {
		return nil
	}
	for _, p := range fact.Plausible {
		if p.Value.String() == d.Value.String() {
			share := answer.Share(p.Share)
			return &share
		}
	}
	return nil
}

// waits is the cost of the steps that are ordered after measuring and depend on the fact.
func (f *filler) waits(p *solver.Plan, d solver.Doubt) answer.Money {
	sum := f.money(0)
	for i := range p.Steps {
		if p.Steps[i].After && slices.ContainsFunc(stepSlots(&p.Steps[i]), func(slot string) bool { return slices.Contains(d.Slots, slot) }) {
			sum.Minor += int64(p.Steps[i].Cost)
		}
	}
	return sum
}

// whereOf is the cell of a doubt, or the row of the thing that lacks it.
func whereOf(d solver.Doubt) *string {
	if d.Value.Origin.Row > 0 {
		return some(d.Value.Origin.String())
	}
	if d.Thing.Origin.Row > 0 {
		return some(d.Thing.Origin.String())
	}
	return nil
}

// warnings are what the answer assumes: tools and their prices, masses, what is not counted.
func (f *filler) warnings(p *solver.Plan) []answer.Warning {
	var list []answer.Warning
	for _, l := range p.Receipt.Lines {
		if l.Kind == "tool" && l.Where.How == model.Assumed {
			list = append(list, answer.Warning{
				Code: "assumed_price", Where: "tools.csv", Text: fmt.Sprintf("Nobody said that you have a %s; it is taken to cost %s.", l.Name, f.money(l.Cash)),
				Fix: some("Add a row to tools.csv with have = yes, borrow or club, or with its price."),
			})
		}
	}
	for _, n := range p.Program.Scorer.Notes() {
		list = append(list, answer.Warning{Code: n.Code, Where: n.Where, Text: asSentence(n.Says), Fix: some(asSentence(n.Fix))})
	}
	for _, part := range p.Program.Waived {
		list = append(list, answer.Warning{
			Code: "must_waived", Where: part.Origin.String(), Text: fmt.Sprintf("You marked %s as a must, but it does not go on %s.", part.Name, p.Bike.Name),
		})
	}
	return list
}
