package text

import (
	"fmt"
	"slices"
	"strings"

	"firstbolt/cmd/firstbolt/internal/answer"
)

// measured is one fact with every slot that it is asked of.
type measured struct {
	answer.Measure
	slots []answer.Measure
}

// long is how many facts are written out even though no purchase waits for them.
const long = 6

// measures says each fact once, with every slot that it is asked of; the list stands in the order of the money that
// waits. Of a long list only those are said that something waits for.
func (p *page) measures(list []answer.Measure) {
	if len(list) == 0 {
		return
	}
	facts := byFact(list)
	said := facts
	if len(facts) > long {
		said = slices.DeleteFunc(slices.Clone(facts), func(m measured) bool { return m.Waits.Minor == 0 })
	}
	p.section("TO MEASURE (" + list[0].Bike + ")")
	if names := weightiest(facts); len(facts) > len(names) && len(names) > 0 {
		p.para("  ", "What matters most: "+strings.Join(names, "; ")+".")
	}
	for _, m := range said {
		p.measure(m)
	}
	if left := len(facts) - len(said); left > 0 {
		p.para("  ", fmt.Sprintf("%s more, which no order waits for, with --format json.", plural(left, "fact")))
	}
}

func byFact(list []answer.Measure) []measured {
	var facts []measured
	for _, m := range list {
		i := slices.IndexFunc(facts, func(f measured) bool { return f.Fact == m.Fact })
		if i < 0 {
			facts, i = append(facts, measured{Measure: m}), len(facts)
		}
		facts[i].slots = append(facts[i].slots, m)
	}
	return facts
}

// weightiest names up to three facts that money waits for.
func weightiest(facts []measured) []string {
	var names []string
	for _, m := range facts {
		if m.Waits.Minor > 0 && len(names) < 3 {
			names = append(names, fmt.Sprintf("%s (%s waits for it)", answer.FactWords(m.Fact), m.Waits))
		}
	}
	return names
}

func (p *page) measure(m measured) {
	p.line("  - %s", answer.FactWords(m.Fact))
	for _, same := range m.slots {
		what := same.Slot
		if same.OnOffer {
			what = "the " + same.Slot + " to be bought (ask the seller, and write it into its row)"
		}
		p.para("      ", what+": "+known(same)+place(same.Where))
	}
	if m.How != nil {
		with := ""
		if m.Tool != nil && *m.Tool != "none" {
			with = " With: " + *m.Tool + "."
		}
		p.para("    how: ", stop(*m.How)+with)
	}
	if len(m.Mistakes) > 0 {
		p.para("    common mistake: ", strings.Join(m.Mistakes, "; "))
	}
}

// known says what is known of a fact, and what hangs on it.
func known(m answer.Measure) string {
	text := "not known"
	switch {
	case m.Found != nil:
		text = fmt.Sprintf("%q is only %s", *m.Found, m.Origin)
	case m.Assumed != nil && m.Origin == "assumed":
		text = *m.Assumed + " is only assumed"
	case m.Assumed != nil:
		text = "not known; this plan takes it to be " + *m.Assumed
		if m.Share != nil {
			text += fmt.Sprintf(" (%d %% of such bikes, judgement)", *m.Share)
		}
	}
	if len(m.NeededFor) > 0 {
		text += "; needed for " + strings.Join(m.NeededFor, ", ")
	}
	return text
}

// stop ends a sentence.
func stop(text string) string {
	if strings.HasSuffix(text, ".") {
		return text
	}
	return text + "."
}

func (p *page) near(list []answer.Near) {
	if len(list) == 0 {
		return
	}
	p.section("NEARLY MADE IT")
	for _, n := range list {
		text := fmt.Sprintf("%s at %s would add %s points", n.Part, n.Price, n.WouldAdd.Short())
		if n.WalkAway != nil {
			text += fmt.Sprintf("; it belongs in the plan up to %s", n.WalkAway)
		}
		p.para("  - ", text+".")
	}
}

// sayMore says which cells to fill so that a part can be planned with.
func (p *page) sayMore(parts []answer.Lacking) {
	if len(parts) == 0 {
		return
	}
	p.section("SAY MORE ABOUT THESE PARTS")
	for _, l := range parts {
		text := fmt.Sprintf("%s [%s] is left out as %s: %s is not stated, and it can hurt if it is wrong. Fill in the column %s of %s",
			l.Part, l.Where, list(l.Slots), answer.FactWords(l.Fact), l.Fact, l.Sheet)
		if l.How != nil {
			text += ": " + *l.How
		}
		if text = stop(text); l.Bought {
			text += " The plan buys it for another place."
		}
		p.para("  - ", text)
	}
}

func (p *page) setAside(title string, list []answer.SetAside) {
	if len(list) == 0 {
		return
	}
	p.section(title)
	for _, s := range list {
		p.para("  - ", fmt.Sprintf("%s [%s]: %s", s.Part, s.Where, s.Why))
	}
}

// cautions are said in full, each with whom to ask; first-ride checks come last, where they are done.
func (p *page) cautions(list []answer.Caution) {
	for _, when := range []struct{ name, title string }{
		{"before", "LOOK THE BIKE OVER (any fault: do not ride, mend it first)"}, {"work", "TAKE CARE"}, {"first-ride", "BEFORE THE FIRST RIDE"},
	} {
		titled := false
		for _, c := range list {
			if c.When != when.name {
				continue
			}
			if !titled {
				p.section(when.title)
				titled = true
			}
			lead := ""
			if c.Part != nil {
				lead = *c.Part + ": "
			}
			p.para("  - ", lead+c.Text+checkWith(&c.CheckWith))
		}
	}
}

// footnotes are what was assumed, and further sentences.
func (p *page) footnotes(warnings []answer.Warning, notes []string) {
	if len(warnings)+len(notes) == 0 {
		return
	}
	p.section("ASSUMED OR ODD")
	for _, w := range warnings {
		text := w.Text
		if w.Where != "" && !strings.HasPrefix(text, w.Where) {
			text = w.Where + ": " + text
		}
		if w.Fix != nil {
			text += " " + *w.Fix
		}
		p.para("  - ", text)
	}
	for _, n := range notes {
		p.para("  - ", n)
	}
}

// proof says how the answer was checked, in plain words.
func (p *page) proof(proof *answer.Proof) {
	if proof == nil {
		return
	}
	p.section("CHECKED HOW")
	switch {
	case proof.Status == "stopped":
		p.para("  ", fmt.Sprintf("Stopped early (%s): %s.", proof.Engine, unproved(proof.Gap)))
	case proof.ConfirmedBy != nil:
		p.para("  ", fmt.Sprintf("By two methods (%s, %s): nothing better exists among your parts.", proof.Engine, *proof.ConfirmedBy))
	default:
		p.para("  ", fmt.Sprintf("By one method (%s): nothing better exists among your parts. No full second opinion: %s.", proof.Engine, or(proof.Unconfirmed, "none was asked")))
	}
	if proof.Disagreement != nil {
		p.para("  ", "THE METHODS DISAGREE: "+*proof.Disagreement)
	}
	p.para("  ", "Fit and costs of this plan were added up again from your sheets.")
	if proof.Seconds != nil {
		p.line("  Time taken: %s s", seconds(*proof.Seconds))
	}
}

// unproved says what a stopped search leaves open. A gap that is too small to be seen at one decimal is never said as 0.
func unproved(gap *answer.Points) string {
	switch {
	case gap == nil:
		return "this is the best plan found; that none is better, or as good for less money, is not proved"
	case gap.Short() == "0.0":
		return "another plan could be better by less than 0.1 points"
	default:
		return fmt.Sprintf("another plan could be better by at most %s points", gap.Short())
	}
}

func seconds(s answer.Seconds) string { return fmt.Sprintf("%.3f", float64(s)/1000) }
