// Package formulate is the only compiler: it turns one bike of a shed into an integer program and keeps the way back
// from its columns to purchases.
//
// Slots of the program are, in this order: the slots of the bike (slots.csv); the missing facts that a fit rule needs,
// with their plausible values as free options, so that a plan rests on one value of each; and the pairs whose worth
// depends on two or three parts together. Options of a bike's slot are what is fitted (unless unsafe), fitted and
// serviced, none (where the slot may be empty), and the parts that may go there; a part whose tools would have to be
// bought stands twice, fitted by the rider and by a shop. Fit rules become relations over classes of equal facts.
// What is fitted together now always agrees.
package formulate

import (
	"fmt"
	"slices"

	"firstbolt/model"
	"firstbolt/scoring"
	"firstbolt/scoring/cost"
	"firstbolt/solver/program"
)

// Compile writes the program of one bike. Errors are faults of tables or sheets that loading did not catch.
func Compile(shed *model.Shed, bike *model.Bike, o Options) (*Compiled, error) {
	c := &Compiled{
		Shed: shed, Bike: bike, Options: o, Program: &program.Program{Name: bike.Name},
		Now: shed.Tables.Standing(bike), charges: map[string]int{}, levels: map[string][]int64{}, shops: map[string]int{}, guesses: map[[2]string]int{},
	}
	for _, step := range []func() error{c.measures, c.shopsAndLevels, c.bikeSlots, c.fitRules, c.pairWorths, c.sets, c.bound, c.wishes} {
		if err := step(); err != nil {
			return nil, fmt.Errorf("%s: %w", bike.Name, err)
		}
	}
	c.tidyGuesses()
	c.eliminateGuesses()
	c.Program.Budget, c.Program.Floor = program.NoBudget, program.NoFloor
	c.Program.Objective = program.Objective{Benefit: 1}
	if err := c.Program.Validate(); err != nil {
		return nil, fmt.Errorf("%s: %w", bike.Name, err)
	}
	return c, nil
}

// measures sets up weights, whole-number curves and what no slot carries.
func (c *Compiled) measures() (err error) {
	t := c.Shed.Tables
	if c.Weights, err = scoring.Weigh(t, c.Shed.Rider); err != nil {
		return err
	}
	if c.Scorer, err = scoring.New(t, c.Shed, c.Bike); err != nil {
		return err
	}
	c.Scales = c.Scorer.Scales()
	for m, scale := range c.Scales {
		c.Program.Measures = append(c.Program.Measures, program.Measure{
			Name: scale.Measure, Weight: int64(c.Weights.Measures[m]), Base: c.Scorer.Base(m),
			Curve: program.Curve{Knots: scale.Knots, Slopes: scale.Slopes},
		})
	}
	return nil
}

// shopsAndLevels lists the shops and, for every shop job, the prices that a place may come to.
func (c *Compiled) shopsAndLevels() (err error) {
	for _, s := range c.Shed.Shops {
		free := program.NeverFree
		if s.FreeOver.Known {
			free = int64(s.FreeOver.Value)
		}
		c.shops[s.Name] = len(c.Program.Shops)
		c.Program.Shops = append(c.Program.Shops, program.Shop{Name: s.Name, Shipping: int64(s.Shipping), FreeOver: free})
	}
	for _, j := range c.Shed.Tables.Jobs {
		if j.ShopPrice.Known && j.ShopPrice.Value > 0 {
			key := cost.Job{Name: j.Name, Place: j.Place, Shared: j.Shared}.Key()
			c.levels[key] = append(c.levels[key], int64(j.ShopPrice.Value))
		}
	}
	for key := range c.levels {
		slices.Sort(c.levels[key])
		c.levels[key] = slices.Compact(c.levels[key])
	}
	c.coster, err = cost.New(c.Shed.Tables, c.Shed)
	return err
}

// charge finds or makes a charge that is paid once.
func (c *Compiled) charge(name string, cash model.Money) int {
	if i, ok := c.charges[name]; ok {
		return i
	}
	i := len(c.Program.Charges)
	c.charges[name] = i
	c.Program.Charges = append(c.Program.Charges, program.Charge{Name: name, Cash: int64(cash)})
	return i
}

// amounts turns a thing's amounts into the program's.
func (c *Compiled) amounts(th model.Thing) []program.Amount {
	var list []program.Amount
	for _, a := range c.Scorer.Amounts(th) {
		if a.Steps != 0 {
			list = append(list, program.Amount{Measure: a.Measure, Steps: a.Steps})
		}
	}
	return list
}

// StandingAmounts are the amounts of the bike as it stands, unsafe things included.
func (c *Compiled) StandingAmounts() []int64 {
	amounts := make([]int64, len(c.Program.Measures))
	for m := range amounts {
		amounts[m] = c.Program.Measures[m].Base
	}
	for s, label := range c.Slots {
		switch k := c.AsItStands[s]; {
		case label.Role == OnBike:
			for _, a := range c.amounts(c.Now[label.Slot]) {
				amounts[a.Measure] += a.Steps
			}
		case k >= 0:
			for _, a := range c.Program.Slots[s].Options[k].Amounts {
				amounts[a.Measure] += a.Steps
			}
		}
	}
	return amounts
}

// BenefitOf is the benefit of amounts.
func (c *Compiled) BenefitOf(amounts []int64) int64 {
	sum := int64(0)
	for m := range c.Program.Measures {
		sum += c.Program.Measures[m].Weight * c.Program.Measures[m].Curve.At(amounts[m])
	}
	return sum
}
