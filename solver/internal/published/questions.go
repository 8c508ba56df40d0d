package published

import (
	"encoding/json"
	"fmt"
	"slices"

	"firstbolt/solver/program"
)

type offices struct {
	Attributes []string
	Weights    []int64 `json:"weights_percent"`
	Values     map[string][]int64
	Cost       map[string]int64 `json:"annual_cost"`
	Expected   struct {
		Aggregate map[string]float64
		Frontier  []string `json:"strict_frontier"`
	}
}

func readOffices(id string) (o offices, err error) { return o, readInto(id, &o) }

func readInto(id string, into any) error {
	text, err := files.ReadFile("testdata/" + id + ".json")
	if err != nil {
		return err
	}
	return json.Unmarshal(text, into)
}

// Conflict is a set of wishes; it is feasible or not. A minimal conflict becomes feasible when any one wish is dropped.
type Conflict struct {
	Case     string
	Wishes   []string
	Program  *program.Program
	Feasible bool
}

// Conflicts gives each published minimal conflict as an infeasible program and what is left of it without one wish, and
// each published maximal relaxation, as feasible ones.
func Conflicts() ([]Conflict, error) {
	var list []Conflict
	for _, id := range []string{"conflict_car5", "conflict_car_quickxplain"} {
		var d struct {
			Native struct {
				Cost   map[string]int64 `json:"option_cost"`
				Budget int64
				Limit  int64
			}
			Minimal     [][]string `json:"minimal_conflicts"`
			Relaxations [][]string `json:"maximal_relaxations"`
		}
		if err := readInto(id, &d); err != nil {
			return nil, err
		}
		budget := d.Native.Budget + d.Native.Limit
		add := func(wishes []string, feasible bool) {
			list = append(list, Conflict{id, wishes, wished(d.Native.Cost, budget, wishes), feasible})
		}
		for _, conflict := range d.Minimal {
			add(conflict, false)
			for i := range conflict {
				add(slices.Delete(slices.Clone(conflict), i, i+1), true)
			}
		}
		for _, relaxation := range d.Relaxations {
			add(relaxation, true)
		}
	}
	return list, nil
}

// wished is the program of the car options: a wish leaves its slot only the chosen option. In the first paper the
// wishes are c1 (the budget) to c5, and a convertible excludes a roof rack; in the second the budget always holds.
func wished(cost map[string]int64, budget int64, wishes []string) *program.Program {
	wishOf := map[string]string{"roof_rack": "c2", "convertible": "c3", "cd_player": "c4", "leather_seats": "c5"}
	p := most(fmt.Sprint(wishes))
	if _, first := cost["roof_rack"]; !first || slices.Contains(wishes, "c1") {
		p.Budget = budget
	}
	names := sorted(cost)
	for _, name := range names {
		slot := program.Slot{Name: name, Options: []program.Option{none(), option("chosen", cost[name], 0)}}
		if slices.Contains(wishes, name) || slices.Contains(wishes, wishOf[name]) {
			slot.Options = slot.Options[1:]
		}
		p.Slots = append(p.Slots, slot)
	}
	rack, open := slices.Index(names, "roof_rack"), slices.Index(names, "convertible")
	if rack < 0 {
		return p
	}
	chosen := func(slot int) []int {
		var classes []int
		for _, o := range p.Slots[slot].Options {
			classes = append(classes, map[bool]int{true: 1}[o.Name == "chosen"])
		}
		return classes
	}
	p.Relations = []program.Relation{{
		Name: "convertible excludes roof rack", Slots: []int{rack, open}, Class: [][]int{chosen(rack), chosen(open)},
		Count: []int{2, 2}, Allowed: []bool{true, true, true, false},
	}}
	return p
}

// Efficient is a program of three objectives, weighed, with the best value that the published list of all efficient
// points allows: with weights above 0 one of them is the optimum.
func Efficient(weights [3]int64) (Case, error) {
	var d struct {
		ID, Source string
		Native     struct {
			C, A [][]int64
			B    []int64
		}
		Efficient []struct{ X, Z []int64 }
	}
	if err := readInto("molp_bitran5", &d); err != nil {
		return Case{}, err
	}
	p := most(d.ID)
	p.Measures = nil
	for k := range weights {
		p.Measures = append(p.Measures, program.Measure{Name: fmt.Sprint("objective ", k+1), Weight: weights[k], Curve: worth()[0].Curve})
	}
	for j := range d.Native.C[0] {
		chosen := option("1", 0, 0)
		for k := range weights {
			chosen.Amounts = append(chosen.Amounts, program.Amount{Measure: k, Steps: d.Native.C[k][j]})
		}
		p.Slots = append(p.Slots, program.Slot{Name: fmt.Sprint("x", j+1), Options: []program.Option{none(), chosen}})
	}
	for i, b := range d.Native.B {
		row := program.Row{Name: fmt.Sprint("row ", i+1), AtMost: b}
		for j, coef := range d.Native.A[i] {
			row.Terms = append(row.Terms, program.Term{Slot: j, Option: 1, Coef: coef})
		}
		p.Rows = append(p.Rows, row)
	}
	c := Case{ID: d.ID, Source: d.Source, Program: p}
	for i, point := range d.Efficient {
		value := weights[0]*point.Z[0] + weights[1]*point.Z[1] + weights[2]*point.Z[2]
		if i == 0 || value > c.Value {
			c.Value = value
		}
	}
	return c, nil
}
