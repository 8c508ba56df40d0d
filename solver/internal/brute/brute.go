// Package brute enumerates every choice of a program. It is the referee of the engines on small programs, so it uses
// nothing but Program.Feasible and Program.Evaluate and takes no short cut.
package brute

import (
	"fmt"
	"slices"

	"firstbolt/solver/program"
)

// Limit is the number of choices above which a program is refused.
const Limit = 1 << 23

// plan is a feasible choice and its reckoned values.
type plan struct {
	choice        []int
	cash, benefit int64
	purchases     int
}

// Solve is the best choice by every stage of the package comment of solver/program. The error tells that the program is
// not valid or has more than Limit choices.
func Solve(p *program.Program) (program.Solution, error) {
	best := (*plan)(nil)
	err := each(p, func(x plan) {
		if x.cash > p.Budget || x.benefit < p.Floor {
			return
		}
		if best == nil || order(p.Objective, x, *best) < 0 {
			x.choice = slices.Clone(x.choice)
			best = &x
		}
	})
	if err != nil || best == nil {
		return program.Solution{Status: program.Infeasible}, err
	}
	return p.Solution(program.Optimal, best.choice), nil
}

// Frontier is the whole frontier up to a cash of upTo; of equal plans each point shows the one that Solve would name for
// a budget of the point's cash. Budget, Floor and Objective are not looked at.
func Frontier(p *program.Program, upTo int64) (program.Frontier, error) {
	byCash := map[int64]plan{}
	err := each(p, func(x plan) {
		old, known := byCash[x.cash]
		if x.cash > upTo || known && order(program.Objective{Benefit: 1}, x, old) >= 0 {
			return
		}
		x.choice = slices.Clone(x.choice)
		byCash[x.cash] = x
	})
	f := program.Frontier{UpTo: upTo, Proved: err == nil}
	cashes := make([]int64, 0, len(byCash))
	for c := range byCash {
		cashes = append(cashes, c)
	}
	slices.Sort(cashes)
	for _, c := range cashes {
		x := byCash[c]
		if n := len(f.Points); n == 0 || x.benefit > f.Points[n-1].Benefit {
			f.Points = append(f.Points, program.Point{Cash: x.cash, Benefit: x.benefit, Choice: x.choice})
		}
	}
	return f, err
}

// order is negative when a comes before b: value, least cash, most benefit, fewest purchases, first options.
func order(o program.Objective, a, b plan) int {
	value := func(x plan) int64 { return o.Benefit*x.benefit - o.Cash*x.cash }
	switch {
	case value(a) != value(b):
		return sign(value(a) > value(b))
	case a.cash != b.cash:
		return sign(a.cash < b.cash)
	case a.benefit != b.benefit:
		return sign(a.benefit > b.benefit)
	case a.purchases != b.purchases:
		return sign(a.purchases < b.purchases)
	}
	return slices.Compare(a.choice, b.choice)
}

func sign(first bool) int {
	if first {
		return -1
	}
	return 1
}

// each visits every feasible choice; the choice is reused between visits.
func each(p *program.Program, visit func(plan)) error {
	if err := p.Validate(); err != nil {
		return err
	}
	size := 1
	for s := range p.Slots {
		if size *= len(p.Slots[s].Options); size > Limit {
			return fmt.Errorf("program %q has more than %d choices", p.Name, Limit)
		}
	}
	choice := make([]int, len(p.Slots))
	for {
		if p.Feasible(choice) == nil {
			e := p.Evaluate(choice)
			visit(plan{choice, e.Cash, e.Benefit, e.Purchases})
		}
		s := len(choice) - 1
		for ; s >= 0; s-- {
			if choice[s]++; choice[s] < len(p.Slots[s].Options) {
				break
			}
			choice[s] = 0
		}
		if s < 0 {
			return nil
		}
	}
}
