package datasets_test

import (
	"errors"
	"flag"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/google/go-cmp/cmp"

	"firstbolt/datasets"
	"firstbolt/model"
)

var update = flag.Bool("update", false, "write the golden files anew")

// shedOf is a shed in memory.
func shedOf(files map[string]string) fstest.MapFS {
	out := fstest.MapFS{}
	for name, text := range files {
		out[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return out
}

// loadClean loads a shed that must load without errors.
func loadClean(t *testing.T, o datasets.Options, files map[string]string) *model.Shed {
	t.Helper()
	shed, complaints, err := datasets.LoadFS(shedOf(files), "shed", o)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range complaints {
		if !c.Warning {
			t.Error(c)
		}
	}
	return shed
}

// Everything wrong with a messy shed is said at once, in order, each with its cell and the way to mend it.
func TestMessyShed(t *testing.T) {
	t.Parallel()
	_, complaints, err := datasets.Load("testdata/messy", datasets.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var got strings.Builder
	for _, c := range complaints {
		if c.Warning {
			got.WriteString("warning: ")
		}
		got.WriteString(c.String() + "\n")
	}
	const golden = "testdata/messy.txt"
	if *update {
		if err := os.WriteFile(golden, []byte(got.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got.String()); diff != "" {
		t.Errorf("complaints differ (-want +got):\n%s", diff)
	}
}

const hardtail = "store hardtail cable disc 3x7"

// What a sheet says wins over what a kind or a typical bike makes one expect, and every value knows where it is from.
func TestOrigins(t *testing.T) {
	t.Parallel()
	shed := loadClean(t, datasets.Options{}, map[string]string{
		"parts.csv":  "part,kind,price,tread,bead_mm,facts\nF6,knobbly tyre 27.5 inch,24.90,slick,,width_mm=57?\n",
		"bikes.csv":  "bike,owned,like\nmine,yes," + hardtail + "\n",
		"fitted.csv": "bike,slot,part,condition,seatpost_mm\nmine,seatpost,,tired,27.2 stamped\nmine,front rotor,none,,\n",
	})
	f := shed.Parts[0].Facts
	for _, w := range []struct {
		fact, value string
		from        model.Origin
	}{
		{"tread", "slick", model.Origin{Sheet: "parts.csv", Row: 2, Cell: "D2", Raw: "slick", How: model.Measured}},
		{"width_mm", "57", model.Origin{Sheet: "parts.csv", Row: 2, Cell: "F2", Raw: "57?", How: model.Remembered}},
		{"bead_mm", "584", model.Origin{Sheet: "kind", Raw: "knobbly tyre 27.5 inch", How: model.Assumed}},
	} {
		if got := f[w.fact]; got.String() != w.value || got.Origin != w.from {
			t.Errorf("%s: got %v from %+v, want %s from %+v", w.fact, got, got.Origin, w.value, w.from)
		}
	}
	own := shed.OwnBike()
	post := own.InSlot("seatpost")
	if v := post.Facts["seatpost_mm"]; v.Milli != 27200 || v.Origin.How != model.Remembered || post.Condition != model.Tired {
		t.Errorf("seatpost: got %+v", post)
	}
	if tyre := own.InSlot("front tyre"); tyre == nil || tyre.Origin.Sheet != "like" || tyre.Facts["bead_mm"].Origin.How != model.Assumed {
		t.Errorf("front tyre: got %+v, want the typical one, assumed", tyre)
	}
	if rotor := own.InSlot("front rotor"); rotor == nil || !rotor.None || len(rotor.Facts) > 0 {
		t.Errorf("front rotor: got %+v, want known to be empty", rotor)
	}
}

func TestPlaces(t *testing.T) {
	t.Parallel()
	shed := loadClean(t, datasets.Options{Settings: []datasets.Setting{{Name: "like", Value: hardtail, Flag: "--like"}}}, map[string]string{
		"parts.csv": "part,slot,price,speeds\ntyre,rear tyre / front tyre,20,\nset,chainring + crankset,60,\nblock,cassette,30,8 speed\n",
	})
	want := [][]model.Place{{{"rear tyre"}, {"front tyre"}}, {{"crankset", "chainring"}}, {{"cassette"}}}
	for i, p := range shed.Parts {
		if diff := cmp.Diff(want[i], p.Places); diff != "" {
			t.Errorf("%s: %s", p.Name, diff)
		}
	}
	if v := shed.Parts[2].Facts["speeds"]; !v.Is("8") || v.Origin.Raw != "8 speed" {
		t.Errorf("speeds: got %v", v)
	}
	if own := shed.OwnBike(); own.Name != "my bike" || own.Like != hardtail {
		t.Errorf("got %q like %q, want my bike like %q", own.Name, own.Like, hardtail)
	}
}

func TestDonor(t *testing.T) {
	t.Parallel()
	shed := loadClean(t, datasets.Options{}, map[string]string{
		"parts.csv":  "part,slot,price\ntyre,front tyre,20\n",
		"bikes.csv":  "bike,owned,like\nmine,yes," + hardtail + "\nold one,donor,\n",
		"fitted.csv": "bike,slot,part,condition,facts\nold one,saddle,good saddle,,rail=7 round\nold one,fork,,unsafe,\nold one,pedals,none,,\n",
	})
	if len(shed.Parts) != 2 {
		t.Fatalf("got %d parts, want the tyre and the donor's saddle", len(shed.Parts))
	}
	p := shed.Parts[1]
	if p.Name != "good saddle of old one" || p.Price != 0 || p.Donor != "old one" || p.Available.Value != 1 || !p.Facts["rail"].Is("7 round") {
		t.Errorf("got %+v", p)
	}
}

func TestFlagsWin(t *testing.T) {
	t.Parallel()
	files := map[string]string{
		"parts.csv": "part,slot,price\ntyre,front tyre,20\n",
		"rider.csv": "setting,value\nbudget,100\nprofile,default\nlike," + hardtail + "\ncurrency,EUR\nheight_cm,70 in\n",
	}
	shed := loadClean(t, datasets.Options{Settings: []datasets.Setting{{"budget", "250.50", "--budget"}, {"ranking", "grip > brakes", "--ranking"}}}, files)
	r := shed.Rider
	if r.Budget.Value != 25050 || r.Budget.Origin.Sheet != "--budget" || r.Profile.Known || cmp.Diff([]string{"traction", "braking"}, r.Ranking.Value) != "" {
		t.Errorf("got budget %+v, profile %+v, ranking %+v", r.Budget, r.Profile, r.Ranking)
	}
	if r.HeightCM.Value != 177.8 {
		t.Errorf("70 in is 177.8 cm (an inch is 25.4 mm exactly), got %v", r.HeightCM.Value)
	}
	_, complaints, err := datasets.LoadFS(shedOf(files), "shed", datasets.Options{Settings: []datasets.Setting{{"budget", "-3", "--budget"}}})
	if err != nil || len(complaints) != 1 || complaints[0].Where() != "--budget" {
		t.Errorf("got %v %v, want one complaint about --budget", complaints, err)
	}
}

// Amounts of the embedded tables are hundredths of the whole unit until the currency is known.
func TestCurrencies(t *testing.T) {
	t.Parallel()
	files := map[string]string{"parts.csv": "part,slot,price\ntyre,front tyre,20\n", "rider.csv": "setting,value\nlike," + hardtail + "\n"}
	prices := map[string]model.Money{}
	for _, code := range []string{"EUR", "JPY", "BHD"} {
		shed := loadClean(t, datasets.Options{Settings: []datasets.Setting{{"currency", code, "--currency"}}}, files)
		prices[code] = shed.Tables.Tools[0].Price
		if shed.Parts[0].Price != shed.Currency.Hundred()/5 {
			t.Errorf("%s: a price of 20 is %d minor units", code, shed.Parts[0].Price)
		}
	}
	if prices["EUR"] == 0 || prices["JPY"]*100 != prices["EUR"] || prices["BHD"] != 10*prices["EUR"] {
		t.Errorf("got %v, want the same whole amount (ISO 4217: JPY has no digits, BHD three)", prices)
	}
}

func TestSources(t *testing.T) {
	t.Parallel()
	files := map[string]string{
		"Parts.CSV":        "part;slot;price\ntyre;front tyre;20,50\n",
		"parts-brakes.csv": "part,slot,price\nrotor,front rotor,15.50\n",
		"rider.csv":        "setting,value\nlike," + hardtail + "\n",
		"old parts.csv":    "nothing of ours",
	}
	if shed := loadClean(t, datasets.Options{}, files); len(shed.Parts) != 2 || shed.Parts[0].Price != 2050 || shed.Parts[1].Price != 1550 {
		t.Errorf("got %+v", shed.Parts)
	}
	shed := loadClean(t, datasets.Options{Parts: []byte("part,slot,price\nsaddle,saddle,9\n")}, files)
	if len(shed.Parts) != 1 || shed.Parts[0].Origin.Sheet != "standard input" {
		t.Errorf("got %+v, want the part of standard input only", shed.Parts)
	}
	given := t.TempDir() + "/list.csv"
	if err := os.WriteFile(given, []byte("part,slot,price\nstem,stem,12\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	if shed := loadClean(t, datasets.Options{Sheets: map[string]string{"parts": given}}, files); len(shed.Parts) != 1 || shed.Parts[0].Name != "stem" {
		t.Errorf("got %+v, want the part of the given file only", shed.Parts)
	}
}

func TestNoShed(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	for _, w := range []struct{ folder, says string }{{dir + "/none", "there is no folder"}, {dir, "there is no parts.csv"}} {
		_, _, err := datasets.Load(w.folder, datasets.Options{})
		var none *datasets.NoShedError
		if !errors.As(err, &none) || !strings.Contains(err.Error(), w.says) || !strings.Contains(err.Error(), "firstbolt start "+w.folder) || !strings.Contains(err.Error(), "--demo") {
			t.Errorf("%s: got %v, want %q and the two ways on", w.folder, err, w.says)
		}
	}
	_, _, err := datasets.LoadFS(shedOf(nil), "x", datasets.Options{Sheets: map[string]string{"prats": "x.csv"}})
	var option *datasets.SheetOptionError
	if !errors.As(err, &option) || !strings.Contains(err.Error(), `did you mean "parts"?`) {
		t.Errorf("got %v, want the nearest sheet", err)
	}
}

func TestSingleComplaints(t *testing.T) {
	t.Parallel()
	const parts = "part,slot,price\ntyre,front tyre,20\n"
	for name, w := range map[string]struct {
		files map[string]string
		code  string
	}{
		"empty parts":         {map[string]string{"parts.csv": "part,slot,price\n", "rider.csv": "setting,value\nlike," + hardtail}, "empty_sheet"},
		"nothing in parts":    {map[string]string{"parts.csv": "", "rider.csv": "setting,value\nlike," + hardtail}, "empty_sheet"},
		"no bike at all":      {map[string]string{"parts.csv": parts}, "no_bike"},
		"unknown like":        {map[string]string{"parts.csv": parts, "rider.csv": "setting,value\nlike,spaceship"}, "unknown_like"},
		"unknown currency":    {map[string]string{"parts.csv": parts, "rider.csv": "setting,value\ncurrency,EUX\nlike," + hardtail}, "currency"},
		"priorities of zero":  {map[string]string{"parts.csv": parts, "rider.csv": "setting,value\npriorities,braking=0; grip=0\nlike," + hardtail}, "priorities"},
		"negative priority":   {map[string]string{"parts.csv": parts, "rider.csv": "setting,value\npriorities,braking=-1; grip=2\nlike," + hardtail}, "out_of_range"},
		"ambiguous price":     {map[string]string{"parts.csv": "part,slot,price\ntyre,front tyre,\"1,299\"\n", "rider.csv": "setting,value\nlike," + hardtail}, "ambiguous_number"},
		"very large price":    {map[string]string{"parts.csv": "part,slot,price\ntyre,front tyre,99999999999999\n", "rider.csv": "setting,value\nlike," + hardtail}, "absurd_price"},
		"no header":           {map[string]string{"parts.csv": "tyre,front tyre,20\n", "rider.csv": "setting,value\nlike," + hardtail}, "no_header"},
		"same id but case":    {map[string]string{"parts.csv": "id,name,slot,price\nP1,a,stem,1\np1 ,b,stem,2\n", "rider.csv": "setting,value\nlike," + hardtail}, "twice"},
		"bike named nowhere":  {map[string]string{"parts.csv": parts, "bikes.csv": "bike,owned,like\nmine,yes," + hardtail, "fitted.csv": "bike,slot\nyours,stem"}, "unknown_bike"},
		"price in other coin": {map[string]string{"parts.csv": "part,slot,price\ntyre,stem,$20\n", "rider.csv": "setting,value\nlike," + hardtail}, "other_currency"},
	} {
		_, complaints, err := datasets.LoadFS(shedOf(w.files), "shed", datasets.Options{})
		codes := map[string]bool{}
		for _, c := range complaints {
			codes[c.Code] = codes[c.Code] || !c.Warning
		}
		if err != nil || !codes[w.code] {
			t.Errorf("%s: got %v %v, want an error %q", name, complaints, err, w.code)
		}
	}
}

// A sheet of the rider's own adds to the embedded tables and overrides them.
func TestOwnTables(t *testing.T) {
	t.Parallel()
	shed := loadClean(t, datasets.Options{}, map[string]string{
		"parts.csv": "part,kind,price\ntyre,swamp tyre,20\n",
		"rider.csv": "setting,value\nlike," + hardtail + "\n",
		"kinds.csv": "kind;places;facts;source\nswamp tyre;front tyre;tread=knobbly;judgement\n",
	})
	if len(shed.Parts) != 1 || shed.Parts[0].Kind != "swamp tyre" || !shed.Parts[0].Facts["tread"].Is("knobbly") {
		t.Errorf("got %+v", shed.Parts)
	}
}

// What is missing is said together with what to write.
func TestSaysWhatToDo(t *testing.T) {
	t.Parallel()
	for want, files := range map[string]map[string]string{
		"shipping is not counted; write shops.csv": {"parts.csv": "part,kind,price,shop\na,saddle,5,S1\nb,saddle,6,S2\n", "rider.csv": "setting,value\nlike," + hardtail},
		`a typical bike in the column like, or rows for it in fitted.csv; such as like="`: {
			"parts.csv": "part,kind,price\na,saddle,5\n", "bikes.csv": "bike,owned\nmy bike,yes\n",
		},
		"grip (traction)":            {"parts.csv": "part,kind,price\na,saddle,5\n", "rider.csv": "setting,value\nranking,zzzz > qqqq\nlike," + hardtail},
		"chain stays on (retention)": {"parts.csv": "part,kind,price\na,saddle,5\n", "rider.csv": "setting,value\npriorities,zzzz=3\nlike," + hardtail},
	} {
		_, complaints, err := datasets.LoadFS(shedOf(files), "shed", datasets.Options{})
		if err != nil || len(complaints) == 0 || !strings.Contains(complaints[0].String(), want) {
			t.Errorf("got %v %v, want one that says %s", complaints, err, want)
		}
	}
}
