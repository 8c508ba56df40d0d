package datasets

import (
	"embed"
	"fmt"
	"slices"
	"strings"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

//go:embed *.csv
var tableFiles embed.FS

// tableReader reads the rows of one table into model.Tables.
type tableReader struct {
	name string
	// numbered rows have a name of their own in the first column: one that is written out for front and rear
	// without {side} in its name gets ".front" and ".rear" at its end.
	numbered bool
	read     func(*layer, sheet.Row)
}

// tableReaders stand in the order in which they must be read: a table names only things of the tables before it.
func tableReaders() []tableReader {
	return []tableReader{
		{"slots", false, (*layer).slot},
		{"facts", false, (*layer).fact},
		{"pairs", false, (*layer).pair},
		{"rules", true, (*layer).rule},
		{"kinds", true, (*layer).kind},
		{"likes", false, (*layer).like},
		{"criteria", false, (*layer).criterion},
		{"curves", false, (*layer).curve},
		{"measures", false, (*layer).amount},
		{"assumptions", false, (*layer).assumption},
		{"values", true, (*layer).value},
		{"profiles", false, (*layer).profile},
		{"tools", false, (*layer).tool},
		{"jobs", true, (*layer).job},
		{"cautions", true, (*layer).caution},
	}
}

// Embedded reads the tables that come with the program. An error means that the program was built wrong.
func Embedded() (*model.Tables, error) {
	tables := &model.Tables{}
	var all []sheet.Complaint
	for _, r := range tableReaders() {
		rows, complaints, err := embeddedRows(r.name)
		if err != nil {
			return nil, err
		}
		all = append(append(all, complaints...), Lay(tables, r.name, rows)...)
	}
	all = append(all, wholeFaults(tables)...)
	all = slices.DeleteFunc(all, func(c sheet.Complaint) bool { return c.Warning })
	if len(all) > 0 {
		return nil, fmt.Errorf("the embedded tables have %d faults, the first: %s", len(all), all[0])
	}
	return tables, nil
}

// toolPricesTable is the embedded table of tools; a rider's tools.csv says which of them are there.
var toolPricesTable = sheet.Table{Name: "tools", Row: "a tool and what it costs", Columns: []sheet.Column{
	{Name: "tool", Title: "Tool", Example: "chain tool", Description: "its name", Required: true},
	{Name: "price", Title: "Price", Type: sheet.Money, Example: "8.00", Description: "what an inexpensive one costs", Required: true},
	{Name: "owned", Title: "Owned", Type: sheet.YesNo, Example: "yes", Description: "so common that it is taken to be there"},
	sourceColumn,
}}

// embeddedRows are the rows of an embedded table.
func embeddedRows(name string) ([]sheet.Row, []sheet.Complaint, error) {
	file := name + ".csv"
	data, err := tableFiles.ReadFile(file)
	if err != nil {
		return nil, nil, fmt.Errorf("embedded table %s: %w", file, err)
	}
	table, known := TableNamed(name)
	if name == toolPricesTable.Name {
		table, known = toolPricesTable, true
	}
	if !known {
		return nil, nil, fmt.Errorf("embedded table %s: its columns are described nowhere", file)
	}
	s, complaints := sheet.Read(file, data, table, sheet.Options{Decimal: sheet.Point})
	return s.Rows, complaints, nil
}

// Lay lays rows over the tables: a row whose key is there already replaces it, any other is added at the end. The
// table is one of slots, facts, pairs, rules, kinds, likes, criteria, curves, measures, assumptions, values, profiles,
// tools, jobs and cautions. A row with a fault is left out and complained about.
func Lay(tables *model.Tables, table string, rows []sheet.Row) []sheet.Complaint {
	for _, r := range tableReaders() {
		if r.name != table {
			continue
		}
		l := &layer{tables: tables, seen: map[string]int{}}
		for _, row := range rows {
			for _, written := range writtenOut(row, r.numbered) {
				l.good = true
				if r.read(l, written); !l.good {
					break // what is wrong at the front need not be said of the rear
				}
			}
		}
		return l.complaints
	}
	return []sheet.Complaint{{Code: "unknown_table", Sheet: table, Wanted: "the name of a table"}}
}

// layer is one sheet's rows on their way into the tables.
type layer struct {
	tables     *model.Tables
	complaints []sheet.Complaint
	seen       map[string]int    // keys of this sheet and the lines they stand on
	phrases    map[string]string // names and aliases of kinds, as sheet.Key writes them, with the kind's name
	good       bool              // the row at hand has no fault so far
}

// fault complains about a cell and spoils its row.
func (l *layer) fault(c sheet.Cell, code, wanted, fix string) {
	l.complaints = append(l.complaints, c.Complain(code, wanted, fix))
	l.good = false
}

// warn says something about a cell that does not spoil its row.
func (l *layer) warn(c sheet.Cell, code, wanted, fix string) {
	l.complaints = append(l.complaints, c.Warn(code, wanted, fix))
}

// once tells whether the row is without fault and its key new in this sheet; key cells are compared as typed.
func (l *layer) once(keys ...sheet.Cell) bool {
	var texts []string
	for _, c := range keys {
		texts = append(texts, c.Text)
	}
	key := strings.Join(texts, " | ")
	if line, twice := l.seen[key]; twice {
		l.fault(keys[0], "twice", fmt.Sprintf("each of %q once; it stands on line %d already", key, line), "keep one of the two rows")
	}
	l.seen[key] = keys[0].Line
	return l.good
}

// put replaces the row that is the same one, or adds it.
func put[T any](list *[]T, row T, same func(a, b *T) bool) {
	for i := range *list {
		if same(&(*list)[i], &row) {
			(*list)[i] = row
			return
		}
	}
	*list = append(*list, row)
}

// origin is where a table's row stands.
func origin(r sheet.Row) model.Origin {
	return model.Origin{Sheet: r.Sheet, Row: r.Line, How: model.Measured}
}

// ends are the two ends of a bike and what {side} and {end} are called there.
var ends = []struct{ side, end string }{{"front", "fork"}, {"rear", "frame"}}

// endWords write one end's words in place of {side} and {end}.
var endWords = func() (all []*strings.Replacer) {
	for _, e := range ends {
		all = append(all, strings.NewReplacer("{side}", e.side, "{end}", e.end))
	}
	return all
}()

// writtenOut is the row itself or, where {side} or {end} stands in it, one row for the front and one for the rear.
func writtenOut(row sheet.Row, numbered bool) []sheet.Row {
	both := false
	for _, c := range row.Cells {
		both = both || strings.Contains(c.Text, "{side}") || strings.Contains(c.Text, "{end}")
	}
	if !both {
		return []sheet.Row{row}
	}
	var rows []sheet.Row
	for i, e := range ends {
		one := sheet.Row{Sheet: row.Sheet, Line: row.Line, Cells: make(map[string]sheet.Cell, len(row.Cells))}
		for name, c := range row.Cells {
			if numbered && c.Column == 1 && !strings.Contains(c.Text, "{side}") {
				c.Text += "." + e.side
			}
			c.Text = endWords[i].Replace(c.Text)
			one.Cells[name] = c
		}
		rows = append(rows, one)
	}
	return rows
}
