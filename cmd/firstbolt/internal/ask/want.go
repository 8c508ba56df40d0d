package ask

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/datasets"
	"firstbolt/datasets/sheet"
	"firstbolt/model"
	"firstbolt/model/fit"
	"firstbolt/solver"
)

// Want answers `want`: what a part must have to stand in one place of a bike. Its errors are wrong use.
func Want(r Request) (answer.Answer, error) {
	f, l, err := bench(r)
	if err != nil || l.failure != nil {
		return failureOrNil(l.failure), err
	}
	slot, err := slotNamed(r.Slot, l.shed.Tables)
	if err != nil {
		return nil, err
	}
	a := &answer.Want{Head: head(r.Command, l.shed), Bike: f.q.Bike.Name, Slot: slot.Name, Says: slot.Says, Required: slot.Required}
	if th := f.now[slot.Name]; th.State != model.Empty {
		a.Now = some(th.Name)
	}
	for _, q := range f.bench.Wants(slot.Name) {
		a.Needs = append(a.Needs, f.need(q))
		a.Measure = f.stillOpen(a.Measure, q)
	}
	a.Cautions = append(ruleCautions(f.concerning(slot.Name)), f.slotCautions(map[string]string{slot.Name: ""})...)
	a.Warnings = l.warnings
	return a, nil
}

// IsSlot tells whether the words are the name of a place on a bike.
func IsSlot(name string) bool {
	t, err := datasets.Embedded()
	if err != nil {
		return false
	}
	_, known := sheet.Match(name, slotNames(t))
	return known
}

func slotNames(t *model.Tables) []string {
	var names []string
	for i := range t.Slots {
		names = append(names, t.Slots[i].Name)
	}
	return names
}

// slotNamed finds a slot by its name, or by the phrase of a kind that goes in one place only.
func slotNamed(name string, t *model.Tables) (*model.Slot, error) {
	known := slotNames(t)
	if slot, ok := sheet.Match(name, known); ok {
		return t.SlotNamed(slot), nil
	}
	for _, k := range t.Kinds {
		if _, ok := sheet.Match(name, append([]string{k.Name}, k.Aliases...)); !ok {
			continue
		}
		var slots []string
		for _, p := range k.Places {
			slots = append(slots, p...)
		}
		if len(slots) == 1 {
			return t.SlotNamed(slots[0]), nil
		}
		return nil, wrong{fmt.Sprintf("%q goes in several places, so say which: %s", name, quoted(slots))}
	}
	var like []string
	for _, k := range known {
		if strings.Contains(k, strings.ToLower(strings.TrimSpace(name))) {
			like = append(like, k)
		}
	}
	if len(like) > 0 && sheet.Nearest(name, known) == "" {
		return nil, wrong{fmt.Sprintf("there is no place %q on a bike; did you mean one of %s?", name, quoted(like))}
	}
	return nil, wrong{fmt.Sprintf("there is no place %q on a bike; %s", name, sheet.DidYouMean(name, known, "`firstbolt schema slots` lists them"))}
}

// concerning are the rules about the slot that the bike does not meet as it stands.
func (f *fitter) concerning(slot string) []fit.Result {
	return slices.DeleteFunc(fit.Check(f.shed.Tables, f.now, f.q.Options.Allow), func(r fit.Result) bool {
		return !slices.Contains(fit.Slots(r.Rule), slot)
	})
}

// need is one requirement.
func (f *fitter) need(q fit.Requirement) answer.Need {
	fact := f.shed.Tables.FactNamed(q.Fact)
	if fact != nil && (fact.Unit == "teeth" || fact.Unit == "count") {
		q = inWholes(q)
	}
	n := answer.Need{Fact: some(q.Fact), Does: needValues(q.Does)}
	if fact != nil {
		n.Does.Any = n.Does.Any || q.Does.Listed && len(fact.Allowed) > 0 && len(q.Does.Choices) == len(fact.Allowed)
		n.Kind, n.How, n.Tool = some(factKinds[fact.Kind]), some(fact.How), some(fact.Tool)
		if fact.Mistakes != "" {
			n.Traps = append(n.Traps, fact.Mistakes)
		}
	}
	for _, t := range q.Sum {
		n.Sum = append(n.Sum, answer.NeedTerm{Fact: t.Fact, Factor: strconv.FormatFloat(t.Coef, 'g', 6, 64)})
	}
	for _, t := range q.If {
		n.If = append(n.If, answer.NeedIf{Fact: t.Fact, Value: t.Constant})
	}
	if q.Fact == "" && q.Sum == nil {
		n.Verdict = some(q.Answer.String())
	}
	for _, w := range q.Ways {
		n.Ways = append(n.Ways, needWay(w))
	}
	for _, c := range q.Clauses {
		n.Rules = append(n.Rules, f.cause(q, c))
	}
	return n
}

// inWholes narrows a requirement to whole numbers: teeth, rings and links are counted.
func inWholes(q fit.Requirement) fit.Requirement {
	narrow := func(v fit.Values) fit.Values {
		if v.None() {
			return v
		}
		if v.Low != fit.NoLow {
			v.Low = int64(math.Ceil(float64(v.Low)/1000)) * 1000
		}
		if v.High != fit.NoHigh {
			v.High = int64(math.Floor(float64(v.High)/1000)) * 1000
		}
		return v
	}
	q.Does, q.Ways = narrow(q.Does), slices.Clone(q.Ways)
	for i := range q.Ways {
		q.Ways[i].Values = narrow(q.Ways[i].Values)
	}
	return q
}

// cause is one rule behind a requirement.
func (f *fitter) cause(q fit.Requirement, c fit.Clause) answer.NeedCause {
	cause := answer.NeedCause{
		Rule: c.Rule.ID, Severity: c.Rule.Severity.String(), Does: needValues(c.Does), MendedBy: some(asSentence(c.Rule.Mend)), Source: c.Rule.Source, URL: some(c.Rule.URL),
	}
	switch {
	case q.Fact != "" || q.Sum != nil:
	case len(c.Missing) > 0:
		cause.Sentence = some(notKnown(c.Missing))
	default:
		cause.Sentence = some(asSentence(c.Says))
	}
	for _, r := range c.Against {
		cause.Against = append(cause.Against, f.term(model.Term{Coef: 1}, r, &solver.Fitting{}))
	}
	return cause
}

func needWay(w fit.Way) answer.NeedWay {
	way := answer.NeedWay{Values: needValues(w.Values), AsNow: w.AsNow, Off: w.Off, Allow: w.Allow}
	for _, ref := range w.Measure {
		way.Measure = append(way.Measure, ref.Slot+"."+ref.Fact)
	}
	for _, p := range w.Pieces {
		piece := answer.NeedPiece{Slot: p.Bridge.Slot}
		if p.From.Known() {
			piece.From = some(p.From.String())
		}
		if p.To.Known() {
			piece.To = some(p.To.String())
		}
		way.Pieces = append(way.Pieces, piece)
	}
	return way
}

func needValues(v fit.Values) answer.NeedValues {
	n := answer.NeedValues{Any: v.Unlimited(), None: v.None()}
	if v.Listed {
		n.Choices = v.Choices
		return n
	}
	if n.None {
		return n
	}
	if v.Low != fit.NoLow {
		n.Low = some(thousandths(v.Low))
	}
	if v.High != fit.NoHigh {
		n.High = some(thousandths(v.High))
	}
	for _, x := range v.Except {
		n.Except = append(n.Except, thousandths(x))
	}
	return n
}

// stillOpen adds what a requirement has to have measured on the bike.
func (f *fitter) stillOpen(list []answer.ToMeasure, q fit.Requirement) []answer.ToMeasure {
	for _, c := range q.Clauses {
		for _, ref := range c.Missing {
			if slices.ContainsFunc(list, func(m answer.ToMeasure) bool { return m.Slot == ref.Slot && m.Fact == ref.Fact }) {
				continue
			}
			th := f.now[ref.Slot]
			list = append(list, f.asked(solver.Doubt{Slot: ref.Slot, Fact: ref.Fact, Thing: th, Value: th.Facts[ref.Fact]}))
		}
	}
	return list
}
