package answer

import (
	"bytes"
	"encoding/json"
	"strconv"
	"strings"

	"github.com/bojanz/currency"
)

// Money is an amount in whole minor units (cents for EUR, yen for JPY).
type Money struct {
	Minor    int64  `json:"minor" says:"whole minor units: cents for EUR, yen for JPY"`
	Currency string `json:"currency" says:"ISO 4217 code"`
}

// String is the amount in plain digits with a point: "212.70", "-4.50", "300" for yen.
func (m Money) String() string {
	digits, ok := currency.GetDigits(m.Currency)
	if !ok {
		digits = 2
	}
	return fixed(m.Minor, int(digits))
}

// fixed writes a whole number of 10^-digits units with exactly that many decimals.
func fixed(n int64, digits int) string {
	sign := ""
	if n < 0 {
		sign, n = "-", -n
	}
	text := strconv.FormatInt(n, 10)
	if digits == 0 {
		return sign + text
	}
	if short := digits + 1 - len(text); short > 0 {
		text = strings.Repeat("0", short) + text
	}
	cut := len(text) - digits
	return sign + text[:cut] + "." + text[cut:]
}

// Points are benefit, or a level of 0 to 100, in whole ten-thousandths of a point. In JSON they are a number with at
// most four decimals.
type Points int64

// MarshalJSON writes the number without needless zeros: 4.55, 30, -0.05.
func (p Points) MarshalJSON() ([]byte, error) { return trimmed(int64(p), 4), nil }

// Short is the number rounded to one decimal, halves away from zero, as people read it.
func (p Points) Short() string {
	n := int64(p)
	if n < 0 {
		n -= 500
	} else {
		n += 500
	}
	if n/1000 == 0 {
		return "0.0"
	}
	return fixed(n/1000, 1)
}

// Rate is benefit per 100 whole units of money, in whole thousandths.
type Rate int64

// MarshalJSON writes the number without needless zeros: 13.382.
func (r Rate) MarshalJSON() ([]byte, error) { return trimmed(int64(r), 3), nil }

// Short is the rate rounded to one decimal.
func (r Rate) Short() string { return Points(r * 10).Short() }

// PerHundred is the rate of so many points for an amount; nil where nothing is paid, because it is free.
func PerHundred(p Points, paid Money) *Rate {
	if paid.Minor <= 0 {
		return nil
	}
	digits, ok := currency.GetDigits(paid.Currency)
	if !ok {
		digits = 2
	}
	hundred := int64(100)
	for range digits {
		hundred *= 10
	}
	// points/10000 * hundred/minor, in thousandths
	scaled := int64(p) * hundred
	half := 5 * paid.Minor
	if scaled < 0 {
		half = -half
	}
	r := Rate((scaled + half) / (10 * paid.Minor))
	return &r
}

// Share is a weight in whole percent; in JSON it is a fraction of 1: 0.4.
type Share int

// MarshalJSON writes the fraction.
func (s Share) MarshalJSON() ([]byte, error) { return trimmed(int64(s), 2), nil }

// trimmed is fixed without zeros at the end.
func trimmed(n int64, digits int) []byte {
	text := fixed(n, digits)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return []byte(text)
}

// Entry is one member of a Keyed.
type Entry[T any] struct {
	Key   string
	Value T
}

// Keyed is a JSON object whose members keep their order (criteria stand in the order of criteria.csv).
type Keyed[T any] []Entry[T]

// MarshalJSON writes the object in order.
func (k Keyed[T]) MarshalJSON() ([]byte, error) {
	var out bytes.Buffer
	enc := json.NewEncoder(&out)
	enc.SetEscapeHTML(false)
	out.WriteByte('{')
	for i, e := range k {
		if i > 0 {
			out.WriteByte(',')
		}
		if err := enc.Encode(e.Key); err != nil {
			return nil, err
		}
		out.WriteByte(':')
		if err := enc.Encode(e.Value); err != nil {
			return nil, err
		}
	}
	out.WriteByte('}')
	return out.Bytes(), nil
}

// Get is the value under a key, and whether there is one.
func (k Keyed[T]) Get(key string) (T, bool) {
	for _, e := range k {
		if e.Key == key {
			return e.Value, true
		}
	}
	var zero T
	return zero, false
}
