package text

import (
	"fmt"
	"strings"

	"firstbolt/cmd/firstbolt/internal/answer"
)

// verdicts are the verdicts in words.
var verdicts = map[string]string{
	"fits": "fits", "fits_with": "fits with ...", "both_sides": "both sides", "measure_first": "measure first", "does_not_fit": "does not fit",
}

// fits writes one entry per part by slot, or all that is to be said of one part.
func (p *page) fits(a *answer.Fits) {
	p.demo(a.Shed)
	if a.Asked != nil {
		p.onePart(a)
	} else {
		p.allParts(a)
	}
	p.toMeasure(a.Measure)
	p.footnotes(a.Warnings, a.Notes)
	p.cautions(a.Cautions)
}

// demo says that the demo shed is invented.
func (p *page) demo(shed *answer.Shed) {
	if shed != nil && shed.Demo {
		p.para("", "This is the demo shed: an invented rider, invented parts and prices.")
		p.line("")
	}
}

// allParts lists every part under the first slot where it goes.
func (p *page) allParts(a *answer.Fits) {
	c := a.Counts
	p.para("", fmt.Sprintf("Of %s on your sheets, on %s:", plural(c.Fits+c.FitsWith+c.BothSides+c.MeasureFirst+c.DoesNotFit, "part"), a.Bike))
	for _, n := range []struct {
		count int
		says  string
	}{
		{c.Fits, "fits as it is"},
		{c.FitsWith, "fits with something that goes with it"},
		{c.MeasureFirst, "waits for a measurement, or for a word of the seller"},
		{c.BothSides, "both sides: practice disagrees"},
		{c.DoesNotFit, "does not fit"},
	} {
		p.line("  %4d  %s", n.count, n.says)
	}
	slot := ""
	for _, e := range entries(a.Parts) {
		if e.Slots[0] != slot {
			slot = e.Slots[0]
			p.section(strings.ToUpper(slot))
		}
		p.entry(e)
	}
	p.line("")
	p.para("", "All that was checked of one part, value by value: firstbolt fits PART.")
}

// entry is a part with its verdict, and the further places of which the same is to be said.
type entry struct {
	answer.FitPart
	also []string
	only bool // the part has places of which something else is to be said
}

// entries puts the places of one part together of which the same is to be said, under the first of them.
func entries(parts []answer.FitPart) []entry {
	var list []entry
	at := map[string]int{} // what is said of a part to its entry
	first := map[string]int{}
	for _, f := range parts {
		key := f.Where + "\n" + f.Part + "\n" + f.Verdict + "\n" + sideless(said(f))
		if i, there := at[key]; there {
			list[i].also = append(list[i].also, strings.Join(f.Slots, " + "))
			continue
		}
		at[key] = len(list)
		e := entry{FitPart: f}
		if i, there := first[f.Where+f.Part]; there {
			e.only, list[i].only = true, true
		} else {
			first[f.Where+f.Part] = len(list)
		}
		list = append(list, e)
	}
	return list
}

// sideless is text without the words that tell front from rear.
func sideless(text string) string {
	return strings.NewReplacer("front", "side", "rear", "side", "behind", "side").Replace(text)
}

// said is the text under an entry.
func said(f answer.FitPart) string {
	text := f.Reason
	if len(f.Company) > 0 {
		text += " Goes with it: " + companyText(f.Company, f.CompanyCost) + "."
	}
	if f.Then != nil {
		text += " " + thenText(f.Allow, f.Then)
	}
	return text
}

func (p *page) entry(e entry) {
	lead := fmt.Sprintf("  %-14s ", verdicts[e.Verdict])
	name, place := e.Part, strings.Join(e.Slots, " + ")
	switch {
	case e.only && place != e.Part:
		name += " as " + place
	case len(e.Slots) > 1:
		name += " (" + place + ")"
	}
	if len(e.also) > 0 {
		name += ", also as " + list(e.also)
	}
	if e.Price.Minor != 0 {
		name += ", " + e.Price.String()
	}
	p.para(lead, name+" ["+e.Where+"]")
	p.para(strings.Repeat(" ", len(lead)), said(e.FitPart))
}

// mostPriced is how many things are named with their own price in a list.
const mostPriced = 3

// companyText is what goes with a part in one sentence, with the sum.
func companyText(company []answer.Company, sum answer.Money) string {
	var says []string
	for _, c := range company {
		name := companion(c)
		if c.Cost.Minor != 0 && len(company) <= mostPriced {
			name += " " + c.Cost.String()
		}
		says = append(says, name)
	}
	text := list(says)
	if len(company) > 1 && sum.Minor != 0 {
		text += fmt.Sprintf("; together %s %s", sum, sum.Currency)
	}
	return text
}

// thenText says what a part comes to once the rider takes one side.
func thenText(allow []string, then *answer.FitThen) string {
	text := "With --allow " + strings.Join(allow, " --allow ")
	company := companyText(then.Company, then.CompanyCost)
	switch {
	case then.Verdict == "fits":
		return text + " it fits."
	case then.Verdict == "fits_with":
		return text + " it fits with " + company + "."
	case then.Verdict == "measure_first" && company != "":
		return text + " it takes along " + company + ", and still waits for a measurement."
	case then.Verdict == "measure_first":
		return text + " it waits for a measurement only."
	default:
		return text + " it still does not fit."
	}
}

// companion is what goes with a part, by its name.
func companion(c answer.Company) string {
	switch {
	case c.Kind == "take_off":
		return "taking off: " + c.Part
	case c.Count > 1:
		return fmt.Sprintf("%d x %s", c.Count, c.Part)
	default:
		return c.Part
	}
}
