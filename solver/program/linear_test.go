package program

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// The linear program is compared with the definition in the package comment: for every choice of a small random
// program, the choice meets the linear rows in some setting of the other columns exactly if it meets relations, rows,
// budget and floor, and the best objective over those settings is the choice's own. Both sides are full enumeration.
func TestLinearIsTheProgram(t *testing.T) {
	t.Parallel()
	feasible, infeasible := 0, 0
	for seed := range uint64(1500) {
		p := smallProgram(rand.New(rand.NewPCG(seed, 1)))
		if err := p.Validate(); err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		l := p.Linear()
		eachChoice(p, func(choice []int) {
			_, err := p.judged(choice)
			best, ok := bestSetting(l, choice)
			if ok != (err == nil) {
				t.Fatalf("seed %d, choice %v: the linear program says feasible = %t, the program %v\n%s", seed, choice, ok, err, show(l))
			}
			if !ok {
				infeasible++
				return
			}
			feasible++
			if s := p.Solution(Optimal, choice); best != s.Bound {
				t.Fatalf("seed %d, choice %v: best setting is worth %d, the choice %d\n%s", seed, choice, best, s.Bound, show(l))
			}
		})
	}
	if feasible < 1000 || infeasible < 1000 {
		t.Errorf("%d feasible and %d infeasible choices were seen, want at least 1000 of each for the test to mean something", feasible, infeasible)
	}
}

func TestLinearIsWellFormed(t *testing.T) {
	t.Parallel()
	for seed := range uint64(200) {
		l := smallProgram(rand.New(rand.NewPCG(seed, 1))).Linear()
		names := map[string]bool{}
		for _, c := range l.Columns {
			if names[c.Name] || c.Upper < 0 || (c.Binary && c.Upper != 1) {
				t.Fatalf("seed %d: column %+v stands twice or has a wrong bound", seed, c)
			}
			names[c.Name] = true
		}
		for _, r := range l.Rows {
			if names[r.Name] || len(r.Entries) == 0 {
				t.Fatalf("seed %d: row %+v is empty or its name stands twice", seed, r)
			}
			names[r.Name] = true
			if !slices.IsSortedFunc(r.Entries, func(a, b Entry) int { return a.Column - b.Column }) || !slices.Equal(r.Entries, merged(r.Entries)) {
				t.Fatalf("seed %d: row %+v is not sorted, or repeats a column or holds a 0", seed, r)
			}
		}
	}
}

// An adapter that bridges one pair must not let another pair through.
func TestAdapterServesOnlyItsOwnPairs(t *testing.T) {
	t.Parallel()
	options := func(names ...string) (list []Option) {
		for _, name := range names {
			list = append(list, Option{Name: name, Shop: NoShop})
		}
		return list
	}
	p := &Program{
		Slots: []Slot{{"mount", options("140", "160")}, {"rotor", options("160", "180", "200")}, {"adapter", options("none", "+20")}},
		Relations: []Relation{{
			Name: "reach", Slots: []int{0, 1, 2}, Class: [][]int{{0, 1}, {0, 1, 2}, {0, 1}}, Count: []int{2, 3, 2},
			Allowed: []bool{false, true, false, false, false, false, true, false, false, true, false, false},
		}},
		Budget: NoBudget, Floor: NoFloor,
	}
	l := p.Linear()
	for mount := range 2 {
		for rotor := range 3 {
			for adapter := range 2 {
				step := 160 + 20*rotor - (140 + 20*mount)
				want := step == 20*adapter
				if _, got := bestSetting(l, []int{mount, rotor, adapter}); got != want {
					t.Errorf("mount %d, rotor %d, adapter %d: allowed = %t, want %t", mount, rotor, adapter, got, want)
				}
			}
		}
	}
}

func TestRowsAreDividedAndContradictionsStay(t *testing.T) {
	t.Parallel()
	two := []Option{{Name: "out", Shop: NoShop}, {Name: "in", Shop: NoShop, Cash: 200}}
	p := &Program{Slots: []Slot{{"a", two}, {"b", two}, {"c", two}}, Budget: 599, Floor: NoFloor}
	l := p.Linear()
	budget := l.Rows[len(l.Rows)-1]
	if budget.Name != "budget" || budget.Right != 2 || budget.Entries[0].Coef != 1 {
		t.Errorf("the budget row is %+v, want each price divided by 200 and 599 rounded down to 2", budget)
	}
	p.Budget = 600
	if l = p.Linear(); len(l.Rows) != 3 {
		t.Errorf("%d rows, want 3: a budget that never binds is left out", len(l.Rows))
	}
	p.Rows = []Row{{Name: "nothing", AtMost: -1}}
	if l = p.Linear(); len(l.Rows) != 4 || l.Rows[3].Right != -1 || l.Columns[l.Rows[3].Entries[0].Column].Name != "impossible" {
		t.Errorf("an empty row at most -1 became %+v, want a row that cannot hold", l.Rows[3:])
	}
}

func TestChoiceRefusesWhatIsNotWhole(t *testing.T) {
	t.Parallel()
	p := &Program{Slots: []Slot{{"a", []Option{{Name: "x", Shop: NoShop}, {Name: "y", Shop: NoShop}}}}, Budget: NoBudget, Floor: NoFloor}
	l := p.Linear()
	for _, c := range []struct {
		values []float64
		want   string
	}{
		{[]float64{1e-7, 1 - 1e-7}, ""},
		{[]float64{0.00001, 1}, "want 0 or 1"},
		{[]float64{0, 2}, "want 0 or 1"},
		{[]float64{0, math.NaN()}, "want 0 or 1"},
		{[]float64{1, 1}, "both 1"},
		{[]float64{0, 0}, "all 0"},
		{[]float64{1}, "1 values"},
	} {
		choice, err := l.Choice(c.values)
		if c.want == "" && (err != nil || choice[0] != 1) {
			t.Errorf("%v: got %v, %v, want option 1", c.values, choice, err)
		}
		if c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%v: error %v, want one with %q", c.values, err, c.want)
		}
	}
}

func eachChoice(p *Program, visit func([]int)) {
	choice := make([]int, len(p.Slots))
	for {
		visit(slices.Clone(choice))
		s := len(choice) - 1
		for ; s >= 0; s-- {
			if choice[s]++; choice[s] < len(p.Slots[s].Options) {
				break
			}
			choice[s] = 0
		}
		if s < 0 {
			return
		}
	}
}

// bestSetting is the largest objective over all settings of the columns that are no choice; false if none is feasible.
// A column with a value stands in its own curve rows and in the floor only, and more of it is never worse: it takes the
// most its curve rows give.
func bestSetting(l *Linear, choice []int) (best int64, ok bool) {
	values, others := make([]int64, len(l.Columns)), []int(nil)
	for s, k := range choice {
		values[l.choice[s][k]] = 1
	}
	for c, column := range l.Columns {
		if l.owner[c] == noSlot && column.Binary {
			others = append(others, c)
		}
	}
	for c, column := range l.Columns {
		if !column.Binary {
			values[c] = mostValue(l, c, values)
		}
	}
	for set := range 1 << len(others) {
		for i, c := range others {
			values[c] = int64(set >> i & 1)
		}
		if value := sum(l.Objective, values); meets(l, values) && (!ok || value > best) {
			best, ok = value, true
		}
	}
	return best, ok
}

func mostValue(l *Linear, column int, values []int64) int64 {
	most := l.Columns[column].Upper
	for _, r := range l.Rows {
		i := slices.IndexFunc(r.Entries, func(e Entry) bool { return e.Column == column })
		if i >= 0 && r.Entries[i].Coef > 0 {
			rest := sum(Expression{Entries: r.Entries}, values) - r.Entries[i].Coef*values[column]
			most = min(most, floorDivide(r.Right-rest, r.Entries[i].Coef))
		}
	}
	return most
}

func meets(l *Linear, values []int64) bool {
	for c, v := range values {
		if v < 0 || v > l.Columns[c].Upper {
			return false
		}
	}
	for _, r := range l.Rows {
		left := sum(Expression{Entries: r.Entries}, values)
		if left > r.Right || r.Equal && left != r.Right {
			return false
		}
	}
	return true
}

func sum(e Expression, values []int64) int64 {
	total := e.Constant
	for _, entry := range e.Entries {
		total += entry.Coef * values[entry.Column]
	}
	return total
}

func show(l *Linear) string {
	text := ""
	for _, r := range l.Rows {
		text += r.Name + ":"
		for _, e := range r.Entries {
			text += fmt.Sprintf(" %+d %s", e.Coef, l.Columns[e.Column].Name)
		}
		text += fmt.Sprintf(" <= %d (equal %t)\n", r.Right, r.Equal)
	}
	return text
}
