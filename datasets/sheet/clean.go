package sheet

import (
	"fmt"
	"regexp"
	"strings"
)

// cellText is a cell's text without what spreadsheets put around it: blanks around an unquoted cell, invisible
// characters, the ="00712" and '00712 forms that keep a spreadsheet from reading a number.
func cellText(f field) string {
	text := visible(f.text)
	if !f.quoted {
		text = strings.TrimSpace(text)
	}
	if strings.HasPrefix(text, `="`) && strings.HasSuffix(text, `"`) && len(text) > 2 {
		return strings.ReplaceAll(text[2:len(text)-1], `""`, `"`)
	}
	if len(text) > 1 && text[0] == '\'' && (isFormulaStart(text[1]) || text[1] >= '0' && text[1] <= '9') {
		return text[1:]
	}
	return text
}

// isFormulaStart tells whether a spreadsheet would run a cell that begins with the sign (OWASP, "CSV Injection").
func isFormulaStart(b byte) bool {
	return b == '=' || b == '+' || b == '-' || b == '@' || b == '\t' || b == '\r'
}

var (
	errorCell   = regexp.MustCompile(`^(#[A-ZÄÖÜÉ¡¿/0-9]+[!?]|#N/A|#NV|#NA|#CALC!|Err:\d{3})$`)
	codeCell    = regexp.MustCompile(`^\d(\.\d+)?E\+\d+$`)
	formulaCell = regexp.MustCompile(`^=[A-Z][A-Z0-9.]*\(`)
)

// checkCell complains about what no column may hold; a cell complained about is emptied, or cut to a usable length.
func checkCell(c *Cell) []Complaint {
	var cs []Complaint
	switch {
	case len(c.Text) > MaxCellBytes:
		long := *c
		long.Text = shorten(c.Text)
		cs = append(cs, long.Complain("long_cell", fmt.Sprintf("at most %d KiB in a cell", MaxCellBytes>>10), "shorten it, or look for a quote that is not closed"))
		c.Text = long.Text
	case strings.ContainsFunc(c.Text, isControl):
		cs = append(cs, c.Complain("control_character", "plain text", fmt.Sprintf("the cell holds the control character %U; type it anew", c.Text[strings.IndexFunc(c.Text, isControl)])))
		c.Text = ""
	case c.Text == "" || !strings.ContainsAny(c.Text, "#=E"):
	case errorCell.MatchString(c.Text):
		cs = append(cs, c.Complain("error_cell", "a value", "this is a spreadsheet's error value; mend the formula and export again"))
		c.Text = ""
	case codeCell.MatchString(c.Text):
		cs = append(cs, c.Warn("code_as_number", "the code or number as it was typed", "the spreadsheet turned it into an exponent; format the column as text and type it anew"))
	case formulaCell.MatchString(c.Text):
		cs = append(cs, c.Warn("formula", "a value", "this is a formula, taken as plain text; export values instead of formulas"))
	}
	return cs
}

func isControl(r rune) bool { return r < ' ' && r != '\n' && r != '\t' || r == 0x7F }

// totalWords begin a row that sums up the ones above.
var totalWords = map[string]bool{
	"total": true, "totals": true, "sum": true, "subtotal": true, "grandtotal": true,
	"summe": true, "gesamt": true, "somme": true, "totale": true, "suma": true,
}

// passOver counts and skips blank rows, comment rows and totals rows; the last it says.
func (s *Sheet) passOver(r record) (passed bool, warning []Complaint) {
	first, filled := Cell{Sheet: s.Name, Line: r.line}, 0
	total := false
	for i, f := range r.fields {
		text := tidy(f.text)
		if text == "" {
			continue
		}
		if filled++; filled == 1 {
			first.Text, first.Column = text, i+1
			total = beginsTotal(text) && s.onlySums(r, i+1)
		}
	}
	switch {
	case filled == 0:
		s.Skipped.Blank++
	case isComment(first.Text, filled == 1):
		s.Skipped.Comments++
	case s.repeatsHeader(r):
		return true, []Complaint{first.Complain("repeated_header", "a row", "the header stands here once more; delete this line")}
	case total:
		s.Skipped.Totals++
		// The first column names the rows; that this one has no name of its own is what is wrong with it.
		first.Column = 1
		return true, []Complaint{first.Warn("totals_row", "a row of its own", "this looks like the sum of the rows above and is not read; delete it")}
	default:
		return false, nil
	}
	return true, nil
}

// beginsTotal tells whether a row's first text is a word for a sum, or begins with one: "Total:", "Total cost".
func beginsTotal(text string) bool {
	word, _, _ := strings.Cut(text, " ")
	return totalWords[strings.TrimSuffix(Key(text), ":")] || totalWords[strings.TrimSuffix(Key(word), ":")]
}

// repeatsHeader tells whether a row holds the header's own cells again, as in sheets pasted one below the other.
func (s *Sheet) repeatsHeader(r record) bool {
	same := 0
	for i, f := range r.fields {
		text := Key(f.text)
		switch {
		case text == "":
		case i >= len(s.Header) || Key(s.Header[i].Text) != text:
			return false
		default:
			same++
		}
	}
	return same > 1
}

// isComment tells whether a row is one: "# brakes", or "#..." alone in its row, but not an error value, and not the
// part "#2 spoke" with its price beside it.
func isComment(first string, alone bool) bool {
	return first == "#" || strings.HasPrefix(first, "# ") || alone && strings.HasPrefix(first, "#") && !errorCell.MatchString(first)
}

// onlySums tells whether the rest of the row holds nothing but numbers, at least one.
func (s *Sheet) onlySums(r record, from int) bool {
	numbers := 0
	for _, f := range r.fields[from:] {
		text := tidy(f.text)
		if text == "" {
			continue
		}
		if !strings.ContainsAny(text, "0123456789") || strings.ContainsFunc(text, isLowerLetter) {
			return false
		}
		numbers++
	}
	return numbers > 0
}

func isLowerLetter(r rune) bool { return r >= 'a' && r <= 'z' }
