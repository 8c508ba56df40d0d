package datasets

import (
	"fmt"
	"strings"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

// ReadAnswers reads what a rider measured: a sheet with the columns of measured.csv, or the printed page as text with
// its boxes filled in (BoxLine, BikeLine, PartLine). The name is what complaints call the file. Open questions are left
// out. The shed says which bikes, parts, slots and facts there are; nothing in it is changed. Measurements that
// contradict each other are complained about; those that contradict the shed are its better knowledge.
func ReadAnswers(name string, data []byte, shed *model.Shed, o Options) ([]Measured, []sheet.Complaint) {
	l := &loader{options: o, tables: shed.Tables, shed: shed}
	var all []Measured
	switch text := sheet.TextOf(data[:min(len(data), sheet.MaxBytes)]); {
	case len(data) <= sheet.MaxBytes && isPage(text, shed.Tables):
		all = l.readPage(name, text)
	default:
		l.sources = map[string][]sheetFile{measuredTable.Name: {{name, data}}}
		all = l.readMeasured()
	}
	all = l.eachOnce(all)
	sheet.Sort(l.complaints)
	return all, l.complaints
}

// isPage tells the printed page from a sheet: it has a line of boxes that asks for a fact.
func isPage(text string, t *model.Tables) bool {
	for _, line := range strings.Split(text, "\n") {
		if b, ok := boxesIn(line, t); ok && t.SlotNamed(b.slot) != nil {
			return true
		}
	}
	return false
}

// readPage reads the boxes of a printed page.
func (l *loader) readPage(name, text string) []Measured {
	var all []Measured
	r := l.flagReader(l.options.Decimal)
	row, known := measuredRow{}, true
	for i, line := range strings.Split(text, "\n") {
		c := sheet.Cell{Sheet: name, Line: i + 1}
		if m := sectionLine.FindStringSubmatch(line); m != nil {
			c.Name, c.Text = strings.ToLower(m[1]), m[2]
			row, known = r.section(c)
			continue
		}
		b, ok := boxesIn(line, l.tables)
		switch {
		case !known:
		case !ok && lostBox(line, l.tables):
			c.Text = strings.TrimSpace(line)
			r.complain(c.Complain("no_box", "the answer in its box", "put [ before it and ] behind it"))
		case ok && len(b.list) > 0:
			if m, ok := r.answered(row, b, c); ok {
				all = append(all, m)
			}
		}
	}
	r.done()
	return all
}

// section begins the answers of one bike or part; false, complained about once, where there is none of that name.
func (r *reader) section(c sheet.Cell) (row measuredRow, known bool) {
	if c.Name == "bike" {
		row.Bike = c
		return row, r.bikeOf(c) != nil
	}
	row.Part = c
	return row, r.partOf(c) != nil
}

// answered reads one line with a filled box. A line that ends in no fact and names no slot is a box of another kind.
func (r *reader) answered(row measuredRow, b boxes, c sheet.Cell) (Measured, bool) {
	row.Slot, row.Fact = c, c
	row.Slot.Name, row.Slot.Text = "slot", b.slot
	row.Fact.Name, row.Fact.Text = "fact", b.fact
	name, isFact := sheet.Match(b.fact, r.l.factNames())
	if !isFact {
		if r.l.tables.SlotNamed(b.slot) == nil {
			return Measured{}, false
		}
		r.complain(row.Fact.Complain("unknown_fact", "the name of a fact as it was printed",
			sheet.DidYouMean(b.fact, r.l.factNames(), fmt.Sprintf("put back what stood behind %q", b.slot+":"))))
		return Measured{}, false
	}
	c.Name = name
	value, ok := r.boxed(b, r.l.tables.FactNamed(name), c)
	if !ok {
		return Measured{}, false
	}
	row.Value = value
	return r.measured(row)
}
