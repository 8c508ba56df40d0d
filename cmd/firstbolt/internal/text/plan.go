package text

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"firstbolt/cmd/firstbolt/internal/answer"
)

// plan writes the answer in the order in which a rider needs it: decide, look before spending, order, pay, see what it
// brings, measure, think of another bike, know how it was checked, look the bike over and stay safe.
func (p *page) plan(a *answer.Plan) {
	if a.Shed != nil && a.Shed.Demo {
		p.para("", "This is the demo shed: an invented rider, invented parts and prices.")
		p.line("")
	}
	if a.MadeFor != nil && a.MadeFor.Known {
		p.para("", a.MadeFor.Says)
	}
	p.para("", a.Sentence)
	if a.MadeFor != nil && !a.MadeFor.Known {
		p.para("", a.MadeFor.Says)
	}
	if a.Error != nil {
		p.para("", a.Error.Sentence)
	}
	p.line("")
	p.setting(a)
	p.before(a.Before, tells(a.Cautions, "before"))
	p.mend(a)
	p.order("ORDER NOW", a, a.OrderNow)
	p.order("ORDER AFTER MEASURING", a, a.OrderAfterMeasuring)
	p.receipt(a)
	if a.Benefit != nil {
		p.levels(a.Benefit, a.Rivals)
	}
	p.rivals(a.Rivals)
	p.measures(a.Measure)
	p.switchPoint(a)
	p.near(a.Near)
	p.sayMore(a.SayMore)
	p.setAside("DOES NOT FIT THIS BIKE", a.NotOffered)
	p.setAside("BRINGS NO POINTS HERE", a.NotScored)
	p.footnotes(a.Warnings, a.Notes)
	p.proof(a.Proof)
	p.cautions(a.Cautions)
}

// setting says what the answer rests on: the money and what the rider cares about.
func (p *page) setting(a *answer.Plan) {
	if a.Budget != nil {
		p.line("Budget: %s %s", a.Budget, a.Budget.Currency)
	}
	var cares []string
	for _, w := range a.Priorities.Weights {
		if w.Value == 0 {
			continue
		}
		says := w.Key
		if a.Benefit != nil {
			if level, ok := a.Benefit.ByCriterion.Get(w.Key); ok {
				says = level.Says
			}
		}
		cares = append(cares, fmt.Sprintf("%s %d%%", says, w.Value))
	}
	p.para("What counts for you: ", strings.Join(cares, ", ")+" ("+origin(a.Priorities)+")")
}

// origin says where the priorities come from.
func origin(p answer.Priorities) string {
	if p.Origin == "default" {
		return "our default, since you did not say; set priorities to change it"
	}
	return p.Origin
}

func (p *page) before(list []answer.Before, look bool) {
	if len(list) == 0 && !look {
		return
	}
	p.section("BEFORE YOU SPEND")
	for _, kind := range []struct{ name, lead string }{{"unsafe", "  UNSAFE, do not ride: "}, {"free", "  free: "}} {
		for _, b := range list {
			if b.Kind == kind.name {
				p.para(kind.lead, b.Text+checkWith(b.CheckWith)+place(b.Where))
			}
		}
	}
	if look {
		p.para("  ", "Look the bike over with the list further down: a fault there comes before any part.")
	}
}

// tells tells whether a caution is said at that time.
func tells(list []answer.Caution, when string) bool {
	return slices.ContainsFunc(list, func(c answer.Caution) bool { return c.When == when })
}

func checkWith(who *string) string {
	if who == nil || *who == "" {
		return ""
	}
	return " Ask: " + *who + "."
}

func place(where *string) string {
	if where == nil || *where == "" {
		return ""
	}
	return " [" + *where + "]"
}

func (p *page) mend(a *answer.Plan) {
	if a.Mend == nil {
		return
	}
	p.section("MAKE IT SAFE FIRST")
	if a.Mend.Least == nil {
		p.para("  ", "No parts on your sheets make this bike safe and rideable, whatever the budget.")
	} else {
		p.para("  ", fmt.Sprintf("The least that makes this bike safe and rideable is %s:", a.Mend.Least))
		for _, l := range grouped(a.Mend.Receipt) {
			p.receiptLine(l)
		}
	}
	if len(a.Mend.Within) > 0 {
		p.para("  ", "Within your budget instead: "+list(a.Mend.Within)+".")
	}
}

// order is one of the two shopping lists: a table of purchases with what each brings, and what goes with it below.
func (p *page) order(title string, a *answer.Plan, o answer.Order) {
	if len(o.Items) == 0 {
		return
	}
	p.section(fmt.Sprintf("%s: %s %s with all that goes with it", title, o.Total, o.Total.Currency))
	if len(o.Items) < len(a.Buy) {
		p.para("  ", "Numbers are steps of the whole plan; the others stand in the other order.")
	}
	p.line("  %2s  %-41s %9s %8s %9s", "", "", "all in", "points", "per 100")
	for _, item := range o.Items {
		for _, s := range a.Buy {
			if s.Step == item.Step {
				p.step(s, item)
			}
		}
	}
}

func (p *page) step(s answer.Step, item answer.OrderItem) {
	name := s.Part
	if s.Count > 1 {
		name = fmt.Sprintf("%d x %s", s.Count, name)
	}
	if utf8.RuneCountInString(name) > 41 {
		p.line("  %2d  %s", s.Step, name)
		p.line("  %2s  %-41s %9s %8s %9s", "", "", s.Cost, signed(s.Benefit), rate(s))
	} else {
		p.line("  %2d  %-41s %9s %8s %9s", s.Step, name, s.Cost, signed(s.Benefit), rate(s))
	}
	const lead = "      "
	if bought := buying(s); bought != "" {
		p.para(lead, bought)
	}
	if len(s.With) > 0 {
		p.para(lead+"goes with it: ", goesWith(s.With))
	}
	if len(item.Measure) > 0 {
		p.para(lead+"measure first: ", strings.Join(item.Measure, "; "))
	}
	for _, text := range item.Instead {
		p.para(lead+"if ", text)
	}
	if s.Due.Minor > 0 {
		p.para(lead, fmt.Sprintf("of this, %s was due anyway", s.Due))
	}
}

// buying says where the part comes from, at what price, and where it goes.
func buying(s answer.Step) string {
	var says []string
	switch {
	case s.Owned:
		says = append(says, "lies in your shed already")
	case s.Price.Minor > 0 || s.Shop != nil:
		says = append(says, strings.Join(strings.Fields(fmt.Sprintf("%s %s %s", s.Price, or(s.Condition, ""), from(s.Shop))), " "))
	}
	switch {
	case len(s.Slots) == 0:
	case s.Kind == "work" && len(s.Replaces) > 0:
		return "comes off: " + strings.Join(s.Replaces, ", ") + place(&s.Where)
	case s.Kind == "work":
		return "is set up: " + strings.Join(s.Slots, " + ") + place(&s.Where)
	case s.Part != s.Slots[0]:
		says = append(says, "goes in: "+strings.Join(s.Slots, " + "))
	}
	if len(s.Replaces) > 0 {
		says = append(says, "in place of: "+strings.Join(s.Replaces, ", "))
	}
	if s.Tax.Minor != 0 {
		says = append(says, fmt.Sprintf("tax %s", s.Tax))
	}
	switch {
	case s.ShippingChange.Minor > 0:
		says = append(says, fmt.Sprintf("shipping %s", s.ShippingChange))
	case s.ShippingChange.Minor < 0:
		less := s.ShippingChange
		less.Minor = -less.Minor
		says = append(says, fmt.Sprintf("shipping %s less", less))
	}
	text := strings.Join(says, "; ")
	if s.Where != "" {
		text += " [" + s.Where + "]"
	}
	return text
}

func from(shop *string) string {
	if shop == nil || *shop == "" {
		return ""
	}
	return "from " + *shop
}

// goesWith lists what goes with a part; the rider's own work comes last and in one go.
func goesWith(with []answer.With) string {
	var says, own []string
	for _, w := range with {
		text := w.Name
		if w.Count > 1 {
			text = fmt.Sprintf("%d x %s", w.Count, text)
		}
		if w.Kind == "work" && (w.DoneBy == nil || *w.DoneBy != "shop") {
			own = append(own, text)
			continue
		}
		switch w.Kind {
		case "work":
			text = "a shop does: " + text
		case "tool":
			text = "tool: " + text
		}
		if w.Cost.Minor != 0 {
			text += " " + w.Cost.String()
		}
		if w.Origin == "assumed" && w.Kind == "tool" {
			text += " (price assumed)"
		}
		says = append(says, text)
	}
	if len(own) > 0 {
		says = append(says, "you do: "+strings.Join(own, ", "))
	}
	return strings.Join(says, "; ")
}

// signed is points with their sign, as gains are read.
func signed(points answer.Points) string {
	if short := points.Short(); strings.HasPrefix(short, "-") {
		return short
	} else {
		return "+" + short
	}
}

// rate is benefit per 100 of money, or why there is none: what costs nothing is free, what is bought anyway was due.
func rate(s answer.Step) string {
	switch {
	case s.Per100 != nil:
		return s.Per100.Short()
	case s.Cost.Minor > 0:
		return "was due"
	default:
		return "free"
	}
}
