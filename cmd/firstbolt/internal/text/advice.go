package text

import (
	"fmt"
	"slices"
	"strings"

	"firstbolt/cmd/firstbolt/internal/answer"
)

// measures says each fact once, with every slot that it is asked of.
func (p *page) measures(list []answer.Measure) {
	if len(list) == 0 {
		return
	}
	p.section("TO MEASURE (" + list[0].Bike + ")")
	var said []string
	for _, m := range list {
		if slices.Contains(said, m.Fact) {
			continue
		}
		said = append(said, m.Fact)
		p.line("  - %s", strings.ReplaceAll(m.Fact, "_", " "))
		for _, same := range list {
			if same.Fact == m.Fact {
				p.para("      ", same.Slot+": "+known(same)+place(same.Where))
			}
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
		text = "not known, taken as " + *m.Assumed
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
	case proof.Status == "stopped" && proof.Gap != nil:
		p.para("  ", fmt.Sprintf("Stopped early by %s: a better plan may exist, by at most %s points.", proof.Engine, proof.Gap.Short()))
	case proof.Status == "stopped":
		p.para("  ", fmt.Sprintf("Stopped early by %s: a better plan may exist.", proof.Engine))
	case proof.ConfirmedBy != nil:
		p.para("  ", fmt.Sprintf("By two methods (%s, %s): nothing better exists among your parts.", proof.Engine, *proof.ConfirmedBy))
	default:
		p.para("  ", fmt.Sprintf("By one method (%s): nothing better exists among your parts. No second method: %s.", proof.Engine, or(proof.Unconfirmed, "none was asked")))
	}
	if proof.Disagreement != nil {
		p.para("  ", "THE METHODS DISAGREE: "+*proof.Disagreement)
	}
	p.para("  ", "Fit and costs of this plan were added up again from your sheets.")
	if proof.Seconds != nil {
		p.line("  Time taken: %s s", seconds(*proof.Seconds))
	}
}

func seconds(s answer.Seconds) string { return fmt.Sprintf("%.3f", float64(s)/1000) }
