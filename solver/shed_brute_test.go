package solver_test

import (
	"context"
	"math/rand/v2"
	"strings"
	"testing"

	"firstbolt/model"
	"firstbolt/model/fit"
	"firstbolt/scoring"
	"firstbolt/solver/builtin"
	"firstbolt/solver/formulate"
	"firstbolt/solver/receipt"
)

// TestEnumerationOfPurchasesAgrees never looks at a program: it tries every set of purchases of small sheds on the bike
// itself. What goes together is judged by model/fit on the built bike, what it costs by the receipt, what it brings by
// the scorer. An unknown fact forbids nothing here, nor does it in plans unless two purchases need two values of it.
func TestEnumerationOfPurchasesAgrees(t *testing.T) {
	t.Parallel()
	buying := 0
	for i := range 40 {
		rng := rand.New(rand.NewPCG(11, uint64(i)))
		s := plainShed(rng, demoShed(t))
		bike := s.OwnBike()
		c, err := formulate.Compile(s, bike, formulate.Options{})
		if err != nil {
			t.Fatal(err)
		}
		p := *c.Program
		p.Budget = int64(rng.IntN(250_00))
		got, err := builtin.New(builtin.Options{}).Solve(context.Background(), &p)
		if err != nil {
			t.Fatal(err)
		}
		e := enumerate(t, s, c, model.Money(p.Budget))
		if e.cash > 0 {
			buying++
		}
		if got.Benefit != e.best || model.Money(got.Cash) != e.cash {
			t.Errorf("shed %d at %d with %d parts: builtin %d for %d, enumeration of %d sets %d for %d",
				i, p.Budget, len(s.Parts), got.Benefit, got.Cash, e.sets, e.best, e.cash)
		}
	}
	if buying < 20 {
		t.Errorf("only %d of 40 sheds have something worth buying, which tests too little", buying)
	}
}

// plainShed keeps up to eight parts, takes away what services could do, and lets the rider do all work with every tool
// at hand, so that a set of purchases has one cost.
func plainShed(rng *rand.Rand, s *model.Shed) *model.Shed {
	s = randomShed(rng, s)
	s.Parts = s.Parts[:min(len(s.Parts), 8)]
	s.Rider.Skill = model.Say(3, model.Origin{})
	s.Tools = nil
	for _, tool := range s.Tables.Tools {
		s.Tools = append(s.Tools, model.ToolOwned{Name: tool.Name, Having: model.Have})
	}
	jobs := s.Tables.Jobs[:0:0]
	for _, j := range s.Tables.Jobs {
		if j.Change == model.OnFit {
			jobs = append(jobs, j)
		}
	}
	s.Tables.Jobs = jobs
	return s
}

// enumerate tries every set of purchases within a budget.
func enumerate(t *testing.T, s *model.Shed, c *formulate.Compiled, budget model.Money) *enumerator {
	t.Helper()
	e := &enumerator{t: t, s: s, bike: s.OwnBike(), c: c, budget: budget, best: -1 << 60, built: map[string]model.Thing{}, least: map[string]model.Money{}}
	for name, th := range c.Now {
		e.built[name] = th
	}
	var err error
	if e.scorer, err = scoring.New(s.Tables, s, e.bike); err != nil {
		t.Fatal(err)
	}
	e.part(0)
	return e
}

type enumerator struct {
	t      *testing.T
	s      *model.Shed
	bike   *model.Bike
	c      *formulate.Compiled
	scorer *scoring.Scorer
	budget model.Money
	built  map[string]model.Thing
	items  []receipt.Item
	best   int64
	cash   model.Money
	least  map[string]model.Money // of all sets with a part in a place, the least cash
	sets   int
}

// key names a part in a place.
func key(p *model.Part, place model.Place) string { return p.ID + " in " + strings.Join(place, " + ") }

// part leaves out part i, or mounts it in each of its places that is still as it was, or in several.
func (e *enumerator) part(i int) {
	if i == len(e.s.Parts) {
		e.judge()
		return
	}
	e.place(i, 0, 0)
}

func (e *enumerator) place(i, from, copies int) {
	p := &e.s.Parts[i]
	if from == len(p.Places) {
		e.part(i + 1)
		return
	}
	e.place(i, from+1, copies)
	place := p.Places[from]
	if fit.Unofferable(e.s.Tables, p, place) != "" || p.Available.Known && copies >= p.Available.Value {
		return
	}
	for _, slot := range place {
		if e.built[slot].State == model.Bought {
			return
		}
	}
	kept := len(e.items)
	for _, slot := range place {
		th := e.s.Tables.BoughtThing(p, place, slot)
		e.items = append(e.items, receipt.Item{Thing: th, Before: e.c.Now[slot], Place: place, Jobs: e.jobs(th)})
		e.built[slot] = th
	}
	e.place(i, from+1, copies+1)
	e.items = e.items[:kept]
	for _, slot := range place {
		e.built[slot] = e.c.Now[slot]
	}
}

// jobs are the jobs that the receipt will ask for, all done by the rider.
func (e *enumerator) jobs(th model.Thing) []receipt.JobDone {
	var done []receipt.JobDone
	for _, name := range receipt.Jobs(e.s.Tables, &receipt.Item{Thing: th, Before: e.c.Now[th.Slot]}) {
		done = append(done, receipt.JobDone{Name: name})
	}
	return done
}

// judge keeps the bike as built if it is allowed, affordable and better, or as good for less.
func (e *enumerator) judge() {
	e.sets++
	r, err := receipt.Add(e.s, e.bike, e.bike, e.items)
	if err != nil {
		e.t.Fatal(err)
	}
	if r.Total > e.budget {
		return
	}
	for _, res := range fit.Check(e.s.Tables, e.built, nil) {
		if res.Forbids() && !fit.AsBefore(res.Rule, e.built, e.c.Now) {
			return
		}
	}
	for _, it := range e.items {
		at := key(it.Thing.Part, it.Place)
		if least, ok := e.least[at]; !ok || r.Total < least {
			e.least[at] = r.Total
		}
	}
	if b := e.benefit(); b > e.best || b == e.best && r.Total < e.cash {
		e.best, e.cash = b, r.Total
	}
}

// benefit adds up amounts in steps and bends them by the scales, without a program.
func (e *enumerator) benefit() int64 {
	steps := make([]int64, len(e.c.Scales))
	for m := range steps {
		steps[m] = e.scorer.Base(m)
	}
	for i := range e.s.Tables.Slots {
		for _, a := range e.scorer.Amounts(e.built[e.s.Tables.Slots[i].Name]) {
			steps[a.Measure] += a.Steps
		}
	}
	for _, v := range e.scorer.Values() {
		holds := true
		for _, w := range v.Rule.When {
			th := e.built[w.Slot]
			if w.Fact == "" {
				holds = holds && (th.State == model.Empty) == (w.Constant == "none")
			} else {
				holds = holds && th.State != model.Empty && th.Facts[w.Fact].Is(w.Constant)
			}
		}
		if holds {
			steps[v.Amount.Measure] += v.Amount.Steps
		}
	}
	sum := int64(0)
	for m := range e.c.Scales {
		sum += int64(e.c.Weights.Measures[m]) * e.c.Scales[m].Level(steps[m])
	}
	return sum
}
