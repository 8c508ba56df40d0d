package datasets

import (
	"bytes"
	"strings"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

// MeasuredSheet is measured.csv with the measurements in it. The rows of the old one are kept, in its columns and with
// its separator; a value measured anew replaces the old one, and new ones stand at the end. Blank lines and lines of
// remarks are not kept. The old sheet is one that loaded without errors with these options, or nil.
func MeasuredSheet(rows []Measured, old []byte, o Options) []byte {
	s, _ := sheet.Read(measuredTable.Name+".csv", old, measuredTable, sheet.Options{Decimal: o.Decimal})
	if o.Decimal != sheet.Undecided {
		s.Dialect.Decimal = o.Decimal
	}
	k := kept{sheet: s}
	for _, h := range s.Header {
		if h.Name != "" {
			k.columns = append(k.columns, h.Name)
		}
	}
	for _, name := range []string{"bike", "slot", "fact", "value", "part"} {
		if !contains(k.columns, name) && (name != "part" || hasParts(rows)) {
			k.columns = append(k.columns, name)
		}
	}
	return k.with(rows)
}

func hasParts(rows []Measured) bool {
	for _, m := range rows {
		if m.Part != "" {
			return true
		}
	}
	return false
}

// kept is the sheet as it was, and the columns of the one to be written.
type kept struct {
	sheet   *sheet.Sheet
	columns []string
}

// with is the sheet written anew.
func (k kept) with(rows []Measured) []byte {
	var out bytes.Buffer
	// Writing to memory cannot fail.
	w := sheet.NewWriter(&out, k.sheet.Dialect)
	for _, name := range k.columns {
		w.Text(name)
	}
	_ = w.Row()
	written := map[int]bool{}
	for _, r := range k.sheet.Rows {
		at := lastOf(r, rows)
		for _, name := range k.columns {
			if name == "value" && at >= 0 {
				writeValue(w, rows[at].Value)
			} else {
				w.Text(r.Get(name).Text)
			}
		}
		_ = w.Row()
		written[at] = true
	}
	for i, m := range rows {
		if written[i] {
			continue
		}
		for _, name := range k.columns {
			m.write(w, name)
		}
		_ = w.Row()
	}
	_ = w.Close()
	return out.Bytes()
}

// lastOf is the measurement that a row of the old sheet is about, -1 for none.
func lastOf(r sheet.Row, rows []Measured) int {
	for i := len(rows) - 1; i >= 0; i-- {
		if rows[i].about(r) {
			return i
		}
	}
	return -1
}

// about tells whether a row of the old sheet speaks of the same fact of the same thing. Of a part the slot does not
// matter, and one that only one slot has may leave it out.
func (m Measured) about(r sheet.Row) bool {
	is := func(column, text string) bool { return sheet.Key(r.Get(column).Text) == sheet.Key(text) }
	if !is("fact", m.Fact) || m.Part != "" || r.Get("part").Plain() != "" {
		return is("fact", m.Fact) && m.Part != "" && (is("part", m.Part) || is("part", m.partName))
	}
	return (is("slot", m.Slot) || is("slot", "")) && (is("bike", m.Bike) || m.Own && is("bike", ""))
}

// write adds the cell of one column; the own bike need not be named.
func (m Measured) write(w *sheet.Writer, column string) {
	switch column {
	case "bike":
		if m.Own {
			w.Text("")
		} else {
			w.Text(m.Bike)
		}
	case "slot":
		w.Text(m.Slot)
	case "fact":
		w.Text(m.Fact)
	case "part":
		w.Text(m.Part)
	case "value":
		writeValue(w, m.Value)
	default:
		w.Text("")
	}
}

// writeValue writes a value so that it is read again as the same one: three decimals could be thousands, four cannot.
// What is not known yet is an empty cell.
func writeValue(w *sheet.Writer, v model.Value) {
	if !v.Known() {
		w.Text("")
		return
	}
	text := v.String()
	if whole, part, _ := strings.Cut(text, "."); v.Number && len(part) == 3 && whole != "0" {
		text += "0"
	}
	if v.Origin.How == model.Remembered {
		text += "?"
	}
	if v.Number {
		w.Number(text)
	} else {
		w.Text(text)
	}
}
