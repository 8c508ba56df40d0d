package model

import (
	"strconv"
	"strings"
)

// Value is one fact of one thing: a number (kept in whole thousandths, so that 27.2 is exactly 27.2)
// or one or several choices ("convertible by end caps" lists alternatives).
// A Value with Origin.How == Unknown and no content means: asked for, not known.
type Value struct {
	Milli   int64    // the number times 1000, when IsNumber
	Number  bool     // a number rather than a choice
	Choices []string // the choice, or the alternatives any of which will do; empty for numbers
	Origin  Origin
}

// NumberValue is a number given in thousandths.
func NumberValue(milli int64, o Origin) Value { return Value{Milli: milli, Number: true, Origin: o} }

// ChoiceValue is a choice, or several alternatives.
func ChoiceValue(o Origin, choices ...string) Value { return Value{Choices: choices, Origin: o} }

// Known tells whether the value says anything.
func (v Value) Known() bool { return v.Number || len(v.Choices) > 0 }

// Float is the number as a float, for scoring only; fit compares thousandths.
func (v Value) Float() float64 { return float64(v.Milli) / 1000 }

// Is tells whether one of the alternatives is the choice.
func (v Value) Is(choice string) bool {
	for _, c := range v.Choices {
		if c == choice {
			return true
		}
	}
	return false
}

// String is the value as written in answers: "27.2", "IS", "IS or PM"; "unknown" where nothing is known.
func (v Value) String() string {
	switch {
	case v.Number:
		return strconv.FormatFloat(v.Float(), 'f', -1, 64)
	case len(v.Choices) > 0:
		return strings.Join(v.Choices, " or ")
	default:
		return "unknown"
	}
}

// Facts are a thing's facts by the name in facts.csv. A missing key is an unknown fact.
type Facts map[string]Value
