package ask_test

import (
	"context"
	"os"
	"testing"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/cmd/firstbolt/internal/ask"
	"firstbolt/solver/child"
)

func TestMain(m *testing.M) {
	child.Serve()
	os.Exit(m.Run())
}

// planned asks for the plan of a shed of the test data. It has a part that is owned, one that is never to be bought,
// tax on top at one shop, free shipping at another, work beyond the rider's skill, and a fitted part that is due.
func planned(t *testing.T, settings ...ask.Setting) *answer.Plan {
	t.Helper()
	got, err := ask.Plan(context.Background(), ask.Request{Command: "plan", Path: "testdata/shed", Settings: settings, Engine: "builtin"})
	if err != nil {
		t.Fatal(err)
	}
	plan, ok := got.(*answer.Plan)
	if !ok {
		t.Fatalf("no plan but %+v", got.End().Error)
	}
	return plan
}

func budget(amount string) ask.Setting { return ask.Setting{Name: "budget", Value: amount} }

// What an answer shows adds up, line by line, whatever the budget and whoever does the work.
func TestPlansAddUp(t *testing.T) {
	t.Parallel()
	for _, work := range []string{"self", "shop"} {
		for _, amount := range []string{"0", "25", "60", "85.50", "120", "200", "300", "500"} {
			t.Run(work+" "+amount, func(t *testing.T) {
				t.Parallel()
				addsUp(t, planned(t, budget(amount), ask.Setting{Name: "work", Value: work}))
			})
		}
	}
}

func addsUp(t *testing.T, p *answer.Plan) {
	t.Helper()
	equal := func(what string, got, want int64) {
		t.Helper()
		if got != want {
			t.Errorf("%s: %d, want %d", what, got, want)
		}
	}
	var cost, gained, receipt int64
	for _, s := range p.Buy {
		sum, points := s.Price.Minor+s.Tax.Minor+s.ShippingChange.Minor, int64(0)
		for _, w := range s.With {
			sum += w.Cost.Minor
		}
		for _, c := range s.Points {
			points += int64(c.Value)
		}
		equal(s.Part+": price, tax, shipping and what goes with it", sum, s.Cost.Minor)
		equal(s.Part+": points by criterion", points, int64(s.Benefit))
		cost += s.Cost.Minor
		gained += int64(s.Benefit)
	}
	for _, l := range p.Receipt {
		receipt += l.Cost.Minor
	}
	c := p.Cost
	equal("the steps' costs", cost, c.Total.Minor-c.Bike.Minor-c.Sales.Minor)
	equal("the receipt", receipt, c.Total.Minor)
	equal("the kinds of cost", c.Parts.Minor+c.Tools.Minor+c.Work.Minor+c.SmallParts.Minor+c.Shipping.Minor+c.Tax.Minor+c.Sales.Minor+c.Bike.Minor, c.Total.Minor)
	equal("the two orders", p.OrderNow.Total.Minor+p.OrderAfterMeasuring.Total.Minor, cost)
	equal("the orders' items", int64(len(p.OrderNow.Items)+len(p.OrderAfterMeasuring.Items)), int64(len(p.Buy)))
	equal("what is left", p.Left.Minor, p.Budget.Minor-c.Total.Minor)
	start := p.Benefit.Before
	if p.Benefit.Unchanged != nil {
		start = *p.Benefit.Unchanged
	}
	equal("the steps' benefits", gained, int64(p.Benefit.After-start))
	equal("the gain", int64(p.Benefit.After-p.Benefit.Before), int64(p.Benefit.Gained))
	var byCriterion int64
	for _, l := range p.Benefit.ByCriterion {
		byCriterion += int64(l.Value.Points)
	}
	equal("the gains by criterion", byCriterion, int64(p.Benefit.Gained))
}

func TestPlanSaysWhatTheSheetsSay(t *testing.T) {
	t.Parallel()
	p := planned(t, budget("300"))
	if p.Decision != "stay" || p.Bike != "my bike" || *p.Currency != "EUR" {
		t.Errorf("decision %q for %q in %s", p.Decision, p.Bike, *p.Currency)
	}
	steps := map[string]answer.Step{}
	for _, s := range p.Buy {
		steps[s.Part+" in "+s.Slots[0]] = s
	}
	tyre, ok := steps["tyre F6 in front tyre"]
	if !ok || tyre.Where != "parts.csv:2" || *tyre.Condition != "new" || *tyre.Shop != "S1" || tyre.Price.Minor != 2490 || tyre.Due.Minor != 2490 {
		t.Errorf("the front tyre is %+v, want its row, price and that it was due", tyre)
	}
	pedals, ok := steps["pedals P3 in pedals"]
	if !ok || !pedals.Owned || pedals.Price.Minor != 0 || *pedals.Condition != "used" {
		t.Errorf("the pedals are %+v, want a used part that lies in the shed and costs nothing", pedals)
	}
	if _, ok := steps["saddle D6 in saddle"]; ok {
		t.Error("a part is bought that the rider never wants")
	}
	// 19 percent on top of 9.50 is 1.805, rounded half up to 1.81.
	if grips := steps["grips G2 in grips"]; grips.Tax.Minor != 181 {
		t.Errorf("the tax on the grips is %s, want 1.81", grips.Tax)
	}
	if *p.Proof.Unconfirmed == "" || p.Proof.Status != "optimal" || *p.Proof.Gap != 0 {
		t.Errorf("proof %+v", p.Proof)
	}
}

// --sure leaves out what must be measured first, --most bounds the purchases, and nothing unwanted gets in.
func TestPlanNarrowed(t *testing.T) {
	t.Parallel()
	r := ask.Request{Command: "plan", Path: "testdata/shed", Settings: []ask.Setting{budget("200")}, Engine: "builtin", Sure: true, Most: 2}
	got, err := ask.Plan(context.Background(), r)
	if err != nil {
		t.Fatal(err)
	}
	p := got.(*answer.Plan)
	if len(p.OrderAfterMeasuring.Items) > 0 {
		t.Errorf("under --sure these must be measured first: %+v", p.OrderAfterMeasuring.Items)
	}
	bought := 0
	for _, s := range p.Buy {
		if s.Price.Minor > 0 {
			bought++
		}
	}
	if bought == 0 || bought > 2 {
		t.Errorf("%d purchases, want one or two", bought)
	}
	addsUp(t, p)
}

// The leader's claims are confirmed where lp_solve is built in, and the answer says why where it is not.
func TestPlanIsConfirmedOrSaysWhyNot(t *testing.T) {
	t.Parallel()
	got, err := ask.Plan(context.Background(), ask.Request{Command: "plan", Path: "testdata/shed", Settings: []ask.Setting{budget("60")}, Engine: "auto"})
	if err != nil {
		t.Fatal(err)
	}
	proof := got.(*answer.Plan).Proof
	confirmed := proof.ConfirmedBy != nil && *proof.ConfirmedBy == "lpsolve"
	built := len(ask.Version().Engines) > 1
	switch {
	case proof.Disagreement != nil:
		t.Errorf("the engines disagree: %s", *proof.Disagreement)
	case !confirmed && proof.Unconfirmed == nil || confirmed && !built:
		t.Errorf("neither confirmed nor said why not: %+v", proof)
	}
	if built {
		t.Logf("confirmed: %v, %v", confirmed, proof.Unconfirmed)
	}
}

// An end before any plan is no crash: it has an answer and an exit code of its own.
func TestPlanInterrupted(t *testing.T) {
	t.Parallel()
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	got, err := ask.Plan(ctx, ask.Request{Command: "plan", Path: "testdata/shed", Settings: []ask.Setting{budget("300")}, Engine: "builtin"})
	if err != nil {
		t.Fatal(err)
	}
	if code := answer.Exit(got); code != 5 && code != 130 {
		t.Errorf("exit code %d (%v), want 5 with the best so far or 130 without any plan", code, got.End().Error)
	}
}

func TestWrongUse(t *testing.T) {
	t.Parallel()
	for name, r := range map[string]ask.Request{
		"no budget":     {Path: "testdata/shed"},
		"unknown bike":  {Path: "testdata/shed", Settings: []ask.Setting{budget("1")}, Bike: "nobody's"},
		"unknown rule":  {Path: "testdata/shed", Settings: []ask.Setting{budget("1")}, Allow: []string{"no such rule"}},
		"unknown sheet": {Path: "testdata/shed", Sheets: map[string]string{"partz": "x.csv"}},
	} {
		if got, err := ask.Plan(context.Background(), r); !ask.WrongUse(err) {
			t.Errorf("%s: %v, %v, want wrong use", name, got, err)
		}
	}
}

// One of the bikes can be chosen to be kept; the other is then the rival.
func TestBikeChoosesWhoIsKept(t *testing.T) {
	t.Parallel()
	r := ask.Request{Command: "plan", Path: "testdata/shed", Settings: []ask.Setting{budget("300")}, Engine: "builtin", Bike: "Used Hardtail U1"}
	got, err := ask.Plan(context.Background(), r)
	if err != nil {
		t.Fatal(err)
	}
	p, ok := got.(*answer.Plan)
	if !ok {
		t.Fatal(got.End().Error)
	}
	if p.Bike != "used hardtail U1" {
		t.Errorf("planned for %q (%s)", p.Bike, p.Sentence)
	}
	for _, rival := range p.Rivals {
		if rival.Bike == p.Bike {
			t.Errorf("%q is its own rival", p.Bike)
		}
	}
}
