package datasets_test

import (
	"strings"
	"testing"

	"firstbolt/datasets"
	"firstbolt/datasets/sheet"
)

// Every column is described, its names are its own, and its example is one that the reader takes.
func TestSchema(t *testing.T) {
	t.Parallel()
	tables := append(datasets.Sheets(), datasets.OverrideSheets()...)
	for _, table := range append(tables, sheet.Table{Name: "rider settings", Columns: datasets.RiderSettings()}) {
		taken := map[string]string{}
		for _, c := range table.Columns {
			if c.Title == "" || c.Description == "" || c.Example == "" {
				t.Errorf("%s.%s: title %q, description %q, example %q: none may be empty", table.Name, c.Name, c.Title, c.Description, c.Example)
			}
			for _, n := range append([]string{c.Name}, c.Aliases...) {
				if other, twice := taken[sheet.Key(n)]; twice {
					t.Errorf("%s: %q means both %s and %s", table.Name, n, other, c.Name)
				}
				taken[sheet.Key(n)] = c.Name
			}
			if complaints := readExample(c); len(complaints) > 0 {
				t.Errorf("%s.%s: its own example is refused: %v", table.Name, c.Name, complaints)
			}
		}
	}
}

func readExample(c sheet.Column) []sheet.Complaint {
	v := sheet.FlagValues(sheet.Undecided)
	cell := sheet.Cell{Sheet: "example", Name: c.Name, Text: c.Example}
	switch c.Type {
	case sheet.Money:
		v.Money(cell, sheet.Currency{Code: "EUR", Digits: 2})
	case sheet.Number, sheet.Mass, sheet.Length:
		v.Measure(cell, c.Unit)
	case sheet.Whole:
		v.Whole(cell)
	case sheet.YesNo:
		v.YesNo(cell)
	case sheet.Choice:
		v.Choice(cell, c.Allowed)
	case sheet.Pairs:
		v.Pairs(cell)
	}
	return v.Complaints
}

// A sheet made of the examples of parts.csv loads, as far as its names are known.
func TestExampleRow(t *testing.T) {
	t.Parallel()
	var header, cells []string
	for _, c := range datasets.Sheets()[0].Columns {
		if c.Name == "slot" || c.Name == "shop" {
			continue
		}
		header, cells = append(header, c.Name), append(cells, c.Example)
	}
	shed := loadClean(t, datasets.Options{}, map[string]string{
		"parts.csv": strings.Join(header, "\t") + "\n" + strings.Join(cells, "\t") + "\n", "rider.csv": "setting,value\nlike," + hardtail + "\n",
	})
	if len(shed.Parts) != 1 || shed.Parts[0].Grams.Value != 710 || shed.Parts[0].Price != 2490 {
		t.Errorf("got %+v", shed.Parts)
	}
}

func TestMarkdown(t *testing.T) {
	t.Parallel()
	parts := datasets.Sheets()[0]
	text := datasets.Markdown(parts)
	if n := strings.Count(text, "\n"); n != len(parts.Columns)+2 || !strings.Contains(text, "| `price*` | what the shop asks, before tax on top; also called cost | 24.90 |\n") {
		t.Errorf("got\n%s", text)
	}
}
