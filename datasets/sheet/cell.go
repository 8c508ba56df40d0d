// Package sheet reads spreadsheets as riders export them: bytes, then text, then cells, then typed values. Every cell
// keeps its place through all layers, and nothing is guessed: what cannot be read is a Complaint that names the cell,
// what was found, what was wanted and how to mend it. It knows columns, not bicycles.
package sheet

import (
	"fmt"
	"sort"
	"strconv"
	"strings"
)

// Cell is one cell's text with its place. A cell that the row does not have is an empty one at the place where it would be.
type Cell struct {
	Sheet  string // file as the rider names it: "parts.csv"
	Line   int    // physical line on which the record starts, 1-based
	Column int    // 1-based; 0 when the sheet has no such column
	Name   string // canonical column name
	Text   string // as typed, without the outer quotes
	Unit   string // written in the header, "Mass [kg]"; empty where there is none
}

// Ref is the spreadsheet's name of the cell, "D14"; empty when the sheet has no such column.
func (c Cell) Ref() string {
	if c.Column <= 0 {
		return ""
	}
	return ColumnLetters(c.Column) + strconv.Itoa(c.Line)
}

// ColumnLetters is the spreadsheet's name of a column: 1 is "A", 27 is "AA".
func ColumnLetters(column int) string {
	letters := ""
	for column > 0 {
		column--
		letters = string(rune('A'+column%26)) + letters
		column /= 26
	}
	return letters
}

// Row is one record. Columns that the schema does not know stand under the header as typed (tidied).
type Row struct {
	Sheet string
	Line  int
	Cells map[string]Cell
}

// Get is the cell in the column.
func (r Row) Get(column string) Cell {
	if c, ok := r.Cells[column]; ok {
		return c
	}
	return Cell{Sheet: r.Sheet, Line: r.Line, Name: column}
}

// Complaint is one thing wrong with a sheet, or worth a warning.
type Complaint struct {
	Warning bool
	Code    string // short stable name, "price", "unknown_slot"
	Sheet   string
	Line    int    // 0 for the whole sheet
	Cell    string // "D14", or empty
	Column  string // canonical column name, or empty
	Found   string // the text found, quoted when printed
	Wanted  string // what was wanted
	Fix     string // how to mend it; ends without a full stop
}

// Complain makes a complaint about a cell.
func (c Cell) Complain(code, wanted, fix string) Complaint {
	return Complaint{Code: code, Sheet: c.Sheet, Line: c.Line, Cell: c.Ref(), Column: c.Name, Found: c.Text, Wanted: wanted, Fix: fix}
}

// Warn makes a warning about a cell.
func (c Cell) Warn(code, wanted, fix string) Complaint {
	w := c.Complain(code, wanted, fix)
	w.Warning = true
	return w
}

// Where is the complaint's place: "parts.csv:14 (D14)".
func (c Complaint) Where() string {
	switch {
	case c.Line == 0:
		return c.Sheet
	case c.Cell == "":
		return fmt.Sprintf("%s:%d", c.Sheet, c.Line)
	default:
		return fmt.Sprintf("%s:%d (%s)", c.Sheet, c.Line, c.Cell)
	}
}

// String is the complaint on one line: place, column, found, wanted, fix.
func (c Complaint) String() string {
	text := c.Where() + ": "
	if c.Column != "" && !strings.HasPrefix(c.Sheet, "--") { // a flag names its column already
		text += c.Column + ": "
	}
	if c.Found != "" {
		text += fmt.Sprintf("found %q, ", c.Found)
	}
	text += "want " + c.Wanted
	if c.Fix != "" {
		text += "; " + c.Fix
	}
	return text
}

// Sort puts complaints in the order of sheet, line, column.
func Sort(cs []Complaint) {
	sort.SliceStable(cs, func(i, j int) bool {
		a, b := cs[i], cs[j]
		if a.Sheet != b.Sheet {
			return a.Sheet < b.Sheet
		}
		if a.Line != b.Line {
			return a.Line < b.Line
		}
		if len(a.Cell) != len(b.Cell) {
			return len(a.Cell) < len(b.Cell)
		}
		return a.Cell < b.Cell
	})
}
