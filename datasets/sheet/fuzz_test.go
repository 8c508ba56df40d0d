package sheet_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"firstbolt/datasets/sheet"
)

// seed adds the sheets of testdata/cases.
func seed(f *testing.F) {
	f.Helper()
	files, err := filepath.Glob("testdata/cases/C*.csv")
	if err != nil || len(files) < 40 {
		f.Fatalf("found %d cases, %v", len(files), err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
}

// Whatever the bytes, reading ends, and every complaint and every cell lies in the file.
func FuzzRead(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, data []byte) {
		s, complaints := sheet.Read("f.csv", data, caseTable, sheet.Options{})
		v := s.Values()
		for _, row := range s.Rows {
			for _, c := range caseTable.Columns {
				readCell(v, row.Get(c.Name), c, sheet.Currency{Code: "EUR", Digits: 2})
			}
		}
		lines := 1 + strings.Count(string(data), "\n") + strings.Count(string(data), "\r")
		if s.Dialect.Encoding != "UTF-8" {
			lines = len(data) + 1
		}
		for _, c := range append(complaints, v.Complaints...) {
			if c.Line < 0 || c.Line > lines || c.Wanted == "" {
				t.Errorf("complaint outside the file's %d lines, or without what is wanted: %v", lines, c)
			}
		}
		for _, row := range s.Rows {
			if row.Line < 1 || row.Line > lines {
				t.Errorf("row on line %d of %d", row.Line, lines)
			}
		}
	})
}

// What is written is read back the same.
func FuzzWriteRead(f *testing.F) {
	for _, text := range []string{"tyre", `27.5" tyre`, "=1+2", "'x", "a;b", "a,b", "two\nlines", "-", "\ttab", "ID"} {
		f.Add(text, byte(0))
		f.Add(text, byte(1))
	}
	f.Fuzz(func(t *testing.T, text string, style byte) {
		separator := []byte{',', ';', '\t', '|'}[style%4]
		var out strings.Builder
		w := sheet.NewWriter(&out, sheet.Dialect{Separator: separator})
		w.Text("part").Text("price")
		if err := w.Row(); err != nil {
			t.Fatal(err)
		}
		w.Text(text).Number("12.50")
		if err := w.Row(); err != nil {
			t.Fatal(err)
		}
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
		s, _ := sheet.Read("f.csv", []byte(out.String()), partsLike, sheet.Options{})
		want := (sheet.Cell{Text: text}).Plain()
		if !plainText(text) || want == "" || strings.HasPrefix(want, "#") {
			return
		}
		if len(s.Rows) != 1 || s.Rows[0].Get("part").Plain() != want || s.Rows[0].Get("price").Text != "12.50" {
			t.Errorf("wrote %q as %q, read %v", text, out.String(), s.Rows)
		}
	})
}

// plainText tells whether reading may give a text back as it was: control characters are refused, line ends become LF,
// invisible characters are dropped, an apostrophe that guards a number and error values are a spreadsheet's own.
func plainText(text string) bool {
	for _, r := range text {
		if r < ' ' && r != '\n' && r != '\t' || r == 0x7F || r > 0x7E && r < 0xC0 || r > 0x17F {
			return false
		}
	}
	return !strings.HasPrefix(strings.TrimSpace(text), "'") && !strings.HasPrefix(strings.TrimSpace(text), `="`) && len(text) < 1000
}

// A number's text gives a value or exactly one complaint, never a panic; what is read is what a plain writing of it reads as.
func FuzzMoney(f *testing.F) {
	for _, text := range []string{"1,299.00", "1.299,00", "€ 27,2", "(4.50)", "1-1/8\"", "27-27.4", "1e3", "NaN", "11-Mar", "12.50?", "1⅛", "29,- €", "--", "1 299", "’1", "0/0"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		c := sheet.Cell{Sheet: "f", Line: 1, Name: "price", Text: text}
		euro := sheet.Currency{Code: "EUR", Digits: 2}
		v := sheet.FlagValues(sheet.Undecided)
		money := v.Money(c, euro)
		if money.Given && len(v.Complaints) > 0 || len(v.Complaints) > 1 {
			t.Errorf("%q: got %+v and %v", text, money, v.Complaints)
		}
		v.Length(c)
		v.Grams(c)
		v.YesNo(c)
		v.Pairs(c)
		v.Choices(c, []string{"a", "b"})
	})
}
