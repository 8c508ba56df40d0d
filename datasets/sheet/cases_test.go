package sheet_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"firstbolt/datasets/sheet"
)

// caseTable has the columns of testdata/cases, with the generic names that those sheets use.
var caseTable = sheet.Table{Name: "cases", Columns: []sheet.Column{
	{Name: "id"},
	{Name: "name", Required: true, Aliases: []string{"criterion"}, Example: "hub"},
	{Name: "slot"},
	{Name: "note"},
	{Name: "link"},
	{Name: "needs"},
	{Name: "price", Type: sheet.Money, Example: "12.50"},
	{Name: "saving", Type: sheet.Money},
	{Name: "mass_g", Type: sheet.Mass, Aliases: []string{"mass"}},
	{Name: "mass_change_g", Type: sheet.Number},
	{Name: "weight", Type: sheet.Number, Unit: "percent"},
	{Name: "diameter", Type: sheet.Length},
	{Name: "rim_diameter", Type: sheet.Length},
	{Name: "speeds", Type: sheet.Whole},
	{Name: "teeth_min", Type: sheet.Whole},
	{Name: "tubeless", Type: sheet.YesNo},
	{Name: "owned", Type: sheet.YesNo},
	{Name: "disc", Type: sheet.YesNo},
	{Name: "clutch", Type: sheet.YesNo},
}}

// Outcomes that this package does not decide. The loader's tests hold those that need to know what a column is for.
var notHere = map[string]string{
	"C25 value":            "a share written as 40 % is 40 percent here, not 0.40",
	"C25 warning_or_error": "mixed shares are the loader's to judge: it says how priorities must add up",
	"C27 warning_or_error": "the loader judges whether a mass is absurd",
	"C48 value_or_error":   "slot is optional in this table; the loader complains",
	"C51 error 6":          "\"tbd\" is unknown; the loader complains of a part without a price",
	"C53 error":            "the loader knows which column is an id",
	"C57 error 7":          "the loader knows which amounts cannot be negative",
	"C54 output":           "TestWriterGuardsText",
	"C55 output":           "TestWriterGuardsText",
	"C09 rows":             "the input is made in TestLimits, it is too long to keep",
	"C09 value":            "the input is made in TestLimits, it is too long to keep",
}

type wantedCase struct {
	id, file, kind, header, expected string
	line, column                     int
}

// Inputs and outcomes: testdata/README.md names where each case was reported.
func TestCases(t *testing.T) {
	t.Parallel()
	for _, w := range readCases(t) {
		w := w
		if notHere[w.id+" "+w.kind] != "" || notHere[fmt.Sprintf("%s %s %d", w.id, w.kind, w.line)] != "" {
			continue
		}
		t.Run(fmt.Sprintf("%s_%s_%d_%d", w.id, w.kind, w.line, w.column), func(t *testing.T) {
			t.Parallel()
			checkCase(t, w)
		})
	}
}

func readCases(t *testing.T) []wantedCase {
	t.Helper()
	f, err := os.Open("testdata/cases/expected.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var all []wantedCase
	for _, r := range rows[1:] {
		line, _ := strconv.Atoi(r[3])
		column, _ := strconv.Atoi(r[4])
		all = append(all, wantedCase{id: r[0], file: r[1], kind: r[2], line: line, column: column, header: r[5], expected: r[6]})
	}
	if len(all) < 100 {
		t.Fatalf("found %d outcomes, want all of expected.csv", len(all))
	}
	return all
}

func checkCase(t *testing.T, w wantedCase) {
	data, err := os.ReadFile(filepath.Join("testdata/cases", w.file))
	if err != nil {
		t.Fatal(err)
	}
	s, complaints := sheet.Read(w.file, data, caseTable, sheet.Options{})
	v := s.Values()
	money := sheet.Currency{Code: "EUR", Digits: 2}
	if w.id == "C24" {
		money.Code = "USD" // its amounts are dollars
	}
	got := "no such row"
	for _, row := range s.Rows {
		for _, c := range caseTable.Columns {
			text := readCell(v, row.Get(c.Name), c, money)
			if row.Line == w.line && row.Get(c.Name).Column == w.column {
				got = text
			}
		}
	}
	complaints = append(complaints, v.Complaints...)
	anything, mistake := complainedAt(complaints, w)
	ok := false
	for _, kind := range strings.Split(w.kind, "_or_") {
		switch kind {
		case "value":
			ok = ok || sameValue(got, w.expected)
		case "rows":
			ok = ok || fmt.Sprint(len(s.Rows)) == w.expected
		case "header":
			ok = ok || len(s.Header) >= w.column && s.Header[w.column-1].Name == w.expected && s.Header[w.column-1].Line == w.line
		case "error":
			ok = ok || mistake
		case "warning":
			ok = ok || anything
		default:
			t.Fatalf("unknown kind %q", kind)
		}
	}
	if !ok {
		t.Errorf("got %q in %d rows, want %s %q; complaints:\n%v", got, len(s.Rows), w.kind, w.expected, complaints)
	}
}

func complainedAt(cs []sheet.Complaint, w wantedCase) (anything, mistake bool) {
	for _, c := range cs {
		inCell := w.column == 0 || c.Cell == "" || c.Cell == fmt.Sprintf("%s%d", sheet.ColumnLetters(w.column), w.line)
		if inCell && (w.line == 0 || c.Line == w.line) {
			anything, mistake = true, mistake || !c.Warning
		}
	}
	return anything, mistake
}

func readCell(v *sheet.Values, c sheet.Cell, column sheet.Column, money sheet.Currency) string {
	switch column.Type {
	case sheet.Money:
		return thousandths(v.Money(c, money), 10)
	case sheet.Mass:
		return thousandths(v.Grams(c), 1000)
	case sheet.Length:
		return thousandths(v.Length(c), 1)
	case sheet.Whole:
		return thousandths(v.Whole(c), 1000)
	case sheet.Number:
		return thousandths(v.Number(c, column.Unit), 1)
	case sheet.YesNo:
		if a := v.YesNo(c); a.Given {
			return fmt.Sprint(a.Yes)
		}
		return "unknown"
	}
	return c.Text
}

func thousandths(r sheet.Reading, times int64) string {
	if !r.Given {
		return "unknown"
	}
	return strconv.FormatFloat(float64(r.N*times)/1000, 'f', -1, 64)
}

// sameValue compares a reading with an outcome such as "24.90 EUR", "27.5 in", "281.227269 g" or "unknown".
func sameValue(got, want string) bool {
	want = strings.ReplaceAll(want, `\n`, "\n")
	if got == want || sheet.Key(got) == sheet.Key(want) || got == "unknown" && want == "" {
		return true
	}
	number, unit, _ := strings.Cut(want, " ")
	w, err := strconv.ParseFloat(number, 64)
	g, err2 := strconv.ParseFloat(got, 64)
	if err != nil || err2 != nil {
		return false
	}
	if unit == "in" {
		w *= 25.4 // exact by the international agreement of 1959
	}
	if low, high, ok := strings.Cut(want, " to "); ok {
		l, _ := strconv.ParseFloat(low, 64)
		h, _ := strconv.ParseFloat(high, 64)
		return l < g && g < h
	}
	return g-w < 0.5001 && w-g < 0.5001 && (unit == "g" || g-w < 1e-9 && w-g < 1e-9 || strings.Contains(want, "approx"))
}
