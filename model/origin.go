package model

import "fmt"

// Certainty says how far a value can be relied on. The zero value is Unknown.
type Certainty int

// The certainties, from the least to the most reliable.
const (
	Unknown    Certainty = iota // nothing was said
	Assumed                     // typical for the kind of part or bike; nobody looked at this one
	Remembered                  // "27.2?", "27.2 stamped", "about 27": said, not measured
	Measured                    // stands in a sheet without a doubt beside it
)

// String is the word used in answers.
func (c Certainty) String() string {
	return [...]string{"unknown", "assumed", "remembered", "measured"}[c]
}

// Origin says where a value came from, so that every answer can name the cell.
type Origin struct {
	Sheet string // file as the rider names it, "parts.csv"; or "kind", "like", "slots table" for assumed values
	Row   int    // physical line where the record starts, 1-based; 0 when there is none
	Cell  string // spreadsheet name of the cell, "D14"; empty when there is none
	Raw   string // the cell's text as typed
	How   Certainty
}

// String is the place as answers print it: "sheet:line (cell)", "sheet:line" or the sheet alone.
func (o Origin) String() string {
	switch {
	case o.Row == 0:
		return o.Sheet
	case o.Cell == "":
		return fmt.Sprintf("%s:%d", o.Sheet, o.Row)
	default:
		return fmt.Sprintf("%s:%d (%s)", o.Sheet, o.Row, o.Cell)
	}
}

// Stated is a value together with whether it was stated at all and where.
// Known false means unknown, which is never the same as the zero Value.
type Stated[T any] struct {
	Value  T
	Known  bool
	Origin Origin
}

// Say wraps a known value.
func Say[T any](v T, o Origin) Stated[T] { return Stated[T]{Value: v, Known: true, Origin: o} }

// Or is the value, or the other one where nothing was stated.
func (s Stated[T]) Or(other T) T {
	if s.Known {
		return s.Value
	}
	return other
}

// YesNo is a yes/no cell: an empty cell is neither.
type YesNo int

// The zero value is NotSaid.
const (
	NotSaid YesNo = iota
	No
	Yes
)
