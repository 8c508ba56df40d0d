package text

import (
	"fmt"

	"firstbolt/cmd/firstbolt/internal/answer"
)

// shown is how many complaints are written out before "and N more".
const shown = 20

func (p *page) check(a *answer.Check) {
	for _, s := range a.Sheets {
		note := ""
		if s.Note != "" {
			note = " (" + s.Note + ")"
		}
		p.para("", fmt.Sprintf("%s: %s%s", s.Sheet, plural(s.Rows, "row"), note))
	}
	if a.Error != nil {
		p.line("")
		p.error(a.Error)
	} else {
		p.line("")
		p.line("All good: %s, %s.", plural(len(a.Bikes), "bike"), plural(a.Parts, "part"))
	}
	p.footnotes(a.Warnings, a.Notes)
}

func (p *page) failure(a *answer.Failure) {
	p.error(a.Error)
	p.footnotes(a.Warnings, a.Notes)
}

// error says the sentence and the first complaints.
func (p *page) error(e *answer.Error) {
	p.para("", e.Sentence)
	for i, c := range e.Complaints {
		if i == shown {
			p.line("  and %d more", len(e.Complaints)-shown)
			break
		}
		p.line("  %s", c.Text)
	}
}

func (p *page) versions(a *answer.Versions) {
	p.line("firstbolt %s", a.Version)
	p.line("commit: %s", or(a.Commit, "not known"))
	p.line("built with: %s", a.Go)
	p.line("licence: %s", a.Licence)
	for _, e := range a.Engines {
		p.line("engine %s: %s, %s", e.Name, e.Says, e.Licence)
	}
	for _, n := range a.Notes {
		p.para("", n)
	}
}
