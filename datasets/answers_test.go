package datasets_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"firstbolt/datasets"
	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

// filledIn is a line of boxes with the value written into it as a rider would.
func filledIn(t *testing.T, line, value string) string {
	t.Helper()
	if strings.Count(line, "[") == 1 {
		open, end := strings.Index(line, "["), strings.Index(line, "]")
		return line[:open+1] + " " + value + " " + line[end:]
	}
	filled := strings.Replace(line, "[ ] "+value+"   ", "[x] "+value+"   ", 1)
	if filled == line {
		t.Fatalf("%q has no box for %s", line, value)
	}
	return filled
}

// plausibleText is some value that the fact can have.
func plausibleText(f *model.Fact) string {
	if f.Kind == model.Number {
		return model.NumberValue((f.Low+f.High)/2/1000*1000, model.Origin{}).String()
	}
	return f.Allowed[len(f.Allowed)-1]
}

// Every fact of every slot can be asked for, filled in, read, written to measured.csv and read again as the same value.
func TestEveryBoxIsReadBack(t *testing.T) {
	t.Parallel()
	shed := loadClean(t, datasets.Options{}, measuredShed(""))
	var page strings.Builder
	want := map[string]string{}
	for i := range shed.Tables.Facts {
		f := &shed.Tables.Facts[i]
		for _, slot := range f.Slots {
			if slot == model.RiderSlot || slot == "front rotor" {
				continue
			}
			line := datasets.BoxLine(slot, f)
			if len(line) > 100 {
				t.Errorf("%q is %d wide", line, len(line))
			}
			page.WriteString(filledIn(t, line, plausibleText(f)) + "\r\n")
			want[slot+": "+f.Name] = plausibleText(f)
		}
	}
	read, complaints := datasets.ReadAnswers("page.txt", []byte(page.String()), shed, datasets.Options{})
	if len(complaints) > 0 {
		t.Fatalf("%d complaints, the first: %s", len(complaints), complaints[0])
	}
	again, complaints := datasets.ReadAnswers("measured.csv", datasets.MeasuredSheet(read, nil, datasets.Options{}), shed, datasets.Options{})
	if len(complaints) > 0 {
		t.Fatalf("%d complaints, the first: %s", len(complaints), complaints[0])
	}
	for name, all := range map[string][]datasets.Measured{"page": read, "sheet": again} {
		got := map[string]string{}
		for _, m := range all {
			got[m.Slot+": "+m.Fact] = m.Value.String()
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
	}
}

// A page as a rider fills it in: numbers with and without unit, crosses, words, doubts, and much that is no answer.
func TestAPageFilledIn(t *testing.T) {
	t.Parallel()
	shed := loadClean(t, datasets.Options{}, measuredShed(""))
	page := `WHAT TO MEASURE: the frame first
  Put the calliper in the tube 5 cm down.
  [ 27,2     ] mm   frame: seat_tube_bore_mm
  [ 31.9?    ] mm   frame: seat_tube_outer_mm   measured twice: 31.8 and 32
  [1 1/8 in  ] mm   fork: steerer_mm
  [          ] mm   frame: chainstay_mm
  [ 25 ] cm frame: post_exposed_mm
  [ ] brakes checked before the ride
  [x] told the shop about it: yes
  [x] IS   [ ] PM   frame: rear_brake_mount
  [ ] yes   [x ?] no   front wheel: tubeless_rated
  [ 135 open           ]   frame: rear_axle
  [________] mm   stem: bar_clamp_mm
BIKE: other
[X] shell   [ ] M47   no box asks for this
  [ 30.9 ] mm   frame: seat_tube_bore_mm
PART: F6
  [ 584 ] mm   front tyre: bead_mm
`
	got, complaints := datasets.ReadAnswers("page.txt", []byte(page), shed, datasets.Options{})
	for _, c := range complaints {
		t.Error(c)
	}
	at := func(line int, raw string, how model.Certainty) model.Origin {
		return model.Origin{Sheet: "page.txt", Row: line, Raw: raw, How: how}
	}
	want := []string{}
	for _, m := range []struct {
		of, value string
		from      model.Origin
	}{
		{"mine own frame seat_tube_bore_mm", "27.2", at(3, "27,2", model.Measured)},
		{"mine own frame seat_tube_outer_mm", "31.9", at(4, "31.9?", model.Remembered)},
		{"mine own fork steerer_mm", "28.575", at(5, "1 1/8 in", model.Measured)},
		{"mine own frame post_exposed_mm", "250", at(7, "25 cm", model.Measured)},
		{"mine own frame rear_brake_mount", "IS", at(10, "IS", model.Measured)},
		{"mine own front wheel tubeless_rated", "no", at(11, "no?", model.Remembered)},
		{"mine own frame rear_axle", "135 open", at(12, "135 open", model.Measured)},
		{"other frame seat_tube_bore_mm", "30.9", at(16, "30.9", model.Measured)},
		{"F6 front tyre bead_mm", "584", at(18, "584", model.Measured)},
	} {
		want = append(want, m.of+" = "+m.value+" from "+m.from.String()+" "+m.from.How.String()+" "+m.from.Raw)
	}
	texts := []string{}
	for _, m := range got {
		own := ""
		if m.Own {
			own = " own"
		}
		texts = append(texts, m.Bike+m.Part+own+" "+m.Slot+" "+m.Fact+" = "+m.Value.String()+" from "+m.Origin.String()+" "+m.Origin.How.String()+" "+m.Raw)
	}
	if diff := cmp.Diff(want, texts); diff != "" {
		t.Error(diff)
	}
	if v, laid := shed.OwnBike().InSlot("frame").Facts["seat_tube_bore_mm"]; laid {
		t.Errorf("reading answers changed the shed: %v", v)
	}
}

func TestWrongAnswers(t *testing.T) {
	t.Parallel()
	shed := loadClean(t, datasets.Options{}, measuredShed(""))
	for _, c := range []struct {
		page, code, says string
		line             int
	}{
		{"[ 27.2 ] mm   frame: seat_tube_bor_mm", "unknown_fact", `did you mean "seat_tube_bore_mm"?`, 1},
		{"[ 27.2 ] mm   frmae: seat_tube_bore_mm", "unknown_slot", `did you mean "frame"?`, 1},
		{"[ 27.2 ] mm   fork: seat_tube_bore_mm", "foreign_fact", "belongs to frame", 1},
		{"[ 272 ] mm   frame: seat_tube_bore_mm", "implausible", "decimal sign", 1},
		{"[ 27.2 ] kg   frame: seat_tube_bore_mm", "unit", "in mm", 1},
		{"27.2 mm   frame: seat_tube_bore_mm", "no_box", "put [ before it", 1},
		{"[ 27.2   frame: seat_tube_bore_mm", "no_box", "put [ before it", 1},
		{"[x] IS   [x] PM   frame: rear_brake_mount", "two_boxes", "only one", 1},
		{"[IS] IS   [PM] PM   frame: rear_brake_mount", "two_boxes", "only one", 1},
		{"[3] IS   [ ] PM   frame: rear_brake_mount", "box", "an x in the box", 1},
		{"[x]   frame: rear_brake_mount", "choice", "one of", 1},
		{"[180] mm   front rotor: rotor_mm", "nothing_there", "fitted.csv:3", 1},
		{"[178] cm   rider: height_cm", "rider", "rider.csv", 1},
		{"BIKE: othr\n[ 27.2 ] mm   frame: seat_tube_bore_mm", "unknown_bike", `did you mean "other"?`, 1},
		{"PART: F66\n[ 584 ] mm   front tyre: bead_mm", "unknown_part", `did you mean "F6"?`, 1},
		{"[ 27.2 ] mm   frame: seat_tube_bore_mm\n\nBIKE: mine\n[ 27.4 ] mm   frame: seat_tube_bore_mm", "two_values", "page.txt:1 says 27.2", 4},
		{"[ 31,875 ] mm   frame: seat_tube_bore_mm", "ambiguous_number", "--decimal", 1},
		{"slot,value\nframe,27.2\n", "missing_column", "fact", 1},
	} {
		// An open question makes it a page, wherever the fault is.
		text := c.page
		if !strings.HasPrefix(text, "slot,") {
			text += "\n" + datasets.BoxLine("frame", shed.Tables.FactNamed("seat_tube_bore_mm")) + "\n"
		}
		got, complaints := datasets.ReadAnswers("page.txt", []byte(text), shed, datasets.Options{})
		if len(complaints) != 1 || complaints[0].Code != c.code || complaints[0].Line != c.line || !strings.Contains(complaints[0].String(), c.says) {
			t.Errorf("%q: %v; want one complaint %q on line %d that says %q", c.page, complaints, c.code, c.line, c.says)
		}
		if most := strings.Count(c.code, "two_values"); len(got) > most {
			t.Errorf("%q: read %+v", c.page, got)
		}
	}
}

// What was measured anew replaces the old value where it stands; all else of the sheet is kept.
func TestMeasuredSheet(t *testing.T) {
	t.Parallel()
	shed := loadClean(t, datasets.Options{}, measuredShed(""))
	page := "[28,6] mm   frame: seat_tube_bore_mm\n[ 31,8755 ? ] mm   frame: seat_tube_outer_mm\nBIKE: other\n[27.2] mm   frame: seat_tube_bore_mm\nPART: F6\n[584] mm   front tyre: bead_mm\n"
	rows, complaints := datasets.ReadAnswers("page.txt", []byte(page), shed, datasets.Options{})
	if len(complaints) > 0 {
		t.Fatal(complaints)
	}
	old := "Bike;Slot;Fact;Value;Part;Note;Colour\nMINE;frame;seat_tube_bore_mm;27,2;;in the rain;red\n;frame;hanger;;;;\n;;bead_mm;559;front tyre;by telephone;\n"
	want := "bike;slot;fact;value;part;note;Colour\nMINE;frame;seat_tube_bore_mm;28,6;;in the rain;red\n;frame;hanger;;;;\n;;bead_mm;584;front tyre;by telephone;\n" +
		";frame;seat_tube_outer_mm;31,8760?;;;\nother;frame;seat_tube_bore_mm;27,2;;;\n"
	if diff := cmp.Diff(want, string(datasets.MeasuredSheet(rows, []byte(old), datasets.Options{}))); diff != "" {
		t.Error(diff)
	}
	want = "bike,slot,fact,value,part\n,frame,seat_tube_bore_mm,\"28,6\",\n,frame,seat_tube_outer_mm,\"31,8760?\",\nother,frame,seat_tube_bore_mm,\"27,2\",\n,front tyre,bead_mm,584,F6\n"
	comma := datasets.Options{Decimal: sheet.Comma}
	written := datasets.MeasuredSheet(rows, nil, comma)
	if diff := cmp.Diff(want, string(written)); diff != "" {
		t.Error(diff)
	}
	files := measuredShed(string(written))
	delete(files, "fitted.csv")
	loadClean(t, comma, files)
}

// The questions of a page can be written as a sheet to be filled in.
func TestMeasuredSheetOfOpenQuestions(t *testing.T) {
	t.Parallel()
	open := []datasets.Measured{{Bike: "mine", Own: true, Slot: "frame", Fact: "hanger"}, {Bike: "other", Slot: "frame", Fact: "seat_tube_bore_mm"}}
	const want = "bike,slot,fact,value\n,frame,hanger,\nother,frame,seat_tube_bore_mm,\n"
	if diff := cmp.Diff(want, string(datasets.MeasuredSheet(open, nil, datasets.Options{}))); diff != "" {
		t.Error(diff)
	}
	loadClean(t, datasets.Options{}, measuredShed(want))
}

// Whatever is typed into the page, every answer is read or complained about in words, and what was read can be kept:
// written to measured.csv, it is read again as the same.
func FuzzReadAnswers(f *testing.F) {
	for _, seed := range []string{
		"[ 27.2 ] mm   frame: seat_tube_bore_mm\n", "[x] IS   [ ] PM   frame: rear_brake_mount", "BIKE: other\n[1/8] in   fork: steerer_mm  ok", "PART: F6\n[584?]   front tyre: bead_mm",
		"slot,fact,value\nframe,seat_tube_bore_mm,\"31,875?\"\n", "[[]]: :", "[a]b[c]d: e", "27.2 frame: seat_tube_bore_mm", "bike;fact;value\n;hanger;=1\n",
	} {
		f.Add(seed)
	}
	shed, _, err := datasets.LoadFS(shedOf(measuredShed("")), "shed", datasets.Options{})
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text string) {
		rows, complaints := datasets.ReadAnswers("answers", []byte(text), shed, datasets.Options{})
		for _, c := range complaints {
			if c.Wanted == "" || c.Code == "" {
				t.Errorf("a complaint without code or what is wanted: %+v", c)
			}
			if !c.Warning && c.Code != "" {
				return
			}
		}
		written := datasets.MeasuredSheet(rows, nil, datasets.Options{})
		again, complaints := datasets.ReadAnswers("measured.csv", written, shed, datasets.Options{})
		if len(again) != len(rows) {
			t.Fatalf("%d of %d answers were read again from %q: %v", len(again), len(rows), written, complaints)
		}
		for i, m := range again {
			if r := rows[i]; m.Value.String() != r.Value.String() || m.Value.Origin.How != r.Value.Origin.How || m.Bike != r.Bike || m.Part != r.Part || m.Fact != r.Fact {
				t.Errorf("%+v was read again as %+v", r, m)
			}
		}
	})
}
