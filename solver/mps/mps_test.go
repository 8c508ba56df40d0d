package mps

import (
	"bytes"
	"flag"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"firstbolt/solver/program"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// example has a relation, a charge, a shop with a free-over, a bent curve, a row, a budget and a floor. By hand: bought
// are both tyres, 1000 + 700 + lever 300, shipping free from 1700 on: cash 2000, benefit 2 * (40 + 10) = 100.
func example() *program.Program {
	fitted := program.Option{Name: "fitted", Shop: program.NoShop}
	tyre := func(name string, cash, grip int64) program.Option {
		return program.Option{Name: name, Cash: cash, Listed: cash, Shop: 0, Charges: []int{0}, Amounts: []program.Amount{{Measure: 0, Steps: grip}}, Purchases: 1}
	}
	return &program.Program{
		Name: "two tyres and a tube",
		Slots: []program.Slot{
			{Name: "front tyre", Options: []program.Option{fitted, tyre("Größe 26, knobbly", 1000, 3)}},
			{Name: "rear tyre", Options: []program.Option{fitted, tyre("a slick whose name is longer than any column may be", 700, 2)}},
			{Name: "tube", Options: []program.Option{fitted, {Name: "light", Cash: 300, Listed: 300, Shop: 0, Purchases: 1}}},
		},
		Relations: []program.Relation{{
			Name: "tube fits", Slots: []int{0, 2}, Class: [][]int{{0, 1}, {0, 1}}, Count: []int{2, 2}, Allowed: []bool{true, true, true, false},
		}},
		Rows:      []program.Row{{Name: "not all three", Terms: []program.Term{{Slot: 0, Option: 1, Coef: 1}, {Slot: 1, Option: 1, Coef: 1}, {Slot: 2, Option: 1, Coef: 1}}, AtMost: 2}},
		Charges:   []program.Charge{{Name: "tyre lever", Cash: 300}},
		Shops:     []program.Shop{{Name: "corner", Shipping: 500, FreeOver: 1700}},
		Measures:  []program.Measure{{Name: "grip", Weight: 2, Base: 1, Curve: program.Curve{Knots: []int64{0, 4, 9}, Slopes: []int64{10, 5}}}},
		Budget:    2000,
		Floor:     30,
		Objective: program.Objective{Benefit: 3, Cash: 0},
	}
}

func TestGolden(t *testing.T) {
	t.Parallel()
	for name, write := range map[string]func(io.Writer, *program.Linear) error{"example.mps": WriteMPS, "example.lp": WriteLP} {
		var got bytes.Buffer
		if err := write(&got, example().Linear()); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join("testdata", name)
		if *update {
			if err := os.WriteFile(path, got.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(string(want), got.String()); diff != "" {
			t.Errorf("%s differs (go test -update rewrites it):\n%s", name, diff)
		}
	}
}

func TestLPNeedsAColumn(t *testing.T) {
	t.Parallel()
	empty := &program.Program{Name: "empty", Budget: program.NoBudget, Floor: program.NoFloor}
	if err := WriteLP(io.Discard, empty.Linear()); err == nil {
		t.Error("a program without columns was written as LP text")
	}
	if err := WriteMPS(io.Discard, empty.Linear()); err != nil {
		t.Error(err)
	}
}

// The answers in testdata were written by GLPSOL 5.0, CBC 2.10.8 and lp_solve 5.5.2.5 for example.mps, and for the same
// file with a budget of -1 (infeasible.*).
func TestAnswersOfOtherSolvers(t *testing.T) {
	t.Parallel()
	l := example().Linear()
	for _, c := range []struct {
		file   string
		read   func(io.Reader) (Answer, error)
		status program.Status
	}{
		{"example.glpsol", ReadGLPK, program.Optimal},
		{"example.cbc", ReadCBC, program.Optimal},
		{"example.lp_solve", ReadLPSolve, program.Optimal},
		{"infeasible.glpsol", ReadGLPK, program.Infeasible},
		{"infeasible.cbc", ReadCBC, program.Infeasible},
		{"infeasible.lp_solve", ReadLPSolve, program.Infeasible},
	} {
		file, err := os.Open(filepath.Join("testdata", c.file))
		if err != nil {
			t.Fatal(err)
		}
		defer file.Close()
		answer, err := c.read(file)
		if err != nil || answer.Status != c.status {
			t.Errorf("%s: %v (%q), %v, want %v", c.file, answer.Status, answer.Said, err, c.status)
			continue
		}
		if c.status != program.Optimal {
			continue
		}
		if choice, err := answer.Choice(l); err != nil || !cmp.Equal(choice, []int{1, 1, 0}) {
			t.Errorf("%s: choice %v, %v, want both tyres and no tube", c.file, choice, err)
		}
	}
}

func TestBrokenAnswersAreErrors(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		text, want string
		read       func(io.Reader) (Answer, error)
	}{
		{"", "no status", ReadGLPK},
		{"", "no status", ReadCBC},
		{"", "no status", ReadLPSolve},
		{"Status: INTEGER OPTIMAL\nNo. Column name\n 1 x * much 0 1\n", `line 3: the value of "x" is "much"`, ReadGLPK},
		{"Status: INTEGER OPTIMAL\nNo. Column name\n 1 x *\n", `"x" has no value`, ReadGLPK},
		{"Optimal - objective value 1\n 0 x\n", "want number, name and value", ReadCBC},
		{"Optimal - objective value 1\n 0 x one 0\n", `"one", want a number`, ReadCBC},
		{"Actual values of the variables:\nx one\n", `"one", want a number`, ReadLPSolve},
	} {
		if _, err := c.read(strings.NewReader(c.text)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%q: error %v, want one with %q", c.text, err, c.want)
		}
	}
	if _, err := (Answer{Values: map[string]float64{"y.tube.light": 1}}).Choice(example().Linear()); err == nil {
		t.Error("an answer without most columns was read as a choice")
	}
}

// Other words for the status are no answer: what is neither optimal nor infeasible is Stopped.
func TestOtherStatuses(t *testing.T) {
	t.Parallel()
	for text, read := range map[string]func(io.Reader) (Answer, error){
		"Status:     INTEGER NON-OPTIMAL\n":        ReadGLPK,
		"Status:     INTEGER UNDEFINED\n":          ReadGLPK,
		"Stopped on time - objective value 3\n":    ReadCBC,
		"Unbounded - objective value 3\n":          ReadCBC,
		"\nThis problem is unbounded\n":            ReadLPSolve,
		"\nThe model is sub-optimal. Only a ...\n": ReadLPSolve,
		"\nNumerical failure encountered\n":        ReadLPSolve,
	} {
		if a, err := read(strings.NewReader(text)); err != nil || a.Status != program.Stopped {
			t.Errorf("%q: %v, %v, want stopped", text, a.Status, err)
		}
	}
}

func FuzzReaders(f *testing.F) {
	for _, name := range []string{"example.glpsol", "example.cbc", "example.lp_solve", "infeasible.cbc"} {
		text, err := os.ReadFile(filepath.Join("testdata", name))
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(text))
	}
	l := example().Linear()
	f.Fuzz(func(t *testing.T, text string) {
		for _, read := range []func(io.Reader) (Answer, error){ReadGLPK, ReadCBC, ReadLPSolve} {
			if a, err := read(strings.NewReader(text)); err == nil {
				if choice, err := a.Choice(l); err == nil && len(choice) != len(example().Slots) {
					t.Errorf("choice %v has not one option for each slot", choice)
				}
			}
		}
	})
}
