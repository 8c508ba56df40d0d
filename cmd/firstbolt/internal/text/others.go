package text

import (
	"fmt"
	"strings"

	"firstbolt/cmd/firstbolt/internal/answer"
)

// shown is how many complaints are written out before "and N more".
const shown = 20

func (p *page) check(a *answer.Check) {
	p.para("", fmt.Sprintf("The sheets can be used: %s (%s), %s.", plural(len(a.Bikes), "bike"), strings.Join(a.Bikes, ", "), plural(a.Parts, "part")))
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

// schemas writes one column of a sheet a line, with what it holds.
func (p *page) schemas(a *answer.Schemas) {
	for i, r := range a.Resources {
		if i > 0 {
			p.line("")
		}
		p.para("", fmt.Sprintf("%s: one row is %s (* = needed)", r.Path, r.Title))
		p.fields(r.Schema.Fields)
	}
	if len(a.Settings) > 0 {
		p.line("")
		p.line("Settings of rider.csv:")
		p.fields(a.Settings)
	}
	if len(a.Known) > 0 {
		p.line("")
		p.line("Known without a sheet of your own:")
		for _, e := range a.Known {
			p.line("  %s", e.Name)
			p.para("      ", e.Says)
		}
	}
}

func (p *page) fields(list []answer.Field) {
	for _, f := range list {
		p.para(fmt.Sprintf("  %-20s ", star(f)), describe(f))
	}
}

func star(f answer.Field) string {
	if f.Constraints.Required {
		return f.Name + "*"
	}
	return f.Name
}

// describe says what a column holds, its unit, an example and its other names.
func describe(f answer.Field) string {
	text := f.Description
	if len(f.Constraints.Enum) > 0 {
		text += ": " + strings.Join(f.Constraints.Enum, ", ")
	}
	if f.Unit != "" {
		text += "; in " + f.Unit
	}
	if f.Example != "" {
		text += "; such as " + f.Example
	}
	if len(f.Aliases) > 0 {
		text += "; also called " + strings.Join(f.Aliases, ", ")
	}
	return text
}

func (p *page) started(a *answer.Started) {
	p.line("Written: %s", strings.Join(a.Files, ", "))
	if len(a.Open) > 0 {
		p.para("", "Not answered, to be filled in: "+strings.Join(a.Open, ", ")+".")
	}
	for _, n := range a.Notes {
		p.para("", n)
	}
}
