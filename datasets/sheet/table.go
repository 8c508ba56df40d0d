package sheet

// Type says what the cells of a column hold.
type Type int

// The types of columns. Text is the zero value.
const (
	Text    Type = iota
	Number       // a number of Unit
	Whole        // a whole number
	Money        // an amount of the shed's currency
	Mass         // grams, or with a unit: kg, lb, oz
	Length       // millimetres, or with a unit: cm, in; fractions of an inch
	YesNo        // yes or no; an empty cell is neither
	Choice       // one of Allowed
	List         // several texts, separated by "; "
	Pairs        // several name=value, separated by "; "
	Setting      // any of the above: what the row's first cell asks for (rider.csv)
)

// Column describes one column of a sheet. The reader, `schema` and the README are all made from it.
type Column struct {
	Name        string // canonical: "grams"
	Title       string // for people: "Mass"
	Type        Type
	Unit        string // "g", "mm", "seasons"; empty where there is none
	Example     string
	Description string
	Aliases     []string // further names that riders use
	Allowed     []string // of a Choice
	Required    bool     // the sheet must have the column and every row a cell in it
}

// Table describes one sheet.
type Table struct {
	Name    string // "parts"
	Row     string // what one row is: "something that can be bought"
	Columns []Column
	Sample  []string // columns of the shortest useful sheet, for examples; the required ones where empty
}

// Column finds a column by its canonical name; nil where there is none.
func (t *Table) Column(name string) *Column {
	for i := range t.Columns {
		if t.Columns[i].Name == name {
			return &t.Columns[i]
		}
	}
	return nil
}

// With is the table with further columns. Those whose name or alias is already taken are left out, so that a fixed
// column always wins.
func (t Table) With(more ...Column) Table {
	taken := map[string]bool{}
	all := make([]Column, 0, len(t.Columns)+len(more))
	for _, c := range append(append(all, t.Columns...), more...) {
		if taken[Key(c.Name)] {
			continue
		}
		c.Aliases = untaken(c.Aliases, taken)
		all = append(all, c)
		taken[Key(c.Name)] = true
		for _, a := range c.Aliases {
			taken[Key(a)] = true
		}
	}
	t.Columns = all
	return t
}

func untaken(aliases []string, taken map[string]bool) []string {
	var free []string
	for _, a := range aliases {
		if !taken[Key(a)] {
			free = append(free, a)
		}
	}
	return free
}

// names maps every name and alias, as Key writes it, to the column's position.
func (t *Table) names() map[string]int {
	names := make(map[string]int, 2*len(t.Columns))
	for i, c := range t.Columns {
		for _, a := range append([]string{c.Name}, c.Aliases...) {
			if _, taken := names[Key(a)]; !taken {
				names[Key(a)] = i
			}
		}
	}
	return names
}
