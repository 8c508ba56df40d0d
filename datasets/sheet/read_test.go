package sheet_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"firstbolt/datasets/sheet"
)

var partsLike = sheet.Table{Name: "parts", Columns: []sheet.Column{
	{Name: "part", Required: true, Example: "tyre", Aliases: []string{"name"}},
	{Name: "price", Type: sheet.Money, Required: true, Example: "9.50"},
	{Name: "sells_for", Type: sheet.Money},
	{Name: "grams", Type: sheet.Mass, Aliases: []string{"weight_g"}},
	{Name: "note"},
}}

// texts reads a sheet and gives one text for each row: the cells of part and price.
func texts(t *testing.T, data string) (*sheet.Sheet, []string, []sheet.Complaint) {
	t.Helper()
	s, complaints := sheet.Read("p.csv", []byte(data), partsLike, sheet.Options{})
	var rows []string
	for _, r := range s.Rows {
		rows = append(rows, fmt.Sprintf("%d %s|%s", r.Line, r.Get("part").Text, r.Get("price").Text))
	}
	return s, rows, complaints
}

// RFC 4180 section 2 for quoting and line ends; the rest is what spreadsheets write.
func TestReadRows(t *testing.T) {
	t.Parallel()
	for name, w := range map[string]struct {
		data string
		want []string
	}{
		"plain":             {"part,price\na,1\nb,2\n", []string{"2 a|1", "3 b|2"}},
		"no end of line":    {"part,price\na,1", []string{"2 a|1"}},
		"mark, CRLF":        {"\uFEFFpart,price\r\na,1\r\n", []string{"2 a|1"}},
		"semicolons":        {"part;price\n\"a;b\";1,50\n", []string{"2 a;b|1,50"}},
		"tabs":              {"part\tprice\na, b\t1\n", []string{"2 a, b|1"}},
		"bars":              {"part|price\na|1\n", []string{"2 a|1"}},
		"doubled quote":     {"part,price\n\"27.5\"\" tyre\",1\n", []string{`2 27.5" tyre|1`}},
		"bare inch mark":    {"part,price\n27.5\" tyre,1\n1-1/8\",2\n", []string{`2 27.5" tyre|1`, `3 1-1/8"|2`}},
		"break in a cell":   {"part,price\n\"a\nb\",1\nc,2\n", []string{"2 a\nb|1", "4 c|2"}},
		"names in any form": {"  PRICE ,Name\n1,a\n", []string{"2 a|1"}},
		"blank and comment": {"# my list\n\npart,price\n,\n# tyres\na,1\n", []string{"6 a|1"}},
		"empty quoted":      {"part,price,note\na,1,\"\"\n", []string{"2 a|1"}},
		"windows-1252":      {"part,price\ncaf\xe9,1\n", []string{"2 café|1"}},
	} {
		s, rows, complaints := texts(t, w.data)
		if diff := cmp.Diff(w.want, rows); diff != "" || len(complaints) > 0 {
			t.Errorf("%s (%c): %s %v", name, s.Dialect.Separator, diff, complaints)
		}
	}
}

func TestHeader(t *testing.T) {
	t.Parallel()
	for name, w := range map[string]struct {
		header string
		want   []string // of every complaint, "w " before a warning
	}{
		"aliases, signs":  {"Näme,Sells-For,weight_g,price", nil},
		"unit":            {"part,Price (EUR),grams [kg]", nil},
		"twice":           {"part,price,name", []string{`p.csv:1 (C1): part: found "name", want every column once; columns A and C both mean "part"; delete or rename one`}},
		"missing, near":   {"part,prise", []string{`p.csv:1: price: want a column of this name; is "prise" meant?`, `w p.csv:1 (B1): prise: found "prise", want a column that firstbolt knows; it is not used; did you mean "price"?`}},
		"missing":         {"part,grams", []string{`p.csv:1: price: want a column of this name; add a column "price", such as 9.50`}},
		"unknown, plenty": {"part,price,x,price old,y", []string{"w p.csv:1 (C1): found \"x, price old, y\", want columns that firstbolt knows; these are not used; `firstbolt schema` lists all columns"}},
		"none known":      {"prat,pirce", []string{`p.csv:1: found "prat,pirce", want a header line with known column names; did you mean "part" for "prat"?`}},
	} {
		_, complaints := sheet.Read("p.csv", []byte(w.header+"\n"), partsLike, sheet.Options{})
		var got []string
		for _, c := range complaints {
			got = append(got, map[bool]string{true: "w ", false: ""}[c.Warning]+c.String())
		}
		if diff := cmp.Diff(w.want, got); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
	}
}

func TestLimits(t *testing.T) {
	t.Parallel()
	for name, w := range map[string]struct{ data, code string }{
		"bytes":     {strings.Repeat("x", sheet.MaxBytes+1), "too_large"},
		"rows":      {"part,price\n" + strings.Repeat("a,1\n", sheet.MaxRows+1), "too_many_rows"},
		"columns":   {"part,price" + strings.Repeat(",x", sheet.MaxColumns) + "\n", "too_many_columns"},
		"cell":      {"part,price\n" + strings.Repeat("x", sheet.MaxCellBytes+1) + ",1\n", "long_cell"},
		"no header": {"", "empty_sheet"},
	} {
		_, complaints := sheet.Read("p.csv", []byte(w.data), partsLike, sheet.Options{})
		if len(complaints) != 1 || complaints[0].Code != w.code || complaints[0].Warning {
			t.Errorf("%s: got %v, want one error %q", name, complaints, w.code)
		}
	}
	// A cell above 131,072 characters, where some readers stop (simonw/csv-diff #41), is no trouble.
	s, rows, complaints := texts(t, "part,price,note\na,1,"+strings.Repeat("x", 140_000)+"\nb,2,\n")
	if len(rows) != 2 || len(complaints) > 0 || len(s.Rows[0].Get("note").Text) != 140_000 {
		t.Errorf("got %d rows, %v", len(rows), complaints)
	}
}

// A file of nothing but opening quotes must not take time in the square of its length.
func TestManyOpenQuotes(t *testing.T) {
	t.Parallel()
	_, complaints := sheet.Read("p.csv", []byte("part,price\n"+strings.Repeat("\"a,1\n", 200_000)), partsLike, sheet.Options{})
	if len(complaints) == 0 || complaints[0].Line != 2 || complaints[0].Code != "unclosed_quote" {
		t.Errorf("got %d complaints, want the first about the quote on line 2", len(complaints))
	}
}

func TestDecode(t *testing.T) {
	t.Parallel()
	s, _ := sheet.Read("p.csv", []byte("note,x,sells for,part,price\n\"a\nb\",?,5,tyre,1\n,,,rim,2\n"), partsLike, sheet.Options{})
	type row struct {
		Part     sheet.Cell `csv:"part"`
		SellsFor sheet.Cell `csv:"sells_for"`
		Grams    sheet.Cell `csv:"grams"`
		Note     sheet.Cell `csv:"note"`
	}
	got, err := sheet.Decode[row](s)
	if err != nil {
		t.Fatal(err)
	}
	want := []row{
		{
			sheet.Cell{Sheet: "p.csv", Line: 2, Column: 4, Name: "part", Text: "tyre"},
			sheet.Cell{Sheet: "p.csv", Line: 2, Column: 3, Name: "sells_for", Text: "5"},
			sheet.Cell{Sheet: "p.csv", Line: 2, Name: "grams"},
			sheet.Cell{Sheet: "p.csv", Line: 2, Column: 1, Name: "note", Text: "a\nb"},
		},
		{
			sheet.Cell{Sheet: "p.csv", Line: 4, Column: 4, Name: "part", Text: "rim"},
			sheet.Cell{Sheet: "p.csv", Line: 4, Column: 3, Name: "sells_for"},
			sheet.Cell{Sheet: "p.csv", Line: 4, Name: "grams"},
			sheet.Cell{Sheet: "p.csv", Line: 4, Column: 1, Name: "note"},
		},
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestWriterGuardsText(t *testing.T) {
	t.Parallel()
	// OWASP, "CSV Injection": cells that begin with = + - @ tab or CR are run; numbers must stay numbers.
	var out strings.Builder
	w := sheet.NewWriter(&out, sheet.Dialect{Separator: ';', Decimal: sheet.Comma})
	w.Text("ID").Text("name").Text("price")
	if err := w.Row(); err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{"=1+2 hub", "+5 link", "-6 degree stem", "@home chain", "\tindented", "27.5\" tyre; folding"} {
		w.Text("P1").Text(text).Number("-12.50")
		if err := w.Row(); err != nil {
			t.Fatal(err)
		}
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	want := "id;name;price\nP1;'=1+2 hub;-12,50\nP1;'+5 link;-12,50\nP1;'-6 degree stem;-12,50\nP1;'@home chain;-12,50\nP1;'\tindented;-12,50\n" +
		"P1;\"27.5\"\" tyre; folding\";-12,50\n"
	if diff := cmp.Diff(want, out.String()); diff != "" {
		t.Error(diff)
	}
}

func TestNearest(t *testing.T) {
	t.Parallel()
	known := []string{"chain", "chainring", "front tyre", "saddle", "self", "shop"}
	for name, want := range map[string]string{"chian": "chain", "Front_Tire": "front tyre", "sadle": "saddle", "x": "", "wheel": "", "shpo": "shop", "": ""} {
		if got := sheet.Nearest(name, known); got != want {
			t.Errorf("%q: got %q, want %q", name, got, want)
		}
	}
}

func BenchmarkRead20000(b *testing.B) {
	data := []byte("part,price,grams,note,sells_for\n" + strings.Repeat("front tyre,24.90,710 g,some text,12.50\n", sheet.MaxRows))
	for b.Loop() {
		s, complaints := sheet.Read("p.csv", data, partsLike, sheet.Options{})
		if len(s.Rows) != sheet.MaxRows || len(complaints) > 0 {
			b.Fatal(len(s.Rows), complaints)
		}
	}
}
