// Package ask turns one request into one answer: it loads the shed, chooses the engines, puts the question to the
// solver and fills the answer. The commands and the local page ask through it alike. It knows no format.
package ask

import (
	"errors"
	"io"
	"time"
)

// Request is one question as it was typed.
type Request struct {
	Command   string
	Path      string    // folder of the shed; "-" reads the parts sheet from Input and all else from the current folder
	Demo      bool      // the embedded demo shed instead of Path
	Input     io.Reader // standard input
	Settings  []Setting // settings of rider.csv that win over it
	Decimal   string    // "", "comma" or "point"
	Sheets    map[string]string
	Bike      string // the bike that is kept; "" for the rider's own
	Engine    string // "auto", "builtin" or "lpsolve"
	Strict    bool
	TimeLimit time.Duration // 0 for none
	Timed     bool          // say how long it took
	Sure      bool
	Most      int
	Allow     []string // fit rules on which practice disagrees
	Part      string   // of Fits: one part, by name or id; "" for all
	Slot      string   // of Want: a place on the bike
	Read      string   // of Measure: a filled page or sheet to take back; "-" for Input
	Form      string   // of Program: "mps" or "lp"
}

// Setting is one setting given by a flag.
type Setting struct{ Name, Value string }

// wrong is wrong use of the command line: an unknown bike or sheet, no budget.
type wrong struct{ text string }

func (w wrong) Error() string { return w.text }

// WrongUse tells whether an error is wrong use of the command line rather than a failure.
func WrongUse(err error) bool {
	var w wrong
	return errors.As(err, &w)
}
