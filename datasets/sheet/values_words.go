package sheet

import (
	"fmt"
	"math/big"
	"slices"
	"strings"
)

// Money reads an amount in minor units of the currency. A sign or code of this currency may stand beside it; another
// one is complained about, and so is a range, for money is never guessed.
func (v *Values) Money(c Cell, cur Currency) Reading {
	wanted := "an amount such as " + cur.example(v.sheet.decimalOf(c.Name))
	n, ok := v.numeral(c, wanted)
	if !ok {
		return Reading{}
	}
	for _, noCents := range []string{",-", ".-", ",–", ".–", ",—"} {
		n.after = strings.TrimSpace(strings.TrimPrefix(n.after, noCents))
	}
	same, isCurrency := true, true
	for _, text := range []string{n.before, n.after, currencyIn(c.Unit)} {
		s, is := cur.meant(text)
		same, isCurrency = same && s, isCurrency && is
	}
	minor, exact, small := n.minor(cur)
	twoWays := v.twoWays(c, cur)
	switch {
	case !isCurrency || n.fraction:
		v.fault(c, flaw{"price", wanted, letterHint(c.Text)})
	case !same:
		v.fault(c, flaw{"other_currency", "an amount in " + cur.Code, "turn it into " + cur.Code + ", or set `currency` in rider.csv"})
	case n.span:
		v.fault(c, flaw{"price_range", "one amount", "write the higher one; money is not guessed"})
	case !small:
		v.fault(c, flaw{"too_large", wanted, "is the decimal sign where it should be?"})
	case twoWays != nil:
		v.fault(c, *twoWays)
	case !exact:
		v.fault(c, flaw{"price", fmt.Sprintf("an amount with at most %d decimals", cur.Digits), "write what is paid; if thousands are meant, leave their mark out"})
	default:
		return Reading{N: minor, Given: true, Doubt: n.doubt}
	}
	return Reading{}
}

// currencyIn is a header's unit where that is a currency: "Price (EUR)"; "price (new)" says nothing.
func currencyIn(unit string) string {
	if _, is := (Currency{}).meant(unit); is {
		return unit
	}
	return ""
}

// twoWays is the flaw of an amount with three digits after a lone mark that its column uses for decimals: thousands are
// as likely, and money is not guessed. Nil where the rider said which mark it is, or the currency has three decimals.
func (v *Values) twoWays(c Cell, cur Currency) *flaw {
	text := tidy(c.Text)
	body, _ := numberBody(text, max(0, strings.IndexAny(text, "0123456789")))
	at := strings.IndexAny(body, ".,")
	if v.sheet.forced != Undecided || cur.Digits > 2 || at < 0 || shown(body) != Undecided || body[at] != v.sheet.decimalOf(c.Name).mark() {
		return nil
	}
	return ambiguous(body)
}

// minor is the amount in minor units; not exact where it has a part of one, not small beyond 10^15.
func (n numeral) minor(cur Currency) (minor int64, exact, small bool) {
	times := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(cur.Digits)), nil)
	r := new(big.Rat).Mul(n.value, new(big.Rat).SetInt(times))
	if _, small = roundHalfUp(r); !small || !r.IsInt() {
		return 0, false, small
	}
	return r.Num().Int64(), true, true
}

// example is 12.50 as written in the currency and style.
func (c Currency) example(d Decimal) string {
	if c.Digits == 0 {
		return "1250"
	}
	return "12" + string(d.mark()) + "50" + strings.Repeat("0", max(0, c.Digits-2))
}

var (
	yesWords = words("yes", "y", "true", "t", "x", "1", "✓", "✔", "☑", "☒", "ja", "j", "wahr", "oui", "vrai", "si", "sì", "vero", "tak", "on")
	noWords  = words("no", "n", "false", "f", "0", "✗", "✘", "☐", "nein", "falsch", "non", "faux", "falso", "nie", "nee", "off", "none")
)

func words(all ...string) map[string]bool {
	set := map[string]bool{}
	for _, w := range all {
		set[Key(w)] = true
	}
	return set
}

// YesNo reads a yes or no. An empty cell is neither.
func (v *Values) YesNo(c Cell) Answer {
	if saysNothing(c.Text) || Key(c.Text) == "" {
		return Answer{}
	}
	text, doubt := stripDoubt(tidy(c.Text))
	switch key := Key(text); {
	case yesWords[key]:
		return Answer{Yes: true, Given: true, Doubt: doubt}
	case noWords[key]:
		return Answer{Given: true, Doubt: doubt}
	}
	v.fault(c, flaw{"yes_no", "yes or no", "write yes or no, or leave it empty if you do not know"})
	return Answer{}
}

// Choice reads one of the allowed words; false where the cell is empty or was complained about.
func (v *Values) Choice(c Cell, allowed []string) (choice string, ok bool) {
	if saysNothing(c.Text) || Key(c.Text) == "" {
		return "", false
	}
	text, _ := stripDoubt(tidy(c.Text))
	if choice, ok = Match(text, allowed); !ok {
		v.fault(c, flaw{"choice", "one of " + strings.Join(allowed, ", "), DidYouMean(text, allowed, "write one of them")})
	}
	return choice, ok
}

// Choices reads one of the allowed words, or several alternatives joined by " or ".
func (v *Values) Choices(c Cell, allowed []string) (choices []string, doubt bool) {
	if saysNothing(c.Text) || Key(c.Text) == "" {
		return nil, false
	}
	text, doubt := stripDoubt(tidy(c.Text))
	for _, one := range strings.Split(text, " or ") {
		choice, ok := Match(one, allowed)
		if !ok {
			v.fault(c, flaw{"choice", "one of " + strings.Join(allowed, ", "), DidYouMean(one, allowed, "write one of them")})
			return nil, false
		}
		choices = append(choices, choice)
	}
	return choices, doubt
}

// Match finds a word among the known ones without regard to case, diacritics, spaces, "_" and "-".
func Match(text string, known []string) (string, bool) {
	if slices.Contains(known, text) {
		return text, true
	}
	key := Key(text)
	for _, k := range known {
		if Key(k) == key {
			return k, true
		}
	}
	return "", false
}

// Plain is the text of a cell, trimmed and without invisible characters.
func (c Cell) Plain() string { return tidy(c.Text) }

// Pair is one name=value of a cell; the value keeps the cell's place.
type Pair struct {
	Name  string
	Value Cell
}

// Pairs reads "name=value; name=value". A piece without "=" is complained about.
func (v *Values) Pairs(c Cell) []Pair {
	var pairs []Pair
	for _, piece := range strings.Split(c.Text, ";") {
		if piece = tidy(piece); piece == "" {
			continue
		}
		name, value, ok := strings.Cut(piece, "=")
		if !ok || tidy(name) == "" {
			bad := c
			bad.Text = piece
			v.fault(bad, flaw{"pair", "name=value; name=value", `put "=" between name and value, ";" between pairs`})
			continue
		}
		in := c
		in.Text = tidy(value)
		pairs = append(pairs, Pair{tidy(name), in})
	}
	return pairs
}
