package solver

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"sync"
	"time"

	"firstbolt/solver/program"
)

// confirmWithin is how long the confirmer may take in all. It only ever confirms: an answer never waits longer for it.
const confirmWithin = 3 * time.Second

// confirm lets the second engine solve every claim of the verdict again and compares benefit and cash; which of several
// equal sets is chosen is never compared. A difference is kept and shown, and the better certified plan wins (overruled).
func (a *asker) confirm(ctx context.Context) {
	if a.q.Confirm == nil {
		return
	}
	ctx, cancel := context.WithTimeout(ctx, confirmWithin)
	defer cancel()
	claims := a.distinct()
	opinions := a.opinions(ctx, claims)
	for i, c := range claims {
		o := opinions[i]
		switch difference := differs(c, o.s); {
		case o.late:
		case o.err != nil:
			a.proof.NotConfirmed = fmt.Sprintf("%s did not confirm %s: %v", a.q.Confirm.Name(), c.what, o.err)
			return
		case difference != "":
			a.proof.Disagreement = fmt.Sprintf("%s: %s says %s", c.what, a.q.Confirm.Name(), difference)
			a.overruled = o.s.Status == program.Optimal && check(c.p, o.s) == nil && beats(o.s, c.s)
			return
		default:
			a.proof.Points++
		}
	}
	if a.proof.Points < len(claims) {
		a.proof.NotConfirmed = fmt.Sprintf("a second calculation confirmed %d of the %d results in the time it had", a.proof.Points, len(claims))
		return
	}
	a.proof.Confirmed = a.q.Confirm.Name()
}

// opinion is what the confirmer says of one claim.
type opinion struct {
	s    program.Solution
	err  error
	late bool
}

// opinions asks the confirmer for every claim, two at a time.
func (a *asker) opinions(ctx context.Context, claims []claim) []opinion {
	list, next := make([]opinion, len(claims)), make(chan int)
	var group sync.WaitGroup
	for range 2 {
		group.Go(func() {
			for i := range next {
				s, err := a.q.Confirm.Solve(ctx, claims[i].p)
				list[i] = opinion{s: s, err: err, late: ctx.Err() != nil}
			}
		})
	}
	for i := range claims {
		next <- i
	}
	close(next)
	group.Wait()
	return list
}

// distinct drops claims that stand twice, and puts them in one order whatever was proved first.
func (a *asker) distinct() []claim {
	slices.SortStableFunc(a.claims, func(x, y claim) int { return strings.Compare(x.what, y.what) })
	var list []claim
	for _, c := range a.claims {
		if !slices.ContainsFunc(list, func(d claim) bool { return d.what == c.what }) {
			list = append(list, c)
		}
	}
	return list
}

// differs says in words where the second solution is not worth the same as the claim; empty where it is.
func differs(c claim, s program.Solution) string {
	switch {
	case s.Status != c.s.Status:
		return s.Status.String()
	case s.Status == program.Infeasible:
		return ""
	case check(c.p, s) != nil:
		return "a set that breaks the program"
	case s.Benefit != c.s.Benefit:
		return fmt.Sprintf("a benefit of %s, not %s", points(s.Benefit), points(c.s.Benefit))
	case s.Cash != c.s.Cash:
		return fmt.Sprintf("%d in the smallest coin, not %d", s.Cash, c.s.Cash)
	default:
		return ""
	}
}

// beats tells whether a certified solution is better than what was claimed to be the best.
func beats(s, claimed program.Solution) bool {
	return s.Benefit > claimed.Benefit || s.Benefit == claimed.Benefit && s.Cash < claimed.Cash
}

func points(b int64) string { return fmt.Sprintf("%d.%04d", b/10_000, b%10_000) }
