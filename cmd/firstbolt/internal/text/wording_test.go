package text_test

import (
	"strings"
	"testing"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/cmd/firstbolt/internal/answer/example"
)

// says tells what the page of a plan must and must not say; line ends do not count.
func says(t *testing.T, p *answer.Plan, must []string, never ...string) {
	t.Helper()
	page := strings.Join(strings.Fields(written(t, p)), " ")
	for _, m := range must {
		if !strings.Contains(page, m) {
			t.Errorf("the page does not say %q:\n%s", m, page)
		}
	}
	for _, n := range never {
		if strings.Contains(page, n) {
			t.Errorf("the page says %q", n)
		}
	}
}

func TestStoppedEarly(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		gap  *answer.Points
		want string
	}{
		{nil, "this is the best plan found; that none is better, or as good for less money, is not proved"},
		{example.Of(answer.Points(300)), "by less than 0.1 points"},
		{example.Of(answer.Points(12000)), "by at most 1.2 points"},
	} {
		p := example.Plan()
		p.Proof = &answer.Proof{Engine: "builtin", Status: "stopped", Gap: c.gap}
		says(t, p, []string{c.want}, "at most 0.0 points")
	}
}

func TestDefaultPrioritiesSayHowToChangeThem(t *testing.T) {
	t.Parallel()
	p := example.Plan()
	p.Priorities.Origin = "default"
	says(t, p, []string{"(our default, since you did not say; set priorities to change it)"})
}

func TestWorkGoesNowhere(t *testing.T) {
	t.Parallel()
	p := example.Plan()
	p.Buy[0] = answer.Step{Step: 1, Kind: "work", Part: "take off: front shifter", Slots: []string{"front shifter"}, Replaces: []string{"front shifter"}, Cost: example.EUR(0)}
	says(t, p, []string{"comes off: front shifter"}, "goes in: front shifter")
	p.Buy[0] = answer.Step{Step: 1, Kind: "work", Part: "new cable", Slots: []string{"rear brake line"}, Cost: example.EUR(500)}
	says(t, p, []string{"is set up: rear brake line"}, "goes in: rear brake line")
}

func TestLongNamesAreCut(t *testing.T) {
	t.Parallel()
	p := example.Plan()
	name := strings.Repeat("long name ", 1000) + "end"
	p.Buy[0].Part, p.Sentence = name, "Stay and buy "+name+"."
	page := written(t, p)
	if len(page) > 12_000 || strings.Count(page, "\u2026") < 2 {
		t.Errorf("a name of 10,000 letters makes a page of %d", len(page))
	}
	if p.Buy[0].Part != name {
		t.Error("the answer itself was changed")
	}
}

func TestSmallPartsStandTogether(t *testing.T) {
	t.Parallel()
	p := example.Plan()
	for _, name := range []string{"inner cable", "housing", "ends"} {
		p.Receipt = append(p.Receipt, answer.Line{Kind: "small_part", Name: name + " (new rear brake cable and set-up, standard, rear brake)", Count: 1, Cost: example.EUR(150)})
	}
	says(t, p, []string{"small parts: inner cable, housing, ends (rear brake) 4.50"}, "new rear brake cable and set-up")
}

func TestMeasuresInOrderOfTheMoneyThatWaits(t *testing.T) {
	t.Parallel()
	p := example.Plan()
	p.Measure = nil
	for i, fact := range []string{"bead_mm", "joined", "links", "rotor_mm", "spindle_mm", "hanger", "width_mm"} {
		p.Measure = append(p.Measure, answer.Measure{
			Bike: "my hardtail", Slot: "slot", Fact: fact, Assumed: example.Of("584"), Share: example.Of(answer.Share(35)),
			Origin: "unknown", Waits: example.EUR(max(0, 4000-int64(i)*1000)),
		})
	}
	says(t, p, []string{
		"What matters most: bead seat diameter, mm (40.00 waits for it); brake lever and shifter in one piece (30.00 waits for it); length of the chain in links (20.00 waits for it).",
		"not known; this plan takes it to be 584 (35 % of such bikes, judgement)", "3 facts more, which no order waits for",
	}, "- hanger", "bead mm")
}
