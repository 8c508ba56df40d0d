package model

import (
	"strconv"
	"strings"
)

// Money is an amount in whole minor units of the shed's currency (cents for EUR, yen for JPY).
// Money is never a float.
type Money int64

// Currency is an ISO 4217 currency: its code and how many digits its minor unit has (JPY 0, EUR 2, BHD 3).
type Currency struct {
	Code   string
	Digits int
}

// Format writes an amount in plain digits with a point, without grouping or currency sign: "212.70", "-4.50", "300".
func (c Currency) Format(m Money) string {
	sign := ""
	if m < 0 {
		sign, m = "-", -m
	}
	digits := strconv.FormatInt(int64(m), 10)
	if c.Digits == 0 {
		return sign + digits
	}
	if short := c.Digits + 1 - len(digits); short > 0 {
		digits = strings.Repeat("0", short) + digits
	}
	cut := len(digits) - c.Digits
	return sign + digits[:cut] + "." + digits[cut:]
}

// Hundred is 100 whole units of the currency in minor units, the base of "benefit per 100 of money".
func (c Currency) Hundred() Money {
	m := Money(100)
	for range c.Digits {
		m *= 10
	}
	return m
}

// RoundHalfUp divides a by b (b > 0) and rounds halves away from zero upwards: the rule for tax per unit.
func RoundHalfUp(a, b int64) int64 {
	if a >= 0 {
		return (a + b/2) / b
	}
	return -((-a + (b-1)/2) / b)
}

// Grams is a mass in whole grams.
type Grams int64
