package sheet

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

func (s *Sheet) decideDecimals() {}
