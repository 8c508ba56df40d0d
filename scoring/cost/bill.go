package cost

import (
	"fmt"

	"firstbolt/model"
)

// Bill is what one change in one slot costs by itself. The zero value costs nothing.
type Bill struct {
	Listed   model.Money // as listed in the shop; counts towards its free shipping
	Price    model.Money // what the part costs before tax; 0 on all but the first slot of a set
	Tax      model.Money // on top of Price
	Shop     string      // "" when the part comes from none that is named
	Part     string      // name, for the receipt
	Origin   model.Origin
	Jobs     []Job // must be done
	Optional []Job // may be done, and are not charged: shortening a hose
}

// Job is bench work as it stands for this rider.
type Job struct {
	Name       string
	Place      string
	Shared     string // "" means that it is shared under its own name
	Minutes    int
	Skill      int // 1..3
	Tools      []ToolNeed
	SmallParts []model.SmallPart
	ShopPrice  model.Stated[model.Money] // unknown: ask the shop first
	Self, Shop bool                      // who may do it; neither means that the change cannot be planned
	PerSeason  model.Money               // what it brings each season from then on, outside the budget
	Guessed    []string                  // facts of its condition that are not known, so that it was taken to be needed
	Origin     model.Origin
	Source     string
}

// Key names what is done once: jobs with the same key are paid once.
func (j Job) Key() string {
	if j.Shared == "" {
		return j.Place + "/" + j.Name
	}
	return j.Place + "/" + j.Shared
}

// Refused says why nobody may do the job; "" when somebody may.
func (j Job) Refused() string {
	if j.Self || j.Shop {
		return ""
	}
	return fmt.Sprintf("%s needs skill %d of 3 and no shop price is known: ask a shop, and write its price into jobs.csv", j.Name, j.Skill)
}

// ToolNeed is a tool that a job needs and how this rider comes by it.
type ToolNeed struct {
	Name    string
	Price   model.Money // when it has to be bought
	Having  model.Having
	Assumed bool // nobody said whether the rider has it or what it costs
	Origin  model.Origin
}

// Buys tells whether the tool has to be bought.
func (n ToolNeed) Buys() bool { return n.Having == model.Buy }

// BuysTools tells whether doing the job oneself needs a tool that has to be bought.
func (j Job) BuysTools() bool {
	for _, n := range j.Tools {
		if n.Buys() {
			return true
		}
	}
	return false
}

// LineKind is the kind of a line on a receipt.
type LineKind string

// The kinds of lines. Shipping stands on no bill: it is a shop's, once.
const (
	PartLine      LineKind = "part"
	TaxLine       LineKind = "tax"
	ToolLine      LineKind = "tool"
	WorkLine      LineKind = "work"
	SmallPartLine LineKind = "small part"
	ShippingLine  LineKind = "shipping"
)

// Line is one line of a receipt with the cell it comes from.
type Line struct {
	Kind   LineKind
	Name   string
	Cash   model.Money
	Origin model.Origin
}

// Lines are the part's own lines; lines of nothing are left out, but a part that is free is not.
func (b Bill) Lines() []Line {
	var lines []Line
	if b.Part != "" {
		lines = append(lines, Line{Kind: PartLine, Name: b.Part, Cash: b.Price, Origin: b.Origin})
	}
	if b.Tax != 0 {
		lines = append(lines, Line{Kind: TaxLine, Name: "tax on " + b.Part, Cash: b.Tax, Origin: b.Origin})
	}
	return lines
}

// Lines are a job's lines when the shop does it or the rider does. What the rider has, and their own work, are no lines.
func (j Job) Lines(byShop bool) []Line {
	var lines []Line
	if byShop {
		lines = append(lines, Line{Kind: WorkLine, Name: j.Name, Cash: j.ShopPrice.Value, Origin: j.ShopPrice.Origin})
	}
	for _, n := range j.Tools {
		if !byShop && n.Buys() {
			lines = append(lines, Line{Kind: ToolLine, Name: n.Name, Cash: n.Price, Origin: n.Origin})
		}
	}
	for _, p := range j.SmallParts {
		if p.Price != 0 {
			lines = append(lines, Line{Kind: SmallPartLine, Name: p.Name, Cash: p.Price, Origin: j.Origin})
		}
	}
	return lines
}

// Owned is the bill of a copy that lies in the shed already: the part is free, the work is not.
func (b Bill) Owned() Bill {
	b.Listed, b.Price, b.Tax, b.Shop = 0, 0, 0, ""
	return b
}
