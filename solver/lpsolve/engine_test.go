package lpsolve

import (
	"errors"
	"os"
	"strings"
	"testing"

	"firstbolt/solver/child"
	"firstbolt/solver/program"
)

func TestMain(m *testing.M) {
	child.Serve()
	os.Exit(m.Run())
}

// sack is a program of one slot for each item, out or in, with a budget.
func sack(budget int64, items ...[2]int64) *program.Program {
	p := &program.Program{
		Budget: budget, Floor: program.NoFloor, Objective: program.Objective{Benefit: 1},
		Measures: []program.Measure{{Name: "worth", Weight: 1, Curve: program.Curve{Knots: []int64{0, 1}, Slopes: []int64{1}}}},
	}
	for _, item := range items {
		p.Slots = append(p.Slots, program.Slot{Name: "item", Options: []program.Option{
			{Name: "out", Shop: program.NoShop},
			{Name: "in", Shop: program.NoShop, Cash: item[0], Amounts: []program.Amount{{Steps: item[1]}}, Purchases: 1},
		}})
	}
	return p
}

// S9: statuses of the reference, page solve; only two are answers.
func TestStatuses(t *testing.T) {
	t.Parallel()
	for code, name := range statusNames {
		status, err := outcome(code)
		switch name {
		case "OPTIMAL", "INFEASIBLE":
			if want := map[string]program.Status{"OPTIMAL": program.Optimal, "INFEASIBLE": program.Infeasible}[name]; err != nil || status != want {
				t.Errorf("%s became %v, %v", name, status, err)
			}
		default:
			if err == nil || !strings.Contains(err.Error(), name) {
				t.Errorf("status %d: error %v, want one that names %s", code, err, name)
			}
		}
	}
	if _, err := outcome(77); err == nil || !strings.Contains(err.Error(), "unknown status 77") {
		t.Errorf("status 77: error %v, want one that gives the number", err)
	}
}

// S5: sums beyond five million are refused, wherever they stand; what a row cannot reach does not count.
func TestTooLarge(t *testing.T) {
	t.Parallel()
	big := sack(9_000_001, [2]int64{3_000_001, 1}, [2]int64{3_000_000, 1}, [2]int64{3_000_000, 1}, [2]int64{3_000_000, 1})
	for _, c := range []struct {
		name string
		p    *program.Program
		row  string
	}{
		{"the budget can reach nine million", big, "budget"},
		{"divided by a million it is small", sack(9_000_000, [2]int64{3e6, 1}, [2]int64{3e6, 1}, [2]int64{3e6, 1}, [2]int64{3e6, 1}), ""},
		{"much on offer, a small budget", sack(400_001, manyItems(50)...), ""},
		{"one price beyond it", sack(400_001, [2]int64{5_000_003, 1}, [2]int64{3, 1}), "budget"},
		{"the objective", sack(2, [2]int64{1, 15e6}, [2]int64{1, 15e6}, [2]int64{1, 1}), "objective"},
	} {
		err := tooLarge(c.p.Linear())
		var large *TooLargeError
		if c.row == "" && err != nil || c.row != "" && (!errors.As(err, &large) || large.Row != c.row) {
			t.Errorf("%s: error %v, want one about %q", c.name, err, c.row)
		}
	}
}

func manyItems(n int64) (items [][2]int64) {
	for i := range n {
		items = append(items, [2]int64{300_000 + i, 1})
	}
	return items
}

// S1: the objective is halved until no column adds more than 1,024.
func TestHalvings(t *testing.T) {
	t.Parallel()
	for worth, want := range map[int64]int{1: 0, 1024: 0, 1025: 1, 1_000_000: 10} {
		if k := halvings(sack(5, [2]int64{1, worth}).Linear()); k != want {
			t.Errorf("a worth of %d is halved %d times, want %d", worth, k, want)
		}
	}
}
