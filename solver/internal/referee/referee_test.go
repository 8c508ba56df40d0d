package referee_test

import (
	"context"
	"errors"
	"os"
	"slices"
	"strconv"
	"sync/atomic"
	"testing"
	"time"

	"firstbolt/solver/builtin"
	"firstbolt/solver/certify"
	"firstbolt/solver/child"
	"firstbolt/solver/internal/brute"
	"firstbolt/solver/internal/published"
	"firstbolt/solver/internal/random"
	"firstbolt/solver/internal/referee"
	"firstbolt/solver/loop"
	"firstbolt/solver/lpsolve"
	"firstbolt/solver/program"
)

func TestMain(m *testing.M) {
	child.Serve()
	os.Exit(m.Run())
}

// long asks for the long comparison (./dev referee).
var long = os.Getenv("FIRSTBOLT_REFEREE") == "long"

// limit is how long one engine may take for one program. A time-out is logged and counted by the caller.
func limit(e program.Engine) time.Duration {
	switch {
	case long:
		return 2 * time.Minute
	case e.Name() == "builtin":
		return 10 * time.Second
	}
	return 2 * time.Second
}

// engines are all that can be held against an answer here, builtin first. lp_solve through golp is among them in builds
// that have it; it runs in a child process, because some programs keep it busy for minutes.
func engines(t testing.TB) []program.Engine {
	list := []program.Engine{builtin.New(builtin.Options{})}
	if lpsolve.Available() {
		list = append(list, lpsolve.Engine{})
	} else {
		t.Log("this build has no lp_solve in it (tag lpsolve): its engine is not compared")
	}
	for _, r := range referee.Need(t) {
		list = append(list, r)
	}
	return list
}

// solved asks an engine and certifies what it says. ok is false where there is nothing to compare: lp_solve rightly
// declines because of its tolerance, or the engine is out of time.
func solved(t *testing.T, e program.Engine, p *program.Program) (s program.Solution, ok bool) {
	t.Helper()
	ctx, cancel := context.WithTimeout(t.Context(), limit(e))
	defer cancel()
	s, err := e.Solve(ctx, p)
	var large *lpsolve.TooLargeError
	if errors.As(err, &large) {
		t.Logf("%s: %v", e.Name(), err)
		return s, false
	}
	if err == nil {
		err = certify.Solution(p, s)
	}
	switch {
	case err != nil:
		t.Errorf("%s: %v", e.Name(), err)
		return s, false
	case s.Status == program.Stopped && ctx.Err() != nil:
		t.Logf("%s: out of time after %v", e.Name(), limit(e))
		return s, false
	}
	return s, true
}

func TestRefereePublishedOptima(t *testing.T) {
	t.Parallel()
	cases, err := published.Cases()
	if err != nil {
		t.Fatal(err)
	}
	all := engines(t)
	var asked, declined atomic.Int64
	t.Run("case", func(t *testing.T) {
		for _, c := range cases {
			t.Run(c.ID, func(t *testing.T) {
				t.Parallel()
				for _, e := range all {
					asked.Add(1)
					s, ok := solved(t, e, c.Program)
					if !ok {
						declined.Add(1)
						if s.Status == program.Stopped && s.Bound < c.Value-c.Within {
							t.Errorf("%s: stopped with the bound %d, below the published value %d", e.Name(), s.Bound, c.Value)
						}
					} else if s.Status != program.Optimal || !c.Near(s.Bound, c.Value) {
						t.Errorf("%s: %v with value %d, published is %d (%s)", e.Name(), s.Status, s.Bound, c.Value, c.Source)
					}
				}
			})
		}
	})
	t.Logf("%d of %d comparisons could not be made", declined.Load(), asked.Load())
	if float64(declined.Load()) > declinedAtMost*float64(asked.Load()) {
		t.Errorf("%d of %d comparisons could not be made, want at most %v of them", declined.Load(), asked.Load(), declinedAtMost)
	}
}

// The trap kp_f8_23_10000 (values and weights that almost agree) keeps all outside solvers but CBC busy for longer than
// the short limit, and mkp_petersen7 (50 projects, five rows, no money) builtin. That at most a twentieth of all
// comparisons cannot be made is the bound on such cases.
const declinedAtMost = 0.05

// asked is whether an engine that has to be asked for every point of a frontier is asked for one of so many. Processes
// take 20 ms and more for a point.
func asked(e program.Engine, points int) bool {
	if _, isProcess := e.(referee.Referee); isProcess {
		return long || points <= 7
	}
	return long || points <= 50
}

func TestRefereePublishedFrontiers(t *testing.T) {
	t.Parallel()
	cases, err := published.Cases()
	if err != nil {
		t.Fatal(err)
	}
	all := engines(t)
	if lpsolve.Available() {
		all[1] = lpsolve.Engine{InProcess: true}
	}
	for _, c := range cases {
		if c.Front == nil {
			continue
		}
		t.Run(c.ID, func(t *testing.T) {
			t.Parallel()
			last := c.Front[len(c.Front)-1]
			for _, e := range all {
				f, ok := frontier(t, e, c, min(c.UpTo, last[0]+100))
				if !ok {
					continue
				}
				if err := certify.Frontier(c.Program, f); err != nil {
					t.Errorf("%s: %v", e.Name(), err)
				}
				same := func(p program.Point, want [2]int64) bool { return p.Cash == want[0] && c.Near(p.Benefit, want[1]) }
				if !slices.EqualFunc(f.Points, c.Front, same) {
					t.Errorf("%s: frontier %v, want %v", e.Name(), f.Points, c.Front)
				}
			}
		})
	}
}

// frontier asks an engine in its own way: at once where it can, else point by point.
func frontier(t *testing.T, e program.Engine, c published.Case, upTo int64) (f program.Frontier, ok bool) {
	var err error
	if fast, atOnce := e.(program.FrontierEngine); atOnce {
		f, err = fast.Frontier(t.Context(), c.Program, upTo)
	} else if asked(e, len(c.Front)) {
		f, err = loop.Frontier(t.Context(), e, c.Program, upTo)
	} else {
		return f, false
	}
	if err != nil || !f.Proved {
		t.Errorf("%s: proved = %t, %v", e.Name(), f.Proved, err)
	}
	return f, err == nil
}

// Published minimal conflicts cannot be met, and can without any one of their wishes.
func TestRefereePublishedConflicts(t *testing.T) {
	t.Parallel()
	conflicts, err := published.Conflicts()
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range engines(t) {
		for _, c := range conflicts {
			s, ok := solved(t, e, c.Program)
			if want := map[bool]program.Status{true: program.Optimal, false: program.Infeasible}[c.Feasible]; ok && s.Status != want {
				t.Errorf("%s: %s with %v is %v, want %v", e.Name(), c.Case, c.Wishes, s.Status, want)
			}
		}
	}
}

func TestRefereePublishedEfficientPoints(t *testing.T) {
	t.Parallel()
	all := engines(t)
	for _, weights := range [][3]int64{{1, 1, 1}, {10, 1, 1}, {1, 10, 1}, {1, 1, 10}, {5, 1, 9}, {3, 0, 7}} {
		c, err := published.Efficient(weights)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range all {
			if s, ok := solved(t, e, c.Program); ok && s.Bound != c.Value {
				t.Errorf("%s: weights %v give %d, the list of efficient points %d", e.Name(), weights, s.Bound, c.Value)
			}
		}
	}
}

// Models that lp_solve got wrong: builtin must have the true optimum. Where another solver still differs, the difference
// is there to be seen, and it is never a better value than the true one. At sums of several millions the tolerance of a
// solver can also lose a unit between two stages, which the stages notice: then it declines.
func TestRefereeNearTiedModels(t *testing.T) {
	t.Parallel()
	cases, err := published.NearTied()
	if err != nil {
		t.Fatal(err)
	}
	all, differ := engines(t), 0
	for _, c := range cases {
		if s, ok := solved(t, all[0], c.Program); !ok || s.Status != program.Optimal || s.Bound != c.Value {
			t.Errorf("builtin: %s is %v with %d, the true best is %d", c.ID, s.Status, s.Bound, c.Value)
		}
		for _, e := range all[1:] {
			s, err := e.Solve(t.Context(), c.Program)
			switch {
			case err != nil:
				t.Logf("declined: %s on %s: %v", e.Name(), c.ID, err)
			case certify.Solution(c.Program, s) != nil || s.Bound > c.Value:
				t.Errorf("%s: %s is given as %d, the true best is %d, certify says %v", e.Name(), c.ID, s.Bound, c.Value, certify.Solution(c.Program, s))
			case s.Bound < c.Value:
				differ++
				t.Logf("disagreement: %s says %s is at most %d, the true best is %d", e.Name(), c.ID, s.Bound, c.Value)
			}
		}
	}
	t.Logf("%d disagreements over %d models", differ, len(cases))
}

// Random programs of every feature, against full enumeration and all solvers that are there: status, cash, benefit.
func TestRefereeRandomPrograms(t *testing.T) {
	t.Parallel()
	first, count := firstSeed(t), uint64(40)
	if long {
		count = 1000
	}
	all, counts := engines(t), map[string]*tally{}
	for _, e := range all {
		counts[e.Name()] = &tally{}
	}
	for seed := first; seed < first+count; seed++ {
		p := random.New(random.Small(seed))
		want, err := brute.Solve(p)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		for _, e := range all {
			s, ok := solved(t, e, p)
			if !ok {
				counts[e.Name()].declined++
				continue
			}
			counts[e.Name()].compared++
			if s.Status != want.Status || s.Cash != want.Cash || s.Benefit != want.Benefit {
				counts[e.Name()].different++
				t.Errorf("seed %d: %s says %v, cash %d, benefit %d; enumeration %v, %d, %d",
					seed, e.Name(), s.Status, s.Cash, s.Benefit, want.Status, want.Cash, want.Benefit)
			}
		}
	}
	for _, e := range all {
		c := counts[e.Name()]
		t.Logf("%s: %d random programs compared with enumeration, %d different, %d declined", e.Name(), c.compared, c.different, c.declined)
	}
}

// firstSeed keeps the runs of ./dev referee apart: the run after FIRSTBOLT_REFEREE_SEED=2 draws other programs.
func firstSeed(t *testing.T) uint64 {
	text := os.Getenv("FIRSTBOLT_REFEREE_SEED")
	if text == "" {
		return 0
	}
	run, err := strconv.ParseUint(text, 10, 32)
	if err != nil {
		t.Fatalf("FIRSTBOLT_REFEREE_SEED is %q, want a whole number", text)
	}
	return run * 1_000_000
}

type tally struct{ compared, different, declined int }

func TestRefereeStopsWithItsContext(t *testing.T) {
	t.Parallel()
	ended, end := context.WithCancel(t.Context())
	end()
	for _, r := range referee.Need(t) {
		s, err := r.Solve(ended, random.New(random.Small(1)))
		if err != nil || s.Status != program.Stopped || s.Choice != nil {
			t.Errorf("%s: %+v, %v, want stopped without a choice", r.Name(), s, err)
		}
	}
}
