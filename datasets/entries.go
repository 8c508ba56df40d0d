package datasets

import (
	"fmt"
	"strings"

	"firstbolt/datasets/sheet"
)

// Entry is one thing that an embedded table knows by name, and what a rider wants to know about it.
type Entry struct{ Name, Says string }

// entrySays says in words what a row of a table holds. Tables whose rows nobody names in a sheet have none.
var entrySays = map[string]func(sheet.Row) string{
	"kinds":    kindSays,
	"slots":    func(r sheet.Row) string { return texts("", r, "says") },
	"facts":    factSays,
	"likes":    likeSays,
	"criteria": func(r sheet.Row) string { return texts("", r, "says") + texts("; also called ", r, "words") },
	"profiles": func(r sheet.Row) string { return texts("", r, "points") },
}

// Entries are the named things of an embedded table, in its order; none where its rows are not named in sheets. An error
// means that the program was built wrong.
func Entries(table string) ([]Entry, error) {
	says, listed := entrySays[table]
	if !listed {
		return nil, nil
	}
	rows, _, err := embeddedRows(table)
	if err != nil {
		return nil, err
	}
	t, _ := TableNamed(table)
	var list []Entry
	for _, row := range rows {
		for _, r := range writtenOut(row, table == "kinds") {
			name := r.Get(t.Columns[0].Name).Text
			if n := len(list); n == 0 || list[n-1].Name != name {
				list = append(list, Entry{Name: name})
			}
			last := &list[len(list)-1]
			last.Says = strings.TrimPrefix(last.Says+says(r), "; ")
		}
	}
	return list, nil
}

// texts is the cell with its lead; empty where the cell is.
func texts(lead string, r sheet.Row, column string) string {
	if text := r.Get(column).Text; text != "" {
		return lead + text
	}
	return ""
}

func kindSays(r sheet.Row) string {
	text := "goes in: " + r.Get("places").Text + texts("; taken for granted: ", r, "facts")
	if grams := r.Get("grams").Text; grams != "" {
		text += fmt.Sprintf("; about %s g", grams)
	}
	return text + texts("; also called: ", r, "aliases")
}

func factSays(r sheet.Row) string {
	text := map[string]string{"number": "a number", "choice": "one of " + r.Get("allowed").Text, "yes/no": "yes or no"}[r.Get("kind").Text]
	if unit := r.Get("unit").Text; unit != "" {
		text += " in " + unit
	}
	return text + texts("; of: ", r, "slots") + texts("; how: ", r, "how")
}

// toldApart are the slots by which people tell typical bikes apart.
var toldApart = map[string]bool{"front wheel": true, "fork": true, "front brake caliper": true, "chainring": true, "cassette": true}

func likeSays(r sheet.Row) string {
	slot, part := r.Get("slot").Text, r.Get("part").Text
	if !toldApart[slot] {
		return ""
	}
	text := fmt.Sprintf("; %s: %s", slot, part)
	if facts := r.Get("facts").Text; facts != "" {
		text += fmt.Sprintf(" (%s)", strings.ReplaceAll(facts, "; ", ", "))
	}
	return text
}
