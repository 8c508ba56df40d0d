// Package child runs an engine in a child process of our own binary, for engines that cannot be stopped or could crash
// (C code). It takes a program and gives the engine's solution; program and solution travel as JSON on pipes.
//
// Serve must be the first statement of main, and of TestMain in every package whose tests solve so: the child is the
// same binary, and without Serve it would run main, or all tests, once more. The child has a process group of its own,
// ends itself when its standard input closes (so it never outlives the parent) and is ended by its id when the context
// or the limit ends.
package child

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"strings"
	"sync/atomic"
	"time"

	"firstbolt/solver/program"
)

// Variable is the environment variable that makes our binary serve as a child; its value is the engine's name.
const Variable = "FIRSTBOLT_CHILD"

// DefaultLimit ends a child that has not answered. Common practice, no source: models of realistic size took lp_solve
// 0.14 s at most, hard small ones more than 40 s.
const DefaultLimit = 10 * time.Second

// stderrShown is how much of a failed child's own words an error repeats.
const stderrShown = 300

// ErrNotServed says that this binary never called Serve, so a child of it would not answer.
var ErrNotServed = errors.New("no child process can be started: child.Serve() must be the first statement of main (or TestMain)")

// Failure is an error that the engine itself reported in the child, or the end of the child without an answer.
type Failure struct{ Engine, Text string }

func (f *Failure) Error() string { return fmt.Sprintf("%s in a child process: %s", f.Engine, f.Text) }

// Engine is the registered engine of that name, run in a child process, one child for each Solve.
type Engine struct {
	Of    string        // name given to Register
	Limit time.Duration // zero: DefaultLimit
}

// Name is the name of the engine in the child.
func (e Engine) Name() string { return e.Of }

// Solve asks a child. When ctx or the limit ends, the child is ended and the status is Stopped, without a choice.
func (e Engine) Solve(ctx context.Context, p *program.Program) (program.Solution, error) {
	if !served.Load() {
		return program.Solution{}, ErrNotServed
	}
	question, err := json.Marshal(p)
	if err != nil {
		return program.Solution{}, fmt.Errorf("the program cannot be written for a child process: %w", err)
	}
	limit := e.Limit
	if limit == 0 {
		limit = DefaultLimit
	}
	ctx, cancel := context.WithTimeout(ctx, limit)
	defer cancel()
	answer, err := e.ask(ctx, question)
	if ctx.Err() != nil {
		return program.Solution{Status: program.Stopped, Bound: math.MaxInt64}, nil
	}
	if err != nil {
		return program.Solution{}, err
	}
	if answer.Error != "" {
		return program.Solution{}, &Failure{e.Of, answer.Error}
	}
	return answer.Solution, nil
}

// ask runs one child. Its standard input stays open until it has answered or been ended: its closing tells the child
// that nobody waits for it any more.
func (e Engine) ask(ctx context.Context, question []byte) (reply, error) {
	self, err := os.Executable()
	if err != nil {
		return reply{}, fmt.Errorf("our own binary is not found: %w", err)
	}
	command := exec.CommandContext(ctx, self)
	command.Env = append(os.Environ(), Variable+"="+e.Of)
	command.SysProcAttr = ownGroup()
	command.WaitDelay = time.Second
	var said, complaint bytes.Buffer
	command.Stdout, command.Stderr = &said, &complaint
	input, err := command.StdinPipe()
	if err != nil {
		return reply{}, fmt.Errorf("child process: %w", err)
	}
	if err := command.Start(); err != nil {
		return reply{}, fmt.Errorf("child process: %w", err)
	}
	// A child that ends before it has read everything shows in Wait, with its own words.
	_, _ = input.Write(question)
	if err := command.Wait(); err != nil {
		return reply{}, &Failure{e.Of, fmt.Sprintf("it ended without an answer (%v): %s", err, excerpt(complaint.String()))}
	}
	var answer reply
	if err := json.Unmarshal(said.Bytes(), &answer); err != nil {
		return reply{}, &Failure{e.Of, fmt.Sprintf("its answer is not the one expected (%v): %s", err, excerpt(said.String()))}
	}
	return answer, nil
}

func excerpt(text string) string {
	text = strings.TrimSpace(text)
	if len(text) > stderrShown {
		text = text[:stderrShown] + " ..."
	}
	return text
}

var served atomic.Bool
