package scoring

import (
	"fmt"
	"strconv"

	"firstbolt/model"
)

// Ground is what a number rests on.
type Ground int

// By a fact that was measured or said; by a fact assumed for the kind of part or bike; by the rider's rating; by
// assumptions.csv, where nothing is known; or by nothing at all.
const (
	ByFact Ground = iota
	ByAssumedFact
	ByRating
	ByAssumption
	ByNothing
)

// String is the word used in answers.
func (g Ground) String() string {
	return [...]string{"fact", "assumed fact", "rated", "assumed", "not known"}[g]
}

// TraceLine is one step from a cell to an amount. The Gives of an amount's lines add up to its Exact.
type TraceLine struct {
	Fact   string // "tread", "grams", "condition"; "" for the slot's mere presence, a rating or an assumption
	Value  string // "knobbly", "27.2", "present", "rated 7", "likely 2.1"
	Form   string // how the number was found, to follow by hand: "row knobbly gives 3", "-1.25 x 640", "ln 1.75"
	Gives  float64
	Ground Ground
	Origin model.Origin // where the value stands
	Row    model.Origin // the row of measures.csv or assumptions.csv
	Source string       // that row's source
}

// String is the line in words.
func (l TraceLine) String() string {
	what := l.Fact
	if what == "" {
		what = l.Ground.String()
	}
	return fmt.Sprintf("%s %s: %s = %s (%s)", what, l.Value, l.Form, number(l.Gives), l.Ground)
}

// number is at most four significant decimals of a number.
func number(x float64) string { return strconv.FormatFloat(x, 'g', 5, 64) }

// Amount is what one thing adds to one measure.
type Amount struct {
	Measure int     // position in curves.csv
	Steps   int64   // in whole steps of the measure's scale, see Scorer.Amounts
	Exact   float64 // before rounding to steps
	Trace   []TraceLine
}

// Assumed tells whether the amount or a part of it rests on something that nobody said.
func (a Amount) Assumed() bool {
	for _, l := range a.Trace {
		if l.Ground == ByAssumedFact || l.Ground == ByAssumption {
			return true
		}
	}
	return false
}

// Note is something an answer must say about how it was reckoned.
type Note struct {
	Code  string // "assumed-mass", "not-scored"
	Where string // sheet and cell, or what it is about
	Says  string
	Fix   string // what the rider can do about it
}
