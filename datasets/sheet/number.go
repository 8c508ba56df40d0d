package sheet

import (
	"fmt"
	"math/big"
	"regexp"
	"strings"
)

// flaw is why a text is no number: what was wanted instead and how to mend it.
type flaw struct{ code, wanted, fix string }

// numeral is a number as written, with what stands around it.
type numeral struct {
	value    *big.Rat
	before   string // a currency sign, or nothing
	after    string // a unit, or nothing
	doubt    bool   // a range, or a word of doubt beside it
	span     bool   // a range; value is its middle
	fraction bool   // written with a fraction: 1-1/8
}

var (
	mixedFraction = regexp.MustCompile(`^(?:(\d{1,3})[- ]+)?(\d{1,3})/(\d{1,3})`)
	signFraction  = regexp.MustCompile(`^(\d{0,3})[- ]*([¼½¾⅛⅜⅝⅞])`)
	rangeSign     = regexp.MustCompile(`^\s*(?:-|–|—|\.\.|…|to\b|bis\b)\s*(?:[.,]?\d)`)
	exponent      = regexp.MustCompile(`^[eE][-+]?\d`)
	dateCell      = regexp.MustCompile(`(?i)^(\d{1,2}[-. /](jan|feb|m[aä]r|apr|ma[iy]|jun|jul|aug|sep|o[ck]t|nov|de[cz])[a-z]*\.?([-. /]\d{2,4})?` +
		`|(jan|feb|m[aä]r|apr|ma[iy]|jun|jul|aug|sep|o[ck]t|nov|de[cz])[a-z]*[-. /]\d{1,4}` +
		`|\d{4}-\d{1,2}-\d{1,2}.*|\d{1,2}[./]\d{1,2}[./]\d{2,4})$`)
)

var fractionSigns = map[string]*big.Rat{
	"¼": big.NewRat(1, 4), "½": big.NewRat(1, 2), "¾": big.NewRat(3, 4), "⅛": big.NewRat(1, 8),
	"⅜": big.NewRat(3, 8), "⅝": big.NewRat(5, 8), "⅞": big.NewRat(7, 8),
}

// parseNumeral reads a number and what stands around it. The decimal sign given decides numbers that could be read in
// two ways; strict means that it holds for all others too.
func parseNumeral(text string, d Decimal, strict bool) (numeral, *flaw) {
	text = tidy(text)
	if f := notANumber(text); f != nil {
		return numeral{}, f
	}
	text, doubt := stripDoubt(text)
	text, negative := stripSign(text)
	at := strings.IndexAny(text, "0123456789¼½¾⅛⅜⅝⅞")
	if at < 0 {
		return numeral{}, &flaw{code: "number", wanted: "a number"}
	}
	n := numeral{doubt: doubt}
	rest := ""
	if value, length := fractionAt(text[at:]); length > 0 {
		n.value, n.fraction, rest = value, true, text[at+length:]
	} else {
		body, start := numberBody(text, at)
		value, f := parseBody(body, d, strict)
		if f != nil {
			return numeral{}, f
		}
		at, n.value, rest = start, value, text[start+len(body):]
	}
	n.before = strings.TrimSpace(text[:at])
	if strings.HasSuffix(n.before, "-") {
		n.before, negative = strings.TrimSpace(strings.TrimSuffix(n.before, "-")), true
	}
	if rangeSign.MatchString(rest) && !negative {
		return n.upTo(rest, d, strict)
	}
	n.after = strings.TrimSpace(rest)
	if n.after == "-" {
		n.after, negative = "", true
	}
	if exponent.MatchString(n.after) {
		return numeral{}, &flaw{"exponent", "a number in plain digits", "write it out without an exponent"}
	}
	if negative {
		n.value.Neg(n.value)
	}
	return n, nil
}

// upTo reads the other end of a range; the value becomes the middle.
func (n numeral) upTo(rest string, d Decimal, strict bool) (numeral, *flaw) {
	high, f := parseNumeral(rest[strings.IndexAny(rest, ".,0123456789"):], d, strict)
	if f != nil || high.span {
		return numeral{}, &flaw{code: "number", wanted: "a number, or a range such as 27-27.4"}
	}
	if high.value.Cmp(n.value) < 0 {
		return numeral{}, &flaw{"range", "a range from the smaller to the larger number", "swap the two"}
	}
	n.value = new(big.Rat).Quo(new(big.Rat).Add(n.value, high.value), big.NewRat(2, 1))
	n.after, n.doubt, n.span = high.after, true, true
	return n, nil
}

// notANumber recognises what spreadsheets make of numbers.
func notANumber(text string) *flaw {
	switch {
	case len(text) > 200:
		return &flaw{code: "number", wanted: "a number"}
	case strings.HasPrefix(text, "="):
		return &flaw{"formula", "a number", "this is a formula, not its value; export values instead of formulas"}
	case dateCell.MatchString(text):
		return &flaw{"date", "a number", "the spreadsheet made a date of it; format the column as text and type it anew"}
	}
	return nil
}

// stripSign takes off a sign in front, a minus behind, or the accountant's parentheses.
func stripSign(text string) (rest string, negative bool) {
	text = strings.Replace(text, "\u2212", "-", 1)
	if strings.HasPrefix(text, "(") && strings.HasSuffix(text, ")") {
		return strings.TrimSpace(text[1 : len(text)-1]), true
	}
	if strings.HasPrefix(text, "-") || strings.HasPrefix(text, "–") {
		return strings.TrimSpace(strings.TrimLeft(text, "-–")), true
	}
	return strings.TrimSpace(strings.TrimPrefix(text, "+")), false
}

func fractionAt(text string) (value *big.Rat, length int) {
	if m := mixedFraction.FindStringSubmatch(text); m != nil && m[3] != "0" {
		value, ok := new(big.Rat).SetString(m[2] + "/" + m[3])
		if !ok {
			return nil, 0
		}
		return plusWhole(value, m[1]), len(m[0])
	}
	if m := signFraction.FindStringSubmatch(text); m != nil {
		return plusWhole(new(big.Rat).Set(fractionSigns[m[2]]), m[1]), len(m[0])
	}
	return nil, 0
}

func plusWhole(value *big.Rat, whole string) *big.Rat {
	if w, ok := new(big.Rat).SetString(whole); ok {
		value.Add(value, w)
	}
	return value
}

// numberBody is the run of digits, signs and grouping blanks around the first digit, and where it starts.
func numberBody(text string, at int) (body string, start int) {
	start = at
	if at > 0 && (text[at-1] == '.' || text[at-1] == ',') {
		start--
	}
	end := at
	for end < len(text) {
		switch n := groupSign(text[end:]); {
		case isDigit(text[end]):
			end++
		case n > 0 && end+n < len(text) && isDigit(text[end+n]):
			end += n
		default:
			return text[start:end], start
		}
	}
	return text[start:end], start
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

// groupSign is the length of a sign that may stand between digits: point, comma, blank, apostrophe.
func groupSign(text string) int {
	switch {
	case strings.ContainsRune("., '", rune(text[0])):
		return 1
	case strings.HasPrefix(text, "’"):
		return len("’")
	default:
		return 0
	}
}

var groupSigns = strings.NewReplacer(".", "", ",", "", " ", "", "'", "")

// parseBody reads digits with grouping and decimal signs, exactly.
func parseBody(body string, d Decimal, strict bool) (*big.Rat, *flaw) {
	body = strings.ReplaceAll(body, "’", "'")
	sign := shown(body)
	switch {
	case strict:
		sign = d
	case sign == Undecided && strings.ContainsAny(body, ".,"):
		if sign = d; d == Undecided {
			return nil, ambiguous(body)
		}
	}
	whole, fraction, _ := strings.Cut(body, string(sign.mark()))
	if strings.ContainsAny(fraction, "., '") || !grouped(whole) {
		return nil, badGroups(body, strict, d)
	}
	digits := groupSigns.Replace(whole)
	if len(digits) > 15 || len(fraction) > 15 {
		return nil, &flaw{"too_large", "a number of at most 15 digits", "look for a missing separator"}
	}
	value, ok := new(big.Rat).SetString("0" + digits + "." + fraction + "0")
	if !ok {
		return nil, &flaw{code: "number", wanted: "a number"}
	}
	return value, nil
}

// grouped tells whether the digits before the decimal sign stand in one group, or in groups of three after the first
// with one and the same sign between them.
func grouped(whole string) bool {
	at := strings.IndexAny(whole, "., '")
	if at < 0 {
		return true
	}
	groups := strings.Split(whole, whole[at:at+1])
	for i, g := range groups {
		if strings.ContainsAny(g, "., '") || i == 0 && (g == "" || len(g) > 3) || i > 0 && len(g) != 3 {
			return false
		}
	}
	return true
}

func ambiguous(body string) *flaw {
	at := strings.IndexAny(body, ".,")
	return &flaw{
		"ambiguous_number", fmt.Sprintf("a number that can be read in one way only: this is %s or %s.%s", body[:at]+body[at+1:], body[:at], body[at+1:]),
		"say `--decimal comma` or `--decimal point`",
	}
}

func badGroups(body string, strict bool, d Decimal) *flaw {
	if strict && shown(body) == other(d) {
		return &flaw{"number", "a number with a decimal " + d.String(), "the decimal sign was said to be a " + d.String()}
	}
	return &flaw{"number", "a number such as 12.50 or 1,299.00", "groups of digits have three each"}
}
