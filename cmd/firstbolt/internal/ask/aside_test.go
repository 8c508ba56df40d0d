package ask_test

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/cmd/firstbolt/internal/ask"
)

// shedOf writes a shed with one bike on 584 mm wheels and the rows of parts, and asks for its plan.
func shedOf(t *testing.T, sheets map[string]string, settings ...ask.Setting) *answer.Plan {
	t.Helper()
	dir := t.TempDir()
	all := map[string]string{"bikes.csv": "bike,owned,like,sells_for\nmy bike,yes,store hardtail cable disc 3x7,60\n", "rider.csv": "setting,value\ncurrency,EUR\nbudget,100\nwork,self\nriding,3\n"}
	for name, text := range sheets {
		all[name] = text
	}
	for name, text := range all {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := ask.Plan(context.Background(), ask.Request{Command: "plan", Path: dir, Settings: settings, Engine: "builtin"})
	if err != nil {
		t.Fatal(err)
	}
	plan, ok := got.(*answer.Plan)
	if !ok {
		t.Fatalf("no plan but %+v", got.End().Error)
	}
	return plan
}

// A tyre of bead seat diameter 622 goes on no rim of 584 (ISO 5775-1), and no wheel of 622 stands on the sheet. A tyre
// whose width nobody states may not fit between the fork's legs: its row waits for a cell.
func TestPartsAreSetAsideWithTheReason(t *testing.T) {
	t.Parallel()
	const tyre = "part,kind,price,width_mm,bead_mm\n"
	wrong := shedOf(t, map[string]string{"parts.csv": tyre + "tyre W,knobbly tyre,20,57,622\ntyre V,knobbly tyre,20,54,622\n"})
	if len(wrong.NotOffered) != 2 || !strings.Contains(wrong.NotOffered[0].Why, "584") || len(wrong.SayMore) != 0 {
		t.Errorf("set aside %+v, say more %+v, want two tyres that do not fit a rim of 584", wrong.NotOffered, wrong.SayMore)
	}
	if !strings.HasPrefix(wrong.Sentence, "None of your 2 parts fits my bike: ") {
		t.Errorf("the decision is %q", wrong.Sentence)
	}
	silent := shedOf(t, map[string]string{"parts.csv": tyre + "tyre W,knobbly tyre,20,,584\n"})
	if len(silent.NotOffered) != 0 || len(silent.SayMore) != 1 || silent.SayMore[0].Fact != "width_mm" || silent.SayMore[0].Sheet != "parts.csv" {
		t.Errorf("set aside %+v, say more %+v, want a tyre that lacks its width", silent.NotOffered, silent.SayMore)
	}
	fits := shedOf(t, map[string]string{"parts.csv": tyre + "tyre W,knobbly tyre,20,57,584\n"})
	if len(fits.NotOffered)+len(fits.SayMore) != 0 {
		t.Errorf("set aside %+v, say more %+v, want nothing", fits.NotOffered, fits.SayMore)
	}
}

// Whoever buys before the old bike is sold needs the whole price in hand: 90 for a bike that costs 30 once the old one has
// brought 60.
func TestMoneyInHandBeforeTheSale(t *testing.T) {
	t.Parallel()
	p := shedOf(t, map[string]string{
		"bikes.csv": "bike,owned,like,price,sells_for,size_ok\nmy bike,yes,store hardtail cable disc 3x7,,60,yes\nother,no,older hardtail hydraulic 2x10,90,,yes\n",
		"parts.csv": "part,kind,price\npads,\"disc pads, resin\",7\n",
	})
	const want = "You need 90.00 EUR in hand before your bike is sold."
	if p.Decision != "switch" || p.Cost.Total.Minor != 3000 || !strings.HasSuffix(p.Sentence, want) || len(p.Notes) == 0 || p.Notes[len(p.Notes)-1] != want {
		t.Errorf("decision %s for %s, sentence %q, notes %q", p.Decision, p.Cost.Total, p.Sentence, p.Notes)
	}
}
