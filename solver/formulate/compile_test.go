package formulate_test

import (
	"strings"
	"testing"

	"firstbolt/model"
	"firstbolt/solver/formulate"
	"firstbolt/solver/internal/brute"
	"firstbolt/solver/program"
)

// The sheds here are as small as the counterexample needs. Facts are made up; what is checked is the logic.

func number(milli int64) model.Value {
	return model.NumberValue(milli, model.Origin{Sheet: "test", How: model.Measured})
}

func side(slot, fact string) model.Side { return model.Side{{Coef: 1, Slot: slot, Fact: fact}} }

// shed is one bike with what is fitted, parts, and tables that know the slots named.
type shed struct {
	slots  []model.Slot
	facts  []model.Fact
	rules  []model.Rule
	fitted []model.Fitted
	parts  []model.Part
	shops  []model.Shop
	jobs   []model.Job
	curve  []model.CurvePoint // of the only measure, "good"
	budget int64
}

// compile gives every part the amount of its fact "worth" on the measure "good".
func (s shed) compile(t *testing.T) (*formulate.Compiled, *program.Program) {
	t.Helper()
	curve := s.curve
	if curve == nil {
		curve = []model.CurvePoint{{Amount: 0, Level: 0}, {Amount: 500, Level: 100}}
	}
	tables := &model.Tables{
		Slots: s.slots, Facts: s.facts, Rules: s.rules, Jobs: s.jobs,
		Criteria: []model.Criterion{{Key: "good", Says: "good"}},
		Measures: []model.Measure{{Key: "good.all", Criterion: "good", Share: 100, Points: curve}},
		Profiles: []model.Profile{{Name: "default", Points: []model.Priority{{Criterion: "good", Points: 100}}}},
	}
	worth := model.Fact{Name: "worth"}
	for _, slot := range s.slots {
		worth.Slots = append(worth.Slots, slot.Name)
		tables.Amounts = append(tables.Amounts, model.AmountRule{Measure: "good.all", Slot: slot.Name, Fact: "worth", Form: model.Linear, Coef: 1})
	}
	tables.Facts = append(tables.Facts, worth)
	sh := &model.Shed{
		Currency: model.Currency{Code: "EUR", Digits: 2}, Parts: s.parts, Shops: s.shops, Tables: tables,
		Bikes: []model.Bike{{Name: "mine", Ownership: model.Own, Fitted: s.fitted}},
	}
	c, err := formulate.Compile(sh, &sh.Bikes[0], formulate.Options{})
	if err != nil {
		t.Fatal(err)
	}
	p := *c.Program
	p.Budget = s.budget
	return c, &p
}

func solve(t *testing.T, p *program.Program) program.Solution {
	t.Helper()
	s, err := brute.Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// bought names what the best plan buys, in slot order.
func bought(t *testing.T, s shed) string {
	t.Helper()
	c, p := s.compile(t)
	best := solve(t, p)
	if best.Choice == nil {
		return "no plan"
	}
	var names []string
	for _, b := range c.Purchases(best.Choice) {
		if b.Part != nil {
			names = append(names, b.Part.Name)
		}
	}
	return strings.Join(names, ", ")
}

func part(name, slot string, price model.Money, facts model.Facts) model.Part {
	return model.Part{ID: name, Name: name, Places: []model.Place{{slot}}, Price: price, Facts: facts}
}

func worth(points int64) model.Value { return number(points * 1000) }

// A mount for 160, a rotor of 200 and a "+20" adapter: simply adding the adapter to the clause over several partners
// let it through.
func TestAnAdapterBridgesOnlyItsOwnStep(t *testing.T) {
	t.Parallel()
	s := shed{
		budget: 100_00,
		slots:  []model.Slot{{Name: "fork", Required: true}, {Name: "rotor", Required: true}, {Name: "adapter"}},
		facts: []model.Fact{
			{Name: "native_mm", Slots: []string{"fork"}}, {Name: "rotor_mm", Slots: []string{"rotor"}}, {Name: "step_mm", Slots: []string{"adapter"}},
		},
		rules: []model.Rule{{
			ID: "mount", Left: side("fork", "native_mm"), Right: side("rotor", "rotor_mm"), Relation: model.Same,
			Severity: model.Danger, Bridge: &model.Bridge{Slot: "adapter", Step: "step_mm"},
		}},
		fitted: []model.Fitted{
			{Slot: "fork", Facts: model.Facts{"native_mm": number(160_000)}},
			{Slot: "rotor", Facts: model.Facts{"rotor_mm": number(160_000)}},
		},
		parts: []model.Part{
			part("rotor 180", "rotor", 10_00, model.Facts{"rotor_mm": number(180_000), "worth": worth(10)}),
			part("rotor 200", "rotor", 10_00, model.Facts{"rotor_mm": number(200_000), "worth": worth(20)}),
			part("adapter +20", "adapter", 5_00, model.Facts{"step_mm": number(20_000)}),
		},
	}
	if got, want := bought(t, s), "rotor 180, adapter +20"; got != want {
		t.Errorf("bought %q, want %q", got, want)
	}
	s.parts[2].Facts["step_mm"] = number(40_000)
	if got, want := bought(t, s), "rotor 200, adapter +20"; got != want {
		t.Errorf("with a +40 adapter bought %q, want %q", got, want)
	}
}

// Two halves that are worth nothing each do not bring points together: clipping a curve at its first point is not
// concave.
func TestBelowTheFirstPointOfACurveItGoesOnFalling(t *testing.T) {
	t.Parallel()
	s := shed{
		budget: 100_00, curve: []model.CurvePoint{{Amount: 100, Level: 0}, {Amount: 200, Level: 50}, {Amount: 300, Level: 60}},
		slots: []model.Slot{{Name: "a"}, {Name: "b"}},
		parts: []model.Part{part("half a", "a", 1_00, model.Facts{"worth": worth(60)}), part("half b", "b", 1_00, model.Facts{"worth": worth(60)})},
	}
	_, p := s.compile(t)
	none, both := p.Evaluate([]int{0, 0}).Benefit, p.Evaluate([]int{1, 1}).Benefit
	one := p.Evaluate([]int{1, 0}).Benefit
	if none >= 0 || both <= 0 {
		t.Errorf("nothing is worth %d and both %d, want below 0 and above 0", none, both)
	}
	if 2*one < none+both {
		t.Errorf("one half brings %d, less than half of what both bring (%d to %d): not concave", one-none, none, both)
	}
}

// Two tyres of 15.00 reach the free delivery from 30.00 together: with counts on one side of the row they paid it.
func TestTwoTyresReachFreeShipping(t *testing.T) {
	t.Parallel()
	s := shed{
		budget: 30_00,
		slots:  []model.Slot{{Name: "front tyre"}, {Name: "rear tyre"}},
		shops:  []model.Shop{{Name: "S1", Shipping: 5_00, FreeOver: model.Say[model.Money](30_00, model.Origin{})}},
		parts: []model.Part{{
			ID: "T", Name: "tyre T", Shop: "S1", Price: 15_00, Places: []model.Place{{"front tyre"}, {"rear tyre"}}, Facts: model.Facts{"worth": worth(10)},
		}},
	}
	if got, want := bought(t, s), "tyre T, tyre T"; got != want {
		t.Errorf("bought %q, want %q", got, want)
	}
	_, p := s.compile(t)
	if best := solve(t, p); best.Cash != 30_00 {
		t.Errorf("two tyres cost %d, want 3000 without shipping", best.Cash)
	}
}

// One unknown bore cannot take a 34 mm headset and a tapered fork at once.
func TestAnUnknownBoreHasOneValue(t *testing.T) {
	t.Parallel()
	s := shed{
		budget: 100_00,
		slots:  []model.Slot{{Name: "frame", Required: true}, {Name: "fork"}, {Name: "headset"}},
		facts: []model.Fact{
			{Name: "bore_mm", Slots: []string{"frame"}, Plausible: []model.Plausible{{Value: number(34_000), Share: 60}, {Value: number(44_000), Share: 40}}},
			{Name: "needs_bore_mm", Slots: []string{"fork"}},
			{Name: "cup_mm", Slots: []string{"headset"}},
		},
		rules: []model.Rule{
			{ID: "fork", Left: side("fork", "needs_bore_mm"), Right: side("frame", "bore_mm"), Relation: model.Same, Severity: model.Danger},
			{ID: "cup", Left: side("headset", "cup_mm"), Right: side("frame", "bore_mm"), Relation: model.Same, Severity: model.Firm},
		},
		fitted: []model.Fitted{{Slot: "frame", Facts: model.Facts{}}},
		parts: []model.Part{
			part("tapered fork", "fork", 10_00, model.Facts{"needs_bore_mm": number(44_000), "worth": worth(30)}),
			part("headset 34", "headset", 10_00, model.Facts{"cup_mm": number(34_000), "worth": worth(10)}),
		},
	}
	if got, want := bought(t, s), "tapered fork"; got != want {
		t.Errorf("bought %q, want %q alone", got, want)
	}
	c, p := s.compile(t)
	if got := c.Guesses(solve(t, p).Choice)[[2]string{"frame", "bore_mm"}].String(); got != "44" {
		t.Errorf("the plan rests on a bore of %s, want 44", got)
	}
}

// A bike that breaks a rule as it stands may stay as it is, and may still buy something else.
func TestTheBikeAsItStandsIsNeverForbidden(t *testing.T) {
	t.Parallel()
	s := shed{
		budget: 100_00,
		slots:  []model.Slot{{Name: "wheel", Required: true}, {Name: "tyre", Required: true}, {Name: "pedals", Required: true}},
		facts:  []model.Fact{{Name: "bead_mm", Slots: []string{"wheel", "tyre"}}},
		rules:  []model.Rule{{ID: "bead", Left: side("tyre", "bead_mm"), Right: side("wheel", "bead_mm"), Relation: model.Same, Severity: model.Firm}},
		fitted: []model.Fitted{
			{Slot: "wheel", Facts: model.Facts{"bead_mm": number(584_000)}}, {Slot: "tyre", Facts: model.Facts{"bead_mm": number(559_000)}}, {Slot: "pedals"},
		},
		parts: []model.Part{
			part("pedals P", "pedals", 10_00, model.Facts{"worth": worth(5)}),
			part("tyre 559", "tyre", 10_00, model.Facts{"bead_mm": number(559_000), "worth": worth(50)}),
			part("tyre 584", "tyre", 20_00, model.Facts{"bead_mm": number(584_000), "worth": worth(40)}),
		},
	}
	if got, want := bought(t, s), "tyre 584, pedals P"; got != want {
		t.Errorf("bought %q, want %q", got, want)
	}
	s.budget = 15_00
	if got, want := bought(t, s), "pedals P"; got != want {
		t.Errorf("with 15.00 bought %q, want %q", got, want)
	}
}

// A set fills its slots together or not at all, and its price counts once.
func TestASetIsBoughtWhole(t *testing.T) {
	t.Parallel()
	s := shed{
		budget: 30_00,
		slots:  []model.Slot{{Name: "crankset", Required: true}, {Name: "chainring", Required: true}, {Name: "bottom bracket", Required: true}},
		fitted: []model.Fitted{{Slot: "crankset"}, {Slot: "chainring"}, {Slot: "bottom bracket"}},
		parts: []model.Part{
			{ID: "K", Name: "set K", Price: 30_00, Places: []model.Place{{"crankset", "chainring", "bottom bracket"}}, Facts: model.Facts{"worth": worth(10)}},
			part("ring R", "chainring", 10_00, model.Facts{"worth": worth(25)}),
		},
	}
	c, p := s.compile(t)
	best := solve(t, p)
	if got := c.Purchases(best.Choice); len(got) != 1 || got[0].Part.Name != "set K" || len(got[0].Changes) != 3 || best.Cash != 30_00 {
		t.Errorf("bought %+v for %d, want set K in three slots for 3000", got, best.Cash)
	}
}

// A sheet may own one copy of a tyre that could go into two places: the second one is paid.
func TestOwnedCopiesAreFreeAsOftenAsTheyLieThere(t *testing.T) {
	t.Parallel()
	s := shed{
		budget: 100_00, slots: []model.Slot{{Name: "front tyre"}, {Name: "rear tyre"}},
		parts: []model.Part{{ID: "T", Name: "tyre T", Price: 15_00, Owned: 1, Places: []model.Place{{"front tyre"}, {"rear tyre"}}, Facts: model.Facts{"worth": worth(10)}}},
	}
	_, p := s.compile(t)
	if best := solve(t, p); best.Cash != 15_00 {
		t.Errorf("two tyres cost %d, want 1500: one is owned", best.Cash)
	}
	s.parts[0].Available = model.Say(0, model.Origin{})
	_, p = s.compile(t)
	if best := solve(t, p); best.Cash != 0 || best.Benefit <= 0 {
		t.Errorf("with none for sale the plan is worth %d for %d, want the owned one for 0", best.Benefit, best.Cash)
	}
}
