package datasets

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

func embedded(t *testing.T) *model.Tables {
	t.Helper()
	tables, err := Embedded()
	if err != nil {
		t.Fatal(err)
	}
	return tables
}

// The counts that the rider's sheets rely on: a phrase for most parts, a class for most bikes.
func TestEmbeddedTablesAreThere(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	likes := map[string]int{}
	for _, k := range tables.Likes {
		likes[k.Name]++
	}
	for _, c := range []struct {
		what      string
		got, want int
	}{
		{"slots", len(tables.Slots), 40},
		{"facts", len(tables.Facts), 80},
		{"rules", len(tables.Rules), 60},
		{"kinds", len(tables.Kinds), 60},
		{"likes", len(likes), 10},
		{"criteria", len(tables.Criteria), 11},
		{"measures", len(tables.Measures), 18},
		{"amounts", len(tables.Amounts), 100},
		{"profiles", len(tables.Profiles), 5},
		{"jobs", len(tables.Jobs), 60},
		{"tools", len(tables.Tools), 25},
		{"cautions", len(tables.Cautions), 25},
		{"values", len(tables.Values), 4},
	} {
		if c.got < c.want {
			t.Errorf("%d %s, want at least %d", c.got, c.what, c.want)
		}
	}
	for name, slots := range likes {
		if slots < 40 {
			t.Errorf("like %q says something of %d slots only", name, slots)
		}
	}
}

// Every row with a figure says where it comes from.
func TestEveryRowHasASource(t *testing.T) {
	t.Parallel()
	for _, r := range tableReaders() {
		rows, complaints, err := embeddedRows(r.name)
		if err != nil || len(complaints) > 0 {
			t.Fatalf("%s: %v %v", r.name, err, complaints)
		}
		for _, row := range rows {
			if row.Get("source").Text == "" && r.name != "criteria" {
				t.Errorf("%s.csv:%d has no source", r.name, row.Line)
			}
		}
	}
}

// Every measure that takes part in a slot has an assumption for any class of bike, so that a coarse sheet gets a number.
func TestEveryAmountHasAnAssumption(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	present := map[string]bool{"front derailleur": true, "chain guide": true} // counted for being there
	for _, a := range tables.Amounts {
		if !present[a.Slot] && !slices.ContainsFunc(tables.Assumptions, func(s model.Assumption) bool {
			return s.Measure == a.Measure && s.Slot == a.Slot && s.Like == ""
		}) {
			t.Errorf("%s: no assumption for %s of the %s", a.Origin, a.Measure, a.Slot)
		}
	}
	for _, s := range tables.Slots {
		if !slices.ContainsFunc(tables.Assumptions, func(a model.Assumption) bool { return a.Measure == "weight" && a.Slot == s.Name }) {
			t.Errorf("no typical grams for the %s", s.Name)
		}
	}
}

// dangerFacts are the facts that danger rules read, by slot.
func dangerFacts(tables *model.Tables) map[string][]string {
	facts := map[string][]string{}
	for _, r := range tables.Rules {
		for _, term := range append(slices.Clone(r.Left), r.Right...) {
			if r.Severity == model.Danger && term.Slot != "" {
				facts[term.Slot] = append(facts[term.Slot], term.Fact)
			}
		}
	}
	return facts
}

// A phrase never assumes a fact of a danger rule; it may only repeat what its own words say ("rotor 180").
func TestKindsAssumeNoDanger(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	danger := dangerFacts(tables)
	for _, k := range tables.Kinds {
		for _, place := range k.Places {
			for _, slot := range place {
				for _, fact := range danger[slot] {
					if v, assumed := k.Facts[fact]; assumed && !strings.Contains(k.Name, v.String()) {
						t.Errorf("kind %q assumes %s = %s, which a danger rule reads and its name does not say", k.Name, fact, v)
					}
				}
			}
		}
	}
}

// A class of bikes assumes no fact of a danger rule, and none of those that are told wrongly most often (90-trade, T6).
func TestLikesAssumeNoDanger(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	danger := dangerFacts(tables)
	never := []string{
		"steerer_thread", "steerer_mm", "crown_race_mm", "head_upper_mm", "head_lower_mm", "seat_tube_bore_mm", "seatpost_mm",
		"front_rotor_max_mm", "rear_rotor_max_mm", "use_class", "tubeless_rated", "pull_family", "drive",
	}
	for _, k := range tables.Likes {
		for fact, v := range k.Facts {
			if slices.Contains(danger[k.Slot], fact) || slices.Contains(never, fact) {
				t.Errorf("like %q, %s: assumes %s = %s", k.Name, k.Slot, fact, v)
			}
			if v.Origin.How != model.Assumed {
				t.Errorf("like %q, %s: %s is not marked assumed", k.Name, k.Slot, fact)
			}
		}
	}
}

// No two kinds share a name or an alias, else a phrase would mean either.
func TestPhrasesMeanOneKind(t *testing.T) {
	t.Parallel()
	seen := map[string]string{}
	for _, k := range embedded(t).Kinds {
		for _, phrase := range append([]string{k.Name}, k.Aliases...) {
			if other, twice := seen[sheet.Key(phrase)]; twice && other != k.Name {
				t.Errorf("%q means %q and %q", phrase, other, k.Name)
			}
			seen[sheet.Key(phrase)] = k.Name
		}
	}
}

// ISO 5775-1: the trade's 26, 27.5 and 29 inch tyres sit on 559, 584 and 622 mm.
func TestInchesAreBeadSeats(t *testing.T) {
	t.Parallel()
	for _, k := range embedded(t).Kinds {
		for inch, bead := range map[string]int64{" 26 inch": 559_000, " 27.5 inch": 584_000, " 29 inch": 622_000} {
			if strings.HasSuffix(k.Name, inch) && k.Facts["bead_mm"].Milli != bead {
				t.Errorf("%s has bead seat %s", k.Name, k.Facts["bead_mm"])
			}
		}
	}
}

func TestSharesAndProfilesComeTo100(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	if faults := wholeFaults(tables); len(faults) > 0 {
		t.Error(faults)
	}
	tables.Measures[0].Share++
	tables.Profiles[1].Points[0].Points--
	if faults := wholeFaults(tables); len(faults) != 2 {
		t.Errorf("two sums were spoilt, %d found: %v", len(faults), faults)
	}
}

// 90-trade T3, written out again here: the curves of the embedded table pass through its points.
func TestCurvesPassThroughTheAgreedPoints(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	for _, c := range []struct {
		measure       string
		amount, level float64
	}{
		{"braking.front", math.Log(0.4), 0},
		{"braking.rear", math.Log(1.5), 83},
		{"braking.front", math.Log(2.6), 100},
		{"traction.front", 2, 62},
		{"traction.rear", 5, 100},
		{"control.frame", 2, 66},
		{"control.fork", 5, 79},
		{"control.cockpit", 3, 82},
		{"control.feet", 2, 75},
		{"control.drop", 120, 80},
		{"range.easy", -math.Log(1.8), 63},
		{"range.total", math.Log(4), 80},
		{"weight", -14000, 50},
		{"comfort", 3, 74},
		{"durability", 4, 90},
		{"mendable", 2.5, 50},
		{"retention", -math.Log(0.30), 70},
		{"retention", -math.Log(0.075), 92.5},
		{"retention", 3, 95.0},
		{"retention", 1.9, 85.0},
	} {
		m := tables.Measures[tables.MeasureIndex(c.measure)]
		if got := levelAt(m.Points, c.amount); math.Abs(got-c.level) > 0.3 {
			t.Errorf("%s at %.3f is %.2f, want %.2f", c.measure, c.amount, got, c.level)
		}
	}
}

// levelAt is a concave curve as the least of the lines through neighbouring points.
func levelAt(points []model.CurvePoint, x float64) float64 {
	least := math.Inf(1)
	for i := range points[1:] {
		a, b := points[i], points[i+1]
		least = min(least, a.Level+(b.Level-a.Level)*(x-a.Amount)/(b.Amount-a.Amount))
	}
	return least
}

// rowOf makes a row as the reader would, its cells in columns A, B, C ...
func rowOf(name string, cells ...string) sheet.Row {
	row := sheet.Row{Sheet: name + ".csv", Line: 2, Cells: map[string]sheet.Cell{}}
	for i := 0; i < len(cells); i += 2 {
		row.Cells[cells[i]] = sheet.Cell{Sheet: row.Sheet, Line: 2, Column: i/2 + 1, Name: cells[i], Text: cells[i+1]}
	}
	return row
}

func TestOwnRowsReplaceAndAdd(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	kinds, curves := len(tables.Kinds), len(tables.Measures)
	complaints := Lay(tables, "kinds", []sheet.Row{
		rowOf("kinds", "kind", "inner tube", "places", "rear tube / front tube", "grams", "150"),
		rowOf("kinds", "kind", "soft pads, {side}", "places", "{side} pads", "facts", "pad_compound=resin"),
	})
	complaints = append(complaints, Lay(tables, "curves", []sheet.Row{
		rowOf("curves", "measure", "comfort", "criterion", "comfort", "share", "100", "says", "comfort", "unit", "points", "points", "0:0; 1:60; 5:100"),
	})...)
	if len(complaints) > 0 {
		t.Fatal(complaints)
	}
	if got := len(tables.Kinds); got != kinds+2 {
		t.Errorf("%d kinds after one was replaced and one written out for both sides, want %d", got, kinds+2)
	}
	i := slices.IndexFunc(tables.Kinds, func(k model.Kind) bool { return k.Name == "inner tube" })
	if k := tables.Kinds[i]; k.Grams.Value != 150 || k.Places[0][0] != "rear tube" {
		t.Errorf("the own row did not replace the embedded one: %+v", k)
	}
	m := tables.Measures[tables.MeasureIndex("comfort")]
	if len(tables.Measures) != curves || len(m.Points) != 3 || m.Source == "" {
		t.Errorf("the own curve did not replace the embedded one: %+v", m)
	}
}

func TestRowsAreWrittenOutForBothEnds(t *testing.T) {
	t.Parallel()
	rows := writtenOut(rowOf("rules", "rule", "limit", "left", "{side} rotor.rotor_mm", "right", "{end}.{side}_rotor_max_mm"), true)
	for i, want := range []string{"limit.front front rotor.rotor_mm fork.front_rotor_max_mm", "limit.rear rear rotor.rotor_mm frame.rear_rotor_max_mm"} {
		got := fmt.Sprint(rows[i].Get("rule").Text, " ", rows[i].Get("left").Text, " ", rows[i].Get("right").Text)
		if got != want {
			t.Errorf("row %d is %q, want %q", i, got, want)
		}
	}
	if rows := writtenOut(rowOf("likes", "like", "a", "slot", "{side} tube"), false); rows[1].Get("like").Text != "a" {
		t.Errorf("a row without a name of its own got a new key: %q", rows[1].Get("like").Text)
	}
}

func TestFaultsNameTheCellAndTheNearestName(t *testing.T) {
	t.Parallel()
	good := map[string][]string{
		"measures": {"measure", "comfort", "slot", "grips", "fact", "grip_fixing", "form", "table", "rows", "push-on:0"},
		"curves":   {"measure", "comfort", "criterion", "comfort", "share", "100", "says", "comfort", "unit", "points", "points", "0:0; 5:100"},
		"rules":    {"rule", "x", "left", "chain.links", "relation", "at_least", "right", "100", "severity", "rule", "fails", "too short"},
		"jobs":     {"job", "x", "slots", "chain", "change", "fit", "place", "drivetrain", "tools", "chain tool", "small_parts", "pin=1.50"},
		"kinds":    {"kind", "x", "places", "front tyre / rear tyre", "facts", "tread=knobbly"},
		"values":   {"value", "x", "measure", "comfort", "when", "front tubeless set=present", "gives", "0.1"},
		"facts":    {"fact", "x", "kind", "number", "low", "1", "high", "9", "slots", "chain", "plausible", "2=60; 3=40"},
	}
	for table, cells := range good {
		if c := Lay(embedded(t), table, []sheet.Row{rowOf(table, cells...)}); len(c) > 0 {
			t.Fatalf("%s: %v", table, c)
		}
	}
	for _, c := range []struct{ table, column, text, code, says string }{
		{"measures", "slot", "grisp", "unknown_slot", `did you mean "grips"?`},
		{"measures", "fact", "grip_fixng", "unknown_fact", `did you mean "grip_fixing"?`},
		{"measures", "rows", "push-off:0", "choice", `did you mean "push-on"?`},
		{"measures", "rows", "push-on", "rows", "value:amount"},
		{"measures", "measure", "comfrot", "unknown_measure", `did you mean "comfort"?`},
		{"measures", "form", "tabel", "choice", `did you mean "table"?`},
		{"curves", "points", "0:0; 1:10; 2:40", "not_concave", "gets flatter"},
		{"curves", "points", "0:0; 1:50; 2:40", "points", "never fall"},
		{"curves", "points", "0:0", "points", "two points"},
		{"curves", "criterion", "confort", "unknown_criterion", `did you mean "comfort"?`},
		{"rules", "left", "chian.links", "unknown_slot", `did you mean "chain"?`},
		{"rules", "left", "chain.teeth", "unknown_fact", "a fact"},
		{"rules", "relation", "atleast", "choice", `did you mean "at_least"?`},
		{"rules", "severity", "deadly", "choice", "danger"},
		{"jobs", "tools", "chain tol", "unknown_tool", `did you mean "chain tool"?`},
		{"jobs", "small_parts", "pin=free", "price", "name=amount"},
		{"jobs", "place", "drivetrian", "unknown_place", `did you mean "drivetrain"?`},
		{"kinds", "facts", "tread=knobly", "choice", `did you mean "knobbly"?`},
		{"kinds", "facts", "links=110", "unknown_fact", "belongs to chain"},
		{"kinds", "places", "front tire / rear tyre", "unknown_slot", `did you mean "front tyre"?`},
		{"values", "when", "front tubeless set", "condition", "slot.fact=value"},
		{"facts", "plausible", "2=60; 3=41", "share", "101"},
		{"facts", "high", "0.5", "range", "above low"},
	} {
		row := rowOf(c.table, good[c.table]...)
		cell := row.Get(c.column)
		cell.Text = c.text
		row.Cells[c.column] = cell
		complaints := Lay(embedded(t), c.table, []sheet.Row{row})
		if len(complaints) == 0 {
			t.Errorf("%s: %s = %q was taken", c.table, c.column, c.text)
			continue
		}
		got := complaints[0]
		if got.Code != c.code || got.Cell != cell.Ref() || !strings.Contains(got.String(), c.says) {
			t.Errorf("%s: %s = %q: code %q, %s; want code %q, cell %s, %q", c.table, c.column, c.text, got.Code, got, c.code, cell.Ref(), c.says)
		}
	}
}

func TestARowStandsOnce(t *testing.T) {
	t.Parallel()
	row := rowOf("tools", "tool", "chain tool", "price", "7.00")
	if c := Lay(embedded(t), "tools", []sheet.Row{row, row}); len(c) != 1 || c[0].Code != "twice" {
		t.Errorf("the same row twice: %v", c)
	}
	if c := Lay(embedded(t), "spells", nil); len(c) != 1 {
		t.Errorf("a table that there is none of: %v", c)
	}
}

// Cells of the small languages must never crash, whatever is typed.
func FuzzTableCells(f *testing.F) {
	for _, seed := range []string{"chain.links + 2", "0.5*chain.links", "a.b=c; d=e", "ln 0.4:0; 1:2", "front tyre / rear tyre", "x: step=y", "-ln 2", "1=2=3", ";;", "=", "*.", " + "} {
		f.Add(seed)
	}
	tables, err := Embedded()
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, r := range tableReaders() {
			table, _ := TableNamed(r.name)
			row := sheet.Row{Sheet: "fuzz.csv", Line: 2, Cells: map[string]sheet.Cell{}}
			for i, c := range table.Columns {
				row.Cells[c.Name] = sheet.Cell{Sheet: row.Sheet, Line: 2, Column: i + 1, Name: c.Name, Text: text}
			}
			copied := *tables
			copied.Pairs = nil
			l := &layer{tables: &copied, seen: map[string]int{}, good: true}
			r.read(l, row)
		}
	})
}
