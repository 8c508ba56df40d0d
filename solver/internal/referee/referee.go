// Package referee asks the solvers of other people (glpsol of GLPK, cbc of COIN-OR, lp_solve) as processes, for tests
// and long comparisons only. It takes a program, writes its linear form as MPS, reads which options they choose and
// reckons cash and benefit from those in whole numbers; their own objective values are never used.
package referee

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"

	"firstbolt/solver/mps"
	"firstbolt/solver/program"
)

// Referee is one outside solver. It implements program.Engine.
type Referee struct {
	command string
	install string // what a distribution of the Debian family calls its package
	arguments
	read func(io.Reader) (mps.Answer, error)
}

// arguments give the command line for a model; the answer goes to the file answer, or to standard output if unused.
type arguments func(model, answer string) []string

// All are the referees, installed or not.
func All() []Referee {
	return []Referee{
		{"glpsol", "glpk-utils", func(model, answer string) []string {
			return []string{"--freemps", model, "-o", answer}
		}, mps.ReadGLPK},
		{"cbc", "coinor-cbc", func(model, answer string) []string {
			return []string{model, "ratioGap", "0", "allowableGap", "0", "printingOptions", "all", "solve", "solu", answer}
		}, mps.ReadCBC},
		{"lp_solve", "lp-solve", func(model, _ string) []string {
			return []string{"-fmps", model, "-S3"}
		}, mps.ReadLPSolve},
	}
}

// Name is the command's name.
func (r Referee) Name() string { return r.command }

// Installed tells whether the command is there.
func (r Referee) Installed() bool {
	_, err := exec.LookPath(r.command)
	return err == nil
}

// Solve answers p in stages, each in a process of its own. When ctx ends the status is Stopped.
func (r Referee) Solve(ctx context.Context, p *program.Program) (program.Solution, error) {
	if err := p.Validate(); err != nil {
		return program.Solution{}, err
	}
	folder, err := os.MkdirTemp("", "referee")
	if err != nil {
		return program.Solution{}, err
	}
	defer os.RemoveAll(folder)
	solution, err := p.SolveLinear(func(l *program.Linear) (program.Status, []int, error) {
		return r.solveOne(ctx, folder, l)
	})
	if ctx.Err() != nil {
		return program.Solution{Status: program.Stopped, Bound: math.MaxInt64}, nil
	}
	if err != nil {
		return program.Solution{}, fmt.Errorf("%s: %w", r.command, err)
	}
	return solution, nil
}

func (r Referee) solveOne(ctx context.Context, folder string, l *program.Linear) (program.Status, []int, error) {
	if len(l.Columns) == 0 {
		return program.Optimal, []int{}, nil
	}
	model, answer := filepath.Join(folder, "model.mps"), filepath.Join(folder, "answer")
	var text bytes.Buffer
	if err := mps.WriteMPS(&text, l); err != nil {
		return 0, nil, err
	}
	if err := os.WriteFile(model, text.Bytes(), 0o600); err != nil {
		return 0, nil, err
	}
	if err := os.Remove(answer); err != nil && !os.IsNotExist(err) {
		return 0, nil, err
	}
	said, err := exec.CommandContext(ctx, r.command, r.arguments(model, answer)...).Output()
	// lp_solve's exit code is its status, so only a process that did not run at all counts as failed.
	var exit *exec.ExitError
	if err != nil && !errors.As(err, &exit) {
		return 0, nil, err
	}
	if written, err := os.ReadFile(answer); err == nil {
		said = written
	}
	found, err := r.read(bytes.NewReader(said))
	if err != nil || found.Status == program.Infeasible {
		return program.Infeasible, nil, err
	}
	if found.Status != program.Optimal {
		return 0, nil, fmt.Errorf("it ended with %q", found.Said)
	}
	choice, err := found.Choice(l)
	return program.Optimal, choice, err
}
