package datasets

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

// ownShed is the least shed with the rider's own tables in it.
func ownShed(files map[string]string) fstest.MapFS {
	out := fstest.MapFS{
		"parts.csv": {Data: []byte("part,kind,price\ntyre A1,knobbly tyre,10\n")},
		"rider.csv": {Data: []byte("setting,value\nlike,store hardtail cable disc 3x7\n")},
	}
	for name, text := range files {
		out[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return out
}

// loadOwn loads the least shed with these files; the complaints may be faults.
func loadOwn(t *testing.T, files map[string]string) (*model.Shed, []sheet.Complaint) {
	t.Helper()
	shed, complaints, err := LoadFS(ownShed(files), "shed", Options{})
	if err != nil {
		t.Fatal(err)
	}
	return shed, complaints
}

// A faulty own rule is complained about in its cell, with what was found, what is wanted and how to mend it; it never
// gets into the tables. A rule that cannot fail is only warned of.
func TestFaultyOwnRules(t *testing.T) {
	t.Parallel()
	columns := strings.Split("rule,left,relation,right,margin,table,when,bridge,severity,fails", ",")
	good := map[string]string{
		"rule": "mine", "left": "front tyre.width_mm", "relation": "at_most", "right": "frame.front_wide", "severity": "rule", "fails": "{left} is above {right}",
	}
	for _, c := range []struct {
		change     map[string]string
		code, cell string
		says       string
	}{
		{map[string]string{"left": "front tire.width_mm"}, "unknown_slot", "B2", `did you mean "front tyre"?`},
		{map[string]string{"right": "frmae.front_wide"}, "unknown_slot", "D2", `did you mean "frame"?`},
		{map[string]string{"left": "front tyre.widht_mm"}, "unknown_fact", "B2", `did you mean "width_mm"?`},
		{map[string]string{"left": "chain.width_mm"}, "unknown_fact", "B2", "width_mm belongs to"},
		{map[string]string{"left": ""}, "empty_cell", "B2", "something in this cell"},
		{map[string]string{"when": "front tyre.treat=slick"}, "unknown_fact", "G2", `did you mean "tread"?`},
		{map[string]string{"when": "front tyre.tread=slik"}, "choice", "G2", `did you mean "slick"?`},
		{map[string]string{"when": "front tyre.tread=slick or knobbly"}, "condition", "G2", "one row for each"},
		{map[string]string{"when": "front tyre"}, "condition", "G2", "slot.fact=value"},
		{map[string]string{"when": "front tyre=there"}, "condition", "G2", "front tyre=present"},
		{map[string]string{"when": "front tyre.width_mm=5"}, "range", "G2", "width_mm from"},
		{map[string]string{"bridge": "front tube: step=width_mm", "relation": "same"}, "unknown_fact", "H2", "front tube"},
		{map[string]string{"bridge": "seatpost sleeve: step=sleeve_inner_mm"}, "bridge", "H2", "only what must be the same"},
		{map[string]string{"bridge": "front brake adapter: from=adapter_from to=adapter_to", "relation": "same"}, "bridge", "H2", "of the kind of the left side"},
		{map[string]string{"relation": "atmost"}, "choice", "C2", `did you mean "at_most"?`},
		{map[string]string{"severity": "dangerous"}, "choice", "I2", "danger, rule, both-sides, caution"},
		{map[string]string{"fails": ""}, "empty", "J2", "the sentence"},
		{map[string]string{"fails": "{width} is too wide"}, "placeholder", "J2", "{width} is none"},
		{map[string]string{"margin": "a bit"}, "number", "E2", "27.2"},
		{map[string]string{"relation": "pair_in"}, "unknown_table", "F2", "a table in pairs.csv"},
		{map[string]string{"relation": "pair_in", "table": "cog_carier"}, "unknown_table", "F2", `did you mean "cog_carriers"?`},
		{map[string]string{"table": "cog_carriers"}, "table", "F2", "only pair_in looks values up"},
		{map[string]string{"left": "front tyre.tread"}, "not_a_number", "B2", "front tyre.tread is one of"},
		{map[string]string{"left": "2*front tyre.tread", "relation": "same", "right": "slick"}, "sum", "B2", "a choice stands alone"},
		{map[string]string{"left": "front tyre.width_mm + front tyre.tread"}, "sum", "B2", "a choice stands alone"},
		{map[string]string{"right": "wide"}, "not_a_number", "D2", "wide"},
		{map[string]string{"relation": "same", "right": "wide"}, "not_a_number", "D2", "width_mm is one"},
		{map[string]string{"relation": "same", "left": "front tyre.tread", "right": "knobly"}, "choice", "D2", `did you mean "knobbly"?`},
		{map[string]string{"relation": "same", "left": "front tyre.tread", "right": "slick", "margin": "1"}, "margin", "E2", "only two numbers"},
		{map[string]string{"left": "5", "right": "7"}, "no_fact", "B2", "a fact on one side"},
		{map[string]string{"left": "front tyre.width_mm", "right": "5"}, "never_holds", "D2", "this rule can never hold: front tyre.width_mm goes from 18 to 130; on the right stands 5;"},
		{map[string]string{"right": "front tyre.width_mm + -10"}, "never_holds", "D2", "on the right the sum goes from 8 to 120"},
		{map[string]string{"relation": "at_least", "right": "500"}, "never_holds", "D2", "can never hold"},
		{map[string]string{"relation": "same", "right": "500"}, "never_holds", "D2", "can never hold"},
		{map[string]string{"relation": "same", "left": "front tyre.tread", "right": "saddle.rail"}, "never_holds", "D2", "can never hold: front tyre.tread is one of"},
		{map[string]string{"relation": "pair_in", "table": "cog_carriers", "left": "front tyre.tread", "right": "saddle.rail"}, "never_holds", "F2", "no row of \"cog_carriers\" has both"},
		{map[string]string{"when": "front tyre.tread=slick; front tyre.tread=knobbly"}, "never_applies", "G2", "not both slick and knobbly"},
		{map[string]string{"when": "front tyre=none"}, "never_applies", "G2", "where that is not there"},
		{map[string]string{"when": "chain=none; chain=present"}, "never_applies", "G2", "not both none and present"},
	} {
		var cells []string
		for _, column := range columns {
			cell, changed := c.change[column]
			if !changed {
				cell = good[column]
			}
			cells = append(cells, cell)
		}
		shed, complaints := loadOwn(t, map[string]string{
			"rules.csv": strings.Join(columns, ",") + "\n" + strings.Join(cells, ",") + "\n",
			"facts.csv": "fact,kind,unit,low,high,slots,how\nfront_wide,number,mm,20,80,frame,measure it\n",
		})
		if len(complaints) == 0 {
			t.Errorf("%v was taken", c.change)
			continue
		}
		if got := complaints[0]; got.Warning || got.Code != c.code || got.Sheet != "rules.csv" || got.Cell != c.cell || !strings.Contains(got.String(), c.says) {
			t.Errorf("%v: code %q: %s; want code %q, cell %s, %q", c.change, got.Code, got, c.code, c.cell, c.says)
		}
		if slices.ContainsFunc(shed.Tables.Rules, func(r model.Rule) bool { return r.ID == "mine" }) {
			t.Errorf("%v: the rule was laid all the same", c.change)
		}
	}
}

// Rules that hold whatever is measured are taken, with a warning.
func TestOwnRulesThatNeverFail(t *testing.T) {
	t.Parallel()
	for _, row := range []string{
		"mine,front tyre.width_mm,at_most,500,,,", "mine,front tyre.width_mm,same,front tyre.width_mm,,,", "mine,front tyre.tread,same,slick,,,front tyre.tread=slick",
		"mine,front tyre.width_mm + chain.links,at_least,chain.links,,,",
	} {
		shed, complaints := loadOwn(t, map[string]string{"rules.csv": "rule,left,relation,right,margin,table,when,severity,fails\n" + row + ",caution,no\n"})
		if len(complaints) != 1 || !complaints[0].Warning || complaints[0].Code != "never_fails" || complaints[0].Cell != "D2" {
			t.Errorf("%s: %v", row, complaints)
		}
		if r := shed.Tables.Rules[len(shed.Tables.Rules)-1]; r.ID != "mine" || r.Source != "the rider's own" || r.Origin.String() != "rules.csv:2" {
			t.Errorf("%s: the last rule is %+v", row, r)
		}
	}
}

// What is sound is taken without a word: at_most 0 for what must not be there, a decimal comma, a rule that replaces one.
func TestSoundOwnRules(t *testing.T) {
	t.Parallel()
	shed, complaints := loadOwn(t, map[string]string{"rules.csv": "rule;left;relation;right;margin;when;severity;fails\n" +
		"no guide;chain guide.guide_ring_max;at_most;0;;chainring.rings=2,0;rule;no\n" +
		"room;front tyre.width_mm + 2,5;at_most;0,95*fork.front_tyre_max_mm;0,25;;rule;no\n" +
		"post_bore;seatpost.seatpost_mm;same;frame.seat_tube_bore_mm;0,02;;rule;mine\n"})
	if len(complaints) > 0 {
		t.Fatal(complaints)
	}
	for _, r := range shed.Tables.Rules {
		switch r.ID {
		case "no guide":
			if r.When[0].Constant != "2" {
				t.Errorf("the condition asks for %q", r.When[0].Constant)
			}
		case "room":
			if r.Margin != 250 || r.Left[1].Coef != 2.5 || r.Right[0].Coef != 0.95 {
				t.Errorf("room: %+v", r)
			}
		case "post_bore":
			if r.Margin != 20 || r.Fails != "mine" {
				t.Errorf("post_bore was not replaced: %+v", r)
			}
		}
	}
	_, complaints = loadOwn(t, map[string]string{"rules.csv": "rule,left,relation,right,severity,fails\nrotor_limit,front rotor.rotor_mm,at_most,fork.front_rotor_max_mm,rule,mine\n"})
	if len(complaints) != 1 || complaints[0].Code != "one_more" || !complaints[0].Warning {
		t.Errorf("a rule that seems to replace one of front and rear: %v", complaints)
	}
}

func TestFaultyOwnFactsKindsAndPairs(t *testing.T) {
	t.Parallel()
	const facts, kinds, pairs = "fact,kind,unit,allowed,low,high,slots,plausible\n", "kind,aliases,places,facts,grams\n", "table,left,right,severity\n"
	for _, c := range []struct{ sheet, text, code, cell, says string }{
		{"facts", facts + "x,nubmer,mm,,1,2,frame,\n", "choice", "B2", `did you mean "number"?`},
		{"facts", facts + "x,number,mm,,2,2,frame,\n", "range", "F2", "above low"},
		{"facts", facts + "x,number,mm,,3,2,frame,\n", "range", "F2", "above low"},
		{"facts", facts + "x,number,mm,,3,,frame,\n", "range", "F2", "both empty"},
		{"facts", facts + "x,number,mm,a; b,1,2,frame,\n", "allowed", "D2", "no choices"},
		{"facts", facts + "x,number,mm,,1,2,frmae,\n", "unknown_slot", "G2", `did you mean "frame"?`},
		{"facts", facts + "x,number,mm,,1,2,,\n", "empty", "G2", "the slots"},
		{"facts", facts + "x,choice,,,,,frame,\n", "empty", "D2", "the choices of x"},
		{"facts", facts + "x,choice,,a; b,,,frame,c=50\n", "choice", "H2", "one of a, b"},
		{"facts", facts + "x,number,mm,,1,2,frame,3=50\n", "range", "H2", "x from 1 to 2; found 3"},
		{"facts", facts + "x,number,mm,,1,2,frame,1=80; 2=30\n", "share", "H2", "110"},
		{"facts", facts + "x.y,number,mm,,1,2,frame,\n", "name", "A2", "without"},
		{"facts", facts + "price,number,mm,,1,2,frame,\n", "taken", "A2", "choose another"},
		{"facts", facts + "steerer_mm,choice,,thick; thin,,,fork; headset; stem,\n", "broken_rule", "", "write the rule anew"},
		{"slots", "slot,place\na.b,front wheel\n", "name", "A2", "without"},
		{"slots", "slot,place\nrider,front wheel\n", "taken", "A2", "rider.csv"},
		{"kinds", kinds + "my tyre,,front tire,,\n", "unknown_slot", "C2", `did you mean "front tyre"?`},
		{"kinds", kinds + "my tyre,,front tyre,treat=slick,\n", "unknown_fact", "D2", `did you mean "tread"?`},
		{"kinds", kinds + "my tyre,,front tyre,tread=slik,\n", "choice", "D2", `did you mean "slick"?`},
		{"kinds", kinds + "my tyre,,front tyre,width_mm=5,\n", "range", "D2", "width_mm from"},
		{"kinds", kinds + "my tyre,,front tyre,tread,\n", "facts", "D2", "name=value"},
		{"kinds", kinds + "my tyre,,front tyre,,heavy\n", "number", "E2", "a whole number"},
		{"kinds", kinds + "my tyre,Knobbly  Tyre,front tyre,,\n", "taken", "B2", `means the kind "knobbly tyre"`},
		{"kinds", kinds + "my rotor,,front rotor,rotor_mm=180,\n", "assumes_danger", "D2", "a danger rule"},
		{"pairs", pairs + "pull_familys,A,B,rule\n", "unused_table", "A2", `did you mean "pull_families"?`},
		{"pairs", pairs + "cog_carriers,thread on,thread-on,rule\n", "choice", "B2", `did you mean "thread-on"?`},
		{"pairs", pairs + "valve_holes,Presta,99,rule\n", "choice", "C2", "rules of valve_holes"},
		{"pairs", pairs + "valve_holes,Presta,6.5,maybe\n", "choice", "D2", "both-sides"},
	} {
		_, complaints := loadOwn(t, map[string]string{c.sheet + ".csv": c.text})
		if len(complaints) == 0 {
			t.Errorf("%s: %q was taken", c.sheet, c.text)
			continue
		}
		got := complaints[0]
		if got.Code != c.code || got.Sheet != c.sheet+".csv" || got.Cell != c.cell || !strings.Contains(got.String(), c.says) {
			t.Errorf("%q: code %q: %s; want code %q, cell %s, %q", c.text, got.Code, got, c.code, c.cell, c.says)
		}
	}
}

// What an own danger rule reads is taken for granted of nothing any more: neither by a kind nor by a typical bike.
func TestAnOwnDangerRuleIsNotPassedOnATypicalFact(t *testing.T) {
	t.Parallel()
	const rule = "rule,left,relation,right,severity,fails\nmine,saddle.rail,same,seatpost.rail,"
	for _, c := range []struct {
		severity string
		known    bool
	}{{"danger", false}, {"rule", true}} {
		shed, complaints := loadOwn(t, map[string]string{"rules.csv": rule + c.severity + ",no\n", "parts.csv": "part,kind,price\nS1,saddle,20\n"})
		if len(complaints) > 0 {
			t.Fatal(complaints)
		}
		if _, known := shed.Parts[0].Facts["rail"]; known != c.known {
			t.Errorf("%s: the kind's rail is taken for granted: %v", c.severity, known)
		}
		if _, known := shed.OwnBike().InSlot("saddle").Facts["rail"]; known != c.known {
			t.Errorf("%s: the typical bike's rail is taken for granted: %v", c.severity, known)
		}
	}
}

// None of the rules that come with the program is one that can never hold or never fail.
func TestEmbeddedRulesCanHoldAndFail(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	for i := range tables.Rules {
		for _, f := range ruleFaults(tables, &tables.Rules[i]) {
			t.Errorf("%s: %s: want %s; %s", tables.Rules[i].ID, f.column, f.wanted, f.fix)
		}
	}
	for i := range tables.Rules { // the same rules with the relation turned round must not all pass: the check sees something
		if r := tables.Rules[i]; r.ID == "bead_seat.front" {
			r.Right = model.Side{{Coef: 5}}
			if f := ruleFaults(tables, &r); len(f) != 1 || f[0].code != "never_holds" {
				t.Errorf("a bead seat of 5 mm: %v", f)
			}
		}
	}
}
