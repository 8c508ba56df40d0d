package sheet

import (
	"fmt"
	"strings"
)

// preambleRows is how many records may stand above the header: titles, dates, blank rows.
const preambleRows = 20

// separators in the order in which ties are decided.
var separators = []byte{',', ';', '\t', '|'}

// layout is where the header stands and what separates its cells.
type layout struct {
	separator byte
	skip      int // records above the header
	known     int // column names found
}

// findLayout tries every separator (or the one of a "sep=" line) and keeps the one with the record, among the first
// few, whose cells are the most known names.
func findLayout(text string, t *Table) layout {
	names := t.names()
	if sep, ok := sepLine(text); ok {
		return headerIn(text, sep, names)
	}
	best := layout{separator: ','}
	for _, sep := range separators {
		if l := headerIn(text, sep, names); l.known > best.known {
			best = l
		}
	}
	return best
}

// sepLine reads the spreadsheet's hint "sep=;" on the first line, quoted or not.
func sepLine(text string) (separator byte, ok bool) {
	end := 0
	for end < len(text) && lineEndAt(text, end) == 0 {
		end++
	}
	line := strings.Trim(text[:end], "\" ")
	if len(line) < 5 || !strings.EqualFold(line[:4], "sep=") {
		return 0, false
	}
	return line[4], true
}

func headerIn(text string, separator byte, names map[string]int) layout {
	best := layout{separator: separator}
	s := newSplitter(text, separator)
	for skip := 0; skip < preambleRows; skip++ {
		r, ok := s.next()
		if !ok {
			break
		}
		known := 0
		for _, f := range r.fields[:min(len(r.fields), MaxColumns)] {
			name, _ := splitUnit(f.text)
			if _, ok := names[Key(name)]; ok {
				known++
			}
		}
		if known > best.known {
			best.known, best.skip = known, skip
		}
	}
	return best
}

// splitUnit parts "Mass [kg]" or "Price (EUR)" into name and unit.
func splitUnit(header string) (name, unit string) {
	header = tidy(header)
	if header == "" {
		return "", ""
	}
	pairs := map[byte]string{')': "(", ']': "["}
	open, ok := pairs[header[len(header)-1]]
	if !ok {
		return header, ""
	}
	at := strings.LastIndex(header, open)
	if at <= 0 {
		return header, ""
	}
	return strings.TrimSpace(header[:at]), strings.TrimSpace(header[at+1 : len(header)-1])
}

// readHeader finds the schema's columns in the header's cells and complains about doubled, unknown and missing ones.
func (s *Sheet) readHeader(r record) []Complaint {
	names := s.table.names()
	var cs []Complaint
	first := map[string]Cell{}
	var unknown []Cell
	for i, f := range r.fields {
		name, unit := splitUnit(f.text)
		cell := Cell{Sheet: s.Name, Line: r.line, Column: i + 1, Name: name, Text: tidy(f.text), Unit: unit}
		if name == "" {
			s.Header = append(s.Header, cell)
			continue
		}
		at, known := names[Key(name)]
		if known {
			cell.Name = s.table.Columns[at].Name
		}
		if before, twice := first[Key(cell.Name)]; twice {
			cs = append(cs, cell.Complain("duplicate_column", "every column once",
				fmt.Sprintf("columns %s and %s both mean %q; delete or rename one", ColumnLetters(before.Column), ColumnLetters(cell.Column), cell.Name)))
			cell.Name = ""
		} else {
			first[Key(cell.Name)] = cell
			if !known {
				unknown = append(unknown, cell)
			}
		}
		s.Header = append(s.Header, cell)
	}
	return append(cs, s.missing(first, unknown, r.line)...)
}

// missing complains about required columns that are not there, then warns of unknown ones.
func (s *Sheet) missing(first map[string]Cell, unknown []Cell, line int) []Complaint {
	var cs []Complaint
	var found []string
	for _, u := range unknown {
		found = append(found, u.Name)
	}
	for _, c := range s.table.Columns {
		if _, ok := first[Key(c.Name)]; c.Required && !ok {
			fix := fmt.Sprintf("add a column %q, such as %s", c.Name, c.Example)
			if near := Nearest(c.Name, found); near != "" {
				fix = fmt.Sprintf("is %q meant?", near)
			}
			cs = append(cs, Complaint{Code: "missing_column", Sheet: s.Name, Line: line, Column: c.Name, Wanted: "a column of this name", Fix: fix})
		}
	}
	return append(cs, s.warnUnknown(unknown)...)
}

// warnUnknown says once which columns are not used, and for each that resembles a known name which one.
func (s *Sheet) warnUnknown(unknown []Cell) []Complaint {
	var cs []Complaint
	var known, plain []string
	for _, c := range s.table.Columns {
		known = append(append(known, c.Name), c.Aliases...)
	}
	var firstPlain Cell
	for _, u := range unknown {
		s.Unused = append(s.Unused, u.Name)
		if near := Nearest(u.Name, known); near != "" {
			cs = append(cs, u.Warn("unknown_column", "a column that firstbolt knows", fmt.Sprintf("it is not used; did you mean %q?", near)))
			continue
		}
		if plain = append(plain, u.Name); len(plain) == 1 {
			firstPlain = u
		}
	}
	if len(plain) > 0 {
		w := firstPlain.Warn("unknown_column", "columns that firstbolt knows", "these are not used; `firstbolt schema` lists all columns")
		w.Found = strings.Join(plain, ", ")
		w.Column = ""
		cs = append(cs, w)
	}
	return cs
}
