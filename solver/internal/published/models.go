package published

import (
	"fmt"
	"math"
	"slices"

	"firstbolt/solver/program"
)

// model is a 0/1 model as printed: rows are "<=".
type model struct {
	Variables []struct {
		Name string
		Obj  int64
	}
	Constraints []struct {
		Name  string
		Terms map[string]int64
		Op    string
		RHS   int64
	}
}

// logic: the first row is the budget, a row over two projects becomes a relation, any other one stays a row.
func logic(d *document, c *Case) error {
	if err := d.native(&struct{}{}, c); err != nil {
		return err
	}
	c.Program = most(d.ID)
	index := map[string]int{}
	budget := d.Model.Constraints[0]
	for i, v := range d.Model.Variables {
		index[v.Name] = i
		c.Program.Slots = append(c.Program.Slots, program.Slot{
			Name: v.Name, Options: []program.Option{none(), option("chosen", budget.Terms[v.Name], v.Obj)},
		})
	}
	c.Program.Budget = budget.RHS
	for _, con := range d.Model.Constraints[1:] {
		if con.Op != "<=" {
			return fmt.Errorf("row %s is %q, want <=", con.Name, con.Op)
		}
		names := sorted(con.Terms)
		if len(names) == 2 {
			a, b := con.Terms[names[0]], con.Terms[names[1]]
			c.Program.Relations = append(c.Program.Relations, program.Relation{
				Name: con.Name, Slots: []int{index[names[0]], index[names[1]]}, Class: [][]int{{0, 1}, {0, 1}}, Count: []int{2, 2},
				Allowed: []bool{0 <= con.RHS, b <= con.RHS, a <= con.RHS, a+b <= con.RHS},
			})
			continue
		}
		row := program.Row{Name: con.Name, AtMost: con.RHS}
		for _, name := range names {
			row.Terms = append(row.Terms, program.Term{Slot: index[name], Option: 1, Coef: con.Terms[name]})
		}
		c.Program.Rows = append(c.Program.Rows, row)
	}
	return nil
}

// product: the published value is a product of probabilities; the benefit is the sum of their logarithms in millionths.
// The optimal benefit is that of the published product, to within the rounding of three logarithms.
func product(d *document, c *Case) error {
	var n struct {
		Parts map[string][]struct {
			Cost        int64
			Reliability float64
		} `json:"reliability_and_cost"`
		Budget  int64
		Failure map[string][]float64
		Units   int64
	}
	if err := d.native(&n, c); err != nil {
		return err
	}
	c.Program = most(d.ID)
	c.Value, c.Within = micro(d.True), 3
	for _, name := range sorted(n.Parts) {
		slot := program.Slot{Name: name}
		for k, o := range n.Parts[name] {
			slot.Options = append(slot.Options, option(fmt.Sprint(k+1), o.Cost, micro(o.Reliability)))
		}
		c.Program.Slots = append(c.Program.Slots, slot)
	}
	c.Program.Budget = n.Budget
	if n.Failure == nil {
		return nil
	}
	c.Value = -c.Value
	for _, name := range sorted(n.Failure) {
		slot := program.Slot{Name: name}
		for units, failure := range n.Failure[name] {
			slot.Options = append(slot.Options, option(fmt.Sprint(units), int64(units), -micro(failure)))
		}
		c.Program.Slots = append(c.Program.Slots, slot)
	}
	c.Program.Budget = n.Units
	return nil
}

func micro(probability float64) int64 { return int64(math.Round(1e6 * math.Log(probability))) }

// scores: one slot whose options are the offices, one measure for each attribute; the frontier is the book's list of
// offices that none beats in both cost and aggregate.
func scores(d *document, c *Case) error {
	o, err := readOffices(d.ID)
	if err != nil {
		return err
	}
	p := most(d.ID)
	p.Measures = nil
	for i, attribute := range o.Attributes {
		p.Measures = append(p.Measures, program.Measure{Name: attribute, Weight: o.Weights[i], Curve: worth()[0].Curve})
	}
	slot := program.Slot{Name: "office"}
	for _, name := range sorted(o.Values) {
		office := program.Option{Name: name, Cash: o.Cost[name], Shop: program.NoShop}
		sum := int64(0)
		for i, value := range o.Values[name] {
			office.Amounts = append(office.Amounts, program.Amount{Measure: i, Steps: value})
			sum += o.Weights[i] * value
		}
		if math.Abs(float64(sum)/100-o.Expected.Aggregate[name]) > 0.051 {
			return fmt.Errorf("office %s has the aggregate %v, the book prints %v", name, float64(sum)/100, o.Expected.Aggregate[name])
		}
		if slices.Contains(o.Expected.Frontier, name) {
			c.Front, c.Value = append(c.Front, [2]int64{o.Cost[name], sum}), max(c.Value, sum)
		}
		slot.Options = append(slot.Options, office)
	}
	slices.SortFunc(c.Front, func(a, b [2]int64) int { return int(a[0] - b[0]) })
	p.Slots = []program.Slot{slot}
	c.Program, c.UpTo = p, math.MaxInt64
	return nil
}
