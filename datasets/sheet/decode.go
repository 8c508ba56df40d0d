package sheet

import (
	"fmt"
	"io"
	"reflect"
	"strconv"
	"strings"

	"github.com/gocarina/gocsv"
)

// gocsv's settings are package-wide, so the one that matters is set once and here: names of struct tags and headers are
// compared as all names of this package are.
func init() { gocsv.SetHeaderNormalizer(Key) }

// Decode maps the rows of a sheet to structs whose fields are Cells, tagged with the column's name: `csv:"price"`.
// The result has one struct for each of s.Rows, in the same order; columns without a field stay in Row.Cells. A column
// that the sheet does not have gives empty cells that know where they would be.
func Decode[T any](s *Sheet) ([]T, error) {
	rows := []T{}
	if len(s.Rows) == 0 {
		return rows, nil
	}
	in := &packedRows{sheet: s}
	for _, f := range reflect.VisibleFields(reflect.TypeFor[T]()) {
		if c := s.table.Column(f.Tag.Get("csv")); c != nil {
			in.columns = append(in.columns, c.Name)
		}
	}
	if err := gocsv.UnmarshalCSV(in, &rows); err != nil {
		return nil, fmt.Errorf("%s: %w", s.Name, err)
	}
	return rows, nil
}

// packedRows gives gocsv the cells of a sheet. It carries strings only, so a cell travels packed together with its place.
type packedRows struct {
	sheet   *Sheet
	columns []string
}

// Read is asked for by gocsv's interface; reading row by row is not wanted here.
func (p *packedRows) Read() ([]string, error) { return nil, io.EOF }

// ReadAll is the header and all rows, every one as long as the header.
func (p *packedRows) ReadAll() ([][]string, error) {
	all := make([][]string, 0, len(p.sheet.Rows)+1)
	all = append(all, p.columns)
	for _, row := range p.sheet.Rows {
		cells := make([]string, len(p.columns))
		for i, name := range p.columns {
			cells[i] = row.Get(name).pack()
		}
		all = append(all, cells)
	}
	return all, nil
}

const packSeparator = "\x1F"

func (c Cell) pack() string {
	return strings.Join([]string{c.Sheet, strconv.Itoa(c.Line), strconv.Itoa(c.Column), c.Name, c.Unit, c.Text}, packSeparator)
}

// UnmarshalCSV unpacks a cell that Decode has packed.
func (c *Cell) UnmarshalCSV(packed string) error {
	parts := strings.SplitN(packed, packSeparator, 6)
	if len(parts) != 6 {
		return fmt.Errorf("found %q, want a packed cell; read sheets with Decode", shorten(packed))
	}
	line, err := strconv.Atoi(parts[1])
	if err != nil {
		return err
	}
	column, err := strconv.Atoi(parts[2])
	if err != nil {
		return err
	}
	*c = Cell{Sheet: parts[0], Line: line, Column: column, Name: parts[3], Unit: parts[4], Text: parts[5]}
	return nil
}
