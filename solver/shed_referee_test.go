package solver_test

import (
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"
	"time"

	"firstbolt/datasets"
	"firstbolt/model"
	"firstbolt/solver/builtin"
	"firstbolt/solver/certify"
	"firstbolt/solver/formulate"
	"firstbolt/solver/internal/brute"
	"firstbolt/solver/internal/referee"
	"firstbolt/solver/program"
)

// refereeLimit is how long an outside solver may take for one program. One that does not finish is counted, not waited for.
const refereeLimit = 20 * time.Second

func demoShed(t testing.TB) *model.Shed {
	t.Helper()
	s, complaints, err := datasets.LoadDemo(datasets.Options{})
	if err != nil || len(complaints) > 0 {
		t.Fatal(err, complaints)
	}
	return s
}

// TestRefereesAgreeOnTheDemo solves the demo's own bike at ten budgets with glpsol, cbc and lp_solve: same benefit and cash.
func TestRefereesAgreeOnTheDemo(t *testing.T) {
	t.Parallel()
	s := demoShed(t)
	c, err := formulate.Compile(s, s.OwnBike(), formulate.Options{})
	if err != nil {
		t.Fatal(err)
	}
	var judged verdicts
	for _, budget := range []int64{0, 25_00, 60_00, 90_00, 120_00, 180_00, 250_00, 331_49, 400_00, 700_00} {
		p := *c.Program
		p.Budget = budget
		judged.compare(t, &p, fmt.Sprintf("demo at %d", budget))
	}
	judged.report(t)
}

// TestRefereesAgreeOnRandomSheds draws small sheds out of the demo: some of its parts, other prices, priorities and
// budgets. FIRSTBOLT_REFEREE_SHEDS and FIRSTBOLT_REFEREE_SEED make the run longer or another one.
func TestRefereesAgreeOnRandomSheds(t *testing.T) {
	t.Parallel()
	sheds, seed := fromEnv("FIRSTBOLT_REFEREE_SHEDS", 40), fromEnv("FIRSTBOLT_REFEREE_SEED", 1)
	t.Logf("%d sheds from seed %d", sheds, seed)
	var judged verdicts
	for i := range sheds {
		rng := rand.New(rand.NewPCG(uint64(seed), uint64(i)))
		s := randomShed(rng, demoShed(t))
		bike := &s.Bikes[rng.IntN(len(s.Bikes))]
		c, err := formulate.Compile(s, bike, formulate.Options{})
		if err != nil {
			t.Fatal(err)
		}
		p := *c.Program
		p.Budget = int64(rng.IntN(300_00))
		judged.compare(t, &p, fmt.Sprintf("shed %d, %s at %d", i, bike.Name, p.Budget))
	}
	judged.report(t)
}

// randomShed keeps up to 14 parts of a shed, at other prices, and draws other priorities.
func randomShed(rng *rand.Rand, s *model.Shed) *model.Shed {
	rng.Shuffle(len(s.Parts), func(i, j int) { s.Parts[i], s.Parts[j] = s.Parts[j], s.Parts[i] })
	s.Parts = s.Parts[:4+rng.IntN(11)]
	for i := range s.Parts {
		s.Parts[i].Price = s.Parts[i].Price * model.Money(50+rng.IntN(100)) / 100
	}
	var points []model.Priority
	for _, c := range s.Tables.Criteria {
		if n := rng.IntN(6); n > 0 && c.Key != "looks" && c.Key != "puncture" {
			points = append(points, model.Priority{Criterion: c.Key, Points: float64(n)})
		}
	}
	s.Rider.Priorities = model.Say(points, model.Origin{Sheet: "test"})
	return s
}

// verdicts counts what the outside solvers said. A certified better answer of ours is their miss (lp_solve calls
// near-tied values optimal now and then); a better certified answer of theirs is our fault.
type verdicts struct{ agreed, missed, tooSlow, counted int }

func (v *verdicts) compare(t *testing.T, p *program.Program, what string) {
	t.Helper()
	ours, err := builtin.New(builtin.Options{}).Solve(context.Background(), p)
	if err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	if err := certify.Solution(p, ours); err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	agreed := 0
	for _, r := range referee.Need(t) {
		ctx, cancel := context.WithTimeout(context.Background(), refereeLimit)
		theirs, err := r.Solve(ctx, p)
		late := ctx.Err() != nil
		cancel()
		v.counted++
		says := fmt.Sprintf("%s: %s says %v, benefit %d for %d; builtin %v, %d for %d", what, r.Name(),
			theirs.Status, theirs.Benefit, theirs.Cash, ours.Status, ours.Benefit, ours.Cash)
		switch {
		case late || err == nil && theirs.Status == program.Stopped:
			v.tooSlow++
		case err != nil:
			t.Errorf("%s: %s: %v", what, r.Name(), err)
		case theirs.Status == ours.Status && theirs.Benefit == ours.Benefit && theirs.Cash == ours.Cash:
			agreed++
		case ours.Status == program.Optimal && (theirs.Status == program.Infeasible || worse(theirs, ours)):
			v.missed++
			t.Log("missed: ", says)
		default:
			t.Error(says)
		}
	}
	v.agreed += agreed
	if agreed == 0 {
		t.Errorf("%s: no outside solver agrees", what)
	}
}

func worse(a, b program.Solution) bool {
	return a.Benefit < b.Benefit || a.Benefit == b.Benefit && a.Cash > b.Cash
}

// report fails when more than one in twenty could not be judged in time, or missed the optimum.
func (v *verdicts) report(t *testing.T) {
	t.Helper()
	t.Logf("%d of %d answers agree, %d missed the optimum, %d not in time", v.agreed, v.counted, v.missed, v.tooSlow)
	if v.missed*20 > v.counted {
		t.Errorf("%d of %d outside answers are worse than ours, which is more than the known misses explain", v.missed, v.counted)
	}
	if v.tooSlow*20 > v.counted {
		t.Errorf("%d of %d outside answers did not come in time, want at most one in twenty", v.tooSlow, v.counted)
	}
}

func fromEnv(name string, usual int) int {
	if n, err := strconv.Atoi(os.Getenv(name)); err == nil {
		return n
	}
	return usual
}

// TestBruteForceAgreesOnTinySheds enumerates sheds of so few parts that every choice can be looked at.
func TestBruteForceAgreesOnTinySheds(t *testing.T) {
	t.Parallel()
	judged := 0
	for i := range 60 {
		rng := rand.New(rand.NewPCG(7, uint64(i)))
		s := randomShed(rng, demoShed(t))
		s.Parts = s.Parts[:min(len(s.Parts), 6)]
		c, err := formulate.Compile(s, s.OwnBike(), formulate.Options{})
		if err != nil {
			t.Fatal(err)
		}
		p := *c.Program
		p.Budget = int64(rng.IntN(200_00))
		if choices(&p) > 300_000 {
			continue
		}
		want, err := brute.Solve(&p)
		if err != nil {
			t.Fatal(err)
		}
		got, err := builtin.New(builtin.Options{}).Solve(context.Background(), &p)
		if err != nil || got.Status != want.Status || got.Benefit != want.Benefit || got.Cash != want.Cash || got.Purchases != want.Purchases {
			t.Errorf("shed %d at %d: builtin %+v (%v), brute force %+v", i, p.Budget, got, err, want)
		}
		judged++
	}
	if judged < 20 {
		t.Errorf("only %d sheds were small enough, want at least 20", judged)
	}
}

func choices(p *program.Program) int {
	n := 1
	for _, s := range p.Slots {
		if n *= len(s.Options); n > 1<<40 {
			return n
		}
	}
	return n
}
