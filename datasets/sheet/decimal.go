package sheet

import (
	"fmt"
	"strings"
)

// Decimal is the sign that parts whole and fraction. The zero value is Undecided.
type Decimal int

// Undecided is found out from the cells of the file.
const (
	Undecided Decimal = iota
	Point
	Comma
)

// String is the word that `--decimal` takes.
func (d Decimal) String() string { return [...]string{"undecided", "point", "comma"}[d] }

// DecimalNamed reads the value of `--decimal`; an empty word is Undecided.
func DecimalNamed(word string) (Decimal, error) {
	switch Key(word) {
	case "":
		return Undecided, nil
	case "point", "dot", ".":
		return Point, nil
	case "comma", ",":
		return Comma, nil
	}
	return Undecided, fmt.Errorf(`found decimal sign %q, want "comma" or "point"`, word)
}

// mark is the sign itself.
func (d Decimal) mark() byte {
	if d == Comma {
		return ','
	}
	return '.'
}

// decideDecimals lets every number cell that can be read in one way only say which sign its column uses; a column
// without such a cell follows the file, if that uses one sign only. Where both signs occur nothing is decided, and a cell
// that could be read in two ways is complained about.
func (s *Sheet) decideDecimals() {
	s.decimal = map[string]Decimal{}
	if s.forced != Undecided {
		s.Dialect.Decimal = s.forced
		return
	}
	var file styles
	for _, h := range s.Header {
		c := s.table.Column(h.Name)
		if c == nil || !c.Type.numeric() && c.Type != Pairs && c.Type != Setting {
			continue
		}
		var column styles
		for i := range s.Rows {
			for _, text := range numbersIn(s.Rows[i].Get(c.Name).Text, c.Type) {
				column.see(text)
			}
		}
		s.decimal[c.Name] = column.decided()
		if column.both() {
			s.decimal[c.Name] = mixed
		}
		file.point, file.comma = file.point || column.point, file.comma || column.comma
	}
	s.Dialect.Decimal = file.decided()
}

// mixed is a column that uses both signs: it decides nothing, and neither does the file for it.
const mixed Decimal = -1

// decimalOf is the sign that ambiguous numbers of a column use.
func (s *Sheet) decimalOf(column string) Decimal {
	switch d := s.decimal[column]; {
	case s.forced != Undecided:
		return s.forced
	case d == mixed:
		return Undecided
	case d != Undecided:
		return d
	}
	return s.Dialect.Decimal
}

// styles are the decimal signs seen.
type styles struct{ point, comma bool }

func (s styles) both() bool { return s.point && s.comma }

func (s styles) decided() Decimal {
	switch {
	case s.both() || !s.point && !s.comma:
		return Undecided
	case s.point:
		return Point
	default:
		return Comma
	}
}

// see notes what a number shows.
func (s *styles) see(text string) {
	at := strings.IndexAny(text, "0123456789")
	if at < 0 || len(text) > 200 {
		return
	}
	body, _ := numberBody(text, at)
	switch shown(body) {
	case Point:
		s.point = true
	case Comma:
		s.comma = true
	}
}

// numbersIn are the texts in a cell that may be numbers.
func numbersIn(text string, t Type) []string {
	if t != Pairs {
		return []string{text}
	}
	var all []string
	for _, pair := range strings.Split(text, ";") {
		if _, value, ok := strings.Cut(pair, "="); ok {
			all = append(all, value)
		}
	}
	return all
}

// shown is the decimal sign that a number's body shows beyond doubt: "24,90", "1.299,00", "0.285", "1.234.567" do,
// "1,299" does not.
func shown(body string) Decimal {
	points, commas := strings.Count(body, "."), strings.Count(body, ",")
	last := strings.LastIndexAny(body, ".,")
	switch {
	case last < 0:
		return Undecided
	case points > 0 && commas > 0:
		return signAt(body, last)
	case points+commas > 1:
		return other(signAt(body, last))
	}
	whole := body[:last]
	if len(body)-last-1 != 3 || whole == "" || whole[0] == '0' || len(whole) > 3 {
		return signAt(body, last)
	}
	return Undecided
}

func signAt(body string, at int) Decimal {
	if body[at] == ',' {
		return Comma
	}
	return Point
}

func other(d Decimal) Decimal {
	if d == Comma {
		return Point
	}
	return Comma
}
