package solver

import (
	"firstbolt/solver/formulate"
	"firstbolt/solver/receipt"
)

// Lines are what a step adds to the receipt of the steps before it; with their sign they add up to the step's Cost. A
// charge that an earlier step already brought is not among them, and shipping that falls away stands below zero.
func (p *Plan) Lines(step int) ([]receipt.Line, error) {
	before, err := p.receiptOf(step)
	if err != nil {
		return nil, err
	}
	now, err := p.receiptOf(step + 1)
	if err != nil {
		return nil, err
	}
	return difference(before.Lines, now.Lines), nil
}

// receiptOf is the receipt of the first so many steps, without the bike itself.
func (p *Plan) receiptOf(steps int) (receipt.Receipt, error) {
	var changes []formulate.Change
	for _, s := range p.Steps[:steps] {
		for _, b := range s.Purchases {
			changes = append(changes, b.Changes...)
		}
	}
	return receipt.Add(p.Program.Shed, p.Bike, p.Bike, itemsOf(changes))
}

// difference takes one receipt's lines from another's: lines that stand in both are left out once each, and what only
// the first one has comes back with the other sign.
func difference(before, now []receipt.Line) []receipt.Line {
	open := map[receipt.Line]int{}
	for _, l := range before {
		open[l]++
	}
	var added []receipt.Line
	for _, l := range now {
		if open[l] > 0 {
			open[l]--
			continue
		}
		added = append(added, l)
	}
	for _, l := range before {
		if open[l] > 0 {
			open[l]--
			l.Cash = -l.Cash
			added = append(added, l)
		}
	}
	return added
}

// itemsOf writes changes down for the receipt.
func itemsOf(changes []formulate.Change) []receipt.Item {
	var items []receipt.Item
	for _, ch := range changes {
		it := receipt.Item{Thing: ch.Label.Thing, Before: ch.Before, Place: ch.Label.Place, Owned: ch.Label.Owned}
		for i, j := range ch.Label.Bill.Jobs {
			it.Jobs = append(it.Jobs, receipt.JobDone{Name: j.Name, ByShop: ch.Label.ByShop[i]})
		}
		items = append(items, it)
	}
	return items
}
