package solver

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"sync"

	"firstbolt/model"
	"firstbolt/solver/formulate"
	"firstbolt/solver/program"
)

// DefaultWorth is how many points 100 of money must bring to be spent at all, where the rider does not say (judgement).
const DefaultWorth = 0.5

// asker holds what one question needs throughout. The switch point is looked for beside the plan, on the other core: mu
// guards what both learn.
type asker struct {
	mu     sync.Mutex
	q      Question
	kept   *entrant // nil where the rider owns no bike
	rivals []*entrant
	claims []claim // what was proved, for the confirmer
	known  map[question]program.Solution
	spans  map[*formulate.Compiled][]span
	proof  Proof

	notes     []string // bikes that were left out, and why
	overruled bool     // the confirmer has a better certified plan than the leader
}

// entrant is a bike with its program.
type entrant struct {
	bike *model.Bike
	base model.Money
	c    *formulate.Compiled // with the musts that bind
	free *formulate.Compiled // without any
}

// question is one solve that was asked already.
type question struct {
	c    *formulate.Compiled
	goal goal
}

// claim is one proved optimum.
type claim struct {
	what string
	p    *program.Program
	s    program.Solution
}

// Ask answers a question. An error means that an engine, a table or a check failed; clashing wishes come back as
// *Clash.
func Ask(ctx context.Context, q Question) (*Answer, error) {
	a := &asker{q: q, proof: Proof{Engine: q.Lead.Name()}, known: map[question]program.Solution{}, spans: map[*formulate.Compiled][]span{}}
	if err := a.enter(); err != nil {
		return nil, err
	}
	if err := a.settleMusts(ctx); err != nil {
		return nil, err
	}
	ans := &Answer{Question: q, Class: a.class()}
	type found struct {
		at       *SwitchPoint
		finished bool
		err      error
	}
	beside := make(chan found, 1)
	go func() {
		var f found
		f.finished, f.err = a.aside(ctx, func(ctx context.Context) (err error) {
			f.at, err = a.switchPoint(ctx)
			return err
		})
		beside <- f
	}()
	err := a.decide(ctx, ans)
	if err == nil && ans.Chosen != nil {
		_, err = a.aside(ctx, func(ctx context.Context) error { return a.otherwise(ctx, ans.Chosen) })
	}
	f := <-beside
	if err := cmp.Or(err, f.err); err != nil {
		return nil, err
	}
	if ans.Switch, ans.Searched = f.at, f.finished; !f.finished {
		ans.Switch = nil
		ans.Notes = append(ans.Notes, "Stopped before it was known from which budget another bike is better.")
	}
	ans.Notes = append(a.notes, ans.Notes...)
	a.confirm(ctx)
	if a.overruled {
		return askConfirmer(ctx, q, a.proof)
	}
	ans.Proof = a.proof
	return ans, nil
}

// askConfirmer lets the engine lead that found the better plan, and keeps the disagreement on record.
func askConfirmer(ctx context.Context, q Question, proof Proof) (*Answer, error) {
	q.Lead, q.Confirm = q.Confirm, nil
	ans, err := Ask(ctx, q)
	if err == nil {
		ans.Proof.Disagreement = proof.Disagreement
	}
	return ans, err
}

// enter compiles the kept bike and its rivals.
func (a *asker) enter() error {
	kept := a.q.Shed.OwnBike()
	if a.q.Bike != "" {
		for i := range a.q.Shed.Bikes {
			if a.q.Shed.Bikes[i].Name == a.q.Bike {
				kept = &a.q.Shed.Bikes[i]
			}
		}
	}
	for i := range a.q.Shed.Bikes {
		b := &a.q.Shed.Bikes[i]
		if b.Ownership == model.DonorBike || b.Ownership == model.Own && b != kept {
			continue
		}
		if err := a.admit(b, kept); err != nil {
			return err
		}
	}
	if a.kept == nil && len(a.rivals) == 0 {
		return &Faulty{errors.New("no bike to plan for: bikes.csv has neither an own bike nor one for sale")}
	}
	return nil
}

// admit compiles one bike; a rival that cannot be one is left out, and noted.
func (a *asker) admit(b, kept *model.Bike) error {
	e := &entrant{bike: b}
	planned := b
	if b == kept {
		planned = madeFor(a.q.Shed.Tables, b)
	} else if why := a.barred(b); why != "" {
		a.notes = append(a.notes, fmt.Sprintf("Left out: %s: %s.", b.Name, why))
		return nil
	}
	c, err := formulate.Compile(a.q.Shed, planned, a.q.Options)
	switch {
	case err != nil && b == kept:
		return &Faulty{err}
	case err != nil:
		a.notes = append(a.notes, fmt.Sprintf("Left out: %v.", err))
		return nil
	}
	e.c, e.free = c, c
	if b == kept {
		a.kept = e
		return nil
	}
	e.base = b.BaseCost()
	if kept != nil {
		e.base -= kept.SellsFor.Or(0)
	}
	a.rivals = append(a.rivals, e)
	return nil
}

// ask solves one bike's program for a purse that must also pay the bike itself; what was asked before is not solved again.
func (a *asker) ask(ctx context.Context, e *entrant, goal goal) (program.Solution, *program.Program, error) {
	p := *e.c.Program
	p.Budget, p.Floor, p.Objective, p.AnyTie, p.Start = program.NoBudget, goal.floor, goal.objective, goal.anyTie, a.start(e, goal)
	if goal.purse != program.NoBudget {
		p.Budget = goal.purse - int64(e.base)
	}
	asked := question{c: e.c, goal: goal}
	a.mu.Lock()
	known, ok := a.known[asked]
	a.mu.Unlock()
	if ok {
		return known, &p, nil
	}
	s, err := a.q.Lead.Solve(ctx, &p)
	if err != nil {
		return s, nil, fmt.Errorf("%s: %w", a.q.Lead.Name(), err)
	}
	if s.Choice != nil {
		if err := check(&p, s); err != nil {
			return s, nil, fmt.Errorf("%s gave a wrong answer for %s: %w", a.q.Lead.Name(), e.bike.Name, err)
		}
	}
	if s.Status == program.Stopped {
		return s, &p, a.stopped(ctx, e, goal, s)
	}
	a.mu.Lock()
	a.known[asked] = s
	a.mu.Unlock()
	return s, &p, nil
}

// stopped notes that a limit was reached, and how far from proved the answer is.
func (a *asker) stopped(ctx context.Context, e *entrant, goal goal, s program.Solution) error {
	if ctx.Value(besides{}) != nil {
		return &Stopped{Bike: e.bike.Name}
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	a.proof.Status = program.Stopped
	if s.Choice == nil {
		return &Stopped{Bike: e.bike.Name}
	}
	if goal.objective.Cash == 0 {
		a.proof.Gap = max(a.proof.Gap, Points(s.Bound-s.Benefit))
	}
	return nil
}

// goal is what one solve is asked for.
type goal struct {
	purse     int64 // all the money, NoBudget for no limit
	floor     int64
	objective program.Objective
	anyTie    bool // no plan is made of it, only its value counts
}

var (
	mostBenefit = program.Objective{Benefit: 1}
	leastCash   = program.Objective{Cash: 1}
)

// most is the most benefit for the purse, by any of the plans that bring it.
func (a *asker) most(ctx context.Context, e *entrant, purse model.Money) (program.Solution, error) {
	s, p, err := a.ask(ctx, e, goal{purse: int64(purse), floor: program.NoFloor, objective: mostBenefit, anyTie: true})
	if err == nil && s.Status != program.Stopped {
		a.mu.Lock()
		defer a.mu.Unlock()
		a.claims = append(a.claims, claim{what: fmt.Sprintf("%s at %s", e.bike.Name, a.q.Shed.Currency.Format(purse)), p: p, s: s})
	}
	return s, err
}

// best is the plan with the most benefit for the purse, every tie settled.
func (a *asker) best(ctx context.Context, e *entrant, purse model.Money) (program.Solution, error) {
	s, _, err := a.ask(ctx, e, goal{purse: int64(purse), floor: program.NoFloor, objective: mostBenefit})
	return s, err
}

// repair is the plan that costs least, every tie settled.
func (a *asker) repair(ctx context.Context, e *entrant) (program.Solution, error) {
	s, _, err := a.ask(ctx, e, goal{purse: program.NoBudget, floor: program.NoFloor, objective: leastCash})
	return s, err
}

// worthwhile is the plan within the budget whose benefit less the worth of its money is largest; where that is not known
// in time, the plan with the most benefit.
func (a *asker) worthwhile(ctx context.Context, e *entrant, floor int64, most program.Solution) (*Plan, error) {
	s, _, err := a.ask(ctx, e, goal{purse: int64(a.q.Budget), floor: floor, objective: a.worth()})
	switch {
	case isStopped(err):
		s = most
	case err != nil:
		return nil, err
	}
	return a.plan(e, s)
}

// worth is the objective benefit - worth * cash in whole numbers.
func (a *asker) worth() program.Objective {
	perHundred := int64(a.q.Shed.Rider.Worth.Or(DefaultWorth)*10_000 + 0.5)
	hundred := int64(a.q.Shed.Currency.Hundred())
	d := gcd(perHundred, hundred)
	return program.Objective{Benefit: hundred / d, Cash: perHundred / d}
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return max(a, 1)
}

// Stopped tells that a limit was reached before any plan was known.
type Stopped struct{ Bike string }

func (s *Stopped) Error() string { return "stopped before any plan for " + s.Bike + " was known" }

// isStopped tells whether a solve ended before it had any plan. What was known before it still stands.
func isStopped(err error) bool {
	var s *Stopped
	return errors.As(err, &s)
}

// Faulty tells that the sheets or tables cannot be made into a program.
type Faulty struct{ Err error }

func (f *Faulty) Error() string { return f.Err.Error() }

// Unwrap is the fault itself.
func (f *Faulty) Unwrap() error { return f.Err }

// Clash tells that wishes cannot all be met.
type Clash struct {
	Bike   string
	Wishes []string    // what together cannot be met
	Least  model.Money // what the musts cost at least, where the budget is among the wishes
}

func (c *Clash) Error() string {
	return fmt.Sprintf("the wishes clash: no set for %s meets all of %q", c.Bike, c.Wishes)
}
