package lpsolve

import (
	"context"
	"errors"
	"fmt"
	"math"
	"time"

	"firstbolt/solver/child"
	"firstbolt/solver/program"
)

// ErrUnavailable says that this build holds no lp_solve.
var ErrUnavailable = errors.New("this build has no lp_solve in it: build with cgo and -tags lpsolve (./dev build does where lp_solve is installed)")

// Engine is lp_solve. The zero value runs it in a child process with the default limit.
type Engine struct {
	Limit     time.Duration // of a child process; zero: child.DefaultLimit
	InProcess bool          // solve here: ctx is then looked at between the stages only
}

// Name is "lpsolve".
func (Engine) Name() string { return "lpsolve" }

// Solve answers p, or says why lp_solve is not to be trusted with it: ErrUnavailable, a *TooLargeError, a *StatusError,
// or an answer that breaks the program when it is reckoned in whole numbers.
func (e Engine) Solve(ctx context.Context, p *program.Program) (program.Solution, error) {
	if !Available() {
		return program.Solution{}, ErrUnavailable
	}
	if err := p.Validate(); err != nil {
		return program.Solution{}, fmt.Errorf("lpsolve: %w", err)
	}
	if err := tooLarge(p.Linear()); err != nil {
		return program.Solution{}, err
	}
	if !e.InProcess {
		return child.Engine{Of: e.Name(), Limit: e.Limit}.Solve(ctx, p)
	}
	return p.SolveLinear(func(l *program.Linear) (program.Status, []int, error) {
		if ctx.Err() != nil {
			return program.Stopped, nil, nil
		}
		return solveOne(l)
	})
}

// solveOne solves one linear program and reads the choice.
func solveOne(l *program.Linear) (program.Status, []int, error) {
	if len(l.Columns) == 0 {
		return program.Optimal, []int{}, nil
	}
	code, values, err := run(l, halvings(l))
	if err != nil {
		return 0, nil, err
	}
	status, err := outcome(code)
	if err != nil || status != program.Optimal {
		return status, nil, err
	}
	choice, err := l.Choice(values)
	if err != nil {
		return 0, nil, fmt.Errorf("lpsolve: %w", err)
	}
	return program.Optimal, choice, nil
}

// A StatusError is an end of lp_solve that is neither an optimum nor a proof that there is none.
type StatusError struct{ Code int }

func (e *StatusError) Error() string {
	return fmt.Sprintf("lpsolve ended with %s, want OPTIMAL or INFEASIBLE", statusName(e.Code))
}

// statusNames are those of the lp_solve 5.5 reference, page solve.
var statusNames = map[int]string{
	-5: "UNKNOWNERROR", -4: "DATAIGNORED", -3: "NOBFP", -2: "NOMEMORY", -1: "NOTRUN", 0: "OPTIMAL", 1: "SUBOPTIMAL",
	2: "INFEASIBLE", 3: "UNBOUNDED", 4: "DEGENERATE", 5: "NUMFAILURE", 6: "USERABORT", 7: "TIMEOUT", 9: "PRESOLVED",
	10: "PROCFAIL", 11: "PROCBREAK", 12: "FEASFOUND", 13: "NOFEASFOUND", 25: "ACCURACYERROR",
}

func statusName(code int) string {
	if name, known := statusNames[code]; known {
		return name
	}
	return fmt.Sprintf("the unknown status %d", code)
}

// outcome turns a status of lp_solve into ours.
func outcome(code int) (program.Status, error) {
	switch statusName(code) {
	case "OPTIMAL":
		return program.Optimal, nil
	case "INFEASIBLE":
		return program.Infeasible, nil
	}
	return 0, &StatusError{code}
}

// calm is the size of objective coefficients at which no wrong optimum was seen (values up to 1,000 that almost tie).
const calm = 1024

// halvings is the least k for which no column adds more than calm to the objective times 2^-k.
func halvings(l *program.Linear) int {
	largest := int64(0)
	for _, e := range l.Objective.Entries {
		largest = max(largest, magnitude(e.Coef)*l.Columns[e.Column].Upper)
	}
	k := 0
	for math.Ldexp(float64(largest), -k) > calm {
		k++
	}
	return k
}

func magnitude(n int64) int64 { return max(n, -n) }
