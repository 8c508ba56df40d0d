package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/cmd/firstbolt/internal/ask"
	"firstbolt/cmd/firstbolt/internal/golden"
)

const readme = "../../README.md"

// Every `$ firstbolt ...` block of the README is run, in order and in one folder, with the files that the README shows
// before it; a line "..." in what it shows stands for any lines.
func TestReadmeRuns(t *testing.T) {
	t.Parallel()
	dir, ran := t.TempDir(), 0
	for _, b := range blocks(t) {
		if b.file != "" {
			path := filepath.Join(dir, b.file)
			if err := os.WriteFile(path, []byte(strings.Join(b.lines, "\n")+"\n"), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		if len(b.lines) == 0 || !strings.HasPrefix(b.lines[0], "$ firstbolt") {
			continue
		}
		ran++
		args := words(strings.TrimPrefix(b.lines[0], "$ "))
		self, err := os.Executable()
		if err != nil {
			t.Fatal(err)
		}
		cmd := exec.Command(self)
		cmd.Args, cmd.Dir = args, dir
		out, err := cmd.CombinedOutput()
		if err != nil {
			t.Errorf("%s: %v\n%s", b.lines[0], err, out)
			continue
		}
		got := strings.Split(strings.TrimRight(string(out), "\n"), "\n")
		if missing := unmatched(b.lines[1:], got); missing != "" {
			t.Errorf("%s\nthe README shows %q, which is not (or not in this order) in\n%s", b.lines[0], missing, out)
		}
	}
	if ran < 2 {
		t.Errorf("the README has %d runs, want at least two", ran)
	}
}

// block is a fenced block, with the file it is to be written to when the line before says so.
type block struct {
	file  string
	lines []string
}

func blocks(t *testing.T) []block {
	t.Helper()
	data, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	var list []block
	file, open := "", false
	for _, line := range strings.Split(string(data), "\n") {
		name, isFile := strings.CutPrefix(line, "<!-- file: ")
		switch {
		case isFile:
			file = strings.TrimSuffix(name, " -->")
		case strings.HasPrefix(line, "```"):
			if !open {
				list = append(list, block{file: file})
			}
			open, file = !open, ""
		case open:
			last := &list[len(list)-1]
			last.lines = append(last.lines, line)
		}
	}
	return list
}

// words splits a command line at spaces outside double quotes.
func words(line string) []string {
	var list []string
	for i, piece := range strings.Split(line, `"`) {
		if i%2 == 1 {
			list = append(list, piece)
		} else {
			list = append(list, strings.Fields(piece)...)
		}
	}
	return list
}

// unmatched is what want shows and got does not have in its place, "" where all match. Between two "..." lines stand
// together.
func unmatched(want, got []string) string {
	free := false // after "...": lines of got may be passed over
	for len(want) > 0 {
		if want[0] == "..." {
			want, free = want[1:], true
			continue
		}
		n := slices.Index(want, "...")
		if n < 0 {
			n = len(want)
		}
		for free && len(got) >= n && !slices.Equal(got[:n], want[:n]) {
			got = got[1:]
		}
		for i := range n {
			if i == len(got) || got[i] != want[i] {
				return strings.Join(want[:n], "\n")
			}
		}
		want, got, free = want[n:], got[n:], false
	}
	if len(got) > 0 && !free {
		return "nothing more"
	}
	return ""
}

// The README's tables of columns are made from the same description as the reader of the sheets.
func TestReadmeColumns(t *testing.T) {
	t.Parallel()
	ans, err := ask.Schema("", false)
	if err != nil {
		t.Fatal(err)
	}
	schemas := ans.(*answer.Schemas)
	var table strings.Builder
	for _, r := range schemas.Resources {
		columns(&table, fmt.Sprintf("**%s**: one row is %s.", r.Path, r.Title), r.Schema.Fields)
		if r.Name == "rider" {
			columns(&table, "Settings of rider.csv:", schemas.Settings)
		}
	}
	data, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	const from, to = "<!-- columns -->\n", "<!-- /columns -->"
	start, end := bytes.Index(data, []byte(from)), bytes.Index(data, []byte(to))
	if start < 0 || end < start {
		t.Fatalf("the README has no place for the columns between %q and %q", from, to)
	}
	want := string(data[:start]) + from + "\n" + strings.Trim(table.String(), "\n") + "\n\n" + string(data[end:])
	golden.Compare(t, readme, []byte(want))
}

func columns(w io.Writer, title string, fields []answer.Field) {
	fmt.Fprintf(w, "\n%s\n\n| name | holds | such as |\n|---|---|---|\n", title)
	for _, f := range fields {
		needed, holds := "", f.Description
		if f.Constraints.Required {
			needed = "*"
		}
		if len(f.Constraints.Enum) > 0 {
			holds += ": " + strings.Join(f.Constraints.Enum, ", ")
		}
		fmt.Fprintf(w, "| %s%s | %s | %s |\n", f.Name, needed, holds, f.Example)
	}
}

// The README names every command, and every exit code that an answer can have.
func TestReadmeNamesCommandsAndCodes(t *testing.T) {
	t.Parallel()
	data, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	a := &app{}
	for _, c := range a.command().Commands() {
		if c.IsAvailableCommand() && c.Name() != "completion" && c.Name() != "help" && !bytes.Contains(data, []byte("| `"+c.Name())) {
			t.Errorf("the README's table of commands lacks %q", c.Name())
		}
	}
	for _, code := range []int{0, 1, answer.ExitUsage, 3, 4, 5, 130} {
		if !bytes.Contains(data, []byte(fmt.Sprintf("\n| %d | ", code))) {
			t.Errorf("the README's table of exit codes lacks %d", code)
		}
	}
}
