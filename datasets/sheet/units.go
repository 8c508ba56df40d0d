package sheet

import (
	"math/big"
	"strings"

	"github.com/bojanz/currency"
)

// Exact by the international yard and pound agreement of 1959: 1 lb = 453.59237 g, 1 oz = 1/16 lb, 1 in = 25.4 mm.
var (
	gramUnits = map[string]*big.Rat{
		"g": rat("1"), "gr": rat("1"), "gram": rat("1"), "grams": rat("1"), "gramm": rat("1"), "kg": rat("1000"),
		"kilo": rat("1000"), "kilos": rat("1000"), "lb": rat("453.59237"), "lbs": rat("453.59237"), "pound": rat("453.59237"),
		"pounds": rat("453.59237"), "oz": rat("28.349523125"), "ounce": rat("28.349523125"), "ounces": rat("28.349523125"),
	}
	millimetreUnits = map[string]*big.Rat{
		"mm": rat("1"), "millimetre": rat("1"), "millimetres": rat("1"), "millimeter": rat("1"), "cm": rat("10"),
		"m": rat("1000"), "in": inch, "in.": inch, "inch": inch, "inches": inch, "zoll": inch, `"`: inch, "″": inch, "”": inch, "“": inch, "''": inch, "’’": inch,
	}
	inch = rat("25.4")

	one, hundred, thousand = rat("1"), rat("100"), rat("1000") // never changed
)

func rat(text string) *big.Rat {
	r, ok := new(big.Rat).SetString(text)
	if !ok {
		panic("not a number in the source: " + text)
	}
	return r
}

// currencySigns are the currencies that a sign may mean (ISO 4217 codes; from memory).
var currencySigns = map[string][]string{
	"€": {"EUR"}, "£": {"GBP", "EGP"}, "$": {"USD", "CAD", "AUD", "NZD", "SGD", "HKD", "MXN", "CLP", "COP", "ARS"},
	"US$": {"USD"}, "C$": {"CAD"}, "A$": {"AUD"}, "NZ$": {"NZD"}, "R$": {"BRL"}, "¥": {"JPY", "CNY"}, "円": {"JPY"}, "元": {"CNY"},
	"kr": {"SEK", "NOK", "DKK", "ISK"}, "kr.": {"DKK", "SEK", "NOK", "ISK"}, "zł": {"PLN"}, "Kč": {"CZK"}, "Ft": {"HUF"}, "Fr.": {"CHF"},
	"SFr.": {"CHF"}, "lei": {"RON"}, "₹": {"INR"}, "₺": {"TRY"}, "₽": {"RUB"}, "₩": {"KRW"}, "₪": {"ILS"}, "₴": {"UAH"}, "₫": {"VND"}, "฿": {"THB"},
	"Euro": {"EUR"}, "euro": {"EUR"}, "euros": {"EUR"},
}

// Currency is an ISO 4217 code with the digits of its minor unit.
type Currency struct {
	Code   string
	Digits int
}

// CurrencyNamed looks a code up in ISO 4217; false where there is none.
func CurrencyNamed(code string) (Currency, bool) {
	code = strings.ToUpper(tidy(code))
	digits, ok := currency.GetDigits(code)
	return Currency{code, int(digits)}, ok
}

// CurrencyCodes are all ISO 4217 codes, for suggestions.
func CurrencyCodes() []string { return currency.GetCurrencyCodes() }

// meant tells what a text beside an amount says: this currency, another one, or none at all.
func (c Currency) meant(text string) (same, isCurrency bool) {
	if text == "" {
		return true, true
	}
	if codes, ok := currencySigns[text]; ok {
		for _, code := range codes {
			if code == c.Code {
				return true, true
			}
		}
		return false, true
	}
	upper := strings.ToUpper(text)
	return upper == c.Code, currency.IsValid(upper)
}
