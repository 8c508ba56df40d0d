package ask

import (
	"fmt"
	"strings"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/solver"
)

// sentence says the decision in one sentence.
func (f *filler) sentence(a *answer.Plan) string {
	budget := f.money(f.ans.Question.Budget)
	switch f.ans.Decision {
	case solver.Switch:
		return f.switching(a)
	case solver.Wait:
		return fmt.Sprintf("Wait: with %s %s nothing on your sheets is worth its money on %s yet; keep it.", budget, f.currency, a.Bike)
	case solver.Mend:
		return f.mending(a)
	default:
		return fmt.Sprintf("Stay with %s and buy %s for %s %s; %s is left.", a.Bike, named(a.Buy), a.Cost.Total, f.currency, a.Left)
	}
}

func (f *filler) switching(a *answer.Plan) string {
	with := "as it is"
	if len(a.Buy) > 0 {
		with = "with " + named(a.Buy)
	}
	text := fmt.Sprintf("Buy %s %s for %s %s in all; %s is left", a.Bike, with, a.Cost.Total, f.currency, a.Left)
	if kept := f.ans.Kept; kept != nil {
		text += fmt.Sprintf(". It reaches %s points, %s with everything that helps within the budget %s",
			a.Benefit.After.Short(), kept.Bike.Name, (points(kept.Benefit) + f.unspent()).Short())
	}
	return text + "."
}

// unspent is what the money that a thrifty plan keeps back would have brought.
func (f *filler) unspent() answer.Points {
	if f.ans.Rest == nil {
		return 0
	}
	return points(f.ans.Rest.Benefit)
}

func (f *filler) mending(a *answer.Plan) string {
	budget := f.money(f.ans.Question.Budget)
	switch {
	case a.Bike == "" && len(f.ans.Contenders) > 0:
		return fmt.Sprintf("Wait: no bike on your sheets is within %s %s.", budget, f.currency)
	case a.Mend.Least == nil:
		return "Do not ride this bike: it is not safe as it stands, and no part on your sheets makes it safe."
	default:
		return fmt.Sprintf("Mend this first: %s is not safe to ride, and making it safe costs %s %s; your budget is %s.", a.Bike, a.Mend.Least, f.currency, budget)
	}
}

// named says the steps by name, up to four different ones.
func named(steps []answer.Step) string {
	var names []string
	counts := map[string]int{}
	for _, s := range steps {
		if counts[s.Part]++; counts[s.Part] == 1 {
			names = append(names, s.Part)
		}
	}
	if len(names) > 4 {
		return fmt.Sprintf("the %d things below", len(steps))
	}
	for i, n := range names {
		if counts[n] > 1 {
			names[i] = fmt.Sprintf("%d x %s", counts[n], n)
		}
	}
	switch n := len(names); n {
	case 0:
		return "nothing"
	case 1:
		return names[0]
	default:
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
}

// quoted lists names in quotes.
func quoted(names []string) string {
	var list []string
	for _, n := range names {
		list = append(list, fmt.Sprintf("%q", n))
	}
	return strings.Join(list, ", ")
}

// asSentence gives text a capital letter and a full stop.
func asSentence(text string) string {
	if text == "" {
		return ""
	}
	text = strings.ToUpper(text[:1]) + text[1:]
	if !strings.HasSuffix(text, ".") {
		text += "."
	}
	return text
}
