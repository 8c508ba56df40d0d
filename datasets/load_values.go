package datasets

import (
	"fmt"
	"strings"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

// reader reads the cells of one sheet into values of the model.
type reader struct {
	*sheet.Values
	l        *loader
	facts    []*model.Fact // that have a column in the sheet
	criteria []string      // that have a column in the sheet
}

func (l *loader) reader(s *sheet.Sheet) *reader {
	r := &reader{Values: s.Values(), l: l}
	columns := map[string]bool{}
	for _, h := range s.Header {
		columns[h.Name] = true
	}
	for i := range l.tables.Facts {
		if f := &l.tables.Facts[i]; columns[f.Name] {
			r.facts = append(r.facts, f)
		}
	}
	for _, c := range l.tables.Criteria {
		if columns[c.Key] {
			r.criteria = append(r.criteria, c.Key)
		}
	}
	return r
}

// flagReader reads values that stand in no sheet.
func (l *loader) flagReader(d sheet.Decimal) *reader {
	return &reader{Values: sheet.FlagValues(d), l: l}
}

// done hands the complaints about cells over.
func (r *reader) done() { r.l.complain(r.Complaints...) }

// complain adds a complaint about a cell.
func (r *reader) complain(c sheet.Complaint) { r.Complaints = append(r.Complaints, c) }

// mostWhole is the most that one amount may be, in whole units of a currency with cents: far above any bike here.
const mostWhole = 100_000

// money reads an amount that is neither negative nor absurd.
func (r *reader) money(c sheet.Cell) model.Stated[model.Money] {
	before := len(r.Complaints)
	got := r.Money(c, r.l.currency)
	unreadable := len(r.Complaints) > before && r.Complaints[before].Code == "too_large"
	switch most := mostMinor(r.l.currency.Digits); {
	case unreadable || got.Given && got.N > most:
		limit := (model.Currency{Digits: r.l.currency.Digits}).Format(model.Money(most))
		r.Complaints = append(r.Complaints[:before], c.Complain("absurd_price", "an amount below "+limit, "is the decimal sign where it should be?"))
		return model.Stated[model.Money]{}
	case !got.Given:
		return model.Stated[model.Money]{}
	case got.N < 0:
		r.complain(c.Complain("negative", "an amount of 0 or more", "write what is paid, without a minus sign"))
		return model.Stated[model.Money]{}
	}
	return model.Say(model.Money(got.N), originOf(c, got.Doubt))
}

// mostMinor is mostWhole in minor units; currencies without minor units have about a hundred times as many whole ones.
func mostMinor(digits int) int64 {
	most := int64(mostWhole)
	for range max(2, digits) {
		most *= 10
	}
	return most
}

// amount reads money where an empty cell is 0.
func (r *reader) amount(c sheet.Cell) model.Money { return r.money(c).Value }

// grams reads a mass that a part or bike can have.
func (r *reader) grams(c sheet.Cell) model.Stated[model.Grams] {
	got := r.Grams(c)
	if got.Given && (got.N < 0 || got.N > 60_000) {
		r.complain(c.Complain("absurd_mass", "a mass between 0 and 60 kg", "is the unit right? g is meant where none is written"))
		return model.Stated[model.Grams]{}
	}
	if !got.Given {
		return model.Stated[model.Grams]{}
	}
	return model.Say(model.Grams(got.N), originOf(c, got.Doubt))
}

// within says the least and the most that a number may be, in whole units.
type within struct {
	low, high int64
	unit      string
}

// number reads a number between the bounds.
func (r *reader) number(c sheet.Cell, w within) model.Stated[float64] {
	got := r.Measure(c, w.unit)
	if !got.Given || !r.inside(c, got.N, w) {
		return model.Stated[float64]{}
	}
	return model.Say(float64(got.N)/1000, originOf(c, got.Doubt))
}

// whole reads a whole number between the bounds.
func (r *reader) whole(c sheet.Cell, w within) model.Stated[int] {
	got := r.Whole(c)
	if !got.Given || !r.inside(c, got.N*1000, w) {
		return model.Stated[int]{}
	}
	return model.Say(int(got.N), originOf(c, got.Doubt))
}

func (r *reader) inside(c sheet.Cell, milli int64, w within) bool {
	if milli < w.low*1000 || milli > w.high*1000 {
		r.complain(c.Complain("out_of_range", strings.TrimSpace(fmt.Sprintf("a number from %d to %d %s", w.low, w.high, w.unit)), "check the number and its unit"))
		return false
	}
	return true
}

// count reads how many: a whole number, or yes (1) or no (0).
func (r *reader) count(c sheet.Cell) model.Stated[int] {
	if strings.ContainsAny(c.Text, "0123456789") {
		return r.whole(c, within{0, 1000, ""})
	}
	a := r.YesNo(c)
	if !a.Given {
		return model.Stated[int]{}
	}
	n := 0
	if a.Yes {
		n = 1
	}
	return model.Say(n, originOf(c, a.Doubt))
}

// yesNo reads a yes, a no, or neither.
func (r *reader) yesNo(c sheet.Cell) model.YesNo {
	switch a := r.YesNo(c); {
	case !a.Given:
		return model.NotSaid
	case a.Yes:
		return model.Yes
	default:
		return model.No
	}
}

// choiceIndex reads one of the words and gives its position; 0 where the cell is empty or wrong.
func (r *reader) choiceIndex(c sheet.Cell, words []string) int {
	choice, _ := r.Choice(c, words)
	for i, w := range words {
		if w == choice {
			return i
		}
	}
	return 0
}

// known finds a name among the known ones; an unknown one is complained about with the nearest.
func (r *reader) known(c sheet.Cell, what string, names []string) (string, bool) {
	name, ok := sheet.Match(c.Text, names)
	if !ok {
		r.complain(c.Complain("unknown_"+strings.ReplaceAll(what, " ", "_"), "a known "+what, sheet.DidYouMean(c.Text, names, listed(names))))
	}
	return name, ok
}

// listed is what is known, where that is a list short enough to be read.
func listed(names []string) string {
	switch {
	case len(names) == 0:
		return "there is none yet"
	case len(names) <= 12:
		return "known are " + strings.Join(names, ", ")
	default:
		return fmt.Sprintf("known are %s and %d more; `firstbolt schema` says where they stand", strings.Join(names[:8], ", "), len(names)-8)
	}
}
