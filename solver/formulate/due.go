package formulate

import "firstbolt/model"

// DueAnyway is the part of a purchase's price that would have been spent within the horizon whatever is upgraded: for
// every slot whose fitted thing is due, the cheapest part on the sheets that fills that slot alone, but never more than
// the purchase itself.
func (c *Compiled) DueAnyway(p Purchase) model.Money {
	if p.Part == nil || p.Owned {
		return 0
	}
	due := model.Money(0)
	for _, ch := range p.Changes {
		if ch.Before.Fitted == nil || ch.Before.Fitted.Condition != model.Due {
			continue
		}
		least, found := model.Money(0), false
		for _, l := range c.Slots[ch.Slot].Options {
			if l.Thing.State != model.Bought || len(l.Place) > 1 || l.Owned {
				continue
			}
			if price := l.Bill.Price + l.Bill.Tax; !found || price < least {
				least, found = price, true
			}
		}
		due += least
	}
	return min(due, p.Part.Price)
}
