package datasets

import (
	"fmt"
	"strings"

	"firstbolt/datasets/sheet"
)

// Sheets are the sheets of a shed in the order in which people meet them. This is the one place that says which
// columns there are; the reader, `schema` and the README's tables are all made from it.
func Sheets() []sheet.Table {
	return []sheet.Table{partsTable, riderTable, bikesTable, fittedTable, measuredTable, shopsTable, toolsTable}
}

// OverrideSheets are the tables that a mechanic may add to or override in a shed; the embedded ones have the same columns.
func OverrideSheets() []sheet.Table {
	return []sheet.Table{
		slotsTable, factsTable, rulesTable, pairsTable, kindsTable, likesTable, criteriaTable, curvesTable,
		measuresTable, assumptionsTable, valuesTable, profilesTable, jobsTable, cautionsTable,
	}
}

// TableNamed finds the description of a sheet by its name, "parts"; false where there is none.
func TableNamed(name string) (sheet.Table, bool) {
	for _, t := range append(Sheets(), OverrideSheets()...) {
		if t.Name == name {
			return t, true
		}
	}
	return sheet.Table{}, false
}

// Markdown is the table of a sheet's columns for the README; a required column has a star.
func Markdown(t sheet.Table) string {
	var out strings.Builder
	out.WriteString("| column | what it holds | such as |\n|---|---|---|\n")
	cell := strings.NewReplacer("|", `\|`, "\n", " ")
	for _, c := range t.Columns {
		name := c.Name
		if c.Required {
			name += "*"
		}
		says := c.Description
		if c.Unit != "" {
			says += " (" + c.Unit + ")"
		}
		if len(c.Aliases) > 0 {
			says += "; also called " + strings.Join(c.Aliases, ", ")
		}
		fmt.Fprintf(&out, "| `%s` | %s | %s |\n", name, cell.Replace(says), cell.Replace(c.Example))
	}
	return out.String()
}
