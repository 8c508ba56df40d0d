package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"strconv"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/cmd/firstbolt/internal/golden"
	"firstbolt/solver/child"
)

// The scripts run this test binary under the name firstbolt; a confirming engine runs in a child of it, so Serve comes
// first here as in main.
func TestMain(m *testing.M) {
	child.Serve()
	testscript.Main(m, map[string]func(){"firstbolt": func() { os.Exit(run(os.Args[1:])) }})
}

// TestScripts runs testdata/script/*.txtar: what firstbolt does as its users see it. `go test -update` writes what the
// scripts compare with anew.
func TestScripts(t *testing.T) {
	t.Parallel()
	testscript.Run(t, testscript.Params{
		Dir: "../../testdata/script", UpdateScripts: golden.Update(), RequireExplicitExec: true, RequireUniqueNames: true,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){"exits": exits, "validates": validates},
	})
}

// exits runs a command and compares its exit code: `exits 3 firstbolt check shed`.
func exits(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: exits CODE COMMAND ...")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	got := 0
	if err := ts.Exec(args[1], args[2:]...); err != nil {
		var exit *exec.ExitError
		if !errors.As(err, &exit) {
			ts.Check(err)
		}
		got = exit.ExitCode()
	}
	if got != want {
		ts.Fatalf("exit code %d, want %d", got, want)
	}
}

// validates checks a JSON file, or stdout, against the answers' JSON Schema.
func validates(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: validates FILE")
	}
	text, err := answer.JSONSchema()
	ts.Check(err)
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	ts.Check(err)
	c := jsonschema.NewCompiler()
	ts.Check(c.AddResource("answer.schema.json", doc))
	schema, err := c.Compile("answer.schema.json")
	ts.Check(err)
	given, err := jsonschema.UnmarshalJSON(bytes.NewReader([]byte(ts.ReadFile(args[0]))))
	ts.Check(err)
	ts.Check(schema.Validate(given))
}
