// Package loop finds a frontier by asking any engine for one budget after the other (the epsilon-constraint method of
// Haimes, Lasdon and Wismer, 1971, with a step of one minor unit). It is slow and plain: the referee of faster ways.
package loop

import (
	"context"
	"fmt"
	"slices"

	"firstbolt/solver/program"
)

// Frontier is the whole frontier of the program up to a cash of upTo. The program's Budget, Floor and Objective are not
// looked at. It starts at the budget upTo and goes down: the most benefit within the budget for the least cash is a
// Pareto-optimal point, and the next lower one costs at least one minor unit less. When ctx ends, Proved is false and
// the cheaper points are missing.
func Frontier(ctx context.Context, e program.Engine, p *program.Program, upTo int64) (program.Frontier, error) {
	q := *p
	q.Budget, q.Floor, q.Objective = upTo, program.NoFloor, program.Objective{Benefit: 1}
	f := program.Frontier{UpTo: upTo}
	for {
		s, err := e.Solve(ctx, &q)
		if err != nil {
			return f, fmt.Errorf("frontier at budget %d: %w", q.Budget, err)
		}
		if s.Status != program.Optimal {
			f.Proved = s.Status == program.Infeasible
			break
		}
		if s.Cash > q.Budget {
			return f, fmt.Errorf("frontier: engine %s answered cash %d above the budget %d", e.Name(), s.Cash, q.Budget)
		}
		f.Points = append(f.Points, program.Point{Cash: s.Cash, Benefit: s.Benefit, Choice: s.Choice})
		q.Budget = s.Cash - 1
	}
	slices.Reverse(f.Points)
	return f, nil
}
