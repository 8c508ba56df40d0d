package program

import (
	"fmt"
	"math"
)

// LinearSolver solves one linear program and reads the choice from it. The choice is nil unless the status is Optimal.
type LinearSolver func(*Linear) (Status, []int, error)

// SolveLinear answers the program with a solver of linear programs, in up to three runs: the objective, then the least
// cash at that, then the most benefit at both, so that cash and benefit are one pair whoever solves. Which of several
// choices with this pair comes out is the solver's affair. Every choice is judged in whole numbers before it is used;
// one that breaks the program is an error.
func (p *Program) SolveLinear(solve LinearSolver) (Solution, error) {
	l := p.Linear()
	status, choice, err := solve(l)
	if err != nil || status != Optimal {
		return Solution{Status: status, Bound: noBound}, err
	}
	solution, err := p.judged(choice)
	if err != nil {
		return Solution{}, fmt.Errorf("stage objective: %w", err)
	}
	l = l.AtLeast("stage.objective", l.Objective, solution.Bound)
	for _, stage := range p.ties(l) {
		if len(stage.better.Entries) == 0 {
			continue
		}
		l.Objective = stage.better
		if solution, err = p.settle(l, solution, solve); err != nil || solution.Status != Optimal {
			return solution, wrapped(stage.name, err)
		}
		l = l.AtLeast("stage."+stage.name, stage.better, stage.value(&solution))
	}
	return solution, nil
}

// noBound is the Bound of a solver that proved nothing.
const noBound int64 = math.MaxInt64

// tie is a stage after the first: what is to be larger, and its value at a solution.
type tie struct {
	name   string
	better Expression
	value  func(*Solution) int64
}

// ties are the stages that the objective leaves open: with benefit in it, cash settles benefit too.
func (p *Program) ties(l *Linear) []tie {
	cash := tie{"cash", l.Cash.times(-1), func(s *Solution) int64 { return -s.Cash }}
	benefit := tie{"benefit", l.Benefit, func(s *Solution) int64 { return s.Benefit }}
	switch {
	case p.Objective.Benefit > 0:
		return []tie{cash}
	case p.Objective.Cash > 0:
		return []tie{benefit}
	}
	return []tie{cash, benefit}
}

// settle solves a further stage. Its start, the solution before, is feasible: a solver that finds nothing has failed.
// A solver that stops leaves the solution before, marked Stopped: its objective value is proved, its ties are not.
func (p *Program) settle(l *Linear, before Solution, solve LinearSolver) (Solution, error) {
	status, choice, err := solve(l)
	switch {
	case err != nil:
		return Solution{}, err
	case status == Stopped:
		before.Status = Stopped
		return before, nil
	case status == Infeasible:
		return Solution{}, fmt.Errorf("no choice was found although the one of the stage before is still good")
	}
	after, err := p.judged(choice)
	if err == nil && after.Bound < before.Bound {
		err = fmt.Errorf("the objective fell from %d to %d", before.Bound, after.Bound)
	}
	return after, err
}

func (p *Program) judged(choice []int) (Solution, error) {
	if err := p.Feasible(choice); err != nil {
		return Solution{}, err
	}
	s := p.Solution(Optimal, choice)
	if s.Cash > p.Budget {
		return Solution{}, fmt.Errorf("cash %d is above the budget %d", s.Cash, p.Budget)
	}
	if s.Benefit < p.Floor {
		return Solution{}, fmt.Errorf("benefit %d is below the floor %d", s.Benefit, p.Floor)
	}
	return s, nil
}

func wrapped(stage string, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("stage %s: %w", stage, err)
}
