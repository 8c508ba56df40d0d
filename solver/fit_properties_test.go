package solver_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"firstbolt/model"
	"firstbolt/model/fit"
	"firstbolt/solver"
	"firstbolt/solver/builtin"
	"firstbolt/solver/formulate"
	"firstbolt/solver/program"
)

// TestFewerRulesAreNeverWorse: a rule only ever forbids, so without it no optimum is lower.
func TestFewerRulesAreNeverWorse(t *testing.T) {
	t.Parallel()
	for i := range 8 {
		rng := rand.New(rand.NewPCG(31, uint64(i)))
		s := randomShed(rng, demoShed(t))
		budget := int64(rng.IntN(250_00))
		all := optimum(t, s, budget)
		rules := s.Tables.Rules
		for range 6 {
			k := rng.IntN(len(rules))
			fewer := *s.Tables
			fewer.Rules = append(append([]model.Rule{}, rules[:k]...), rules[k+1:]...)
			less := *s
			less.Tables = &fewer
			if got := optimum(t, &less, budget); got < all {
				t.Errorf("shed %d at %d: %d with every rule, %d without %s", i, budget, all, got, rules[k].ID)
			}
		}
	}
}

// optimum is the most benefit within a budget.
func optimum(t *testing.T, s *model.Shed, budget int64) int64 {
	t.Helper()
	c, err := formulate.Compile(s, s.OwnBike(), formulate.Options{})
	if err != nil {
		t.Fatal(err)
	}
	p := *c.Program
	p.Budget, p.AnyTie = budget, true
	got, err := builtin.New(builtin.Options{}).Solve(context.Background(), &p)
	if err != nil || got.Status != program.Optimal {
		t.Fatal(got.Status, err)
	}
	return got.Benefit
}

// TestOrderNowIsSafe: what is ordered now rests, under rules that keep people from getting hurt, on nothing that nobody
// stated or measured. It looks at the built bike only: an unknown may stand where the rule holds at worst, and where
// like replaces like.
func TestOrderNowIsSafe(t *testing.T) {
	t.Parallel()
	looked := 0
	for i := range 8 {
		rng := rand.New(rand.NewPCG(37, uint64(i)))
		s := demoShed(t)
		forget(rng, s)
		s.Bikes = []model.Bike{*s.OwnBike()}
		p := planned(t, s, model.Money(rng.IntN(400_00))).Chosen
		if p == nil {
			continue
		}
		now := map[string]bool{}
		for _, step := range p.Steps {
			for _, b := range step.Purchases {
				for _, ch := range b.Changes {
					now[ch.Label.Thing.Slot] = b.Part != nil && !step.After
				}
			}
		}
		for _, r := range p.Fit {
			if r.Rule.Severity != model.Danger || fit.AsBefore(r.Rule, p.Built, p.Program.Now) || oneSet(r, p.Built) {
				continue
			}
			for _, slot := range fit.Slots(r.Rule) {
				if !now[slot] {
					continue
				}
				looked++
				for _, reading := range append(r.Left, r.Right...) {
					o := reading.Value.Origin
					if reading.Slot != model.RiderSlot && o.How != model.Measured && o.Sheet != model.FactsTable && (reading.Value.Known() || r.State != fit.Met) {
						t.Errorf("shed %d: %s is ordered now, but %s rests on %s.%s (%s)", i, p.Built[slot].Name, r.Rule.ID, reading.Slot, reading.Fact, o.How)
					}
				}
			}
		}
	}
	if looked < 20 {
		t.Errorf("only %d danger rules were looked at", looked)
	}
}

// oneSet tells whether a rule looks only at what comes as one set.
func oneSet(r fit.Result, built map[string]model.Thing) bool {
	var set *model.Part
	for _, slot := range fit.Slots(r.Rule) {
		th := built[slot]
		if th.State == model.Empty {
			continue
		}
		if th.Part == nil || set != nil && th.Part != set {
			return false
		}
		set = th.Part
	}
	return true
}

// forget makes a third of what was measured on the bike unknown.
func forget(rng *rand.Rand, s *model.Shed) {
	for i := range s.Bikes {
		for j := range s.Bikes[i].Fitted {
			f := &s.Bikes[i].Fitted[j]
			if f.Slot == model.RiderSlot {
				continue
			}
			facts := model.Facts{}
			for name, v := range f.Facts {
				if rng.IntN(3) > 0 {
					facts[name] = v
				}
			}
			f.Facts = facts
		}
	}
}

func planned(t *testing.T, s *model.Shed, budget model.Money) *solver.Answer {
	t.Helper()
	ans, err := solver.Ask(context.Background(), solver.Question{Shed: s, Budget: budget, Lead: builtin.New(builtin.Options{})})
	if err != nil {
		t.Fatal(err)
	}
	return ans
}

// TestOrderOfRowsChangesNothing: sheets and tables in another order give the same plan and the same verdicts.
func TestOrderOfRowsChangesNothing(t *testing.T) {
	t.Parallel()
	want := said(t, demoShed(t))
	for i := range 2 {
		rng := rand.New(rand.NewPCG(41, uint64(i)))
		s := demoShed(t)
		rng.Shuffle(len(s.Parts), func(a, b int) { s.Parts[a], s.Parts[b] = s.Parts[b], s.Parts[a] })
		rng.Shuffle(len(s.Bikes), func(a, b int) { s.Bikes[a], s.Bikes[b] = s.Bikes[b], s.Bikes[a] })
		tables := *s.Tables
		tables.Rules = append([]model.Rule{}, tables.Rules...)
		tables.Facts = append([]model.Fact{}, tables.Facts...)
		rng.Shuffle(len(tables.Rules), func(a, b int) { tables.Rules[a], tables.Rules[b] = tables.Rules[b], tables.Rules[a] })
		rng.Shuffle(len(tables.Facts), func(a, b int) { tables.Facts[a], tables.Facts[b] = tables.Facts[b], tables.Facts[a] })
		s.Tables = &tables
		got := said(t, s)
		for key, text := range want {
			if got[key] != text {
				t.Errorf("shuffle %d: %s: %q, want %q", i, key, got[key], text)
			}
		}
	}
}

// said is a plan and every verdict in words.
func said(t *testing.T, s *model.Shed) map[string]string {
	t.Helper()
	all := map[string]string{}
	ans := planned(t, s, 120_00)
	all["plan"] = fmt.Sprint(ans.Decision, " ", ans.Chosen.Bike.Name, " ", ans.Chosen.Cash, " ", ans.Chosen.Benefit)
	for _, step := range ans.Chosen.Steps {
		all["plan"] += fmt.Sprint("; ", step.Cost, " ", step.After)
		for _, b := range step.Purchases {
			for _, ch := range b.Changes {
				all["plan"] += " " + ch.Label.Thing.Name
			}
		}
	}
	for _, f := range fitsOf(t, s, formulate.Options{}) {
		text := fmt.Sprint(f.Answer, " ", f.Alone, " ", f.Cost)
		for _, c := range f.Company {
			text += " + " + c.Purchase.Changes[0].Label.Thing.Name
		}
		for _, r := range f.Checks {
			text += fmt.Sprint(" ", r.Rule.ID, " ", r.State)
		}
		all[key(f.Part, f.Place)] = text
	}
	return all
}
