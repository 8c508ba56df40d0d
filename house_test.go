// Package house_test guards what holds for the whole repository: who may import whom, who alone wraps golp, and how long
// files may be.
package house_test

import (
	"bytes"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// arrows are the packages of ours that each package may import; nothing else of ours may be. DEVELOPERS.md says why.
var arrows = map[string][]string{
	"model":          {},
	"model/fit":      {"model"},
	"scoring":        {"model"},
	"scoring/cost":   {"model"},
	"datasets/sheet": {},
	"datasets":       {"datasets/sheet", "model"},

	"solver/program":   {},
	"solver/child":     {"solver/program"},
	"solver/builtin":   {"solver/program", "solver/child"},
	"solver/lpsolve":   {"solver/program", "solver/child"},
	"solver/loop":      {"solver/program", "solver/child"},
	"solver/certify":   {"solver/program"},
	"solver/mps":       {"solver/program"},
	"solver/formulate": {"model", "model/fit", "scoring", "scoring/cost", "solver/program"},
	"solver/receipt":   {"model", "model/fit"},
	"solver":           {"model", "model/fit", "scoring", "solver/formulate", "solver/receipt", "solver/certify", "solver/program"},

	// Helpers of tests and benches.
	"solver/internal/brute":     {"solver/program"},
	"solver/internal/random":    {"solver/program"},
	"solver/internal/published": {"solver/program"},
	"solver/internal/referee":   {"solver/program", "solver/mps"},

	"cmd/firstbolt/internal/answer":         {},
	"cmd/firstbolt/internal/answer/example": {"cmd/firstbolt/internal/answer"},
	"cmd/firstbolt/internal/golden":         {},
	"cmd/firstbolt/internal/text":           {"cmd/firstbolt/internal/answer"},
	"cmd/firstbolt/internal/json":           {"cmd/firstbolt/internal/answer"},
	"cmd/firstbolt/internal/ask": {
		"cmd/firstbolt/internal/answer", "datasets", "datasets/sheet", "model", "model/fit",
		"solver", "solver/program", "solver/mps", "solver/builtin", "solver/lpsolve",
	},
	"cmd/firstbolt": {
		"cmd/firstbolt/internal/answer", "cmd/firstbolt/internal/ask", "cmd/firstbolt/internal/text", "cmd/firstbolt/internal/json",
		"solver/child", // Serve must be called first in main
	},
}

const module = "firstbolt/"

func TestImportArrows(t *testing.T) {
	t.Parallel()
	seen := map[string]bool{}
	for _, file := range goFiles(t) {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		folder := filepath.ToSlash(filepath.Dir(file))
		allowed, known := arrows[folder]
		if !known {
			t.Errorf("%s: the package %q has no arrows in house_test.go; say there what it may import", file, folder)
			continue
		}
		seen[folder] = true
		for _, path := range imports(t, file) {
			if ours, is := strings.CutPrefix(path, module); is && !slices.Contains(allowed, ours) {
				t.Errorf("%s imports %s; %s may import %v", file, ours, folder, allowed)
			}
		}
	}
	for folder := range arrows {
		if !seen[folder] {
			t.Errorf("house_test.go has arrows for %q, where there is no such package", folder)
		}
	}
}

// lp_solve knows no time limit and can crash: only the package that closes its traps may touch it, tests included.
func TestOnlyLPSolveImportsGolp(t *testing.T) {
	t.Parallel()
	wrapped := false
	for _, file := range goFiles(t) {
		for _, path := range imports(t, file) {
			if !strings.HasPrefix(path, "github.com/draffensperger/golp") {
				continue
			}
			if filepath.ToSlash(filepath.Dir(file)) != "solver/lpsolve" {
				t.Errorf("%s imports golp; only solver/lpsolve may", file)
			}
			wrapped = true
		}
	}
	if !wrapped {
		t.Error("nothing imports golp, so this test guards nothing")
	}
}

// A file that no longer fits a few screens holds more than one thing.
func TestFilesAreShort(t *testing.T) {
	t.Parallel()
	const most = 400
	for _, file := range goFiles(t) {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if n := bytes.Count(data, []byte("\n")); n > most {
			t.Errorf("%s has %d lines, want at most %d", file, n, most)
		}
	}
}

// goFiles are the Go files of the repository.
func goFiles(t *testing.T) []string {
	t.Helper()
	var files []string
	err := filepath.WalkDir(".", func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && (d.Name() == "testdata" || len(path) > 1 && strings.HasPrefix(d.Name(), ".") || path == "dist" || path == "bin"):
			return filepath.SkipDir
		case strings.HasSuffix(path, ".go") && path != "house_test.go":
			files = append(files, path)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

func imports(t *testing.T, file string) []string {
	t.Helper()
	parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
	if err != nil {
		t.Fatal(err)
	}
	var paths []string
	for _, i := range parsed.Imports {
		path, err := strconv.Unquote(i.Path.Value)
		if err != nil {
			t.Fatal(err)
		}
		paths = append(paths, path)
	}
	return paths
}
