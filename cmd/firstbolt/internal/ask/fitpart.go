package ask

import (
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/model"
	"firstbolt/model/fit"
	"firstbolt/solver"
)

// part is one part in one place.
func (f *fitter) part(one *solver.Fitting) answer.FitPart {
	p := answer.FitPart{
		Part: one.Part.Name, ID: one.Part.ID, Where: one.Part.Origin.String(), Price: f.money(one.Part.Price), Slots: one.Place,
		Verdict: one.Answer.String(), Reason: f.reason(one), Company: f.company(one.Company), CompanyCost: f.money(one.Cost),
		Because: f.because(one), Refused: some(one.Refused), Lacks: some(one.Lacks.Fact), Opinions: f.opinions(one), Allow: one.Allow,
	}
	if one.Alone != 0 {
		p.Cost = f.moneyOrNull(one.Alone)
	}
	for _, r := range f.wrongAlone(one) {
		p.Alone = append(p.Alone, f.check(r, &solver.Fitting{Part: one.Part, Place: one.Place}))
	}
	for _, r := range one.Checks {
		p.Checks = append(p.Checks, f.check(r, one))
	}
	if m := one.Milder; m != nil {
		p.Then = &answer.FitThen{Verdict: m.Answer.String(), Company: f.company(m.Company), CompanyCost: f.money(m.Cost)}
	}
	if one.Answer != fit.DoesNotFit {
		p.Cautions = f.slotCautions(touched(one))
	}
	for _, d := range f.doubts(one) {
		p.Measure = append(p.Measure, d.Slot+"."+d.Fact)
	}
	return p
}

// touched are the slots that change when the part is fitted with its company, with the name of what then stands there.
func touched(one *solver.Fitting) map[string]string {
	parts := map[string]string{}
	for i := range one.Company {
		for _, ch := range one.Company[i].Purchase.Changes {
			parts[ch.Label.Thing.Slot] = ch.Label.Thing.Name
		}
	}
	for _, slot := range one.Place {
		parts[slot] = one.Part.Name
	}
	return parts
}

// company is what goes with a part.
func (f *fitter) company(list []solver.Companion) []answer.Company {
	var out []answer.Company
	for i := range list {
		b := &list[i].Purchase
		c := answer.Company{Kind: "part", Count: 1, Cost: f.money(list[i].Cost)}
		for _, ch := range b.Changes {
			c.Slots = append(c.Slots, ch.Label.Thing.Slot)
		}
		for _, th := range b.Replaces {
			c.Replaces = append(c.Replaces, th.Name)
		}
		first := b.Changes[0]
		switch {
		case b.Part != nil:
			c.Part, c.Where = b.Part.Name, b.Part.Origin.String()
		default:
			var s solver.Step
			s.Purchases = append(s.Purchases, *b)
			c.Kind, c.Part, c.Where = "work", workName(&s, 0), first.Before.Origin.String()
			if first.Label.Thing.State == model.Empty {
				c.Kind, c.Part = "take_off", first.Before.Name
			}
		}
		out = append(out, c)
	}
	return out
}

// check is one fit rule with both values.
func (f *fitter) check(r fit.Result, one *solver.Fitting) answer.FitCheck {
	left, right := r.Sides()
	c := answer.FitCheck{
		Rule: r.Rule.ID, Result: result(r), Severity: r.Severity.String(), Relation: relationWords[r.Rule.Relation],
		Left: f.side(r.Rule.Left, r.Left, left, one), Right: f.side(r.Rule.Right, r.Right, right, one),
		Source: r.Rule.Source, URL: some(r.Rule.URL), BridgedBy: some(r.Bridge),
	}
	if r.Rule.Margin != 0 {
		c.Margin = some(thousandths(r.Rule.Margin))
	}
	switch c.Result {
	case "unknown":
		c.Sentence = some(notKnown(r.Missing))
	case "failed", "allowed":
		c.Sentence, c.MendedBy = some(asSentence(r.Says)), some(asSentence(r.Rule.Mend))
	}
	return c
}

// notKnown names what is not known.
func notKnown(facts []fit.Ref) string {
	var says []string
	for _, ref := range facts {
		says = append(says, fmt.Sprintf("%s of the %s", answer.FactName(ref.Fact), ref.Slot))
	}
	return "Not known: " + joined(says) + "."
}

var relationWords = map[model.Relation]string{model.Same: "same", model.AtMost: "at_most", model.AtLeast: "at_least", model.PairIn: "pair_in"}

// result is how a rule comes out, in the words of answers.
func result(r fit.Result) string {
	switch {
	case len(r.Missing) > 0:
		return "unknown"
	case r.State == fit.Bridged:
		return "bridged"
	case r.State == fit.Allowed:
		return "allowed"
	case r.State == fit.Broken:
		return "failed"
	default:
		return "met"
	}
}

// side is one side of a rule: a fact, a constant, or a sum of facts of which the least sure one counts.
func (f *fitter) side(side model.Side, readings []fit.Reading, value model.Value, one *solver.Fitting) answer.FitSide {
	s := answer.FitSide{}
	if value.Known() {
		s.Value = some(value.String())
	}
	least, at := model.Measured, 0
	for _, t := range side {
		if t.Slot == "" {
			if len(side) > 1 {
				s.Constant = some(strconv.FormatFloat(t.Coef, 'g', 6, 64))
			}
			continue
		}
		reading := readings[at]
		at++
		s.Terms = append(s.Terms, f.term(t, reading, one))
		least = min(least, reading.Value.Origin.How)
	}
	switch {
	case len(side) == 1 && len(s.Terms) == 1 && s.Terms[0].Factor == "1":
		only := s.Terms[0]
		s.Slot, s.Fact, s.Origin, s.Where = some(only.Slot), some(only.Fact), some(only.Origin), only.Where
	case len(s.Terms) > 0:
		s.Origin = some(least.String())
	}
	return s
}

// term is one fact that a rule reads. Where nothing is said of it, the place is the row that could say it.
func (f *fitter) term(t model.Term, r fit.Reading, one *solver.Fitting) answer.FitTerm {
	o := r.Value.Origin
	term := answer.FitTerm{Slot: r.Slot, Fact: r.Fact, Thing: r.Thing, Factor: strconv.FormatFloat(t.Coef, 'g', 6, 64), Origin: o.How.String()}
	if r.Value.Known() {
		term.Value = some(r.Value.String())
	}
	row, bought := f.rowOf(r.Slot, one)
	switch {
	case o.How == model.Assumed:
		term.Where, term.Like = some(o.Sheet), some(o.Raw)
	case o.Row > 0:
		term.Where = some(o.String())
	case row.Row > 0:
		term.Where = some(row.String())
	}
	if bought && o.How == model.Measured {
		term.Origin = "sheet"
	}
	return term
}

// rowOf is the row of what stands in a slot once the part is on with its company, and whether that is bought.
func (f *fitter) rowOf(slot string, one *solver.Fitting) (model.Origin, bool) {
	if slices.Contains(one.Place, slot) {
		return one.Part.Origin, true
	}
	for i := range one.Company {
		if b := &one.Company[i].Purchase; b.Part != nil && slices.Contains(b.Place, slot) {
			return b.Part.Origin, true
		}
	}
	return f.now[slot].Origin, false
}

// thousandths writes a number of thousandths without needless zeros.
func thousandths(milli int64) string {
	return strconv.FormatFloat(float64(milli)/1000, 'f', -1, 64)
}

// reason is the shortest true reason of a verdict.
func (f *fitter) reason(one *solver.Fitting) string {
	switch {
	case one.Lacks.Fact != "":
		whom := "ask the seller"
		if one.Part.Donor != "" {
			whom = "measure it on " + one.Part.Donor
		}
		return fmt.Sprintf("Its row does not state %s, and people get hurt where that is wrong: %s.", answer.FactWords(one.Lacks.Fact), whom)
	case one.Refused != "":
		return asSentence(one.Refused)
	}
	switch one.Answer {
	case fit.Fits:
		return f.checkedAgainst(one)
	case fit.MeasureFirst:
		return f.waitsFor(one)
	case fit.BothSides:
		if says := f.opinions(one); len(says) > 0 {
			return says[0]
		}
	case fit.FitsWith:
		return f.broken(one)
	}
	if r := decisive(one.Checks, model.Danger); r != nil {
		return asSentence(r.Says) + mendText(r.Rule.Mend)
	}
	return "Nothing on your sheets makes it fit. " + f.broken(one)
}

// decisive is the rule that says why not: one that is broken for certain, of this severity rather than another.
func decisive(checks []fit.Result, first model.Severity) *fit.Result {
	var found *fit.Result
	for i := range checks {
		r := &checks[i]
		if r.Forbids() && len(r.Missing) == 0 && (found == nil || found.Severity != first && r.Severity == first) {
			found = r
		}
	}
	return found
}

// opinions are what practice disagrees on with the part: rules that it breaks, or would break with less to buy.
func (f *fitter) opinions(one *solver.Fitting) []string {
	mild := one
	if one.Milder != nil {
		mild = one.Milder
	}
	var says []string
	for _, r := range fit.Check(f.shed.Tables, f.built(one.Part, one.Place, mild.Company), nil) {
		named := slices.Contains(one.Allow, r.Rule.ID) || slices.Contains(f.q.Options.Allow, r.Rule.ID)
		if named && r.Severity == model.BothSides && r.State == fit.Broken && len(r.Missing) == 0 {
			says = append(says, asSentence(r.Says)+mendText(r.Rule.Mend))
		}
	}
	for _, r := range one.Checks {
		text := asSentence(r.Says) + mendText(r.Rule.Mend)
		if r.Severity == model.BothSides && r.State == fit.Broken && len(r.Missing) == 0 && !slices.Contains(says, text) {
			says = append(says, text)
		}
	}
	return says
}

// built is the bike with the part on it and what goes with it.
func (f *fitter) built(part *model.Part, place model.Place, company []solver.Companion) map[string]model.Thing {
	things := maps.Clone(f.now)
	for _, slot := range place {
		things[slot] = f.shed.Tables.BoughtThing(part, place, slot)
	}
	for i := range company {
		for _, ch := range company[i].Purchase.Changes {
			things[ch.Label.Thing.Slot] = ch.Label.Thing
		}
	}
	return things
}

// wrongAlone are the rules that the part breaks on the bike as it stands.
func (f *fitter) wrongAlone(one *solver.Fitting) []fit.Result {
	if one.Answer == fit.Fits {
		return nil
	}
	_, results := f.bench.Alone(one.Part, one.Place)
	return slices.DeleteFunc(results, func(r fit.Result) bool { return !r.Forbids() || len(r.Missing) > 0 })
}

// because is what is wrong with the part alone on the bike as it stands, in the words of the rules.
func (f *fitter) because(one *solver.Fitting) []string {
	var says []string
	for _, r := range f.wrongAlone(one) {
		if !slices.Contains(says, r.Says) {
			says = append(says, r.Says)
		}
	}
	return says
}

// broken says shortly what is wrong with the part alone.
func (f *fitter) broken(one *solver.Fitting) string {
	says := f.because(one)
	switch n := len(says); {
	case n == 0:
		return f.checkedAgainst(one)
	case n > mostNamed+1:
		says = append(says[:mostNamed:mostNamed], fmt.Sprintf("and %d things more", n-mostNamed))
	}
	return "As it stands, " + strings.Join(says, "; ") + "."
}

// checkedAgainst names what a part was checked against.
func (f *fitter) checkedAgainst(one *solver.Fitting) string {
	var slots []string
	advice, built := "", f.built(one.Part, one.Place, one.Company)
	for _, r := range one.Checks {
		for _, slot := range fit.Slots(r.Rule) {
			if built[slot].State != model.Empty && !slices.Contains(one.Place, slot) && !slices.Contains(slots, slot) {
				slots = append(slots, slot)
			}
		}
		if r.Severity == model.Advice && r.State == fit.Broken && len(r.Missing) == 0 {
			advice = " But mind: " + asSentence(r.Says)
		}
	}
	if len(slots) == 0 {
		return "Nothing on the bike limits it." + advice
	}
	slices.SortFunc(slots, func(a, b string) int { return f.shed.Tables.SlotIndex(a) - f.shed.Tables.SlotIndex(b) })
	return "Checked against " + joined(slots) + "." + advice
}
