package solver

import (
	"context"

	"firstbolt/solver/program"
)

// Program is the integer program of the kept bike (or, where the rider owns none, of the first one for sale) at the
// question's budget: what another solver has to be given to find the same plan. Its errors are those of Ask.
func Program(ctx context.Context, q Question) (*program.Program, error) {
	a := &asker{q: q, proof: Proof{Engine: q.Lead.Name()}}
	if err := a.enter(); err != nil {
		return nil, err
	}
	if err := a.settleMusts(ctx); err != nil {
		return nil, err
	}
	e := a.all()[0]
	p := *e.c.Program
	p.Budget, p.Floor, p.Objective = int64(q.Budget-e.base), program.NoFloor, mostBenefit
	return &p, nil
}
