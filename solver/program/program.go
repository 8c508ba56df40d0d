// Package program states the integer program that every question comes down to, and knows no bicycle: names are opaque.
//
// The problem, with the field names of this package. Choose one option k in every slot s, y[s,k] binary:
//
//	sum over k of y[s,k] = 1                                            for every slot
//	the classes of the chosen options stand in Relation.Allowed         for every relation
//	sum of Term.Coef * y[Term.Slot,Term.Option] <= Row.AtMost           for every row
//	cash    = sum of Option.Cash
//	        + Charge.Cash of every charge that a chosen option names, once
//	        + Shop.Shipping of every shop with a chosen option, unless the chosen Option.Listed there reach FreeOver
//	benefit = sum over measures of Weight * Curve.At(Base + chosen Amounts)
//	cash    <= Budget        benefit >= Floor
//	maximise Objective.Benefit * benefit - Objective.Cash * cash
//
// Ties are settled in this order: least cash, most benefit, fewest purchases, and then slot by slot the option that
// stands first. So one answer is right on every machine. All numbers are whole; nothing has a tolerance.
//
// Curves are concave, so in the direction of the objective every one of them is the least of its pieces, and the
// program is linear (see Linear). Who does the work is part of an option: a part fitted by the rider and the same part
// fitted by a shop are two options; charges shared by options (a tool, a shop job at one place, each further minute
// step of it) are paid once. Mixing both at one place is never cheaper than the better of the two, so no further row is
// needed.
package program

import "math"

// NoBudget is a Budget that never binds, NoFloor a Floor that never binds.
const (
	NoBudget int64 = math.MaxInt64
	NoFloor  int64 = math.MinInt64
	// NeverFree is the FreeOver of a shop that always charges its shipping.
	NeverFree int64 = -1
	// NoShop is the Shop of an option that comes from none.
	NoShop = -1
)

// Program is one bike's question. Engines never change it.
type Program struct {
	Name      string
	Slots     []Slot
	Relations []Relation
	Rows      []Row
	Charges   []Charge
	Shops     []Shop
	Measures  []Measure
	Budget    int64 // most cash, NoBudget for none
	Floor     int64 // least benefit, NoFloor for none
	Objective Objective
	Start     []int // a choice that an engine may begin with, if it is feasible; nil for none. It never changes the answer
	AnyTie    bool  // the fewest purchases and first options are not asked for: any choice of the best value and cash will do
}

// Objective weighs benefit against cash; both weights are whole and >= 0.
// {1, 0} is the most benefit for the budget, {0, 1} the least cash, {a, b} the most of a*benefit - b*cash.
type Objective struct{ Benefit, Cash int64 }

// Slot takes exactly one of its options. The order of slots and of options is the order of ties.
type Slot struct {
	Name    string
	Options []Option
}

// Option is one thing that may stand in a slot.
type Option struct {
	Name      string
	Cash      int64 // paid for this option alone, in minor units with tax; negative brings money
	Listed    int64 // listed price, >= 0, counted towards its shop's FreeOver
	Shop      int   // index into Program.Shops, or NoShop
	Charges   []int // indices into Program.Charges, without repeats
	Amounts   []Amount
	Purchases int // how many purchases it is (a set counts on its first slot only)
}

// Amount is what an option adds to a measure, in the measure's whole steps.
type Amount struct {
	Measure int
	Steps   int64
}

// Charge is paid once when at least one chosen option names it. Cash >= 0.
type Charge struct {
	Name string
	Cash int64
}

// Shop charges Shipping (>= 0) when an option of it is chosen and the chosen Listed sum stays below FreeOver.
type Shop struct {
	Name     string
	Shipping int64
	FreeOver int64 // NeverFree for none
}

// Measure is Weight (>= 0) times a concave curve of Base plus the chosen amounts.
type Measure struct {
	Name   string
	Weight int64
	Base   int64
	Curve  Curve
}

// Curve is concave and piecewise linear over whole numbers: value 0 at Knots[0], slope Slopes[i] between Knots[i] and
// Knots[i+1]. The first slope goes on to the left without limit and the last one to the right; nothing is clipped.
// len(Knots) = len(Slopes)+1 >= 2, knots rise, slopes never rise.
type Curve struct {
	Knots  []int64
	Slopes []int64
}

// At is the curve's value.
func (c Curve) At(x int64) int64 {
	value, last := int64(0), len(c.Slopes)-1
	for i, slope := range c.Slopes {
		if i == last || x <= c.Knots[i+1] {
			return value + slope*(x-c.Knots[i])
		}
		value += slope * (c.Knots[i+1] - c.Knots[i])
	}
	return value
}

// Pieces are the lines intercept + slope*x whose least is the curve.
func (c Curve) Pieces() (intercepts, slopes []int64) {
	value := int64(0)
	for i, slope := range c.Slopes {
		intercepts = append(intercepts, value-slope*c.Knots[i])
		value += slope * (c.Knots[i+1] - c.Knots[i])
	}
	return intercepts, c.Slopes
}

// Relation allows some combinations of options of two or more slots. Options are grouped into classes first.
type Relation struct {
	Name    string
	Slots   []int   // two or more different slots
	Class   [][]int // Class[i][k] is the class of option k of Slots[i]
	Count   []int   // number of classes of each slot
	Allowed []bool  // over all class combinations, the last slot's class running fastest
}

// Allows tells whether the classes (one for each slot of the relation) may stand together.
func (r *Relation) Allows(classes []int) bool {
	at := 0
	for i, c := range classes {
		at = at*r.Count[i] + c
	}
	return r.Allowed[at]
}

// Term is one summand of a row.
type Term struct {
	Slot, Option int
	Coef         int64
}

// Row is a linear row over the choices. A slot and option stand in it at most once.
type Row struct {
	Name   string
	Terms  []Term
	AtMost int64
}
