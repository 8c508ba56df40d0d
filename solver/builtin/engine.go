package builtin

import (
	"context"
	"fmt"
	"slices"

	"firstbolt/solver/program"
)

// Options tune the engine; they change its speed, never its answers. Zero values are good.
type Options struct {
	Table int // most combinations of a table of the elimination, 16384 when 0
	Lines int // bounds tested at a node of the tree, 6 when 0
	Steps int // steps of the first search for prices, 120 when 0
}

// Engine is the pure Go engine. It has no state and may be used by several goroutines at once.
type Engine struct{ options Options }

// New is an engine.
func New(o Options) *Engine {
	if o.Table <= 0 {
		o.Table = 16384
	}
	if o.Lines <= 0 {
		o.Lines = 6
	}
	if o.Steps <= 0 {
		o.Steps = 120
	}
	return &Engine{o}
}

// Name is "builtin".
func (e *Engine) Name() string { return "builtin" }

// Solve is the best choice by every stage of the package comment of solver/program, proved. When ctx ends it is the best
// one found so far with the status Stopped; the bound holds for every choice. The error tells that Validate refuses the
// program or that its sums could leave 64 bits.
func (e *Engine) Solve(ctx context.Context, p *program.Program) (program.Solution, error) {
	m, alive, err := prepare(p)
	if err != nil {
		return program.Solution{}, err
	}
	if !m.filter(alive) || float64(p.Floor) > m.curveSize || float64(p.Budget) < -m.cashSize {
		return program.Solution{Status: program.Infeasible}, nil
	}
	m.dominate(alive)
	s := &search{ctx: ctx, m: m, options: e.options}
	solution := s.solve(alive)
	if solution.Choice != nil {
		solution.Choice = solution.Choice[:len(p.Slots)]
		if err := p.Feasible(solution.Choice); err != nil {
			return program.Solution{}, fmt.Errorf("builtin: program %q: the answer is wrong, please report it: %w", p.Name, err)
		}
	}
	return solution, nil
}

// prepare lifts and compiles a program; it is compiled as it stands first, so that lifting reckons with no sum that could
// leave 64 bits.
func prepare(p *program.Program) (*model, [][]int, error) {
	m, alive, err := compile(p)
	if err != nil {
		return nil, nil, err
	}
	q, added := lift(p)
	if len(added) == 0 {
		return m, alive, nil
	}
	if m, alive, err = compile(q); err != nil {
		return nil, nil, err
	}
	m.added = added
	return m, alive, nil
}

// search is one question being answered.
type search struct {
	ctx     context.Context
	m       *model
	options Options
	g       goal
	choice  []int // best so far
	is      evaluation
	met     bool     // the present goal was met
	prices  []prices // of the lines used last
	bound   int64    // on the scaled value of the goal
	nodes   int
	depth   int // of splits
}

// solve goes through the stages of ties.
func (s *search) solve(alive [][]int) program.Solution {
	p := s.m.p
	objective := p.Objective
	if objective.Benefit == 0 {
		objective.Cash = 1
	}
	s.g = bestOf(s.m, objective)
	proved := s.run(clone(alive))
	bound := s.valueBound(p.Objective)
	if proved && s.choice == nil {
		return program.Solution{Status: program.Infeasible}
	}
	if proved {
		bound = p.Objective.Benefit*s.is.benefit - p.Objective.Cash*s.is.cash
	}
	if proved && objective.Benefit == 0 {
		s.g = bestOf(s.m, program.Objective{Benefit: 1})
		s.g.budget = s.is.cash
		s.g.raise(s.is)
		proved = s.run(clone(alive))
	}
	proved = proved && (p.AnyTie || s.settle(alive))
	if s.choice == nil {
		return program.Solution{Status: program.Stopped, Bound: bound}
	}
	if !proved {
		solution := p.Solution(program.Stopped, s.choice)
		solution.Bound = max(bound, solution.Bound)
		return solution
	}
	return p.Solution(program.Optimal, s.choice)
}

// valueBound is what the first stage proved of the objective's value.
func (s *search) valueBound(o program.Objective) int64 {
	if o == (program.Objective{}) {
		return 0
	}
	return s.bound/s.g.scale + 1
}

func clone(alive [][]int) [][]int {
	c := make([][]int, len(alive))
	for s := range alive {
		c[s] = slices.Clone(alive[s])
	}
	return c
}
