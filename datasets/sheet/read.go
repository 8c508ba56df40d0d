package sheet

import (
	"fmt"
	"slices"
	"strings"
)

// Dialect is how a file was written, found by looking or by its own "sep=" line.
type Dialect struct {
	Encoding  string // "UTF-8", "UTF-16", "Windows-1252"
	Separator byte
	Decimal   Decimal // what the numbers of the file show; Undecided where none shows it
}

// Skipped counts the rows that hold no record.
type Skipped struct{ Above, Blank, Comments, Totals int }

// Sheet is one file cut into cells, each with its place. Values are read from it with Values.
type Sheet struct {
	Name    string
	Dialect Dialect
	Header  []Cell // in the file's order; Name is the canonical one, empty for a column without a usable name
	Rows    []Row
	Skipped Skipped
	Unused  []string // columns that the table does not know

	table   Table
	columns []*Column          // of the header's cells; nil for one that the table does not know
	decimal map[string]Decimal // by column
	forced  Decimal
}

// Options of reading.
type Options struct {
	Decimal Decimal // set: the rider said so; Undecided: found out from the cells
}

// Read cuts a file into cells and matches its columns with the table's. All complaints are returned together; those
// that are no warnings mean that a cell, a row or the sheet is not to be used. The name is what complaints call the file.
func Read(name string, data []byte, t Table, o Options) (*Sheet, []Complaint) {
	s := &Sheet{Name: name, table: t, forced: o.Decimal}
	if len(data) > MaxBytes {
		return s, []Complaint{s.about("too_large", fmt.Sprintf("a file of at most %d MiB", MaxBytes>>20), "split it, or delete what firstbolt does not need")}
	}
	var text string
	text, s.Dialect.Encoding = decode(data)
	if strings.TrimSpace(visible(text)) == "" {
		c := s.about("empty_sheet", "a header line with column names, and rows below it", t.Example())
		c.Line = 1
		return s, []Complaint{c}
	}
	found := findLayout(text, &s.table)
	s.Dialect.Separator = found.separator
	if found.known == 0 {
		return s, []Complaint{s.noHeader(text, found)}
	}
	cs := s.readRows(newSplitter(text, found.separator), found.skip)
	s.decideDecimals()
	return s, cs
}

func (s *Sheet) about(code, wanted, fix string) Complaint {
	return Complaint{Code: code, Sheet: s.Name, Wanted: wanted, Fix: fix}
}

// exampleHeader is the header of the shortest useful sheet.
func (t *Table) exampleHeader() string {
	names, _ := t.sample()
	return strings.Join(names, ",")
}

// Example says how a sheet could begin: its header and one row.
func (t *Table) Example() string {
	names, cells := t.sample()
	return fmt.Sprintf("the first two lines could be %q and %q", strings.Join(names, ","), strings.Join(cells, ","))
}

// sample is the columns of the shortest useful sheet and a cell for each.
func (t *Table) sample() (names, cells []string) {
	for _, c := range t.Columns {
		if slices.Contains(t.Sample, c.Name) || len(t.Sample) == 0 && c.Required {
			names, cells = append(names, c.Name), append(cells, c.Example)
		}
	}
	return names, cells
}

func (s *Sheet) noHeader(text string, found layout) Complaint {
	r, _ := newSplitter(text, found.separator).next()
	var cells, known []string
	for _, f := range r.fields[:min(len(r.fields), 10)] {
		cells = append(cells, tidy(f.text))
	}
	for _, c := range s.table.Columns {
		known = append(append(known, c.Name), c.Aliases...)
	}
	c := s.about("no_header", "a header line with known column names", "the first line could be "+s.table.exampleHeader())
	for _, cell := range cells {
		if near := Nearest(cell, known); near != "" {
			c.Fix = fmt.Sprintf("did you mean %q for %q?", near, cell)
			break
		}
	}
	c.Line, c.Found = 1, shorten(strings.Join(cells, string(found.separator)))
	return c
}

// readRows reads header and records.
func (s *Sheet) readRows(in *splitter, skip int) []Complaint {
	for range skip {
		in.next()
		s.Skipped.Above++
	}
	header, ok := in.next()
	if !ok {
		return []Complaint{s.about("no_header", "a header line", "")}
	}
	cs := s.tooWide(header)
	if len(cs) > 0 {
		return cs
	}
	cs = s.readHeader(header)
	for _, h := range s.Header {
		s.columns = append(s.columns, s.table.Column(h.Name))
	}
	for {
		r, ok := in.next()
		if !ok {
			break
		}
		if passed, warning := s.passOver(r); passed {
			cs = append(cs, warning...)
			continue
		}
		if len(s.Rows) == MaxRows {
			return append(cs, s.about("too_many_rows", fmt.Sprintf("at most %d rows", MaxRows), "delete rows that firstbolt does not need"))
		}
		row, more := s.row(r)
		s.Rows = append(s.Rows, row)
		cs = append(cs, more...)
	}
	return append(cs, s.unclosedQuotes(in)...)
}

func (s *Sheet) tooWide(r record) []Complaint {
	if len(r.fields) <= MaxColumns {
		return nil
	}
	return []Complaint{s.about("too_many_columns", fmt.Sprintf("at most %d columns", MaxColumns),
		fmt.Sprintf("this file has %d; delete the ones firstbolt does not need", len(r.fields)))}
}

func (s *Sheet) unclosedQuotes(in *splitter) []Complaint {
	var cs []Complaint
	for _, u := range in.unclosed {
		cell := Cell{Sheet: s.Name, Line: u.line, Column: u.column}
		if u.column <= len(s.Header) {
			cell.Name = s.Header[u.column-1].Name
		}
		cs = append(cs, cell.Complain("unclosed_quote", "a closing quote", `a quote opens here and is never closed; close it, or write an inch as "in"`))
	}
	return cs
}

// row turns a record into cells under the header's names.
func (s *Sheet) row(r record) (Row, []Complaint) {
	row := Row{Sheet: s.Name, Line: r.line, Cells: make(map[string]Cell, len(s.Header))}
	var cs []Complaint
	for i, h := range s.Header {
		if h.Name == "" {
			continue
		}
		cell := Cell{Sheet: s.Name, Line: r.line, Column: i + 1, Name: h.Name, Unit: h.Unit}
		if i < len(r.fields) {
			cell.Text = cellText(r.fields[i])
			cs = append(cs, checkCell(&cell)...)
		}
		row.Cells[h.Name] = cell
	}
	cs = append(cs, s.longRow(r)...)
	return row, append(cs, s.shortRow(r, row, complained(cs))...)
}

// complained is the set of cells that there is an error about.
func complained(cs []Complaint) map[string]bool {
	if len(cs) == 0 {
		return nil
	}
	cells := map[string]bool{}
	for _, c := range cs {
		if !c.Warning {
			cells[c.Cell] = true
		}
	}
	return cells
}

// longRow complains about filled cells beyond the header and guesses how they came about.
func (s *Sheet) longRow(r record) []Complaint {
	for i := len(s.Header); i < len(r.fields); i++ {
		text := cellText(r.fields[i])
		if text == "" {
			continue
		}
		cell := Cell{Sheet: s.Name, Line: r.line, Column: i + 1, Text: shorten(text)}
		fix := fmt.Sprintf("this row has %d cells, the header has %d", len(r.fields), len(s.Header))
		return []Complaint{cell.Complain("long_row", fmt.Sprintf("at most %d cells", len(s.Header)), fix+longRowHint(r, s.Dialect.Separator))}
	}
	return nil
}

func longRowHint(r record, separator byte) string {
	for i, f := range r.fields {
		text := tidy(f.text)
		if strings.HasPrefix(text, "“") || strings.HasPrefix(text, "„") {
			return fmt.Sprintf("; column %s begins with a curly quote, which does not quote: write it straight", ColumnLetters(i+1))
		}
		if separator == ',' && i+1 < len(r.fields) && allDigits(text) && len(tidy(r.fields[i+1].text)) == 2 && allDigits(tidy(r.fields[i+1].text)) {
			return fmt.Sprintf("; columns %s and %s look like one number with a decimal comma: quote it, or export with semicolons",
				ColumnLetters(i+1), ColumnLetters(i+2))
		}
	}
	return `; quote cells that hold the separator`
}

// shortRow complains about required cells that are empty and warns of number cells that the row is too short to have.
func (s *Sheet) shortRow(r record, row Row, complained map[string]bool) []Complaint {
	var cs []Complaint
	for i, h := range s.Header {
		c := s.columns[i]
		if c == nil || !c.Required && i < len(r.fields) {
			continue
		}
		cell := row.Get(h.Name)
		switch {
		case complained[cell.Ref()]:
		case c.Required && tidy(cell.Text) == "":
			cs = append(cs, cell.Complain("empty_cell", "something in this cell", "such as "+c.Example+"; cells that were merged in the spreadsheet are filled in their first row only"))
		case i >= len(r.fields) && c.Type.numeric():
			cs = append(cs, cell.Warn("short_row", "a cell here", fmt.Sprintf("the row ends after %d cells; this one is taken as unknown", len(r.fields))))
		}
	}
	return cs
}

func (t Type) numeric() bool {
	return t == Number || t == Whole || t == Money || t == Mass || t == Length
}

func allDigits(text string) bool {
	for _, r := range text {
		if r < '0' || r > '9' {
			return false
		}
	}
	return text != ""
}

// shorten keeps complaints to a line.
func shorten(text string) string {
	const most = 60
	if r := []rune(text); len(r) > most {
		return string(r[:most]) + "…"
	}
	return text
}
