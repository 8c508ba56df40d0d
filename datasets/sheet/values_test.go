package sheet_test

import (
	"strings"
	"testing"

	"firstbolt/datasets/sheet"
)

// one reads a sheet with one column of the type and the given cells, and gives the reader and the cells.
func one(t *testing.T, typ sheet.Type, o sheet.Options, texts ...string) (*sheet.Values, []sheet.Cell) {
	t.Helper()
	data := "name\tvalue\n"
	for _, text := range texts {
		data += "x\t" + text + "\n"
	}
	table := sheet.Table{Name: "t", Columns: []sheet.Column{{Name: "name"}, {Name: "value", Type: typ}}}
	s, complaints := sheet.Read("t.csv", []byte(data), table, o)
	if len(complaints) > 0 {
		t.Fatalf("reading %q: %v", data, complaints)
	}
	var cells []sheet.Cell
	for _, r := range s.Rows {
		cells = append(cells, r.Get("value"))
	}
	return s.Values(), cells
}

type reading struct {
	text  string
	want  int64
	doubt bool
}

func checkReadings(t *testing.T, typ sheet.Type, read func(*sheet.Values, sheet.Cell) sheet.Reading, rows []reading) {
	t.Helper()
	for _, r := range rows {
		v, cells := one(t, typ, sheet.Options{}, r.text)
		got := read(v, cells[0])
		if want := (sheet.Reading{N: r.want, Given: true, Doubt: r.doubt}); got != want {
			t.Errorf("%q: got %+v, want %+v; %v", r.text, got, want, v.Complaints)
		}
	}
}

// The styles are those of the Unicode CLDR number patterns for en, de, fr and de-CH; the rest is how people type.
func TestMoney(t *testing.T) {
	t.Parallel()
	euro := sheet.Currency{Code: "EUR", Digits: 2}
	checkReadings(t, sheet.Money, func(v *sheet.Values, c sheet.Cell) sheet.Reading { return v.Money(c, euro) }, []reading{
		{"1,299.00", 129900, false},
		{"1.299,00", 129900, false},
		{"1 299,00", 129900, false},
		{"1'299.00", 129900, false},
		{"1\u00A0299,00", 129900, false},
		{"€ 27,2", 2720, false},
		{"27.20 EUR", 2720, false},
		{"27", 2700, false},
		{"27,-", 2700, false},
		{"0.5", 50, false},
		{".50", 50, false},
		{"1.234.567", 123456700, false},
		{"-4.50", -450, false},
		{"4.50-", -450, false},
		{"(4.50)", -450, false},
		{"12.50?", 1250, true},
		{"about 12.50", 1250, true},
		{"1'299", 129900, false},
		{"0", 0, false},
	})
}

func TestMoneyDigits(t *testing.T) {
	t.Parallel()
	// ISO 4217, table A.1: minor unit of JPY 0, EUR 2, BHD 3.
	for _, w := range []struct {
		code, text string
		want       int64
	}{{"JPY", "1250", 1250}, {"EUR", "12.50", 1250}, {"BHD", "12.5", 12500}, {"jpy", "¥1,250.00", 1250}} {
		currency, ok := sheet.CurrencyNamed(w.code)
		v, cells := one(t, sheet.Money, sheet.Options{}, w.text)
		if got := v.Money(cells[0], currency); !ok || got.N != w.want || !got.Given {
			t.Errorf("%s %s: got %+v, want %d; %v", w.code, w.text, got, w.want, v.Complaints)
		}
	}
	if _, ok := sheet.CurrencyNamed("XYZ"); ok {
		t.Error("XYZ is no code of ISO 4217")
	}
}

func TestMoneyRefused(t *testing.T) {
	t.Parallel()
	for text, code := range map[string]string{
		"1,299": "ambiguous_number", "NaN": "number", "Inf": "number", "1e3": "exponent", "12,5O": "price", "$12": "other_currency",
		"12.5055": "price", "10-12": "price_range", "11-Mar": "date", "2026-03-11": "date", "=A1*2": "formula", "1,29,9.00": "number",
		"0x10": "price", "1_9": "price", "free": "number", "9999999999999999": "too_large", "12 apples": "price",
	} {
		v, cells := one(t, sheet.Money, sheet.Options{}, text)
		got := v.Money(cells[0], sheet.Currency{Code: "EUR", Digits: 2})
		if got.Given || len(v.Complaints) != 1 || v.Complaints[0].Code != code {
			t.Errorf("%q: got %+v and %v, want nothing and one complaint %q", text, got, v.Complaints, code)
		}
	}
}

// Three digits after a lone mark may be thousands: a column that shows the mark as a decimal sign elsewhere does not make
// 1.30 of 1299.
func TestMoneyThreeDigits(t *testing.T) {
	t.Parallel()
	for _, w := range []struct{ other, text, says string }{
		{"24,90", "1,299", "this is 1299 or 1.299"},
		{"24.90", "1.299", "this is 1299 or 1.299"},
		{"24.90", "1.250", "this is 1250 or 1.250"},
		{"24.90", "99999999999999", "is the decimal sign where it should be?"},
		{"24.90", "12.5055", "at most 2 decimals"},
	} {
		v, cells := one(t, sheet.Money, sheet.Options{}, w.other, w.text)
		got := v.Money(cells[1], sheet.Currency{Code: "EUR", Digits: 2})
		if got.Given || len(v.Complaints) != 1 || !strings.Contains(v.Complaints[0].String(), w.says) {
			t.Errorf("%s beside %s: got %+v and %v, want a complaint that says %q", w.text, w.other, got, v.Complaints, w.says)
		}
	}
}

func TestLetterHint(t *testing.T) {
	t.Parallel()
	v, cells := one(t, sheet.Money, sheet.Options{}, "12.5O")
	v.Money(cells[0], sheet.Currency{Code: "EUR", Digits: 2})
	want := `t.csv:2 (B2): value: found "12.5O", want an amount such as 12.50; the last sign is the letter O, not the digit 0`
	if len(v.Complaints) != 1 || v.Complaints[0].String() != want {
		t.Errorf("got %v, want %s", v.Complaints, want)
	}
}

// 1 lb = 453.59237 g, 1 oz = 28.349523125 g: exact by the international agreement of 1959.
func TestGrams(t *testing.T) {
	t.Parallel()
	checkReadings(t, sheet.Mass, (*sheet.Values).Grams, []reading{
		{"590", 590, false},
		{"590 g", 590, false},
		{"0.59 kg", 590, false},
		{"1.3 lb", 590, false},
		{"0,59kg", 590, false},
		{"5.1 oz", 145, false},
		{"~257", 257, true},
		{"250-260", 255, true},
		{"1'250 g", 1250, false},
		{"590 g?", 590, true},
	})
}

func TestLength(t *testing.T) {
	t.Parallel()
	checkReadings(t, sheet.Length, (*sheet.Values).Length, []reading{
		{"27.2mm", 27200, false},
		{"27,2", 27200, false},
		{`1-1/8"`, 28575, false},
		{"1 1/8 in", 28575, false},
		{"1⅛", 28575, true},
		{`2.35"`, 59690, false},
		{"27.2?", 27200, true},
		{"27.2 stamped", 27200, true},
		{"about 27", 27000, true},
		{"27-27.4", 27200, true},
		{"27–27.4 mm", 27200, true},
		{"2.1 cm", 21000, false},
		{"27.5″", 698500, false},
		{"27.5''", 698500, false},
		{"9/16 in", 14288, false},
	})
}

func TestNothingSaid(t *testing.T) {
	t.Parallel()
	for _, text := range []string{"", "?", "-", "n/a", "unknown", "—"} {
		v, cells := one(t, sheet.Length, sheet.Options{}, text)
		if got := v.Length(cells[0]); got.Given || len(v.Complaints) > 0 {
			t.Errorf("%q as a length: got %+v %v, want nothing", text, got, v.Complaints)
		}
		if got := v.YesNo(cells[0]); got.Given || len(v.Complaints) > 0 {
			t.Errorf("%q as yes or no: got %+v %v, want nothing", text, got, v.Complaints)
		}
	}
}

// One clear cell decides the ambiguous ones of its column, the option decides all, two styles decide nothing.
func TestDecimalStyle(t *testing.T) {
	t.Parallel()
	for _, w := range []struct {
		texts  []string
		forced sheet.Decimal
		want   []int64 // -1: complained about
	}{
		{[]string{"1,299", "24.90"}, sheet.Undecided, []int64{129900, 2490}},
		{[]string{"1.299", "24,90"}, sheet.Undecided, []int64{129900, 2490}},
		{[]string{"1,299", "24.90", "24,90"}, sheet.Undecided, []int64{-1, 2490, 2490}},
		{[]string{"1,299"}, sheet.Point, []int64{129900}},
		{[]string{"1.299"}, sheet.Comma, []int64{129900}},
		{[]string{"24.90"}, sheet.Comma, []int64{-1}},
		{[]string{"1,299", "45"}, sheet.Undecided, []int64{-1, 4500}},
	} {
		v, cells := one(t, sheet.Money, sheet.Options{Decimal: w.forced}, w.texts...)
		for i, c := range cells {
			got := v.Money(c, sheet.Currency{Code: "EUR", Digits: 2})
			if got.Given != (w.want[i] >= 0) || got.Given && got.N != w.want[i] {
				t.Errorf("%q of %q, %v: got %+v, want %d", c.Text, w.texts, w.forced, got, w.want[i])
			}
		}
	}
}

func TestChoices(t *testing.T) {
	t.Parallel()
	v, cells := one(t, sheet.Text, sheet.Options{}, "is or PM?", "PN")
	got, doubt := v.Choices(cells[0], []string{"IS", "PM", "flat"})
	if len(got) != 2 || got[0] != "IS" || got[1] != "PM" || !doubt {
		t.Errorf("got %q %v, want IS and PM in doubt", got, doubt)
	}
	if v.Choices(cells[1], []string{"IS", "PM", "flat"}); len(v.Complaints) != 1 || v.Complaints[0].Found != "PN" {
		t.Errorf("got %v, want one complaint about PN", v.Complaints)
	}
}
