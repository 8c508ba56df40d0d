// Package published holds small programs with answers from outside this project (textbooks, test collections, papers)
// and writes each as a Program, so that engines can be held against them. It takes the JSON files of its testdata
// folder, which keep their sources and say where a figure is from memory or was computed by full enumeration, and gives
// programs, optimal values and frontiers. Tests alone use it.
//
// Left out: core indices of a portfolio under incomplete weights, which are a question about many programs, not one.
package published

import (
	"embed"
	"encoding/json"
	"fmt"
	"path"

	"firstbolt/solver/program"
)

//go:embed testdata
var files embed.FS

// Case is one program and what is known about it.
type Case struct {
	ID      string
	Source  string
	Program *program.Program
	Value   int64      // the optimal objective value
	Front   [][2]int64 // all Pareto-optimal (cash, benefit) from the least cash on; nil where none is known
	UpTo    int64      // the largest cash for which Front is known
	Within  int64      // how far Value and the benefits of Front may be off, because the source rounds
}

// Near tells whether a value is the given one, allowing for what the source rounds.
func (c Case) Near(value, given int64) bool {
	return value >= given-c.Within && value <= given+c.Within
}

// document is a file of testdata. Native is read again by the kind that knows its fields.
type document struct {
	ID       string
	Kind     string
	Source   string
	Optimum  json.Number
	Frontier [][2]float64 `json:"pareto_frontier"`
	Native   json.RawMessage
	Model    model
	True     float64 `json:"true_optimum"`
}

// kinds write a document as a case: the program, and the optimal value and frontier in the program's own scale.
var kinds = map[string]func(*document, *Case) error{
	"knapsack01":                       knapsack,
	"bounded_knapsack":                 knapsack,
	"multiple_choice_knapsack":         multipleChoice,
	"multiple_choice_knapsack_product": product,
	"knapsack_with_logic":              logic,
	"multidimensional_knapsack":        multidimensional,
	"multiple_knapsack":                multipleKnapsack,
	"set_union_knapsack":               setUnion,
	"fixed_charge":                     fixedCharge,
	"additive_value_model":             scores,
	"choose_one_per_slot_with_concave_value_and_fixed_charges": upgrades,
}

// Cases reads every file whose kind is one program, in the order of their names. Files of other kinds have functions of
// their own (Conflicts, Efficient).
func Cases() ([]Case, error) {
	entries, err := files.ReadDir("testdata")
	if err != nil {
		return nil, err
	}
	var cases []Case
	for _, entry := range entries {
		if path.Ext(entry.Name()) != ".json" {
			continue
		}
		d, err := read(entry.Name())
		if err != nil {
			return nil, err
		}
		write, isProgram := kinds[d.Kind]
		if !isProgram {
			continue
		}
		c := Case{ID: d.ID, Source: d.Source}
		if err := write(d, &c); err != nil {
			return nil, fmt.Errorf("%s: %w", entry.Name(), err)
		}
		cases = append(cases, c)
	}
	return cases, nil
}

func read(name string) (*document, error) {
	text, err := files.ReadFile("testdata/" + name)
	if err != nil {
		return nil, err
	}
	var d document
	if err := json.Unmarshal(text, &d); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return &d, nil
}

// native reads the data of a kind and the optimum where it is whole.
func (d *document) native(into any, c *Case) error {
	c.Value, _ = d.Optimum.Int64()
	for _, point := range d.Frontier {
		c.Front = append(c.Front, [2]int64{int64(point[0]), int64(point[1])})
	}
	return json.Unmarshal(d.Native, into)
}

// worth is the one measure of most cases: the benefit is the amount itself.
func worth() []program.Measure {
	return []program.Measure{{Name: "worth", Weight: 1, Curve: program.Curve{Knots: []int64{0, 1}, Slopes: []int64{1}}}}
}

// option is an option that costs and is worth so much.
func option(name string, cash, worth int64) program.Option {
	o := program.Option{Name: name, Cash: cash, Shop: program.NoShop, Purchases: 1}
	if worth != 0 {
		o.Amounts = []program.Amount{{Measure: 0, Steps: worth}}
	}
	return o
}

func none() program.Option { return program.Option{Name: "none", Shop: program.NoShop} }

func most(name string, slots ...program.Slot) *program.Program {
	return &program.Program{
		Name: name, Slots: slots, Measures: worth(), Budget: program.NoBudget, Floor: program.NoFloor,
		Objective: program.Objective{Benefit: 1},
	}
}
