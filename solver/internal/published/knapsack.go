package published

import (
	"fmt"
	"math"
	"slices"

	"firstbolt/solver/program"
)

// knapsack: a slot for every item with as many pieces of it as there are; the weight is the cash, the capacity the
// budget.
func knapsack(d *document, c *Case) error {
	var n struct {
		Profits, Weights, Pieces []int64
		Capacity                 int64
	}
	if err := d.native(&n, c); err != nil {
		return err
	}
	c.Program = most(d.ID)
	for i := range n.Profits {
		pieces := int64(1)
		if n.Pieces != nil {
			pieces = n.Pieces[i]
		}
		slot := program.Slot{Name: fmt.Sprint("item ", i+1), Options: []program.Option{none()}}
		for k := int64(1); k <= pieces; k++ {
			slot.Options = append(slot.Options, option(fmt.Sprint(k), k*n.Weights[i], k*n.Profits[i]))
		}
		c.Program.Slots = append(c.Program.Slots, slot)
	}
	c.Program.Budget, c.UpTo = n.Capacity, n.Capacity
	return nil
}

// multipleChoice: the classes are the slots. Three files print their data in three ways.
func multipleChoice(d *document, c *Case) error {
	var n struct {
		Returns map[string]string  // "7d+2" for d units, 0 for none
		Table   map[string][]int64 `json:"return_table"`
		Units   int64

		Strategies map[string][]struct {
			Cost         int64
			Profit, Risk float64
			Share        float64 `json:"market_share"`
		}
		Budget int64
	}
	if err := d.native(&n, c); err != nil {
		return err
	}
	c.Program, c.UpTo = most(d.ID), math.MaxInt64
	switch {
	case n.Strategies != nil:
		return furniture(d, c, n.Budget, func(add func(region, option int, cost int64, worth float64)) {
			for r, region := range []string{"north", "west", "east", "south"} {
				for k, s := range n.Strategies[region] {
					add(r, k, s.Cost, 30*s.Profit+100*s.Share+50*s.Risk)
				}
			}
		})
	case n.Returns != nil:
		n.Table = map[string][]int64{}
		for name, formula := range n.Returns {
			var slope, fixed int64
			if _, err := fmt.Sscanf(formula, "%dd+%d", &slope, &fixed); err != nil {
				return fmt.Errorf("return %q: %w", formula, err)
			}
			n.Table[name] = []int64{0}
			for unit := int64(1); unit <= n.Units; unit++ {
				n.Table[name] = append(n.Table[name], slope*unit+fixed)
			}
		}
	}
	for _, name := range sorted(n.Table) {
		slot := program.Slot{Name: name}
		for units, worth := range n.Table[name] {
			slot.Options = append(slot.Options, option(fmt.Sprint(units), int64(units), worth))
		}
		c.Program.Slots = append(c.Program.Slots, slot)
	}
	c.Program.Budget = n.Units
	return nil
}

// furniture has values with two decimals and a frontier on the book's scale from 0 (cheapest package) to 100 (best one):
// both are brought to hundredths of the model's value. The book's scale has four decimals, so its points are rounded.
func furniture(d *document, c *Case, budget int64, each func(add func(region, option int, cost int64, worth float64))) error {
	worths := [4][]int64{}
	each(func(region, k int, cost int64, worth float64) {
		if k == 0 {
			c.Program.Slots = append(c.Program.Slots, program.Slot{Name: fmt.Sprint("region ", region)})
		}
		hundredths := int64(math.Round(100 * worth))
		worths[region] = append(worths[region], hundredths)
		slot := &c.Program.Slots[region]
		slot.Options = append(slot.Options, option(fmt.Sprint("strategy ", k+1), cost, hundredths))
	})
	c.Program.Budget = budget
	optimum, err := d.Optimum.Float64()
	if err != nil {
		return err
	}
	c.Value = int64(math.Round(100 * optimum))
	// The cheapest package is the first strategy everywhere, the best one the strategy of most worth everywhere.
	least, full := int64(0), int64(0)
	for _, w := range worths {
		least, full = least+w[0], full+slices.Max(w)
	}
	c.Within = 1
	for i, point := range d.Frontier {
		c.Front[i][1] = least + int64(math.Round(point[1]/100*float64(full-least)))
	}
	return nil
}

// multidimensional: every resource is a row. Profits with one decimal are counted in tenths.
func multidimensional(d *document, c *Case) error {
	var n struct {
		Profits    []float64
		Rows       [][]float64
		Capacities []float64
	}
	if err := d.native(&n, c); err != nil {
		return err
	}
	const tenths = 10
	c.Program = most(d.ID)
	for i, profit := range n.Profits {
		c.Program.Slots = append(c.Program.Slots, program.Slot{
			Name: fmt.Sprint("project ", i+1), Options: []program.Option{none(), option("chosen", 0, int64(math.Round(tenths*profit)))},
		})
	}
	for r, coefs := range n.Rows {
		row := program.Row{Name: fmt.Sprint("resource ", r+1), AtMost: int64(math.Round(tenths * n.Capacities[r]))}
		for i, coef := range coefs {
			row.Terms = append(row.Terms, program.Term{Slot: i, Option: 1, Coef: int64(math.Round(tenths * coef))})
		}
		c.Program.Rows = append(c.Program.Rows, row)
	}
	optimum, err := d.Optimum.Float64()
	c.Value = int64(math.Round(tenths * optimum))
	return err
}

// multipleKnapsack: an item is left out or goes into one of the sacks, whose capacities are rows.
func multipleKnapsack(d *document, c *Case) error {
	var n struct{ Profits, Weights, Capacities []int64 }
	if err := d.native(&n, c); err != nil {
		return err
	}
	c.Program = most(d.ID)
	for sack, capacity := range n.Capacities {
		c.Program.Rows = append(c.Program.Rows, program.Row{Name: fmt.Sprint("sack ", sack+1), AtMost: capacity})
	}
	for i, profit := range n.Profits {
		slot := program.Slot{Name: fmt.Sprint("item ", i+1), Options: []program.Option{none()}}
		for sack := range n.Capacities {
			slot.Options = append(slot.Options, option(fmt.Sprint("sack ", sack+1), 0, profit))
			row := &c.Program.Rows[sack]
			row.Terms = append(row.Terms, program.Term{Slot: i, Option: sack + 1, Coef: n.Weights[i]})
		}
		c.Program.Slots = append(c.Program.Slots, slot)
	}
	return nil
}
