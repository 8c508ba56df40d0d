package model

// Wish is what the rider says about a part before any reckoning.
type Wish int

// The zero value is Consider.
const (
	Consider Wish = iota
	Must
	Never
)

// Place is one way to mount a part: the slots it fills together, in the order of slots.csv.
// A set has one place with several slots; a tyre that may go front or rear has two places.
type Place []string

// Part is one row of parts.csv: something that can be bought, or a fitted part of a donor bike (price 0).
type Part struct {
	ID         string // stable name in answers: the id column, else the part's name
	Name       string
	Kind       string // row of kinds.csv it was read as; "" when only a slot was given
	Places     []Place
	Facts      Facts // for a set: every fact applies to those of its slots that have it (facts.csv)
	Price      Money // as listed in the shop, before tax on top
	PriceAt    Origin
	Shop       string // row of shops.csv; "" when none was named
	Link       string
	Used       YesNo
	Inspected  YesNo
	Available  Stated[int] // how many can be bought; unknown = as many as fit
	Owned      int         // how many lie in the shed already: free to use, work is not
	Returnable YesNo
	Grams      Stated[Grams]
	Seasons    Stated[float64]
	Wish       Wish
	Ratings    map[string]Stated[float64] // 0..10 by criterion key
	Note       string
	Donor      string // bike it is taken off; "" for a part from a shop
	Origin     Origin // the row
}
