package datasets

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

// withOpenColumns is a sheet's table with a column for every fact and every criterion.
func (l *loader) withOpenColumns(t sheet.Table) sheet.Table {
	var more []sheet.Column
	for _, f := range l.tables.Facts {
		c := sheet.Column{Name: f.Name, Title: f.Name, Unit: f.Unit, Description: f.How, Allowed: f.Allowed}
		switch {
		case f.Kind == model.YesOrNo:
			c.Type = sheet.YesNo
		case f.Kind == model.Choice:
			c.Type = sheet.Choice
		case f.Unit == "mm":
			c.Type = sheet.Length
		default:
			c.Type = sheet.Number
		}
		more = append(more, c)
	}
	for _, cr := range l.tables.Criteria {
		more = append(more, sheet.Column{Name: cr.Key, Title: cr.Says, Type: sheet.Number, Aliases: append([]string{cr.Says}, cr.Words...)})
	}
	return t.With(more...)
}

// facts reads the fact columns of a row and the pairs of its facts cell; a column wins over a pair of the same name.
func (r *reader) factsOf(row sheet.Row, pairs sheet.Cell) model.Facts {
	facts := model.Facts{}
	for _, p := range r.Pairs(pairs) {
		named := p.Value
		named.Text = p.Name
		name, ok := r.known(named, "fact", r.l.factNames())
		if !ok {
			continue
		}
		if _, twice := facts[name]; twice {
			r.complain(named.Complain("twice", "each fact once", "delete one of the two"))
			continue
		}
		r.put(facts, r.l.tables.FactNamed(name), p.Value)
	}
	for _, f := range r.facts {
		if c := row.Get(f.Name); c.Text != "" {
			r.put(facts, f, c)
		}
	}
	return facts
}

// put reads one fact's value and keeps it where it is known.
func (r *reader) put(facts model.Facts, f *model.Fact, c sheet.Cell) {
	if v := r.fact(f, c); v.Known() {
		facts[f.Name] = v
	}
}

// fact reads the value of a fact; an unknown Value where the cell says nothing or was complained about.
func (r *reader) fact(f *model.Fact, c sheet.Cell) model.Value {
	switch f.Kind {
	case model.YesOrNo:
		a := r.YesNo(c)
		if !a.Given {
			return model.Value{}
		}
		return model.ChoiceValue(originOf(c, a.Doubt), map[bool]string{true: "yes", false: "no"}[a.Yes])
	case model.Choice:
		choices, doubt := r.Choices(plainNumber(c, f.Allowed), f.Allowed)
		return model.ChoiceValue(originOf(c, doubt), choices...)
	}
	if f.Name == beadFact && r.beadNamed(c) {
		return model.Value{}
	}
	got := r.Measure(c, f.Unit)
	if !got.Given || !r.plausible(f, c, got.N) {
		return model.Value{}
	}
	return model.NumberValue(got.N, originOf(c, got.Doubt))
}

var numberedChoice = regexp.MustCompile(`^0*(\d+)(?:[.,]0+)?\s*-?\s*\pL*\.?(\s*\?)?$`)

// plainNumber is a choice that is a number, without its unit and needless zeros: "8 speed", "73 mm", "08".
func plainNumber(c sheet.Cell, allowed []string) sheet.Cell {
	if _, known := sheet.Match(c.Text, allowed); known {
		return c
	}
	if m := numberedChoice.FindStringSubmatch(c.Plain()); m != nil && slices.Contains(allowed, m[1]) {
		c.Text = m[1] + m[2]
	}
	return c
}

// plausible asks about a number outside its fact's range instead of believing it, and says what was probably meant.
func (r *reader) plausible(f *model.Fact, c sheet.Cell, milli int64) bool {
	if f.Low == f.High || milli >= f.Low && milli <= f.High {
		return true
	}
	in := func(m int64) bool { return m >= f.Low && m <= f.High }
	meant := "measure it anew, or leave the cell empty"
	switch {
	case f.Unit == "mm" && in(milli*254/10):
		meant = "is it in inches? write " + c.Text + " in"
	case in(milli * 10):
		meant = "is the decimal sign one place too far left?"
	case in(milli / 10):
		meant = "is the decimal sign missing or one place too far right?"
	}
	wanted := fmt.Sprintf("%s to %s %s", tidyMilli(f.Low), tidyMilli(f.High), f.Unit)
	r.complain(c.Warn("implausible", wanted, "the value is not used; "+meant))
	return false
}

func tidyMilli(milli int64) string { return strconv.FormatFloat(float64(milli)/1000, 'f', -1, 64) }

// ratings reads the columns that are named after a criterion: 0 to 10.
func (r *reader) ratings(row sheet.Row) map[string]model.Stated[float64] {
	ratings := map[string]model.Stated[float64]{}
	for _, key := range r.criteria {
		if got := r.number(row.Get(key), within{0, 10, ""}); got.Known {
			ratings[key] = got
		}
	}
	return ratings
}

// factNames are the names of all facts; the tables do not change once they are laid.
func (l *loader) factNames() []string {
	if l.facts == nil {
		l.facts = factNames(l.tables)
	}
	return l.facts
}

func factNames(t *model.Tables) []string {
	names := make([]string, len(t.Facts))
	for i, f := range t.Facts {
		names[i] = f.Name
	}
	return names
}

func slotNames(t *model.Tables) []string {
	names := make([]string, len(t.Slots))
	for i, s := range t.Slots {
		names[i] = s.Name
	}
	return names
}

// addAssumed adds typical facts where nothing was said.
func addAssumed(facts, typical model.Facts, o model.Origin) {
	for name, v := range typical {
		if _, said := facts[name]; !said {
			v.Origin = o
			facts[name] = v
		}
	}
}
