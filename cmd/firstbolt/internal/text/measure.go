package text

import (
	"fmt"
	"slices"
	"strings"

	"firstbolt/cmd/firstbolt/internal/answer"
)

// measuring is the page to take to the shed, or what a filled one said and what is still open.
func (p *page) measuring(a *answer.Measuring) {
	p.demo(a.Shed)
	if a.Read != nil {
		p.readBack(a.Read)
	}
	open := len(a.Measure) + len(a.Ask)
	switch {
	case open == 0:
		p.para("", fmt.Sprintf("Nothing is left to measure on %s for the parts on your sheets.", a.Bike))
	case a.Read != nil:
		p.para("", fmt.Sprintf("Still open: %s; the page with them again:", plural(open, "answer")))
		p.line("")
		fallthrough
	default:
		p.howToFill(a)
	}
	told := map[string]string{}
	p.boxes(a.Measure, told)
	if len(a.Ask) > 0 {
		p.section("ASK THE SELLERS")
		p.boxes(a.Ask, told)
	}
	p.lookOver(a.Cautions)
	p.footnotes(a.Warnings, a.Notes)
}

// howToFill says how the page is filled in and taken back.
func (p *page) howToFill(a *answer.Measuring) {
	p.line("TO MEASURE BEFORE YOU ORDER: %s", a.Bike)
	p.para("", "Write each answer into its box: a number, or an x before what is true; a ? behind it where you doubt it. What waits for most stands first in its place.")
	if a.Shed == nil || a.Shed.Demo {
		return
	}
	shed := ""
	switch {
	case strings.ContainsAny(a.Shed.Path, " \t"):
		shed = fmt.Sprintf(" %q", a.Shed.Path)
	case a.Shed.Path != ".":
		shed = " " + a.Shed.Path
	}
	p.para("", fmt.Sprintf("To have it read back: firstbolt measure%s -o page.txt, type the answers into page.txt, then firstbolt measure%s --read page.txt. Or as a sheet: -o page.csv.", shed, shed))
}

// boxes writes the questions; told keeps which facts were explained already, and where.
func (p *page) boxes(list []answer.Box, told map[string]string) {
	section, slot := "", ""
	for _, b := range list {
		if b.Section != section {
			p.line("")
			p.exact(b.Section)
			section, slot = b.Section, ""
			if b.OnOffer {
				p.para("  ", or(b.Part, "")+place(b.Where))
			}
		}
		if b.Slot != slot && !b.OnOffer {
			p.line("")
			p.line("  %s", strings.ToUpper(b.Slot))
		}
		slot = b.Slot
		p.box(b, told)
	}
}

func (p *page) box(b answer.Box, told map[string]string) {
	p.exact(b.Line)
	text := upperFirst(b.Says) + now(b.ToMeasure)
	if !b.OnOffer {
		text += place(b.Where) + waiting(b.NeededFor)
	}
	p.para("      ", text+".")
	if len(b.Choices) > 0 && strings.Count(b.Line, "[") == 1 { // too many for boxes of their own
		p.para("      One of: ", strings.Join(b.Choices, "; ")+".")
	}
	if at, there := told[b.Fact]; there {
		p.para("      ", "How: as for the "+at+" above.")
		return
	}
	told[b.Fact] = b.Slot
	if b.How != nil {
		p.para("      How: ", stop(*b.How)+withTool(b.Tool))
	}
	if len(b.Mistakes) > 0 {
		p.para("      Often wrong: ", stop(strings.Join(b.Mistakes, "; ")))
	}
}

func upperFirst(text string) string {
	if text == "" {
		return ""
	}
	return strings.ToUpper(text[:1]) + text[1:]
}

// lookOver is the list to look the bike over with, to be ticked off.
func (p *page) lookOver(list []answer.Caution) {
	list = slices.DeleteFunc(slices.Clone(list), func(c answer.Caution) bool { return c.When != "before" })
	if len(list) == 0 {
		return
	}
	p.section("LOOK THE BIKE OVER (any fault: do not ride, mend it first)")
	for _, c := range list {
		p.para("  - [ ] ", c.Text+checkWith(&c.CheckWith))
	}
}

// readBack says what changed.
func (p *page) readBack(r *answer.ReadBack) {
	switch {
	case r.Written != nil:
		p.para("", fmt.Sprintf("Read %s: %s went into %s.", r.File, plural(len(r.Changed), "answer"), *r.Written))
	case r.Same > 0:
		p.para("", fmt.Sprintf("Read %s: nothing new; all %s are known already.", r.File, plural(r.Same, "answer")))
	default:
		p.para("", fmt.Sprintf("Read %s: no box is filled in, so nothing was written.", r.File))
	}
	for _, c := range r.Changed {
		p.para("  - ", changed(c))
	}
	if r.Written != nil && r.Same > 0 {
		p.para("  ", fmt.Sprintf("%s more, known already.", plural(r.Same, "answer")))
	}
	p.line("")
}

// changed says one answer, and what was said before.
func changed(c answer.Changed) string {
	of := or(c.Slot, "")
	if c.Part != nil {
		of = strings.TrimSpace(*c.Part + " " + of)
	}
	text := fmt.Sprintf("%s, %s: %s", of, answer.FactName(c.Fact), answer.FactAmount(c.Fact, &c.After))
	if !c.Sure {
		text += ", in doubt"
	}
	switch {
	case c.Before == nil:
		return text + " (was not known)"
	case *c.Before == c.After:
		return text + " (was only " + c.Origin + ")"
	case c.Origin == "measured":
		return text + fmt.Sprintf(" (instead of %s in %s)", *c.Before, or(c.Stood, "the sheets"))
	default:
		return text + fmt.Sprintf(" (was %s, only %s)", *c.Before, c.Origin)
	}
}
