package ask

import (
	"slices"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/solver"
)

// setAside lists the parts that the plan could not choose: those that wait for a cell, and those that go nowhere.
func (f *filler) setAside(a *answer.Plan, p *solver.Plan) {
	bought := partNames(p)
	for _, s := range p.SetAside(f.ans.Question.Options.Allow) {
		name, where := s.Part.Name, s.Part.Origin.String()
		if s.Fact == "" {
			a.NotOffered = append(a.NotOffered, answer.SetAside{Part: name, Where: where, Why: asSentence(s.Says) + mendText(s.Mend) + allowText(s.Allow)})
			continue
		}
		l := answer.Lacking{Part: name, Where: where, Slots: s.Slots, Fact: s.Fact, Sheet: s.Part.Origin.Sheet, Bought: slices.Contains(bought, name)}
		if fact := f.shed.Tables.FactNamed(s.Fact); fact != nil {
			l.How = some(fact.How)
		}
		a.SayMore = append(a.SayMore, l)
	}
}

// allowText says how a rule on which practice disagrees can be allowed.
func allowText(rule string) string {
	if rule == "" {
		return ""
	}
	return " Practice disagrees here: --allow " + rule + " lets the plan use it."
}
