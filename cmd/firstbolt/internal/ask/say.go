package ask

import (
	"fmt"
	"strings"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/model"
	"firstbolt/solver"
)

// sentence says the decision in one sentence.
func (f *filler) sentence(a *answer.Plan) string {
	budget := f.money(f.ans.Question.Budget)
	switch f.ans.Decision {
	case solver.Switch:
		return f.switching(a)
	case solver.Wait:
		if text := f.noneGoes(a); text != "" {
			return text
		}
		return fmt.Sprintf("Wait: with %s %s nothing on your sheets is worth its money on %s yet; keep it.", budget, f.currency, a.Bike)
	case solver.Mend:
		return f.mending(a)
	default:
		return fmt.Sprintf("Stay with %s%s for %s %s; %s is left.", a.Bike, doing(a.Buy), a.Cost.Total, f.currency, a.Left)
	}
}

// noneGoes says why no part at all could be chosen; empty where one could.
func (f *filler) noneGoes(a *answer.Plan) string {
	offered := 0
	for i := range f.shed.Parts {
		if f.shed.Parts[i].Wish != model.Never {
			offered++
		}
	}
	some := "None of your parts"
	if offered > 1 {
		some = fmt.Sprintf("None of your %d parts", offered)
	}
	lacking := 0
	for _, l := range a.SayMore {
		if !l.Bought {
			lacking++
		}
	}
	switch {
	case offered == 0 || len(a.NotOffered)+lacking < offered:
		return ""
	case lacking == 0:
		return fmt.Sprintf("%s fits %s: %s", some, a.Bike, a.NotOffered[0].Why)
	default:
		return fmt.Sprintf("%s can be planned with on %s yet: %d lack a fact that keeps you from getting hurt, %d do not fit.", some, a.Bike, lacking, len(a.NotOffered))
	}
}

func (f *filler) switching(a *answer.Plan) string {
	with := "as it is"
	if len(a.Buy) > 0 {
		with = "with what is listed below"
	}
	text := fmt.Sprintf("Buy %s %s for %s %s in all; %s is left", a.Bike, with, a.Cost.Total, f.currency, a.Left)
	if kept := f.ans.Kept; kept != nil {
		text += fmt.Sprintf(". It reaches %s points, %s with everything that helps within the budget %s",
			a.Benefit.After.Short(), kept.Bike.Name, (points(kept.Benefit) + f.unspent()).Short())
	}
	return text + "." + f.inHand(a)
}

// inHand says what must be paid before the kept bike's sale brings its share; empty where nothing is sold.
func (f *filler) inHand(a *answer.Plan) string {
	if f.ans.Decision != solver.Switch || a.Cost.Sales.Minor >= 0 {
		return ""
	}
	whole := a.Cost.Total
	whole.Minor -= a.Cost.Sales.Minor
	return fmt.Sprintf(" You need %s %s in hand before your bike is sold.", whole, f.currency)
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

// doing says what is bought, by name up to four different parts, and how many jobs are done besides.
func doing(steps []answer.Step) string {
	var names []string
	parts, jobs := map[string]int{}, 0
	for _, s := range steps {
		if s.Kind == "work" {
			jobs++
		} else if parts[s.Part]++; parts[s.Part] == 1 {
			names = append(names, s.Part)
		}
	}
	work := "do the job below"
	if jobs > 1 {
		work = fmt.Sprintf("do the %d jobs below", jobs)
	}
	for i, n := range names {
		if parts[n] > 1 {
			names[i] = fmt.Sprintf("%d x %s", parts[n], n)
		}
	}
	bought := "buy " + joined(names)
	if len(names) > 4 {
		bought = fmt.Sprintf("buy the %d parts below", len(steps)-jobs)
	}
	switch {
	case len(names) == 0:
		return " and " + work
	case jobs == 0:
		return " and " + bought
	default:
		return ", " + bought + " and " + work
	}
}

// joined lists names as one says them: "a, b and c".
func joined(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// quoted lists names in quotes.
func quoted(names []string) string {
	var list []string
	for _, n := range names {
		list = append(list, fmt.Sprintf("%q", n))
	}
	return strings.Join(list, ", ")
}

// asSentence gives text a capital letter, and a full stop where it ends without a sign.
func asSentence(text string) string {
	if text == "" {
		return ""
	}
	text = strings.ToUpper(text[:1]) + text[1:]
	if !strings.ContainsAny(text[len(text)-1:], ".?!") {
		text += "."
	}
	return text
}
