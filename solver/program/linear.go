package program

import (
	"fmt"
	"math"
)

// Linear is a Program as a plain mixed 0-1 linear program in whole numbers: maximise Objective over all columns that
// meet every row. Every column is >= 0. No row is empty, no column stands in a row twice, rows that can never bind are
// left out, and a row of binaries alone is divided by the greatest common divisor of its coefficients. Cash and Benefit
// are the program's own as expressions over the columns; at a choice, Cash can be lowered to the exact cash and Benefit
// raised to the exact benefit, so they are only meant for the directions the program asks for.
type Linear struct {
	Name      string
	Columns   []Column
	Rows      []LinearRow
	Objective Expression
	Cash      Expression
	Benefit   Expression

	choice [][]int // choice[s][k] is the column of option k of slot s
	owner  []int   // owner[c] is the slot of column c, noSlot for a column that is no choice
}

const noSlot = -1

// wholeWithin is how far from a whole number a solver's value of a binary may lie. lp_solve's own tolerance for whole
// columns is 1e-7, that of GLPK 1e-5 at worst (seen as 1e-9); anything beyond is not a choice but a fault.
const wholeWithin = 1e-6

// Column is one unknown between 0 and Upper; a binary is whole and has Upper 1.
type Column struct {
	Name   string
	Binary bool
	Upper  int64
}

// Entry is one coefficient of a row or expression, never 0.
type Entry struct {
	Column int
	Coef   int64
}

// Expression is a linear expression over the columns.
type Expression struct {
	Entries  []Entry
	Constant int64
}

// LinearRow says that the sum of its entries is at most Right, or exactly Right.
type LinearRow struct {
	Name    string
	Entries []Entry
	Equal   bool
	Right   int64
}

// Linear writes the program as a linear one. The program must be valid.
func (p *Program) Linear() *Linear {
	b := &linearizer{program: p, linear: &Linear{Name: p.Name}, names: naming{}}
	b.slots()
	for i := range p.Relations {
		b.relation(&p.Relations[i])
	}
	for i := range p.Rows {
		b.row(&p.Rows[i])
	}
	b.money()
	b.measures()
	b.limits()
	l := b.linear
	l.Objective = l.Benefit.times(p.Objective.Benefit).plus(l.Cash.times(-p.Objective.Cash))
	return l
}

// Choice reads the chosen option of every slot from the values of the columns. It is an error when a choice lies
// further than 1e-6 from 0 or 1, or when a slot has not exactly one option.
func (l *Linear) Choice(values []float64) ([]int, error) {
	if len(values) != len(l.Columns) {
		return nil, fmt.Errorf("%d values are given for %d columns", len(values), len(l.Columns))
	}
	chosen := make([]int, len(l.choice))
	for s, columns := range l.choice {
		chosen[s] = noSlot
		for k, c := range columns {
			whole := math.Round(values[c])
			if !(math.Abs(values[c]-whole) <= wholeWithin) || whole < 0 || whole > 1 {
				return nil, fmt.Errorf("column %q is %v, want 0 or 1", l.Columns[c].Name, values[c])
			}
			if whole == 0 {
				continue
			}
			if chosen[s] != noSlot {
				return nil, fmt.Errorf("columns %q and %q are both 1, want one of them", l.Columns[columns[chosen[s]]].Name, l.Columns[c].Name)
			}
			chosen[s] = k
		}
		if chosen[s] == noSlot {
			return nil, fmt.Errorf("the columns beside %q are all 0, want one of them 1", l.Columns[columns[0]].Name)
		}
	}
	return chosen, nil
}

// Range is the least and the largest sum the entries can reach, each slot taking one option.
func (l *Linear) Range(entries []Entry) (low, high int64) {
	type span struct {
		count     int
		low, high int64
	}
	slots := map[int]*span{}
	for _, e := range entries {
		slot := noSlot
		if e.Column < len(l.owner) {
			slot = l.owner[e.Column]
		}
		if slot == noSlot {
			reach := e.Coef * l.Columns[e.Column].Upper
			low, high = low+min(reach, 0), high+max(reach, 0)
			continue
		}
		at := slots[slot]
		if at == nil {
			at = &span{low: e.Coef, high: e.Coef}
			slots[slot] = at
		}
		at.count++
		at.low, at.high = min(at.low, e.Coef), max(at.high, e.Coef)
	}
	for slot, at := range slots {
		if at.count < len(l.choice[slot]) {
			at.low, at.high = min(at.low, 0), max(at.high, 0)
		}
		low, high = low+at.low, high+at.high
	}
	return low, high
}

// AtLeast returns the same linear program with one row more: the expression is at least the value.
func (l *Linear) AtLeast(name string, e Expression, value int64) *Linear {
	more := *l
	more.Rows = append([]LinearRow(nil), l.Rows...)
	if len(e.Entries) > 0 {
		more.Rows = append(more.Rows, LinearRow{Name: name, Entries: e.times(-1).Entries, Right: e.Constant - value})
	}
	return &more
}

func (e Expression) times(factor int64) Expression {
	if factor == 0 {
		return Expression{}
	}
	product := Expression{Constant: e.Constant * factor, Entries: make([]Entry, len(e.Entries))}
	for i, entry := range e.Entries {
		product.Entries[i] = Entry{entry.Column, entry.Coef * factor}
	}
	return product
}

func (e Expression) plus(other Expression) Expression {
	entries := append(append([]Entry(nil), e.Entries...), other.Entries...)
	return Expression{Entries: merged(entries), Constant: e.Constant + other.Constant}
}
