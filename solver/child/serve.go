package child

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"firstbolt/solver/program"
)

// engines are those that a child can run, by name; filled by Register in the init functions of engine packages.
var engines = map[string]program.Engine{}

// Register makes an engine known to Serve. Packages of engines call it from init; it is an error of the program to
// register a name twice.
func Register(name string, e program.Engine) {
	if _, twice := engines[name]; twice {
		panic("child: engine " + name + " is registered twice")
	}
	engines[name] = e
}

// Serve does nothing in an ordinary run but note that it was called. In a child it reads one program, solves it with
// the registered engine, writes the solution and ends the process.
func Serve() {
	served.Store(true)
	name, isChild := os.LookupEnv(Variable)
	if !isChild {
		return
	}
	if err := serve(name, os.Stdin, os.Stdout); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	os.Exit(0)
}

// reply is what a child writes.
type reply struct {
	Solution program.Solution
	Error    string `json:",omitempty"`
}

func serve(name string, in io.Reader, out io.Writer) error {
	input := json.NewDecoder(in)
	var p program.Program
	if err := input.Decode(&p); err != nil {
		return fmt.Errorf("the program could not be read: %w", err)
	}
	go endWith(in)
	var answer reply
	engine, known := engines[name]
	if known {
		solution, err := engine.Solve(context.Background(), &p)
		answer.Solution = solution
		if err != nil {
			answer.Error = err.Error()
		}
	} else {
		answer.Error = fmt.Sprintf("this build has no engine %q to run; it has: %s", name, registered())
	}
	return json.NewEncoder(out).Encode(answer)
}

// endWith ends the process when its standard input closes: then nobody waits for the answer.
func endWith(in io.Reader) {
	_, _ = io.Copy(io.Discard, in)
	os.Exit(1)
}

func registered() string {
	if len(engines) == 0 {
		return "none"
	}
	var names []string
	for name := range engines {
		names = append(names, name)
	}
	slices.Sort(names)
	return strings.Join(names, ", ")
}
