package sheet

import (
	"fmt"
	"math/big"
	"strings"
)

// Reading is a number read from a cell, in whole units of its reader: thousandths, minor units of money, grams.
type Reading struct {
	N     int64
	Given bool // false: the cell is empty, says that nobody knows, or was complained about
	Doubt bool // "27.2?", "about 27", "27-27.4": said, not measured
}

// Answer is a yes or no read from a cell.
type Answer struct{ Yes, Given, Doubt bool }

// Values reads typed values from the cells of one sheet and collects the complaints about them.
type Values struct {
	Complaints []Complaint
	sheet      *Sheet
}

// Values is a reader of the sheet's cells.
func (s *Sheet) Values() *Values { return &Values{sheet: s} }

// fault complains about a cell.
func (v *Values) fault(c Cell, f flaw) {
	if looksDoubleEncoded(c.Text) {
		f.fix = "the text was saved in a wrong encoding; export the sheet anew as UTF-8"
	} else if f.fix == "" {
		f.fix = "write it like the example in `firstbolt schema`"
	}
	c.Text = shorten(c.Text)
	v.Complaints = append(v.Complaints, c.Complain(f.code, f.wanted, f.fix))
}

// looksDoubleEncoded finds UTF-8 that was read as Windows-1252 and saved once more.
func looksDoubleEncoded(text string) bool {
	return strings.Contains(text, "â‚¬") || strings.Contains(text, "Ã©") || strings.Contains(text, "Ã¤") || strings.Contains(text, "Ã¼") || strings.Contains(text, "Â£")
}

// numeral reads the number in a cell; false where there is none or a complaint was made.
func (v *Values) numeral(c Cell, wanted string) (numeral, bool) {
	if saysNothing(c.Text) {
		return numeral{}, false
	}
	n, f := parseNumeral(c.Text, v.sheet.decimalOf(c.Name), v.sheet.forced != Undecided)
	if f == nil {
		return n, true
	}
	if f.wanted == "a number" {
		f.wanted = wanted
	}
	if f.fix == "" {
		f.fix = letterHint(c.Text)
	}
	v.fault(c, *f)
	return numeral{}, false
}

// Number reads a number in thousandths. The unit may stand beside it.
func (v *Values) Number(c Cell, unit string) Reading {
	return v.scaled(c, scale{wanted: "a number such as 27.2", times: thousand, unit: unit})
}

// Whole reads a whole number.
func (v *Values) Whole(c Cell) Reading {
	r := v.Number(c, "")
	if r.Given && r.N%1000 != 0 {
		v.fault(c, flaw{"whole_number", "a whole number", "write it without decimals"})
		return Reading{}
	}
	r.N /= 1000
	return r
}

// Grams reads a mass in whole grams, rounded; g, kg, lb and oz may stand beside it or in the header.
func (v *Values) Grams(c Cell) Reading {
	return v.scaled(c, scale{wanted: `a mass such as 590, "590 g" or "1.3 lb"`, times: one, units: gramUnits, unit: "g"})
}

// Length reads a length in thousandths of a millimetre; mm, cm and inches may stand beside it or in the header. A
// fraction is one of an inch, for nobody writes millimetres so; without an inch mark it counts as doubtful.
func (v *Values) Length(c Cell) Reading {
	return v.scaled(c, scale{wanted: `a length such as 27.2 or 1-1/8"`, times: thousand, units: millimetreUnits, unit: "mm"})
}

// Measure reads a number of the unit in thousandths of it: lengths and masses as Length and Grams do.
func (v *Values) Measure(c Cell, unit string) Reading {
	switch unit {
	case "mm":
		return v.Length(c)
	case "g":
		return v.scaled(c, scale{wanted: `a mass such as 590 or "1.3 lb"`, times: thousand, units: gramUnits, unit: "g"})
	case "kg":
		return v.scaled(c, scale{wanted: `a mass such as 85 or "187 lb"`, times: one, units: gramUnits, unit: "kg"})
	case "cm":
		return v.scaled(c, scale{wanted: `a length such as 178 or "70 in"`, times: hundred, units: millimetreUnits, unit: "cm"})
	}
	return v.Number(c, unit)
}

// scale says how a number becomes a Reading.
type scale struct {
	wanted string
	times  *big.Rat
	units  map[string]*big.Rat // nil: only the unit itself may stand beside the number
	unit   string              // what a bare number means
}

func (v *Values) scaled(c Cell, s scale) Reading {
	n, ok := v.numeral(c, s.wanted)
	if !ok {
		return Reading{}
	}
	factor, ok := s.factor(c, &n)
	if !ok || n.before != "" {
		v.fault(c, flaw{"unit", s.wanted, s.unitHint(c.Text)})
		return Reading{}
	}
	value := new(big.Rat).Mul(n.value, factor)
	whole, ok := roundHalfUp(value.Mul(value, s.times))
	if !ok {
		v.fault(c, flaw{"too_large", s.wanted, "this is far too large"})
		return Reading{}
	}
	return Reading{N: whole, Given: true, Doubt: n.doubt}
}

// factor is what the number's unit, the header's or the column's own stands for.
func (s scale) factor(c Cell, n *numeral) (*big.Rat, bool) {
	if s.units == nil {
		plain := n.after == "" || n.after == "%" && s.unit == "percent" || s.unit != "" && sameUnit(n.after, s.unit)
		return one, plain
	}
	unit := strings.ToLower(n.after)
	if unit == "" && n.fraction && s.unit == "mm" {
		n.doubt = true
		return inch, true
	}
	if unit == "" {
		unit = strings.ToLower(c.Unit)
	}
	if unit == "" {
		unit = s.unit
	}
	f, ok := s.units[unit]
	return f, ok
}

// sameUnit compares "tooth" with "teeth" and "°" with "deg" leniently: a unit beside a plain number only repeats it.
func sameUnit(written, unit string) bool {
	short := map[string]string{
		"°": "deg", "degrees": "deg", "degree": "deg", "t": "teeth", "tooth": "teeth", "speed": "speeds", "spd": "speeds",
		"season": "seasons", "h": "hours", "hour": "hours", "percent": "percent", "tpi": "tpi",
	}
	a, b := Key(written), Key(unit)
	if s, ok := short[a]; ok {
		a = s
	}
	if s, ok := short[b]; ok {
		b = s
	}
	return a == b || a == b+"s" || a+"s" == b
}

func (s scale) unitHint(text string) string {
	if hint := letterHint(text); hint != "" {
		return hint
	}
	if s.unit == "" {
		return "write the number alone"
	}
	return fmt.Sprintf("write the number alone, in %s", s.unit)
}

// letterHint finds the letters that are taken for digits.
func letterHint(text string) string {
	text = tidy(text)
	if text == "" || !strings.ContainsAny(text, "0123456789") {
		return ""
	}
	for _, pair := range []struct{ letter, name, digit string }{{"O", "O", "0"}, {"o", "o", "0"}, {"l", "l", "1"}, {"I", "I", "1"}} {
		at := strings.Index(text, pair.letter)
		if at < 0 || at > 0 && !strings.ContainsAny(text[at-1:at], "0123456789.,Ool") {
			continue
		}
		if at == len(text)-1 {
			return fmt.Sprintf("the last sign is the letter %s, not the digit %s", pair.name, pair.digit)
		}
		if strings.ContainsAny(text[at+1:at+2], "0123456789.,Ool") {
			return fmt.Sprintf("there is the letter %s where the digit %s is meant", pair.name, pair.digit)
		}
	}
	return ""
}

// roundHalfUp is the nearest whole number, halves away from zero; false beyond 10^15.
func roundHalfUp(r *big.Rat) (int64, bool) {
	num := new(big.Int).Abs(r.Num())
	num.Mul(num, big.NewInt(2)).Add(num, r.Denom())
	num.Quo(num, new(big.Int).Mul(r.Denom(), big.NewInt(2)))
	if num.BitLen() > 50 {
		return 0, false
	}
	if r.Sign() < 0 {
		return -num.Int64(), true
	}
	return num.Int64(), true
}

// FlagValues reads values that stand in no sheet: the flags of a command.
func FlagValues(d Decimal) *Values { return (&Sheet{forced: d}).Values() }
