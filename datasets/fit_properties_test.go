package datasets_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"firstbolt/model"
	"firstbolt/model/fit"
)

// mounted is one random part in one slot of one random bike.
type mounted struct {
	bike *model.Bike
	part *model.Part
	slot string
}

// mount draws a part for a slot that rules look at: most of them much like what stands there.
func (l lot) mount() mounted {
	tables := l.shed.Tables
	slots := []string{}
	for i := range tables.Rules {
		for _, slot := range fit.Slots(&tables.Rules[i]) {
			if slot != model.RiderSlot && !slices.Contains(slots, slot) {
				slots = append(slots, slot)
			}
		}
	}
	m := mounted{bike: l.bike(), slot: slots[l.IntN(len(slots))]}
	m.part = l.nearly(m.slot, m.bike)
	if l.IntN(10) == 0 {
		m.part = l.part(m.slot, fit.On(tables, m.bike, nil).Wants(m.slot), m.bike)
	}
	return m
}

// alone is the answer with all that is said of every rule.
func (m mounted) alone(t *model.Tables) (answer fit.Answer, said []string, results []fit.Result) {
	answer, results = fit.On(t, m.bike, nil).Alone(m.part, model.Place{m.slot})
	return answer, spelled(results), results
}

func spelled(results []fit.Result) []string {
	var said []string
	for _, r := range results {
		said = append(said, fmt.Sprint(r.Rule.ID, r.State, r.Severity, r.Missing, r.Bridge, r.Left, r.Right, r.Says))
	}
	return said
}

// shuffled are the tables with the rows of those that fit reads in another order, and so the bike's own rows.
func shuffled(r *rand.Rand, t *model.Tables, b *model.Bike) (*model.Tables, *model.Bike) {
	other, bike := *t, *b
	other.Rules, other.Slots, other.Facts = mixed(r, t.Rules), mixed(r, t.Slots), mixed(r, t.Facts)
	bike.Fitted = mixed(r, b.Fitted)
	other.Pairs = map[string][]model.Pair{}
	for name, pairs := range t.Pairs {
		other.Pairs[name] = slices.Clone(pairs)
		slices.Reverse(other.Pairs[name])
	}
	return &other, &bike
}

func mixed[T any](r *rand.Rand, list []T) []T {
	list = slices.Clone(list)
	r.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
	return list
}

// TestOrderOfTablesChangesNothing: the verdict, every reason and the check of a whole bike are the same whatever the
// order of rules, slots, facts, pairs and fitted rows.
func TestOrderOfTablesChangesNothing(t *testing.T) {
	t.Parallel()
	l := newLot(t, 2)
	for range 60 {
		m := l.mount()
		tables, bike := shuffled(l.Rand, l.shed.Tables, m.bike)
		answer, said, _ := m.alone(l.shed.Tables)
		turned := mounted{bike, m.part, m.slot}
		if again, saidAgain, _ := turned.alone(tables); again != answer || !slices.Equal(said, saidAgain) {
			t.Fatalf("%s on %s: %s, turned %s\n%q\n%q", m.slot, m.bike.Name, answer, again, said, saidAgain)
		}
		whole := spelled(fit.Check(l.shed.Tables, l.shed.Tables.Standing(m.bike), nil))
		if again := spelled(fit.Check(tables, tables.Standing(bike), nil)); !slices.Equal(whole, again) {
			t.Fatalf("%s: %q\n%q", m.bike.Name, whole, again)
		}
	}
}

// TestFewerRulesAreNeverStricter: without any one rule no part's verdict is worse. Between "fits with" and "both sides"
// neither is the worse one: where a strict rule and a disputed one look at the same two sides only the strict one
// speaks, and without it the disputed one does.
func TestFewerRulesAreNeverStricter(t *testing.T) {
	t.Parallel()
	l := newLot(t, 3)
	rank := map[fit.Answer]int{fit.Fits: 0, fit.FitsWith: 1, fit.BothSides: 1, fit.MeasureFirst: 2, fit.DoesNotFit: 3}
	better := 0
	for range 200 {
		m := l.mount()
		answer, _, results := m.alone(l.shed.Tables)
		for _, r := range results {
			fewer := *l.shed.Tables
			fewer.Rules = slices.DeleteFunc(slices.Clone(fewer.Rules), func(one model.Rule) bool { return one.ID == r.Rule.ID })
			less, _, _ := m.alone(&fewer)
			if rank[less] > rank[answer] {
				t.Fatalf("%s on %s: %s, and %s without %s: %v", m.slot, m.bike.Name, answer, less, r.Rule.ID, m.part.Facts)
			}
			if rank[less] < rank[answer] {
				better++
			}
		}
	}
	if better < 20 {
		t.Errorf("a verdict got better %d times only", better)
	}
}

// TestNothingFitsOnAnUnknownDanger: where a part is said to fit, or a danger rule is said to be met, every fact that the
// rule compares is known, or it holds at the worse end of what the fact may be, or the part is no worse than the one it
// replaces.
func TestNothingFitsOnAnUnknownDanger(t *testing.T) {
	t.Parallel()
	l := newLot(t, 4)
	known, worst, before := 0, 0, 0
	for range 3000 {
		m := l.mount()
		answer, _, results := m.alone(l.shed.Tables)
		now := l.shed.Tables.Standing(m.bike)
		built := l.shed.Tables.Standing(m.bike)
		built[m.slot] = l.shed.Tables.BoughtThing(m.part, model.Place{m.slot}, m.slot)
		for _, r := range results {
			switch unknown := unknownSides(r); {
			case r.Rule.Severity != model.Danger || answer != fit.Fits && r.State != fit.Met && r.State != fit.Bridged:
			case !unknown:
				known++
			case fit.AsBefore(r.Rule, built, now):
				before++
			case holdsAtWorst(l.shed.Tables, r):
				worst++
			default:
				t.Fatalf("%s on %s fits, and %s does not know %v", m.slot, m.bike.Name, r.Rule.ID, r.Missing)
			}
		}
	}
	if known < 100 || worst < 1 || before < 10 {
		t.Errorf("drawn: %d known, %d at worst, %d as before", known, worst, before)
	}
}

func unknownSides(r fit.Result) bool {
	return slices.ContainsFunc(slices.Concat(r.Left, r.Right), func(read fit.Reading) bool { return !read.Value.Known() })
}

// holdsAtWorst works the rule out in floating point with every unknown fact at the worse end of its range in facts.csv.
func holdsAtWorst(t *model.Tables, r fit.Result) bool {
	sign := map[model.Relation]float64{model.AtMost: 1, model.AtLeast: -1}[r.Rule.Relation]
	if sign == 0 {
		return false
	}
	over := worstOf(t, r.Rule.Left, r.Left, sign) - worstOf(t, r.Rule.Right, r.Right, -sign)
	return sign*over <= float64(r.Rule.Margin)+1
}

// worstOf is the largest that a side can be in thousandths, or the smallest where sign is below zero.
func worstOf(t *model.Tables, side model.Side, readings []fit.Reading, sign float64) float64 {
	sum, at := 0.0, 0
	for _, term := range side {
		if term.Slot == "" {
			sum += term.Coef * 1000
			continue
		}
		v := readings[at].Value
		at++
		f := t.FactNamed(term.Fact)
		switch {
		case v.Number:
			sum += term.Coef * float64(v.Milli)
		case sign > 0:
			sum += max(term.Coef*float64(f.Low), term.Coef*float64(f.High))
		default:
			sum += min(term.Coef*float64(f.Low), term.Coef*float64(f.High))
		}
	}
	return sum
}
