package text

import (
	"fmt"
	"slices"
	"strings"

	"firstbolt/cmd/firstbolt/internal/answer"
)

// toMeasure says each fact once, with every slot and part that it is asked of; first those of the bike, then those that
// the sellers know.
func (p *page) toMeasure(facts []answer.ToMeasure) {
	for _, of := range []struct {
		title   string
		onOffer bool
	}{{"TO MEASURE ON THE BIKE", false}, {"TO ASK THE SELLERS (and to write into the part's row)", true}} {
		asked := slices.DeleteFunc(slices.Clone(facts), func(m answer.ToMeasure) bool { return m.OnOffer != of.onOffer })
		if len(asked) == 0 {
			continue
		}
		p.section(of.title)
		several := slices.ContainsFunc(asked, func(m answer.ToMeasure) bool { return m.Bike != asked[0].Bike })
		for _, same := range sameFact(asked) {
			p.askedFact(same, several)
		}
	}
	if len(facts) > 0 {
		p.line("")
		p.para("", "As a page with boxes to take along: firstbolt measure.")
	}
}

// sameFact groups what is asked by fact, in the order given.
func sameFact(facts []answer.ToMeasure) [][]answer.ToMeasure {
	var groups [][]answer.ToMeasure
	for _, m := range facts {
		i := slices.IndexFunc(groups, func(g []answer.ToMeasure) bool { return g[0].Fact == m.Fact })
		if i < 0 {
			groups, i = append(groups, nil), len(groups)
		}
		groups[i] = append(groups[i], m)
	}
	return groups
}

// askedFact is one fact; several tells that it is asked of more than one bike.
func (p *page) askedFact(same []answer.ToMeasure, several bool) {
	first := same[0]
	p.para("  - ", first.Says)
	for _, m := range same {
		if m.OnOffer {
			p.para("      ", or(m.Part, m.Slot)+place(m.Where)+now(m))
			continue
		}
		of := m.Slot
		if several {
			of += " of " + m.Bike
		}
		p.para("      ", of+place(m.Where)+now(m)+waiting(m.NeededFor))
	}
	if first.How != nil {
		p.para("    how: ", stop(*first.How)+withTool(first.Tool))
	}
	if len(first.Mistakes) > 0 {
		p.para("    common mistake: ", strings.Join(first.Mistakes, "; "))
	}
}

// now says what is said of a fact so far.
func now(m answer.ToMeasure) string {
	if m.Found == nil {
		return ": not known"
	}
	return fmt.Sprintf(": %s is only %s", *m.Found, m.Origin)
}

// mostWaiting is how many names of waiting parts are written out.
const mostWaiting = 3

// waiting names the parts that wait for a fact, the first ones by name.
func waiting(parts []string) string {
	if len(parts) == 0 {
		return ""
	}
	return "; waits: " + fewOf(parts)
}

// fewOf names the first of many.
func fewOf(names []string) string {
	if len(names) <= mostWaiting {
		return list(names)
	}
	return fmt.Sprintf("%s and %d more", strings.Join(names[:mostWaiting], ", "), len(names)-mostWaiting)
}

func withTool(tool *string) string {
	if tool == nil || *tool == "none" {
		return ""
	}
	return " With: " + *tool + "."
}
