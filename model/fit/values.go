package fit

import (
	"math"
	"slices"
	"strconv"

	"firstbolt/model"
)

// NoLow and NoHigh stand where nothing that is plausible for the fact (facts.csv) is too small or too large.
const (
	NoLow  int64 = math.MinInt64
	NoHigh int64 = math.MaxInt64
)

// Values are what a fact may be: one of the Choices where Listed, else any number from Low to High, both among them,
// but for those in Except. Numbers are thousandths; a listed number stands as it is written ("6.5").
type Values struct {
	Listed    bool
	Choices   []string
	Low, High int64
	Except    []int64
}

// numbers are all numbers from low to high.
func numbers(low, high int64) Values { return Values{Low: low, High: high} }

// noNumber is the empty range.
func noNumber() Values { return numbers(NoHigh, NoLow) }

// None tells whether no value does.
func (v Values) None() bool {
	if v.Listed {
		return len(v.Choices) == 0
	}
	return v.Low > v.High
}

// Unlimited tells whether every number does.
func (v Values) Unlimited() bool {
	return !v.Listed && v.Low == NoLow && v.High == NoHigh && len(v.Except) == 0
}

// Has tells whether a fact may have the value; of alternatives one is enough.
func (v Values) Has(x model.Value) bool {
	if v.Listed {
		return slices.ContainsFunc(words(x), func(w string) bool { return slices.Contains(v.Choices, w) })
	}
	return x.Number && v.Low <= x.Milli && x.Milli <= v.High && !slices.Contains(v.Except, x.Milli)
}

// and are the values that are in both.
func (v Values) and(w Values) Values {
	if !v.Listed && w.Listed {
		v, w = w, v
	}
	if v.Listed {
		both := Values{Listed: true}
		for _, c := range v.Choices {
			if w.has(c) {
				both.Choices = append(both.Choices, c)
			}
		}
		return both
	}
	both := numbers(max(v.Low, w.Low), min(v.High, w.High))
	for _, x := range slices.Concat(v.Except, w.Except) {
		if both.Low <= x && x <= both.High && !slices.Contains(both.Except, x) {
			both.Except = append(both.Except, x)
		}
	}
	if both.Low == both.High && len(both.Except) > 0 {
		return noNumber()
	}
	return both
}

// has tells whether the values hold a listed choice or number. A choice that is no number is in no range.
func (v Values) has(listed string) bool {
	if v.Listed {
		return slices.Contains(v.Choices, listed)
	}
	n, err := strconv.ParseFloat(listed, 64)
	return v.Unlimited() || err == nil && v.Has(model.NumberValue(int64(math.Round(n*1000)), model.Origin{}))
}

// within tells whether all values of v are in w.
func (v Values) within(w Values) bool {
	if v.Listed {
		return !slices.ContainsFunc(v.Choices, func(c string) bool { return !w.has(c) })
	}
	if w.Listed {
		return v.None()
	}
	return v.None() || w.Low <= v.Low && v.High <= w.High && !slices.ContainsFunc(w.Except, func(x int64) bool {
		return v.Has(model.NumberValue(x, model.Origin{}))
	})
}
