package published

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"firstbolt/solver/program"
)

func sorted[V any](m map[string]V) []string { return slices.Sorted(maps.Keys(m)) }

// setUnion: an element is a charge, paid once by all items that need it.
func setUnion(d *document, c *Case) error {
	var n struct {
		Element map[string]int64 `json:"element_weight"`
		Items   map[string]struct {
			Profit int64
			Needs  []string
		}
		Capacity int64
	}
	if err := d.native(&n, c); err != nil {
		return err
	}
	c.Program, c.UpTo = most(d.ID), math.MaxInt64
	elements := sorted(n.Element)
	for _, e := range elements {
		c.Program.Charges = append(c.Program.Charges, program.Charge{Name: e, Cash: n.Element[e]})
	}
	for _, name := range sorted(n.Items) {
		item := option("chosen", 0, n.Items[name].Profit)
		for _, e := range n.Items[name].Needs {
			item.Charges = append(item.Charges, slices.Index(elements, e))
		}
		c.Program.Slots = append(c.Program.Slots, program.Slot{Name: name, Options: []program.Option{none(), item}})
	}
	c.Program.Budget = n.Capacity
	return nil
}

// fixedCharge: what is paid for opening is a charge, what is paid or earned by the unit stands on the options. Three
// files print their data in three ways.
func fixedCharge(d *document, c *Case) error {
	switch d.ID {
	case "fc_clothes":
		return clothes(d, c)
	case "fc_telephone":
		return telephone(d, c)
	case "fc_two_sites":
		return twoSites(d, c)
	}
	return fmt.Errorf("no way to write %s", d.ID)
}

// clothes: a slot for every product with the number made, at most what the cloth or labour gives; profit less rent.
func clothes(d *document, c *Case) error {
	var n struct {
		Profit   []int64 `json:"unit_profit"`
		Fixed    []int64
		Labor    []int64
		LaborCap int64 `json:"labor_cap"`
		Cloth    []int64
		ClothCap int64 `json:"cloth_cap"`
	}
	if err := d.native(&n, c); err != nil {
		return err
	}
	c.Program = most(d.ID)
	c.Program.Objective = program.Objective{Benefit: 1, Cash: 1}
	labour, cloth := program.Row{Name: "labour", AtMost: n.LaborCap}, program.Row{Name: "cloth", AtMost: n.ClothCap}
	for i, profit := range n.Profit {
		c.Program.Charges = append(c.Program.Charges, program.Charge{Name: fmt.Sprint("machine ", i+1), Cash: n.Fixed[i]})
		slot := program.Slot{Name: fmt.Sprint("product ", i+1), Options: []program.Option{none()}}
		for k := int64(1); k <= min(n.LaborCap/n.Labor[i], n.ClothCap/n.Cloth[i]); k++ {
			made := option(fmt.Sprint(k), 0, k*profit)
			made.Charges = []int{i}
			slot.Options = append(slot.Options, made)
			labour.Terms = append(labour.Terms, program.Term{Slot: i, Option: int(k), Coef: k * n.Labor[i]})
			cloth.Terms = append(cloth.Terms, program.Term{Slot: i, Option: int(k), Coef: k * n.Cloth[i]})
		}
		c.Program.Slots = append(c.Program.Slots, slot)
	}
	c.Program.Rows = []program.Row{labour, cloth}
	return nil
}

// telephone: the least cash, in hundredths, for 200 minutes from three companies. Minutes are taken in tens: all of one
// company is best, since every further minute costs the same, so nothing is lost.
func telephone(d *document, c *Case) error {
	var n struct {
		Flat []int64
		Unit []float64 `json:"per_unit"`
		Need int64
	}
	if err := d.native(&n, c); err != nil {
		return err
	}
	const hundredths, step = 100, 10
	c.Program = most(d.ID)
	c.Program.Objective = program.Objective{Cash: 1}
	need := program.Row{Name: "need", AtMost: -n.Need}
	for i, flat := range n.Flat {
		c.Program.Charges = append(c.Program.Charges, program.Charge{Name: fmt.Sprint("company ", i+1), Cash: hundredths * flat})
		slot := program.Slot{Name: fmt.Sprint("minutes ", i+1), Options: []program.Option{none()}}
		for k := int64(step); k <= n.Need; k += step {
			minutes := option(fmt.Sprint(k), k*int64(math.Round(hundredths*n.Unit[i])), 0)
			minutes.Charges = []int{i}
			slot.Options = append(slot.Options, minutes)
			need.Terms = append(need.Terms, program.Term{Slot: i, Option: int(k / step), Coef: -k})
		}
		c.Program.Slots = append(c.Program.Slots, slot)
	}
	c.Program.Rows = []program.Row{need}
	c.Value *= -hundredths
	return nil
}

// twoSites: every demand is served from one site; opening a site is a charge, its capacity a row. Shares of a demand
// bring nothing here: the optimum of the relaxed model serves both whole.
func twoSites(d *document, c *Case) error {
	var n struct {
		C    [][]int64
		Open []int64
		Use  [][]int64
		Cap  []int64
	}
	if err := d.native(&n, c); err != nil {
		return err
	}
	c.Program = most(d.ID)
	c.Program.Objective = program.Objective{Cash: 1}
	for site, open := range n.Open {
		c.Program.Charges = append(c.Program.Charges, program.Charge{Name: fmt.Sprint("site ", site+1), Cash: open})
		c.Program.Rows = append(c.Program.Rows, program.Row{Name: fmt.Sprint("capacity ", site+1), AtMost: n.Cap[site]})
	}
	for demand := range n.C[0] {
		slot := program.Slot{Name: fmt.Sprint("demand ", demand+1)}
		for site := range n.Open {
			from := option(fmt.Sprint("site ", site+1), n.C[site][demand], 0)
			from.Charges = []int{site}
			slot.Options = append(slot.Options, from)
			row := &c.Program.Rows[site]
			row.Terms = append(row.Terms, program.Term{Slot: demand, Option: site, Coef: n.Use[site][demand]})
		}
		c.Program.Slots = append(c.Program.Slots, slot)
	}
	c.Value *= -1
	return nil
}

// upgradeData is the file of upgrades: slots of options, forbidden pairs, tools, shops and two bent curves.
type upgradeData struct {
	Slots map[string][]struct {
		Cost, K1, K2 int64
		Tool, Shop   string
	}
	Forbidden []struct {
		A, B    string
		AOption int `json:"a_option"`
		BOption int `json:"b_option"`
	} `json:"forbidden_pairs"`
	Tool   map[string]int64 `json:"tool_cost"`
	Ship   map[string]int64 `json:"shipping_per_shop"`
	Curves map[string]struct {
		Knots  []int64 `json:"break_points"`
		Slopes []int64
	} `json:"value_functions"`
}

// upgrades is the whole shape of our own question.
func upgrades(d *document, c *Case) error {
	var n upgradeData
	if err := d.native(&n, c); err != nil {
		return err
	}
	p := most(d.ID)
	p.Measures = nil
	for _, k := range sorted(n.Curves) {
		// The last slope goes on without end; the curve's last knot may stand anywhere to the right.
		knots := append(n.Curves[k].Knots, n.Curves[k].Knots[len(n.Curves[k].Knots)-1]+1)
		p.Measures = append(p.Measures, program.Measure{Name: k, Weight: 1, Curve: program.Curve{Knots: knots, Slopes: n.Curves[k].Slopes}})
	}
	tools, shops := sorted(n.Tool), sorted(n.Ship)
	for _, t := range tools {
		p.Charges = append(p.Charges, program.Charge{Name: t, Cash: n.Tool[t]})
	}
	for _, s := range shops {
		p.Shops = append(p.Shops, program.Shop{Name: s, Shipping: n.Ship[s], FreeOver: program.NeverFree})
	}
	for _, s := range sorted(n.Slots) {
		slot := program.Slot{Name: s}
		for k, o := range n.Slots[s] {
			part := program.Option{Name: fmt.Sprint(k), Cash: o.Cost, Listed: o.Cost, Shop: slices.Index(shops, o.Shop), Purchases: min(k, 1)}
			part.Amounts = []program.Amount{{Measure: 0, Steps: o.K1}, {Measure: 1, Steps: o.K2}}
			if o.Tool != "" {
				part.Charges = []int{slices.Index(tools, o.Tool)}
			}
			slot.Options = append(slot.Options, part)
		}
		p.Slots = append(p.Slots, slot)
	}
	n.forbid(p)
	c.Program, c.UpTo = p, math.MaxInt64
	c.Value = c.Front[len(c.Front)-1][1]
	return nil
}

// forbid makes each forbidden pair a relation.
func (n *upgradeData) forbid(p *program.Program) {
	slots := sorted(n.Slots)
	for _, f := range n.Forbidden {
		a, b := slices.Index(slots, f.A), slices.Index(slots, f.B)
		r := program.Relation{Name: f.A + " " + f.B, Slots: []int{a, b}, Count: []int{2, 2}, Allowed: []bool{true, true, true, false}}
		r.Class = [][]int{make([]int, len(p.Slots[a].Options)), make([]int, len(p.Slots[b].Options))}
		r.Class[0][f.AOption], r.Class[1][f.BOption] = 1, 1
		p.Relations = append(p.Relations, r)
	}
}
