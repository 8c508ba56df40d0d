package program

import "context"

// Status of a solution.
type Status int

// Optimal is proved. Infeasible is proved: no choice meets the program. Stopped: a limit was reached; Choice is the best
// found so far, or nil.
const (
	Optimal Status = iota
	Infeasible
	Stopped
)

// String is the status in words.
func (s Status) String() string { return [...]string{"optimal", "infeasible", "stopped"}[s] }

// Solution is an engine's answer. Cash and Benefit are recomputed by Evaluate, never read off a float.
type Solution struct {
	Status    Status
	Choice    []int // chosen option of every slot; nil when none is known
	Cash      int64
	Benefit   int64
	Purchases int
	Bound     int64 // no choice has a larger objective value; equal to the solution's own when Optimal
}

// Value is the solution's objective value under the program.
func (s *Solution) Value(o Objective) int64 { return o.Benefit*s.Benefit - o.Cash*s.Cash }

// Engine finds the best choice. An engine returns an error only when it failed (not when the program is infeasible);
// when ctx ends it returns Stopped with the best so far. Only the stages named by Exact of the engine are promised.
type Engine interface {
	Name() string
	Solve(ctx context.Context, p *Program) (Solution, error)
}

// Point is one Pareto-optimal plan: no plan has at least its benefit for less cash.
type Point struct {
	Cash, Benefit int64
	Choice        []int
}

// Frontier is the best plan for every budget up to UpTo, in rising cash and rising benefit.
type Frontier struct {
	Points []Point
	UpTo   int64
	Proved bool // false: a limit was reached, points may be missing
}

// At is the best point within the budget, or nil where there is none.
func (f *Frontier) At(budget int64) *Point {
	for i := len(f.Points) - 1; i >= 0; i-- {
		if f.Points[i].Cash <= budget {
			return &f.Points[i]
		}
	}
	return nil
}

// FrontierEngine gives the whole frontier in one go. The program's Budget, Floor and Objective are not looked at.
type FrontierEngine interface {
	Frontier(ctx context.Context, p *Program, upTo int64) (Frontier, error)
}
