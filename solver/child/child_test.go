package child

import (
	"context"
	"encoding/json"
	"errors"
	"io"
	"os"
	"os/exec"
	"reflect"
	"strings"
	"testing"
	"time"

	"firstbolt/solver/program"
)

// engineFunc is an engine of the tests.
type engineFunc func(*program.Program) (program.Solution, error)

func (engineFunc) Name() string { return "test" }

func (f engineFunc) Solve(_ context.Context, p *program.Program) (program.Solution, error) {
	return f(p)
}

func TestMain(m *testing.M) {
	Register("first", engineFunc(func(p *program.Program) (program.Solution, error) {
		return p.Solution(program.Optimal, make([]int, len(p.Slots))), nil
	}))
	Register("refusing", engineFunc(func(*program.Program) (program.Solution, error) {
		return program.Solution{}, errors.New("this is too much for me")
	}))
	Register("endless", engineFunc(func(*program.Program) (program.Solution, error) {
		select {}
	}))
	Register("crashing", engineFunc(func(*program.Program) (program.Solution, error) {
		panic("a fault in the engine")
	}))
	Register("chatty", engineFunc(func(*program.Program) (program.Solution, error) {
		_, err := os.Stdout.WriteString("set_XXXX: a word of the C library\n")
		return program.Solution{}, err
	}))
	Serve()
	os.Exit(m.Run())
}

func question() *program.Program {
	return &program.Program{
		Name:  "one slot",
		Slots: []program.Slot{{Name: "tyre", Options: []program.Option{{Name: "knobbly", Cash: 900, Shop: program.NoShop, Purchases: 1}}}},
		// The largest and smallest numbers must survive the way as JSON.
		Budget: program.NoBudget, Floor: program.NoFloor, Objective: program.Objective{Cash: 2},
	}
}

func TestSolutionComesBack(t *testing.T) {
	t.Parallel()
	got, err := Engine{Of: "first"}.Solve(t.Context(), question())
	want := question().Solution(program.Optimal, []int{0})
	if err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v, %v, want %+v", got, err, want)
	}
}

func TestProgramSurvivesTheWay(t *testing.T) {
	t.Parallel()
	text, err := json.Marshal(question())
	if err != nil {
		t.Fatal(err)
	}
	var back program.Program
	if err := json.Unmarshal(text, &back); err != nil || !reflect.DeepEqual(&back, question()) {
		t.Errorf("got %+v, %v, want %+v", back, err, question())
	}
}

func TestFailuresAreSaid(t *testing.T) {
	t.Parallel()
	for engine, want := range map[string]string{
		"refusing": "refusing in a child process: this is too much for me",
		"crashing": "a fault in the engine",
		"chatty":   "a word of the C library",
		"absent":   `this build has no engine "absent" to run; it has: chatty, crashing, endless, first, refusing`,
	} {
		_, err := Engine{Of: engine}.Solve(t.Context(), question())
		var failure *Failure
		if !errors.As(err, &failure) || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: error %v, want a Failure with %q", engine, err, want)
		}
	}
}

func TestLimitAndContextEndTheChild(t *testing.T) {
	t.Parallel()
	stopped := func(name string, ctx context.Context, limit time.Duration) {
		start := time.Now()
		s, err := Engine{Of: "endless", Limit: limit}.Solve(ctx, question())
		if err != nil || s.Status != program.Stopped || s.Choice != nil || s.Bound != 1<<63-1 {
			t.Errorf("%s: %+v, %v, want stopped, with no choice and no bound", name, s, err)
		}
		if took := time.Since(start); took > 8*time.Second {
			t.Errorf("%s: it took %v to end the child", name, took)
		}
	}
	stopped("limit", t.Context(), 200*time.Millisecond)
	ctx, cancel := context.WithTimeout(t.Context(), 200*time.Millisecond)
	defer cancel()
	stopped("context", ctx, time.Minute)
	cancel()
	stopped("ended before", ctx, time.Minute)
}

// A child whose parent is gone sees its standard input close and ends, although its engine never would.
func TestChildEndsWithItsInput(t *testing.T) {
	t.Parallel()
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(t.Context(), 8*time.Second)
	defer cancel()
	command := exec.CommandContext(ctx, self)
	command.Env = append(os.Environ(), Variable+"=endless")
	input, err := command.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := command.Start(); err != nil {
		t.Fatal(err)
	}
	if err := json.NewEncoder(input).Encode(question()); err != nil {
		t.Fatal(err)
	}
	if err := input.Close(); err != nil {
		t.Fatal(err)
	}
	if err := command.Wait(); ctx.Err() != nil || command.ProcessState.ExitCode() != 1 {
		t.Errorf("%v, exit code %d, want it to end by itself with 1", err, command.ProcessState.ExitCode())
	}
}

func TestChildRefusesWhatIsNoProgram(t *testing.T) {
	t.Parallel()
	for _, text := range []string{"", "[", `{"Slots": 3}`} {
		if err := serve("first", strings.NewReader(text), io.Discard); err == nil || !strings.Contains(err.Error(), "could not be read") {
			t.Errorf("%q: error %v, want that it could not be read", text, err)
		}
	}
}
