package datasets_test

import (
	"strings"
	"testing"

	"firstbolt/datasets"
	"firstbolt/model"
)

// measuredShed is a shed with one bike of the rider's, one for sale and two parts; measured.csv is added to it.
func measuredShed(measured string) map[string]string {
	files := map[string]string{
		"parts.csv":  "part,id,slot,price,bead_mm\nfront tyre,F6,front tyre,20,559\nbottom bracket,B1,bottom bracket,15,\nbottom bracket,B2,bottom bracket,18,\n",
		"bikes.csv":  "bike,owned,like,price,bead_mm\nmine,yes," + hardtail + ",,584\nother,no," + hardtail + ",300,\n",
		"fitted.csv": "bike,slot,part,seatpost_mm\nmine,seatpost,,27.2?\nmine,front rotor,none,\n",
	}
	if measured != "" {
		files["measured.csv"] = measured
	}
	return files
}

func TestMeasuredIsLaidOverTheRest(t *testing.T) {
	t.Parallel()
	shed := loadClean(t, datasets.Options{}, measuredShed("bike,slot,fact,value,part\n"+
		",seatpost,seatpost_mm,\"30,9\",\n"+ // over fitted.csv
		"mine,frame,bead_mm,559 ?,\n"+ // over bikes.csv
		",front tyre,bead_mm,584,\n"+ // over the typical bike
		",,seat_tube_bore_mm,,\n"+ // still open
		",,seat_tube_outer_mm,?,\n"+ // nobody knows
		"other,chain guide,guide_mount,shell,\n"+ // a slot that is empty on the typical bike
		",,bead_mm,584,F6\n"+ // over parts.csv
		",,shell,1.37x24,b2\n"))
	for _, w := range []struct {
		bike, slot, fact, value string
		from                    model.Origin
	}{
		{"mine", "seatpost", "seatpost_mm", "30.9", model.Origin{Sheet: "measured.csv", Row: 2, Cell: "D2", Raw: "30,9", How: model.Measured}},
		{"mine", "frame", "bead_mm", "559", model.Origin{Sheet: "measured.csv", Row: 3, Cell: "D3", Raw: "559 ?", How: model.Remembered}},
		{"mine", "front tyre", "bead_mm", "584", model.Origin{Sheet: "measured.csv", Row: 4, Cell: "D4", Raw: "584", How: model.Measured}},
		{"other", "chain guide", "guide_mount", "shell", model.Origin{Sheet: "measured.csv", Row: 7, Cell: "D7", Raw: "shell", How: model.Measured}},
	} {
		b := &shed.Bikes[0]
		if b.Name != w.bike {
			b = &shed.Bikes[1]
		}
		th := shed.Tables.FittedThing(b, w.slot)
		if v := th.Facts[w.fact]; v.String() != w.value || v.Origin != w.from || th.State != model.AsFitted {
			t.Errorf("%s, %s of the %s: %v from %+v (%v), want %s from %+v", w.bike, w.fact, w.slot, v, v.Origin, th.State, w.value, w.from)
		}
	}
	if v, known := shed.Tables.FittedThing(&shed.Bikes[0], "frame").Facts["seat_tube_bore_mm"]; known {
		t.Errorf("an open question has the value %v", v)
	}
	for id, want := range map[string]model.Facts{"F6": {"bead_mm": {Milli: 584_000}}, "B1": {}, "B2": {"shell": {Choices: []string{"1.37x24"}}}} {
		for _, p := range shed.Parts {
			for fact, v := range want {
				if got := p.Facts[fact]; p.ID == id && (got.Milli != v.Milli || strings.Join(got.Choices, "") != strings.Join(v.Choices, "") || got.Origin.Sheet != "measured.csv") {
					t.Errorf("%s of %s: %+v", fact, id, got)
				}
			}
			if _, said := p.Facts["shell"]; p.ID == "B1" && said {
				t.Error("what the seller of B2 said was taken for B1 too")
			}
		}
	}
}

// A donor's parts have what was measured on the donor.
func TestMeasuredOnADonor(t *testing.T) {
	t.Parallel()
	shed := loadClean(t, datasets.Options{}, map[string]string{
		"parts.csv":    "part,slot,price\ntyre,front tyre,20\n",
		"bikes.csv":    "bike,owned,like\nmine,yes," + hardtail + "\nwreck,donor,\n",
		"fitted.csv":   "bike,slot,part\nwreck,stem,old stem\n",
		"measured.csv": "bike,slot,fact,value\nwreck,stem,bar_clamp_mm,25.4\nwreck,stem,inspected,yes\n",
	})
	for _, p := range shed.Parts {
		if p.Donor == "wreck" && (p.Facts["bar_clamp_mm"].Milli != 25_400 || !p.Facts["inspected"].Is("yes")) {
			t.Errorf("%s: %+v", p.Name, p.Facts)
		}
	}
}

// A used part that was looked over since is no longer ordered only after looking.
func TestMeasuredInspection(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		said string
		want model.YesNo
		fact bool
	}{{"yes", model.Yes, true}, {"no", model.No, false}} {
		shed := loadClean(t, datasets.Options{Settings: []datasets.Setting{{Name: "like", Value: hardtail, Flag: "--like"}}}, map[string]string{
			"parts.csv":    "part,slot,price,used\nstem,stem,9,yes\n",
			"measured.csv": "part,fact,value\nstem,inspected," + c.said + "\n",
		})
		p := shed.Parts[0]
		if _, is := p.Facts["inspected"]; p.Inspected != c.want || is != c.fact {
			t.Errorf("said %s: %v, %v", c.said, p.Inspected, p.Facts["inspected"])
		}
	}
}

func TestMeasuredComplaints(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ row, code, cell, says string }{
		{"mien,frame,seat_tube_bore_mm,27.2,", "unknown_bike", "A2", `did you mean "mine"?`},
		{",frmae,seat_tube_bore_mm,27.2,", "unknown_slot", "B2", `did you mean "frame"?`},
		{",frame,seat_tube_bor_mm,27.2,", "unknown_fact", "C2", `did you mean "seat_tube_bore_mm"?`},
		{",fork,seat_tube_bore_mm,27.2,", "foreign_fact", "B2", "seat_tube_bore_mm belongs to frame"},
		{",,bead_mm,584,", "no_slot", "B2", "one of "},
		{",rider,height_cm,178,", "rider", "B2", "rider.csv"},
		{",front rotor,rotor_mm,180,", "nothing_there", "B2", "fitted.csv:3 says that there is none"},
		{",frame,seat_tube_bore_mm,272,", "implausible", "D2", "is the decimal sign missing"},
		{",frame,seat_tube_bore_mm,wide,", "number", "D2", "27.2"},
		{",frame,hanger,wrogn,", "choice", "D2", "one of"},
		{",,bead_mm,584,F66", "unknown_part", "E2", `did you mean "F6"?`},
		{",,shell,M47,bottom bracket", "two_parts", "E2", "write the id"},
		{"mine,,bead_mm,584,F6", "whose", "A2", "either the bike or the part"},
		{",,shell,M47,F6", "foreign_fact", "C2", "shell belongs to"},
		{",rear tyre,bead_mm,584,F6", "foreign_slot", "B2", "leave it empty"},
		{",frame,seat_tube_bore_mm,27.2,\n,frame,seat_tube_bore_mm,27.4,", "two_values", "D3", "measured.csv:2 (D2) says 27.2"},
		{",frame,seat_tube_bore_mm,27.2,\nmine,,seat_tube_bore_mm,27.4,", "two_values", "D3", "measured.csv:2 (D2) says 27.2"},
		{",,bead_mm,584,F6\n,front tyre,bead_mm,559,F6", "two_values", "D3", "measured.csv:2 (D2) says 584"},
	} {
		files := measuredShed("bike,slot,fact,value,part\n" + c.row + "\n")
		_, complaints, err := datasets.LoadFS(shedOf(files), "shed", datasets.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if len(complaints) != 1 {
			t.Errorf("%q: %d complaints: %v", c.row, len(complaints), complaints)
			continue
		}
		if got := complaints[0]; got.Code != c.code || got.Cell != c.cell || got.Sheet != "measured.csv" || !strings.Contains(got.String(), c.says) {
			t.Errorf("%q: code %q: %s; want code %q, cell %s, %q", c.row, got.Code, got, c.code, c.cell, c.says)
		}
	}
}

// The same value twice is no contradiction; of the two the surer counts.
func TestMeasuredTwice(t *testing.T) {
	t.Parallel()
	shed := loadClean(t, datasets.Options{}, measuredShed("slot,fact,value\nframe,seat_tube_bore_mm,27.2\nframe,seat_tube_bore_mm,27.20?\nframe,seat_tube_bore_mm,\n"))
	if v := shed.OwnBike().InSlot("frame").Facts["seat_tube_bore_mm"]; v.Milli != 27_200 || v.Origin.How != model.Measured || v.Origin.Row != 2 {
		t.Errorf("got %+v", v)
	}
}
