// Package text writes an answer as plain text for people, readable at 80 columns, in the plain words of the trade.
// It works nothing out: every figure stands in the answer. There are no colours, so that a terminal, a file and a
// screen reader get the same.
package text

import (
	"fmt"
	"io"
	"strings"
	"unicode"
	"unicode/utf8"

	"firstbolt/cmd/firstbolt/internal/answer"
)

const width = 78

// Write writes the answer.
func Write(w io.Writer, a answer.Answer) error {
	p := &page{names: shortened(a)}
	switch a := a.(type) {
	case *answer.Plan:
		p.plan(a)
	case *answer.Fits:
		p.fits(a)
	case *answer.Want:
		p.want(a)
	case *answer.Measuring:
		p.measuring(a)
	case *answer.Check:
		p.check(a)
	case *answer.Program:
		p.text.WriteString(a.Text)
	case *answer.Versions:
		p.versions(a)
	case *answer.Schemas:
		p.schemas(a)
	case *answer.Started:
		p.started(a)
	case *answer.Failure:
		p.failure(a)
	default:
		return fmt.Errorf("no text view for %T", a)
	}
	_, err := io.WriteString(w, p.text.String())
	return err
}

// page gathers lines.
type page struct {
	text  strings.Builder
	names *strings.Replacer // long names of parts and bikes to short ones
}

// line writes one line as it is; what comes from sheets is made safe for a terminal.
func (p *page) line(format string, args ...any) {
	p.text.WriteString(strings.TrimRight(safe(p.names.Replace(fmt.Sprintf(format, args...))), " "))
	p.text.WriteByte('\n')
}

// exact writes one line whose names must not be shortened, for it is read again.
func (p *page) exact(text string) {
	p.text.WriteString(safe(text))
	p.text.WriteByte('\n')
}

// section starts a part of the page.
func (p *page) section(title string) {
	p.line("")
	p.line("%s", title)
}

// para writes text wrapped at the page's width, the first line after lead and the others as far in.
func (p *page) para(lead, text string) {
	text = p.names.Replace(text)
	indent := strings.Repeat(" ", utf8.RuneCountInString(lead))
	line := lead
	filled := false
	for _, word := range strings.Fields(text) {
		if filled && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > width {
			p.line("%s", line)
			line, filled = indent, false
		}
		if filled {
			line += " "
		}
		line += word
		filled = true
	}
	p.line("%s", line)
}

// safe shows control and direction-changing characters instead of sending them.
func safe(text string) string {
	var out strings.Builder
	for _, r := range text {
		switch {
		case unicode.IsControl(r):
			fmt.Fprintf(&out, "\\x%02x", r)
		case unicode.Is(unicode.Bidi_Control, r):
			fmt.Fprintf(&out, "\\u%04x", r)
		default:
			out.WriteRune(r)
		}
	}
	return out.String()
}

// or is the text, or another where there is none.
func or(text *string, other string) string {
	if text == nil || *text == "" {
		return other
	}
	return *text
}

// list joins names as one says them: "a, b and c".
func list(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

// plural is "1 part", "3 parts".
func plural(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %ss", n, one)
}
