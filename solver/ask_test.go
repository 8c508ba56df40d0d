package solver_test

import (
	"context"
	"errors"
	"strings"
	"testing"

	"firstbolt/model"
	"firstbolt/solver"
	"firstbolt/solver/builtin"
	"firstbolt/solver/formulate"
	"firstbolt/solver/internal/brute"
	"firstbolt/solver/program"
)

// enumeration is full enumeration as an engine: what it says is true by definition.
type enumeration struct{}

func (enumeration) Name() string { return "brute force" }
func (enumeration) Solve(_ context.Context, p *program.Program) (program.Solution, error) {
	return brute.Solve(p)
}

func stated(milli int64) model.Value {
	return model.NumberValue(milli, model.Origin{Sheet: "test", How: model.Measured})
}

func cash(m model.Money) model.Stated[model.Money] { return model.Say(m, model.Origin{}) }

func part(name, slot string, price model.Money, worth int64) model.Part {
	return model.Part{
		ID: name, Name: name, Places: []model.Place{{slot}}, Price: price,
		Facts: model.Facts{"worth": stated(worth * 1000)}, Origin: model.Origin{Sheet: "parts.csv", Row: 2},
	}
}

// shed is three slots whose things are worth so many steps of one straight measure: 500 steps are 100 points.
func shed(parts []model.Part, bikes ...model.Bike) *model.Shed {
	t := &model.Tables{
		Slots:    []model.Slot{{Name: "brake", Required: true}, {Name: "tyre", Required: true}, {Name: "pedals", Required: true}},
		Facts:    []model.Fact{{Name: "worth", Slots: []string{"brake", "tyre", "pedals"}}},
		Criteria: []model.Criterion{{Key: "good"}},
		Measures: []model.Measure{{Key: "good.all", Criterion: "good", Share: 100, Points: []model.CurvePoint{{Amount: 0, Level: 0}, {Amount: 500, Level: 100}}}},
		Profiles: []model.Profile{{Name: "default", Points: []model.Priority{{Criterion: "good", Points: 100}}}},
	}
	for _, s := range t.Slots {
		t.Amounts = append(t.Amounts, model.AmountRule{Measure: "good.all", Slot: s.Name, Fact: "worth", Form: model.Linear, Coef: 1})
	}
	return &model.Shed{Currency: model.Currency{Code: "EUR", Digits: 2}, Parts: parts, Bikes: bikes, Tables: t}
}

func bike(name string, owned model.Ownership, price model.Money, worth int64) model.Bike {
	b := model.Bike{Name: name, Ownership: owned, Price: price}
	for _, slot := range []string{"brake", "tyre", "pedals"} {
		b.Fitted = append(b.Fitted, model.Fitted{Slot: slot, Part: "old " + slot, Facts: model.Facts{"worth": stated(worth * 1000)}})
	}
	return b
}

func ask(t *testing.T, s *model.Shed, budget model.Money) *solver.Answer {
	t.Helper()
	ans, err := solver.Ask(context.Background(), solver.Question{Shed: s, Budget: budget, Lead: builtin.New(builtin.Options{}), Confirm: enumeration{}})
	if err != nil {
		t.Fatal(err)
	}
	if ans.Proof.Confirmed != "brute force" {
		t.Errorf("not confirmed by brute force: %+v", ans.Proof)
	}
	return ans
}

func names(p *solver.Plan) string {
	var list []string
	for _, s := range p.Steps {
		for _, b := range s.Purchases {
			if b.Part != nil {
				list = append(list, b.Part.Name)
			}
		}
	}
	return strings.Join(list, ", ")
}

func TestDecisions(t *testing.T) {
	t.Parallel()
	parts := func() []model.Part {
		return []model.Part{part("brake B", "brake", 40_00, 80), part("tyre T", "tyre", 20_00, 60), part("pedals P", "pedals", 90_00, 21)}
	}
	mine, rival := bike("mine", model.Own, 0, 20), bike("other", model.Rival, 150_00, 70)
	unsafe := bike("mine", model.Own, 0, 20)
	unsafe.Fitted[0].Condition = model.Unsafe
	for _, c := range []struct {
		name   string
		shed   *model.Shed
		budget model.Money
		want   solver.Decision
		buys   string
	}{
		{"nothing for nothing", shed(parts(), mine), 0, solver.Wait, ""},
		{"the steepest first", shed(parts(), mine), 30_00, solver.Stay, "tyre T"},
		{"both, steepest first; pedals are not worth 90.00", shed(parts(), mine), 1000_00, solver.Stay, "tyre T, brake B"},
		{"another bike is better for the money", shed(parts(), mine, rival), 150_00, solver.Switch, ""},
		{"unsafe and too little money", shed(parts(), unsafe), 39_99, solver.Mend, "brake B"},
		{"unsafe, and the brake is within the budget", shed(parts(), unsafe), 40_00, solver.Stay, "brake B"},
		{"unsafe and dear, another bike is within the budget", shed(parts()[1:], unsafe, rival), 150_00, solver.Switch, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			if c.name == "unsafe and dear, another bike is within the budget" {
				c.shed.Parts = append(c.shed.Parts, part("brake X", "brake", 500_00, 20))
			}
			ans := ask(t, c.shed, c.budget)
			plan := ans.Chosen
			if c.want == solver.Mend {
				plan = ans.Repair
			}
			if ans.Decision != c.want || names(plan) != c.buys {
				t.Errorf("%s and buy %q, want %s and %q", ans.Decision, names(plan), c.want, c.buys)
			}
			sum, gained := plan.Base, solver.Points(0)
			for _, s := range plan.Steps {
				sum, gained = sum+s.Cost, gained+s.Benefit
			}
			if sum != plan.Cash || gained != plan.Benefit-plan.Before {
				t.Errorf("steps add up to %d and %d points, the plan says %d and %d", sum, gained, plan.Cash, plan.Benefit-plan.Before)
			}
		})
	}
}

// At equal benefit the bike that is there wins.
func TestStayingWinsTies(t *testing.T) {
	t.Parallel()
	s := shed(nil, bike("mine", model.Own, 0, 50), bike("other", model.Rival, 10_00, 50))
	if ans := ask(t, s, 100_00); ans.Decision != solver.Wait || ans.Switch != nil {
		t.Errorf("%s with switch point %+v, want wait and none", ans.Decision, ans.Switch)
	}
}

// The switch point is the first budget at which the merged frontiers of all rivals lie above that of staying: found
// here by trying every budget.
func TestSwitchPointIsTheFirstLead(t *testing.T) {
	t.Parallel()
	parts := []model.Part{part("brake B", "brake", 7, 45), part("brake C", "brake", 11, 60), part("tyre T", "tyre", 5, 40), part("pedals P", "pedals", 9, 35)}
	for price := model.Money(5); price < 25; price += 3 {
		s := shed(parts, bike("mine", model.Own, 0, 20), bike("other", model.Rival, price, 38), bike("third", model.Rival, price+4, 44))
		ans := ask(t, s, 0)
		want, found := model.Money(0), false
		for budget := model.Money(0); budget <= 60 && !found; budget++ {
			stay := most(t, s, 0, budget)
			if max(most(t, s, 1, budget-price), most(t, s, 2, budget-price-4)) > stay {
				want, found = budget, true
			}
		}
		if found != (ans.Switch != nil) || found && ans.Switch.At != want {
			t.Errorf("rivals at %d: switch point %+v, want %d (%v)", price, ans.Switch, want, found)
		}
	}
}

// most is the best benefit of one bike for a purse, -1 where there is none.
func most(t *testing.T, s *model.Shed, b int, purse model.Money) int64 {
	t.Helper()
	c, err := formulate.Compile(s, &s.Bikes[b], formulate.Options{})
	if err != nil {
		t.Fatal(err)
	}
	p := *c.Program
	p.Budget = int64(purse)
	best, err := brute.Solve(&p)
	if err != nil {
		t.Fatal(err)
	}
	if best.Choice == nil {
		return -1
	}
	return best.Benefit
}

// A must that the budget does not reach is a clash that says what it costs; one that goes on no bike is waived.
func TestMusts(t *testing.T) {
	t.Parallel()
	must := part("brake B", "brake", 40_00, 80)
	must.Wish = model.Must
	s := shed([]model.Part{must}, bike("mine", model.Own, 0, 20))
	if got := names(ask(t, s, 40_00).Chosen); got != "brake B" {
		t.Errorf("bought %q, want brake B", got)
	}
	_, err := solver.Ask(context.Background(), solver.Question{Shed: s, Budget: 39_99, Lead: builtin.New(builtin.Options{})})
	var clash *solver.Clash
	if !errors.As(err, &clash) || clash.Least != 40_00 || len(clash.Wishes) != 2 {
		t.Errorf("got %v, want a clash of the must and the budget that names 40.00", err)
	}
}

// A tool for 25.00 serves two jobs that a shop does for 15.00 each: two jobs are cheaper with the tool, one in the shop.
func TestToolOrShop(t *testing.T) {
	t.Parallel()
	s := shed([]model.Part{part("brake B", "brake", 10_00, 80), part("tyre T", "tyre", 10_00, 60)}, bike("mine", model.Own, 0, 20))
	s.Tables.Tools = []model.Tool{{Name: "puller", Price: 25_00}}
	for _, slot := range []string{"brake", "tyre"} {
		s.Tables.Jobs = append(s.Tables.Jobs, model.Job{Name: "fit " + slot, Slots: []string{slot}, Place: slot, Skill: 1, Tools: []string{"puller"}, ShopPrice: cash(15_00)})
	}
	for _, c := range []struct{ budget, want model.Money }{{25_00, 25_00}, {44_99, 25_00}, {45_00, 45_00}, {100_00, 45_00}} {
		if got := ask(t, s, c.budget).Chosen.Cash; got != c.want {
			t.Errorf("with %d the plan costs %d, want %d", c.budget, got, c.want)
		}
	}
	s.Tools = []model.ToolOwned{{Name: "puller", Having: model.Borrow}}
	if got := ask(t, s, 100_00).Chosen.Cash; got != 20_00 {
		t.Errorf("with a borrowed tool the plan costs %d, want 2000", got)
	}
}

// What was due anyway is the price of the cheapest part that fills the slot, not the dearer one that is bought.
func TestDueAnyway(t *testing.T) {
	t.Parallel()
	mine := bike("mine", model.Own, 0, 20)
	mine.Fitted[1].Condition = model.Due
	s := shed([]model.Part{part("tyre T", "tyre", 30_00, 60), part("tyre cheap", "tyre", 12_00, 21)}, mine)
	step := ask(t, s, 30_00).Chosen.Steps[0]
	if step.Cost != 30_00 || step.Due != 12_00 {
		t.Errorf("step of %d with %d due anyway, want 3000 and 1200", step.Cost, step.Due)
	}
}

// What only comes off does so in the step of the part that wants it gone: here a ring that rules the front derailleur out.
func TestRemovalsStandWithTheirPart(t *testing.T) {
	t.Parallel()
	mine := bike("mine", model.Own, 0, 20)
	mine.Fitted = append(mine.Fitted, model.Fitted{Slot: "derailleur", Part: "old derailleur"})
	ring := part("ring R", "tyre", 20_00, 60)
	s := shed([]model.Part{ring, part("brake B", "brake", 40_00, 80)}, mine)
	s.Tables.Slots = append(s.Tables.Slots, model.Slot{Name: "derailleur"})
	s.Tables.Jobs = []model.Job{{Name: "take off derailleur", Slots: []string{"derailleur"}, Change: model.OnRemove, Place: "drive", Skill: 1}}
	s.Tables.Facts = append(s.Tables.Facts, model.Fact{Name: "single", Slots: []string{"tyre"}})
	s.Parts[0].Facts["single"] = model.ChoiceValue(model.Origin{Sheet: "test", How: model.Measured}, "yes")
	s.Tables.Rules = []model.Rule{{
		ID: "single", Left: model.Side{{Coef: 1, Slot: "tyre", Fact: "single"}}, Relation: model.Same, Right: model.Side{{Constant: "no"}},
		When: []model.Term{{Slot: "derailleur", Constant: "present"}}, Severity: model.Firm,
	}}
	steps := ask(t, s, 60_00).Chosen.Steps
	if len(steps) != 2 || len(steps[0].Purchases) != 2 {
		t.Fatalf("%d steps, the first with %d changes, want the ring with the derailleur off, then the brake", len(steps), len(steps[0].Purchases))
	}
}
