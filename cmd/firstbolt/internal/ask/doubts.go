package ask

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/model"
	"firstbolt/model/fit"
	"firstbolt/solver"
)

// doubts are what a verdict waits for: facts that nobody measured; and where the part's row lacks what keeps people from
// getting hurt, all else that is not known as well, so that nobody has to ask twice.
func (f *fitter) doubts(one *solver.Fitting) []solver.Doubt {
	list := slices.Clone(one.Doubts)
	if one.Lacks.Fact == "" {
		return list
	}
	open := []fit.Ref{one.Lacks}
	for _, r := range one.Checks {
		for _, ref := range r.Missing {
			if !slices.Contains(open, ref) {
				open = append(open, ref)
			}
		}
	}
	built := f.built(one.Part, one.Place, nil)
	for _, ref := range open {
		th := built[ref.Slot]
		list = append(list, solver.Doubt{Slot: ref.Slot, Fact: ref.Fact, Thing: th, Value: th.Facts[ref.Fact]})
	}
	return list
}

// mostNamed is how many facts a reason names.
const mostNamed = 2

// waitsFor says what must be measured or asked before anyone can tell.
func (f *fitter) waitsFor(one *solver.Fitting) string {
	var says []string
	for _, d := range one.Doubts {
		says = append(says, f.open(d))
	}
	if more := len(says) - mostNamed; more > 1 {
		says = append(says[:mostNamed], fmt.Sprintf("and %d more", more))
	}
	if len(says) == 0 {
		return f.broken(one)
	}
	return "First find out: " + strings.Join(says, "; ") + "."
}

// open says what is known of a doubt and whom to ask.
func (f *fitter) open(d solver.Doubt) string {
	m := f.asked(d)
	of := "the " + d.Slot
	if m.OnOffer {
		of = *m.Part
	}
	says := fmt.Sprintf("%s of %s: %s", answer.FactName(d.Fact), of, answer.FactAmount(d.Fact, m.Found))
	switch {
	case m.Found != nil && m.OnOffer:
		return says + " (only " + m.Origin + "; ask the seller)"
	case m.Found != nil:
		return says + " (only " + m.Origin + ")"
	case m.OnOffer:
		return says + " (ask the seller)"
	default:
		return says
	}
}

// toMeasure are the facts that verdicts wait for, each once; those that most parts wait for first.
func (f *fitter) toMeasure(fittings []solver.Fitting) []answer.ToMeasure {
	var list []answer.ToMeasure
	for i := range fittings {
		one := &fittings[i]
		for _, d := range f.doubts(one) {
			m := f.asked(d)
			at := slices.IndexFunc(list, func(k answer.ToMeasure) bool {
				return k.Bike == m.Bike && k.Slot == m.Slot && k.Fact == m.Fact && deref(k.ID) == deref(m.ID)
			})
			if at < 0 {
				list, at = append(list, m), len(list)
			}
			if !slices.Contains(list[at].NeededFor, one.Part.Name) {
				list[at].NeededFor = append(list[at].NeededFor, one.Part.Name)
			}
		}
	}
	slices.SortStableFunc(list, func(a, b answer.ToMeasure) int {
		return cmp.Or(cmp.Compare(len(b.NeededFor), len(a.NeededFor)), cmp.Compare(f.shed.Tables.SlotIndex(a.Slot), f.shed.Tables.SlotIndex(b.Slot)))
	})
	return list
}

// asked is a doubt as a question: to the bike, or to the seller of a part.
func (f *fitter) asked(d solver.Doubt) answer.ToMeasure {
	m := answer.ToMeasure{
		Bike: f.q.Bike.Name, Slot: d.Slot, Fact: d.Fact, Says: answer.FactWords(d.Fact), OnOffer: d.Thing.State == model.Bought,
		Origin: d.Value.Origin.How.String(), Where: whereOf(d),
	}
	if p := d.Thing.Part; m.OnOffer && p.Donor != "" {
		m.OnOffer, m.Bike = false, p.Donor // what hangs on a donor bike is measured there
	} else if m.OnOffer {
		m.Part, m.ID = some(p.Name), some(p.ID)
	}
	switch d.Value.Origin.How {
	case model.Remembered:
		m.Found = some(d.Value.Origin.Raw)
	case model.Assumed:
		m.Found = some(d.Value.String())
	default:
		m.Origin = model.Unknown.String()
	}
	f.explain(&m)
	return m
}

// factKinds are the kinds of facts in the words of facts.csv.
var factKinds = map[model.FactKind]string{model.Number: "number", model.Choice: "choice", model.YesOrNo: "yes/no"}

// explain adds how a fact is measured.
func (f *fitter) explain(m *answer.ToMeasure) {
	fact := f.shed.Tables.FactNamed(m.Fact)
	if fact == nil {
		return
	}
	m.Kind, m.Unit, m.Choices, m.How, m.Tool = factKinds[fact.Kind], some(fact.Unit), fact.Allowed, some(fact.How), some(fact.Tool)
	if fact.Mistakes != "" {
		m.Mistakes = []string{fact.Mistakes}
	}
}
