package text

import (
	"fmt"
	"strconv"
	"strings"

	"firstbolt/cmd/firstbolt/internal/answer"
)

// onePart says all that is known of one part, place by place.
func (p *page) onePart(a *answer.Fits) {
	for i, f := range a.Parts {
		if i > 0 {
			p.line("")
		}
		p.para("", fmt.Sprintf("%s [%s] on %s as %s: %s", f.Part, f.Where, a.Bike, strings.Join(f.Slots, " + "), strings.ToUpper(verdicts[f.Verdict])))
		p.para("  ", f.Reason)
		if len(f.Company) > 0 {
			p.checks("WHAT IS WRONG AS IT STANDS", f.Alone, f.Reason)
		}
		p.company(f.Company, f.CompanyCost)
		p.opinions(f)
		p.checks(checked(f), f.Checks, f.Reason)
	}
}

// company is what goes with a part, line by line with the sum.
func (p *page) company(company []answer.Company, sum answer.Money) {
	if len(company) == 0 {
		return
	}
	p.line("")
	p.line("  GOES WITH IT, %s", sum.Currency)
	for _, c := range company {
		name := companion(c)
		if len(c.Replaces) > 0 && c.Kind == "part" {
			name += " in place of " + list(c.Replaces)
		}
		p.sum(name, c.Cost)
	}
	p.line("  %-60s %12s", "", "------------")
	p.line("  %-60s %12s", "together", sum)
}

// sum is one line of a sum; a long name stands above its figure.
func (p *page) sum(name string, cost answer.Money) {
	if len([]rune(name)) > 58 {
		p.para("    ", name)
		name = ""
	}
	p.line("    %-58s %12s", name, cost)
}

// opinions says both sides where practice disagrees, and how to take one.
func (p *page) opinions(f answer.FitPart) {
	if len(f.Opinions) == 0 {
		return
	}
	p.line("")
	p.line("  PRACTICE DISAGREES")
	for _, o := range f.Opinions {
		if o != f.Reason {
			p.para("  - ", o)
		}
	}
	if f.Then != nil {
		p.para("  ", thenText(f.Allow, f.Then))
	}
}

// checked says what the list of all rules is about.
func checked(f answer.FitPart) string {
	if len(f.Company) > 0 {
		return "WHAT WAS CHECKED, with what goes with it"
	}
	return "WHAT WAS CHECKED"
}

// results are how a rule comes out, in words.
var results = map[string]string{"met": "met", "bridged": "joined", "unknown": "not known", "allowed": "allowed", "failed": "FAILS"}

// checks lists every rule with both values; those that fail come first.
func (p *page) checks(title string, checks []answer.FitCheck, reason string) {
	if len(checks) == 0 {
		return
	}
	p.line("")
	p.line("  %s", title)
	for _, result := range []string{"failed", "unknown", "allowed", "bridged", "met"} {
		for _, c := range checks {
			if c.Result == result {
				p.value(c, reason)
			}
		}
	}
}

// value writes one rule with both values.
func (p *page) value(c answer.FitCheck, reason string) {
	lead := fmt.Sprintf("  %-9s ", results[c.Result])
	right := side(c.Right)
	if c.Left.Fact != nil && c.Right.Fact != nil && *c.Left.Fact == *c.Right.Fact {
		right = answer.FactAmount(*c.Right.Fact, c.Right.Value) + whose(c.Right.Terms[0])
	}
	p.para(lead, side(c.Left)+" "+must[c.Relation]+" "+right+margin(c)+".")
	indent := strings.Repeat(" ", len(lead))
	if c.BridgedBy != nil {
		p.para(indent, "Joined by "+*c.BridgedBy+".")
	}
	if c.Sentence != nil && !strings.Contains(reason, *c.Sentence) {
		p.para(indent, strings.TrimSpace(*c.Sentence+" "+or(c.MendedBy, "")))
	}
	p.para(indent, fmt.Sprintf("(%s: %s; source: %s)", c.Rule, severities[c.Severity], c.Source))
}

// severities are what a rule is about, in words.
var severities = map[string]string{"danger": "danger", "rule": "fit rule", "both-sides": "practice disagrees", "caution": "advice"}

// must says how the two sides have to stand to each other.
var must = map[string]string{"same": "must be the same as", "at_most": "must be at most", "at_least": "must be at least", "pair_in": "must go with"}

// margin says how far beyond is still met.
func margin(c answer.FitCheck) string {
	if c.Margin == nil {
		return ""
	}
	amount, under := strings.CutPrefix(*c.Margin, "-")
	switch {
	case c.Relation == "same":
		return ", within " + amount
	case under == (c.Relation == "at_most"):
		return " less " + amount
	default:
		return " plus " + amount
	}
}

// side says one side of a rule with its value and where that came from.
func side(s answer.FitSide) string {
	switch {
	case len(s.Terms) == 0:
		return or(s.Value, "nothing")
	case s.Fact != nil:
		return term(s.Terms[0])
	}
	var says []string
	for _, t := range s.Terms {
		text := term(t)
		if t.Factor != "1" {
			text = t.Factor + " times " + text
		}
		says = append(says, text)
	}
	if s.Constant != nil {
		says = append(says, *s.Constant)
	}
	return fmt.Sprintf("%s (made of %s)", tenth(s.Value), strings.Join(says, "; "))
}

// tenth is a sum to a tenth, as people read it.
func tenth(value *string) string {
	if value == nil {
		return "a sum that is not known"
	}
	number, err := strconv.ParseFloat(*value, 64)
	if err != nil {
		return *value
	}
	return strings.TrimSuffix(strconv.FormatFloat(number, 'f', 1, 64), ".0")
}

// term says one fact: "bead seat diameter: 584 mm [front wheel, fitted.csv:20 (J20), only remembered]".
func term(t answer.FitTerm) string {
	return answer.FactName(t.Fact) + ": " + answer.FactAmount(t.Fact, t.Value) + whose(t)
}

// whose says whose fact it is and where its value came from.
func whose(t answer.FitTerm) string {
	text := " [" + t.Slot
	switch {
	case t.Like != nil && or(t.Where, "") == "like":
		return text + fmt.Sprintf(", only assumed, as on a typical %q]", *t.Like)
	case t.Like != nil:
		return text + fmt.Sprintf(", only assumed, as for any %q]", *t.Like)
	case t.Origin == "assumed" && or(t.Where, "") == "facts table":
		return text + ", taken for granted]"
	case t.Where != nil:
		text += ", " + *t.Where
	}
	if t.Origin == "remembered" || t.Origin == "assumed" {
		text += ", only " + t.Origin
	}
	return text + "]"
}
