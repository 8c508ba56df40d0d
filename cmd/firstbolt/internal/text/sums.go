package text

import (
	"fmt"
	"strings"

	"firstbolt/cmd/firstbolt/internal/answer"
)

// receipt is every line to the cent, what is left, and what the rest would bring.
func (p *page) receipt(a *answer.Plan) {
	if len(a.Receipt) > 0 {
		p.section("RECEIPT, " + a.Cost.Total.Currency)
		for _, l := range grouped(a.Receipt) {
			p.receiptLine(l)
		}
		p.line("  %-60s %12s", "", "------------")
		p.line("  %-60s %12s", "together", a.Cost.Total)
	} else {
		p.section("MONEY, " + a.Cost.Total.Currency)
	}
	if a.Left != nil {
		p.line("  %-60s %12s", fmt.Sprintf("left of %s", a.Budget), a.Left)
	}
	if a.Rest != nil && a.Rest.Benefit >= noticed {
		p.para("  ", fmt.Sprintf("The next %s would add only %s points: keep it, or set --worth lower.", a.Rest.Cost, a.Rest.Benefit.Short()))
	}
	if a.Next != nil && a.Next.Benefit >= noticed {
		p.para("  ", fmt.Sprintf("With a larger budget, %s more than this plan would bring %s points more.", a.Next.Cost, a.Next.Benefit.Short()))
	}
}

// grouped puts the small parts of one job on one line, with their sum. A small part's name ends with its job and place
// in brackets.
func grouped(lines []answer.Line) []answer.Line {
	var list []answer.Line
	at := map[string]int{} // job and place to the line of its small parts
	for _, l := range lines {
		name, job, ok := strings.Cut(strings.TrimSuffix(l.Name, ")"), " (")
		if l.Kind != "small_part" || !ok {
			list = append(list, l)
			continue
		}
		if l.Count > 1 {
			name = fmt.Sprintf("%d x %s", l.Count, name)
		}
		spot := job[strings.LastIndex(job, ", ")+1:]
		if i, there := at[job]; there {
			list[i].Name = strings.TrimSuffix(list[i].Name, " ("+strings.TrimSpace(spot)+")") + ", " + name
			list[i].Cost.Minor += l.Cost.Minor
		} else {
			at[job] = len(list)
			list = append(list, l)
			list[at[job]].Name, list[at[job]].Count = "small parts: "+name, 1
		}
		list[at[job]].Name += " (" + strings.TrimSpace(spot) + ")"
	}
	return list
}

func (p *page) receiptLine(l answer.Line) {
	name := l.Name
	if l.Count > 1 {
		name = fmt.Sprintf("%d x %s", l.Count, name)
	}
	switch l.Kind {
	case "tool":
		name = "tool: " + name
	case "work":
		name = "work of a shop: " + name
	case "part":
		name = strings.TrimSpace(name + " " + bracket(l.Shop))
	}
	if len([]rune(name)) <= 60 {
		p.line("  %-60s %12s", name, l.Cost)
		return
	}
	p.para("  ", name)
	p.line("  %-60s %12s", "", l.Cost)
}

func bracket(shop *string) string {
	if shop == nil || *shop == "" {
		return ""
	}
	return "(" + *shop + ")"
}

// scale is the number of places on the line from 0 to 100.
const scale = 28

// levels shows every criterion before and after as two marks on one line, next to the best other bike.
func (p *page) levels(b *answer.Benefit, rivals []answer.Rival) {
	rival := best(rivals)
	p.section("WHAT IT BRINGS (0 = barely rides, 100 = nothing better makes a difference)")
	other := ""
	if rival != nil {
		other = "other"
	}
	p.line("  %-17s %5s %6s %6s %6s  0%s100", "", "share", "now", "then", other, strings.Repeat(" ", scale-3))
	for _, l := range b.ByCriterion {
		if l.Value.Weight == 0 {
			continue
		}
		there, at := "", answer.Points(-1)
		if rival != nil {
			if r, ok := rival.Benefit.ByCriterion.Get(l.Key); ok {
				there, at = r.After.Short(), r.After
			}
		}
		p.line("  %-17s %4d%% %6s %6s %6s  %s", l.Value.Says, l.Value.Weight, l.Value.Before.Short(), l.Value.After.Short(), there,
			marks(l.Value.Before, l.Value.After, at))
	}
	there, at := "", answer.Points(-1)
	if rival != nil {
		there, at = rival.Benefit.After.Short(), rival.Benefit.After
	}
	p.line("  %-17s %5s %6s %6s %6s  %s", "all together", "", b.Before.Short(), b.After.Short(), there,
		marks(b.Before, b.After, at))
	legend := "o = now, x = with this plan"
	if rival != nil {
		legend += fmt.Sprintf(", r = %s, the best other bike for the money (%s with its parts)", rival.Bike, rival.Cost)
	}
	p.para("  ", legend+".")
}

// best is the first rival that the budget reaches.
func best(rivals []answer.Rival) *answer.Rival {
	for i := range rivals {
		if rivals[i].Benefit != nil && rivals[i].Cost != nil {
			return &rivals[i]
		}
	}
	return nil
}

func (p *page) rivals(rivals []answer.Rival) {
	for _, r := range rivals {
		if r.Benefit == nil || r.Cost == nil {
			p.para("  ", fmt.Sprintf("%s: not within the budget (costs %s before any part).", r.Bike, r.BaseCost))
			continue
		}
		with := "as it is"
		if len(r.Buy) > 0 {
			with = "with " + list(r.Buy)
		}
		p.para("  ", fmt.Sprintf("%s, %s: %s, reaches %s points.", r.Bike, with, r.Cost, r.Benefit.After.Short()))
	}
}

// marks draws up to three marks on a line from 0 to 100; the plan's mark wins over the others. A negative level has none.
func marks(before, after, rival answer.Points) string {
	line := []rune(strings.Repeat(".", scale+1))
	put := func(level answer.Points, mark rune) {
		if level < 0 {
			return
		}
		line[min(scale, int(level*scale+500_000)/1_000_000)] = mark
	}
	put(rival, 'r')
	put(before, 'o')
	put(after, 'x')
	return string(line)
}

// switchPoint says from which budget another bike is better.
func (p *page) switchPoint(a *answer.Plan) {
	p.section("FROM WHICH BUDGET ANOTHER BIKE IS BETTER")
	s := a.Switch
	if s == nil {
		switch {
		case !a.SwitchSearched:
			p.para("  ", "Not worked out in the time there was; allow more with --time-limit.")
		case len(a.Rivals) == 0:
			p.para("  ", "No other complete bike stands in bikes.csv; add one that is for sale to compare with it.")
		default:
			p.para("  ", "At no budget: even with every part that helps, no other bike on your sheets is better.")
		}
		return
	}
	with := ""
	if len(s.Buy) > 0 {
		with = " with " + list(s.Buy)
	}
	text := fmt.Sprintf("From %s %s on, %s%s is better: %s points", s.At, s.At.Currency, s.To, with, s.BenefitSwitch.Short())
	if s.BenefitStay != nil {
		text += fmt.Sprintf(" against %s for staying with the same money", s.BenefitStay.Short())
	}
	if s.Gain != nil && *s.Gain < narrow {
		text += ", a narrow lead: under 2 points lie within the noise of what is judged"
	}
	p.para("  ", text+".")
	switch {
	case s.Away.Minor > 0:
		p.para("  ", fmt.Sprintf("That is %s more than your budget.", s.Away))
	default:
		p.para("  ", "Your budget reaches that.")
	}
	if s.Until != nil {
		p.para("  ", fmt.Sprintf("From %s on staying is better again.", s.Until))
	}
	if s.Lasting != nil {
		p.para("  ", fmt.Sprintf("From %s on another bike stays ahead: %s.", s.Lasting.At, s.Lasting.To))
	}
	if s.Firm != nil && !*s.Firm {
		p.para("  ", "This is not firm: facts that nobody measured could turn it round.")
	}
}

// noticed is the least gain in points that a tenth of a point does not round away.
const noticed answer.Points = 500

// narrow is the lead below which another bike is within the noise of ratings and judgements: 2 points.
const narrow answer.Points = 2_0000
