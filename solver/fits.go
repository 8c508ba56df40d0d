package solver

import (
	"cmp"
	"context"
	"fmt"
	"runtime"
	"slices"
	"sync"

	"firstbolt/model"
	"firstbolt/model/fit"
	"firstbolt/solver/formulate"
	"firstbolt/solver/program"
)

// FitQuestion asks what fits one bike.
type FitQuestion struct {
	Shed    *model.Shed
	Bike    *model.Bike
	Part    *model.Part // nil for every part
	Options formulate.Options
	Lead    program.Engine
}

// Fitting is what a careful mechanic says of one part in one place on the bike.
type Fitting struct {
	Part    *model.Part
	Place   model.Place
	Answer  fit.Answer
	Checks  []fit.Result // rules that look at the part: on the bike with its company, else with the part alone
	Company []Companion  // the cheapest further purchases and work that make it fit
	Alone   model.Money  // what the part costs by itself, with its work, small parts and shipping
	Cost    model.Money  // what the company costs on top
	Doubts  []Doubt      // what nobody measured and the verdict depends on
	Lacks   fit.Ref      // the fact that a danger rule needs and the part's row does not state
	Refused string       // why nobody would fit it
	Allow   []string     // rules on which practice disagrees; allowed, it would fit, or fit with less
	Milder  *Fitting     // what it would then be
}

// Companion is one purchase, or one piece of work without a part, that a part takes along. Cost is what it adds to all
// before it, shipping and shared work included, so that the costs of a company add up.
type Companion struct {
	Purchase formulate.Purchase
	Cost     model.Money
}

// Fits judges parts on a bike as it stands. What is needed besides a part is found by the same program as a plan: the
// least cash that makes the part fit, every shop's postage counted, so that nothing is among it only to ship free. Parts
// come in the order of the sheets, each once for every place.
func Fits(ctx context.Context, q FitQuestion) ([]Fitting, error) {
	f, err := newFitter(q)
	if err != nil {
		return nil, err
	}
	var list []Fitting
	var rows []int // of the list, as positions in the sheet
	for i := range f.shed.Parts {
		if q.Part == nil || q.Part == &q.Shed.Parts[i] {
			for _, place := range f.shed.Parts[i].Places {
				list, rows = append(list, Fitting{Part: &f.shed.Parts[i], Place: place}), append(rows, i)
			}
		}
	}
	if err := f.judge(ctx, list); err != nil {
		return nil, err
	}
	for k := range list {
		list[k].Part = &q.Shed.Parts[rows[k]]
	}
	return list, nil
}

// judge fills in the verdicts, several at a time: none of them needs another one.
func (f *fitter) judge(ctx context.Context, list []Fitting) error {
	next, failures := make(chan *Fitting), make([]error, runtime.GOMAXPROCS(0))
	var workers sync.WaitGroup
	for w := range failures {
		workers.Go(func() {
			for one := range next {
				if failures[w] == nil {
					failures[w] = f.fitting(ctx, one)
				}
			}
		})
	}
	for i := range list {
		next <- &list[i]
	}
	close(next)
	workers.Wait()
	return cmp.Or(failures...)
}

// fitter judges the parts of one bike.
type fitter struct {
	q     FitQuestion
	shed  *model.Shed
	bench *fit.Bench
	whole *formulate.Compiled                 // tells what a choice costs
	c     *formulate.Compiled                 // tells what goes together
	mild  func() (*formulate.Compiled, error) // with every rule allowed on which practice disagrees, made once it is asked for
}

// newFitter prepares the bike. Nothing that is marked unsafe is mended on the way: what a part takes along is to be
// known, not what else the bike needs. Parts that the rider never wants are judged like the others.
func newFitter(q FitQuestion) (*fitter, error) {
	shed, bike := *q.Shed, *madeFor(q.Shed.Tables, q.Bike)
	bike.Fitted = slices.Clone(bike.Fitted)
	for i := range bike.Fitted {
		if bike.Fitted[i].Condition == model.Unsafe {
			bike.Fitted[i].Condition = model.Due
		}
	}
	shed.Parts = slices.Clone(shed.Parts)
	for i := range shed.Parts {
		p := &shed.Parts[i]
		p.Wish = model.Consider
		if p.Available.Known && p.Available.Value == 0 {
			p.Available.Known = false
		}
	}
	c, err := formulate.Compile(&shed, &bike, q.Options)
	if err != nil {
		return nil, &Faulty{err}
	}
	f := &fitter{q: q, shed: &shed, bench: fit.On(shed.Tables, &bike, q.Options.Allow), whole: c, c: c.Bare()}
	f.mild = sync.OnceValues(f.allowAll)
	return f, nil
}

// allowAll is the bike's program with everything allowed on which practice disagrees.
func (f *fitter) allowAll() (*formulate.Compiled, error) {
	o := f.q.Options
	o.Allow = ruleNames(f.shed.Tables)
	c, err := formulate.Compile(f.shed, f.c.Bike, o)
	if err != nil {
		return nil, &Faulty{err}
	}
	return c.Bare(), nil
}

// fitting judges one part in one place. Where it fits the bike as it stands, or nothing mends it, there is nothing to be
// solved.
func (f *fitter) fitting(ctx context.Context, one *Fitting) error {
	if ctx.Err() != nil {
		return &Stopped{Bike: f.c.Bike.Name}
	}
	part, place := one.Part, one.Place
	one.Answer, one.Checks = f.bench.Alone(part, place)
	if ref, lacking := fit.Lacks(f.shed.Tables, part, place); lacking != nil && one.Answer != fit.DoesNotFit {
		one.Answer, one.Lacks = fit.MeasureFirst, ref
		return nil
	}
	if one.Refused = f.c.Refused(part, place); one.Refused != "" || one.Answer == fit.DoesNotFit {
		return nil
	}
	if one.Answer == fit.Fits {
		one.Doubts = f.doubts(f.with(part, place))
		if len(one.Doubts) > 0 {
			one.Answer = fit.MeasureFirst
		}
		one.Alone = f.alone(part, place)
		return nil
	}
	if err := f.company(ctx, f.c, one); err != nil {
		return err
	}
	return f.milder(ctx, one)
}

// with is the bike as it stands with only the part put in.
func (f *fitter) with(part *model.Part, place model.Place) map[string]model.Thing {
	built := f.shed.Tables.Standing(f.c.Bike)
	for _, slot := range place {
		built[slot] = f.shed.Tables.BoughtThing(part, place, slot)
	}
	return built
}

// alone is what the part costs by itself.
func (f *fitter) alone(part *model.Part, place model.Place) model.Money {
	at := slices.Clone(f.c.AsItStands)
	for s := range at {
		at[s] = max(at[s], 0)
		for k, l := range f.c.Slots[s].Options {
			if l.Thing.Part == part && slices.Equal(l.Place, place) {
				at[s] = k
				break
			}
		}
	}
	return model.Money(f.whole.Program.Evaluate(at).Cash)
}

// doubts are what nobody measured on a built bike and its purchases depend on.
func (f *fitter) doubts(built map[string]model.Thing) []Doubt {
	p := &Plan{Bike: f.c.Bike, Program: f.c, Built: built, Fit: fit.Check(f.shed.Tables, built, f.q.Options.Allow)}
	return p.Doubts()
}

// company finds the cheapest bike with the part in it. Where there is none the verdict says so.
func (f *fitter) company(ctx context.Context, c *formulate.Compiled, one *Fitting) error {
	held, offered := c.With(one.Part, one.Place)
	if !offered {
		return fmt.Errorf("%s cannot be offered for %v", one.Part.Name, one.Place)
	}
	p := *held.Program
	p.Budget, p.Floor = program.NoBudget, program.NoFloor
	s, err := f.q.Lead.Solve(ctx, &p)
	if err != nil {
		return fmt.Errorf("%s: what goes with %s: %w", f.q.Lead.Name(), one.Part.Name, err)
	}
	if s.Choice == nil {
		if s.Status == program.Stopped {
			return &Stopped{Bike: c.Bike.Name}
		}
		switch {
		case one.Answer == fit.FitsWith, one.Answer == fit.MeasureFirst && slices.ContainsFunc(one.Checks, wrongForSure):
			one.Answer = fit.DoesNotFit
		case one.Answer == fit.MeasureFirst: // the plausible values speak against it, but nobody has measured
			one.Doubts = f.doubts(f.with(one.Part, one.Place))
		}
		return nil
	}
	if err := check(&p, s); err != nil {
		return fmt.Errorf("%s gave a wrong answer for what goes with %s: %w", f.q.Lead.Name(), one.Part.Name, err)
	}
	f.settle(c, s.Choice, one)
	return nil
}

// wrongForSure tells whether a rule fails on measured facts alone.
func wrongForSure(r fit.Result) bool {
	return r.Forbids() && len(r.Missing) == 0 && r.Severity < model.BothSides && !slices.ContainsFunc(slices.Concat(r.Left, r.Right), func(x fit.Reading) bool {
		return x.Value.Origin.How < model.Measured
	})
}

// settle writes down the company of a choice and what it rests on.
func (f *fitter) settle(c *formulate.Compiled, choice []int, one *Fitting) {
	built := c.Built(choice)
	plan := &Plan{Bike: c.Bike, Program: c, Built: built, Choice: choice, Fit: fit.Check(f.shed.Tables, built, c.Options.Allow)}
	plan.rests()
	one.Doubts = plan.Doubts()
	one.companions(c, f.whole.Program, choice)
	for _, r := range plan.Fit {
		if r.State == fit.Allowed && !slices.Contains(f.q.Options.Allow, r.Rule.ID) {
			one.Allow = append(one.Allow, r.Rule.ID)
		}
	}
	one.Checks = slices.DeleteFunc(plan.Fit, func(r fit.Result) bool {
		return !slices.ContainsFunc(fit.Slots(r.Rule), func(slot string) bool { return slices.Contains(one.Place, slot) })
	})
	switch {
	case len(one.Doubts) > 0:
		one.Answer = fit.MeasureFirst
	case len(one.Company) > 0:
		one.Answer = fit.FitsWith
	default:
		one.Answer = fit.Fits
	}
}

// companions writes down the changes of a choice besides the part itself: parts first, then work without a part. Each
// costs what it adds to the part and those before it.
func (one *Fitting) companions(c *formulate.Compiled, whole *program.Program, choice []int) {
	at := slices.Clone(c.AsItStands)
	for s := range at {
		if at[s] < 0 {
			at[s] = choice[s]
		}
	}
	var rest []formulate.Purchase
	for _, b := range c.Purchases(choice) {
		if b.Part == one.Part && slices.Equal(b.Place, one.Place) {
			put(at, choice, b)
		} else {
			rest = append(rest, b)
		}
	}
	slices.SortStableFunc(rest, func(a, b formulate.Purchase) int { return workLast(a) - workLast(b) })
	one.Alone = model.Money(whole.Evaluate(at).Cash)
	before := one.Alone
	for _, b := range rest {
		put(at, choice, b)
		now := model.Money(whole.Evaluate(at).Cash)
		one.Company = append(one.Company, Companion{Purchase: b, Cost: now - before})
		before = now
	}
	one.Cost = before - one.Alone
}

func put(at, choice []int, b formulate.Purchase) {
	for _, ch := range b.Changes {
		at[ch.Slot] = choice[ch.Slot]
	}
}

func workLast(b formulate.Purchase) int {
	if b.Part == nil {
		return 1
	}
	return 0
}

// milder asks what would do if every rule on which practice disagrees were allowed, where that makes the part fit at all
// or with less money.
func (f *fitter) milder(ctx context.Context, one *Fitting) error {
	if one.Answer == fit.Fits || one.Answer == fit.MeasureFirst && len(one.Company) == 0 {
		return nil
	}
	mild, err := f.mild()
	if err != nil {
		return err
	}
	other := Fitting{Part: one.Part, Place: one.Place, Answer: fit.DoesNotFit}
	if err := f.company(ctx, mild, &other); err != nil {
		return err
	}
	if other.Answer == fit.DoesNotFit && one.Answer == fit.BothSides {
		one.Answer = fit.DoesNotFit // allowed or not, what else it needs is not on the sheets
	}
	if other.Answer == fit.DoesNotFit || one.Answer != fit.DoesNotFit && one.Answer != fit.BothSides && other.Cost >= one.Cost {
		return nil
	}
	one.Allow, one.Milder = other.Allow, &other
	if one.Answer == fit.DoesNotFit {
		one.Answer = fit.BothSides
	}
	return nil
}

// ruleNames are all rules by name. Allowing them all allows only what practice disagrees on.
func ruleNames(t *model.Tables) []string {
	var ids []string
	for i := range t.Rules {
		ids = append(ids, t.Rules[i].ID)
	}
	return ids
}
