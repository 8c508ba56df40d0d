package builtin_test

import (
	"context"
	"math"
	"reflect"
	"slices"
	"sync"
	"testing"
	"time"

	"firstbolt/solver/builtin"
	"firstbolt/solver/internal/brute"
	"firstbolt/solver/internal/random"
	"firstbolt/solver/loop"
	"firstbolt/solver/program"
)

// tunings change how the engine works, not what it answers: small tables are split into mini-buckets, bad prices make
// the tree do the work.
var tunings = []builtin.Options{{}, {Table: 6, Lines: 1, Steps: 5}, {Table: 30, Lines: 3, Steps: 20}}

// Full enumeration is the referee: every stage of ties must agree, so the choices are equal.
func TestSolveAgainstBruteForce(t *testing.T) {
	t.Parallel()
	optimal := 0
	for seed := range uint64(2400) {
		p := random.New(random.Small(seed))
		want, err := brute.Solve(p)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		got, err := builtin.New(tunings[seed%3]).Solve(context.Background(), p)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if got.Status != want.Status || !slices.Equal(got.Choice, want.Choice) ||
			!reflect.DeepEqual(got, want) && got.Status == program.Optimal {
			t.Fatalf("seed %d, objective %+v: got %+v, want %+v", seed, p.Objective, got, want)
		}
		if got.Status == program.Optimal {
			optimal++
		}
	}
	if optimal < 1000 {
		t.Errorf("only %d of the programs have a solution", optimal)
	}
}

// The frontier of full enumeration is the referee of the plain loop over the engine.
func TestLoopAgainstBruteForce(t *testing.T) {
	t.Parallel()
	points := 0
	for seed := range uint64(150) {
		p := random.New(random.Small(seed))
		upTo := int64(2000 + 37*seed)
		want, err := brute.Frontier(p, upTo)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		got, err := loop.Frontier(context.Background(), builtin.New(tunings[seed%3]), p, upTo)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if !reflect.DeepEqual(got, want) {
			t.Fatalf("seed %d: got %+v, want %+v", seed, got, want)
		}
		points += len(got.Points)
	}
	t.Logf("%d points", points)
}

// On programs of real size, where nobody can enumerate, other tables, lines and prices must lead to the same answer.
func TestTuningsAgree(t *testing.T) {
	t.Parallel()
	for seed := uint64(1); seed <= 3; seed++ {
		for _, o := range []random.Options{random.Demo(seed), random.Sheet(seed, 8)} {
			o.Budget = 0.1
			p := random.New(o)
			want := solve(t, builtin.Options{}, p)
			if got := solve(t, builtin.Options{Table: 1000, Lines: 2, Steps: 60}, p); !reflect.DeepEqual(got, want) {
				t.Errorf("%s: got %+v, want %+v", p.Name, got, want)
			}
		}
	}
}

func solve(t *testing.T, o builtin.Options, p *program.Program) program.Solution {
	t.Helper()
	s, err := builtin.New(o).Solve(context.Background(), p)
	if err != nil || s.Status != program.Optimal {
		t.Fatalf("%s: %v, %v", p.Name, s.Status, err)
	}
	if err := p.Feasible(s.Choice); err != nil || s.Cash > p.Budget {
		t.Fatalf("%s: cash %d of %d, %v", p.Name, s.Cash, p.Budget, err)
	}
	return s
}

// Ended early, the engine says so, and its bound holds.
func TestCancel(t *testing.T) {
	t.Parallel()
	p := random.New(random.Demo(1))
	best := solve(t, builtin.Options{}, p)
	ended, end := context.WithCancel(context.Background())
	end()
	short, free := context.WithTimeout(context.Background(), 5*time.Millisecond)
	defer free()
	for _, ctx := range []context.Context{ended, short} {
		s, err := builtin.New(builtin.Options{}).Solve(ctx, p)
		if err != nil || s.Status == program.Infeasible {
			t.Fatalf("got %+v, %v", s, err)
		}
		if s.Bound < best.Bound {
			t.Errorf("the bound %d is below the best %d", s.Bound, best.Bound)
		}
		if s.Choice != nil && (p.Feasible(s.Choice) != nil || s.Cash > p.Budget || s.Benefit > best.Benefit) {
			t.Errorf("got %+v", s)
		}
	}
}

// One engine serves several goroutines and gives each the same answer.
func TestConcurrentUse(t *testing.T) {
	t.Parallel()
	engine, p := builtin.New(builtin.Options{}), random.New(random.Small(7))
	var wait sync.WaitGroup
	answers := make([]program.Solution, 8)
	for i := range answers {
		wait.Go(func() { answers[i], _ = engine.Solve(context.Background(), p) })
	}
	wait.Wait()
	for _, a := range answers[1:] {
		if !reflect.DeepEqual(a, answers[0]) {
			t.Errorf("got %+v and %+v", answers[0], a)
		}
	}
}

// What cannot be reckoned in 64 bits is refused, not guessed; large sums below that are exact.
func TestLargeNumbers(t *testing.T) {
	t.Parallel()
	p := random.New(random.Small(3))
	p.Budget, p.Floor, p.Objective = program.NoBudget, program.NoFloor, program.Objective{Benefit: 1}
	for s := range p.Slots {
		for k := range p.Slots[s].Options {
			p.Slots[s].Options[k].Cash *= 1e9
		}
	}
	want, err := brute.Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	if got := solve(t, builtin.Options{}, p); !slices.Equal(got.Choice, want.Choice) {
		t.Errorf("got %+v, want %+v", got, want)
	}
	p.Slots[0].Options[0].Cash = math.MaxInt64
	if _, err := builtin.New(builtin.Options{}).Solve(context.Background(), p); err == nil {
		t.Error("a price beyond 64 bits was accepted")
	}
	p.Slots[0].Options = nil
	if _, err := builtin.New(builtin.Options{}).Solve(context.Background(), p); err == nil {
		t.Error("a slot without options was accepted")
	}
}

// The frontier in one go must have the cash and benefit of full enumeration, and choices that attain them.
func TestFrontierAgainstBruteForce(t *testing.T) {
	t.Parallel()
	points := 0
	for seed := range uint64(250) {
		p := random.New(random.Small(seed))
		upTo := []int64{0, 1500, 6000, program.NoBudget}[seed%4]
		want, err := brute.Frontier(p, upTo)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		got, err := builtin.New(tunings[seed%3]).Frontier(context.Background(), p, upTo)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		sameFrontier(t, p, got, want)
		points += len(got.Points)
	}
	t.Logf("%d points", points)
}

func sameFrontier(t *testing.T, p *program.Program, got, want program.Frontier) {
	t.Helper()
	if len(got.Points) != len(want.Points) || got.UpTo != want.UpTo || !got.Proved || !want.Proved {
		t.Fatalf("%s: %d points up to %d, %v, want %d up to %d", p.Name, len(got.Points), got.UpTo, got.Proved, len(want.Points), want.UpTo)
	}
	for i, x := range got.Points {
		e := p.Evaluate(x.Choice)
		if x.Cash != want.Points[i].Cash || x.Benefit != want.Points[i].Benefit || e.Cash != x.Cash || e.Benefit != x.Benefit || p.Feasible(x.Choice) != nil {
			t.Fatalf("%s: point %d is %+v, want %+v", p.Name, i, x, want.Points[i])
		}
	}
}
