package ask_test

import (
	"context"
	"slices"
	"strings"
	"testing"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/cmd/firstbolt/internal/ask"
)

// older is a typical bike of which the bar clamp is not known, with a frame made for so much.
func older(class string) string {
	return "bike,owned,like,price,sells_for,size_ok,use_class\nmine,yes,older good hardtail rim brakes 3x9 26,,60,yes," + class + "\n"
}

const bars = "part,kind,price,used,inspected,bar_clamp_mm,bar_width_mm,returnable,use_class\n" +
	"bar U,wide bar,12,yes,,25.4,740,yes,3\n" + "bar V,wide bar,13,yes,yes,25.4,740,yes,3\n" + "bar W,wide bar,19,,,31.8,740,yes,3\n"

// A used bar that nobody looked over waits; what to buy if it is not sound, or if the clamp is another, is said.
func TestWhatToBuyInstead(t *testing.T) {
	t.Parallel()
	p := shedOf(t, map[string]string{"parts.csv": bars, "bikes.csv": older("3")})
	if len(p.OrderNow.Items) != 0 || len(p.OrderAfterMeasuring.Items) != 1 || p.OrderAfterMeasuring.Items[0].Part != "bar U" {
		t.Fatalf("order now %+v, after measuring %+v; want the used bar after looking it over", p.OrderNow, p.OrderAfterMeasuring)
	}
	for _, want := range []string{"(stem): buy bar W instead (7.00 more)", "(handlebar): buy bar V instead (1.00 more)"} {
		if !slices.ContainsFunc(p.OrderAfterMeasuring.Items[0].Instead, func(s string) bool { return strings.Contains(s, want) }) {
			t.Errorf("instead: %q, want %q among it", p.OrderAfterMeasuring.Items[0].Instead, want)
		}
	}
	sure := shedOf(t, map[string]string{"parts.csv": bars, "bikes.csv": older("3"), "fitted.csv": "bike,slot,bar_clamp_mm\nmine,stem,25.4\n"})
	if len(sure.OrderAfterMeasuring.Items) != 1 || len(sure.OrderAfterMeasuring.Items[0].Measure) != 1 {
		t.Errorf("with the clamp measured: %+v; want the bar alone to be looked over", sure.OrderAfterMeasuring)
	}
}

// A frame of a lower use class is said first, and a bike that is made for the riding is named with its price.
func TestMadeForLess(t *testing.T) {
	t.Parallel()
	rival := "other,no,modern entry hardtail hydraulic 1x10,400,,yes,3\nworse,no,modern entry hardtail hydraulic 1x10,100,,yes,2\n"
	p := shedOf(t, map[string]string{"parts.csv": bars, "bikes.csv": older("2") + rival})
	m := p.MadeFor
	if m == nil || !m.Known || m.Class != 2 || m.Riding != 3 || m.Elsewhere == nil || m.Elsewhere.Bike != "other" || m.Elsewhere.Cost.Minor != 340_00 {
		t.Fatalf("made for %+v; want class 2 for riding 3, and the other bike for 340.00", m)
	}
	if !strings.Contains(m.Says, "no part cures that") {
		t.Errorf("says %q", m.Says)
	}
	if !slices.ContainsFunc(p.Notes, func(n string) bool { return strings.HasPrefix(n, "Left out: worse: ") }) || len(p.Rivals) != 1 {
		t.Errorf("notes %q, rivals %+v; want the bike of class 2 left out", p.Notes, p.Rivals)
	}
	unknown := shedOf(t, map[string]string{"parts.csv": bars, "bikes.csv": older("")})
	if m := unknown.MadeFor; m == nil || m.Known || m.Class != 2 || !strings.Contains(m.Says, "Read the label") {
		t.Errorf("of an unknown class: %+v; want class 2 taken, and the label to be read", m)
	}
	for name, p := range map[string]*struct{ class, riding string }{"same": {"3", "3"}, "more": {"4", "3"}, "nobody said how it is ridden": {"2", ""}} {
		got := shedOf(t, map[string]string{"parts.csv": bars, "bikes.csv": older(p.class), "rider.csv": "setting,value\nbudget,100\nriding," + p.riding + "\n"})
		if got.MadeFor != nil {
			t.Errorf("%s: %+v, want nothing said", name, got.MadeFor)
		}
	}
}

// A bike for sale that is too small, or not made for the rider's mass, is no choice.
func TestRivalsLeftOut(t *testing.T) {
	t.Parallel()
	rivals := "small,no,modern entry hardtail hydraulic 1x10,100,,no,3\nlight,no,modern entry hardtail hydraulic 1x10,90,,yes,3\n"
	p := shedOf(t, map[string]string{
		"parts.csv": bars, "bikes.csv": older("3") + rivals, "fitted.csv": "bike,slot,system_max_kg\nlight,frame,110\n",
	}, ask.Setting{Name: "rider_kg", Value: "115"})
	if p.Decision == "switch" || len(p.Rivals) != 0 {
		t.Errorf("decision %s, rivals %+v", p.Decision, p.Rivals)
	}
	for _, want := range []string{"Left out: small: it is not the rider's size", "Left out: light: "} {
		if !slices.ContainsFunc(p.Notes, func(n string) bool { return strings.HasPrefix(n, want) }) {
			t.Errorf("notes %q, want %q", p.Notes, want)
		}
	}
}

// TestPlanAndFitsAgree: what a plan says goes nowhere, fits does not call fitting, and what a plan buys it does not refuse.
func TestPlanAndFitsAgree(t *testing.T) {
	t.Parallel()
	r := ask.Request{Command: "fits", Demo: true, Engine: "builtin"}
	got, err := ask.Fits(context.Background(), r)
	if err != nil {
		t.Fatal(err)
	}
	verdicts := map[string][]string{}
	for _, p := range got.(*answer.Fits).Parts {
		verdicts[p.Part] = append(verdicts[p.Part], p.Verdict)
	}
	can := func(part string) bool {
		return slices.ContainsFunc(verdicts[part], func(v string) bool { return v != "does_not_fit" && v != "both_sides" })
	}
	for _, amount := range []string{"60", "400"} {
		r.Command, r.Settings = "plan", []ask.Setting{budget(amount)}
		got, err := ask.Plan(context.Background(), r)
		if err != nil {
			t.Fatal(err)
		}
		p := got.(*answer.Plan)
		for _, s := range p.NotOffered {
			if can(s.Part) {
				t.Errorf("at %s the plan says that %s goes nowhere, fits says %v", amount, s.Part, verdicts[s.Part])
			}
		}
		for _, s := range p.Buy {
			if s.Kind == "part" && !can(s.Part) {
				t.Errorf("at %s the plan buys %s, fits says %v", amount, s.Part, verdicts[s.Part])
			}
		}
	}
}

// TestWhatIsAdvisedIsAccepted: every rule that an answer says could be allowed can be.
func TestWhatIsAdvisedIsAccepted(t *testing.T) {
	t.Parallel()
	r := ask.Request{Command: "fits", Demo: true, Engine: "builtin"}
	got, err := ask.Fits(context.Background(), r)
	if err != nil {
		t.Fatal(err)
	}
	advised := map[string]bool{}
	for _, p := range got.(*answer.Fits).Parts {
		for _, rule := range p.Allow {
			advised[rule] = true
			advised[strings.TrimSuffix(strings.TrimSuffix(rule, ".front"), ".rear")] = true
		}
	}
	if !advised["thread_on_cogs"] || !advised["chain_ring"] || len(advised) < 5 {
		t.Errorf("advised are only %v", advised)
	}
	r.Part = "FW2"
	for rule := range advised {
		r.Allow = []string{rule}
		if _, err := ask.Fits(context.Background(), r); err != nil {
			t.Error(err)
		}
	}
	for _, rule := range []string{"rotor_limit", "bead_seat", "nonsense"} {
		r.Allow = []string{rule}
		if _, err := ask.Fits(context.Background(), r); !ask.WrongUse(err) {
			t.Errorf("--allow %s: %v, want wrong use", rule, err)
		}
	}
}
