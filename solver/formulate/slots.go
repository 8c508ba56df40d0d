package formulate

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"firstbolt/model"
	"firstbolt/model/fit"
	"firstbolt/scoring/cost"
	"firstbolt/solver/program"
)

// bikeSlots gives every slot of the bike its options, in the order of ties: fitted, serviced, none, then parts by name.
func (c *Compiled) bikeSlots() error {
	offers := c.offers()
	for i := range c.Shed.Tables.Slots {
		slot := &c.Shed.Tables.Slots[i]
		label := SlotLabel{Role: OnBike, Slot: slot.Name}
		var options []program.Option
		add := func(l OptionLabel) {
			label.Options = append(label.Options, l)
			options = append(options, c.option(l))
		}
		standing := c.standing(slot, add)
		for _, o := range offers[slot.Name] {
			c.offerOptions(o, slot.Name, add)
		}
		if len(options) == 0 {
			return fmt.Errorf("nothing can stand in the slot %q: what is fitted is unsafe or missing and no part on the sheet goes there", slot.Name)
		}
		c.Slots = append(c.Slots, label)
		c.AsItStands = append(c.AsItStands, standing)
		c.Program.Slots = append(c.Program.Slots, program.Slot{Name: slot.Name, Options: options})
	}
	return nil
}

// standing adds the options that need no part and returns the index of the bike as it stands, -1 where that is unsafe.
func (c *Compiled) standing(slot *model.Slot, add func(OptionLabel)) int {
	now, at := c.Now[slot.Name], -1
	empty := now.State == model.Empty
	if empty && !slot.Required || !empty && now.Fitted.Condition != model.Unsafe {
		add(OptionLabel{Thing: now})
		at = 0
	}
	if empty {
		return at
	}
	for _, restored := range c.restorations(now) {
		c.withWork(OptionLabel{Thing: c.Shed.Tables.ServicedThing(c.Bike, slot.Name, restored)}, now, add)
	}
	none := model.Thing{Slot: slot.Name, State: model.Empty, Fitted: now.Fitted, Name: "no " + slot.Name, Facts: model.Facts{}}
	if !slot.Required && len(c.coster.Bill(none, now).Jobs) > 0 {
		c.withWork(OptionLabel{Thing: none}, now, add) // only what jobs.csv tells how to take off is ever taken off
	}
	return at
}

// restorations are the conditions that service jobs could bring a fitted thing back to.
func (c *Compiled) restorations(now model.Thing) []string {
	var list []string
	for i := range c.Shed.Tables.Jobs {
		j := &c.Shed.Tables.Jobs[i]
		if j.Change != model.OnService || j.Restores == "" || !slices.Contains(j.Slots, now.Slot) {
			continue
		}
		holds := true
		for _, w := range j.When {
			holds = holds && now.Facts[w.Fact].Is(w.Constant)
		}
		if holds && !now.Facts["condition"].Is(j.Restores) && !slices.Contains(list, j.Restores) {
			list = append(list, j.Restores)
		}
	}
	return list
}

// offer is a part in one of its places.
type offer struct {
	part  *model.Part
	place model.Place
	kit   int // numbers the offer where the place has several slots
	owned bool
}

// offers are the parts that may be bought, by slot, in byte order of their names; the others are noted.
func (c *Compiled) offers() map[string][]offer {
	bySlot := map[string][]offer{}
	parts := make([]*model.Part, 0, len(c.Shed.Parts))
	for i := range c.Shed.Parts {
		parts = append(parts, &c.Shed.Parts[i])
	}
	slices.SortStableFunc(parts, func(a, b *model.Part) int {
		return cmp.Or(strings.Compare(a.Name, b.Name), cmp.Compare(a.Price, b.Price))
	})
	kit := 0
	for _, p := range parts {
		if p.Wish == model.Never || slices.Contains(c.Options.Ban, p.ID) || p.Donor == c.Bike.Name && p.Donor != "" {
			continue
		}
		for _, place := range p.Places {
			if reason := fit.Unofferable(c.Shed.Tables, p, place); reason != "" {
				c.NotOffered = append(c.NotOffered, NotOffered{Part: p, Place: place, Reason: reason})
				continue
			}
			for _, owned := range copies(p) {
				kit++
				o := offer{part: p, place: place, owned: owned, kit: kit}
				for _, slot := range place {
					bySlot[slot] = append(bySlot[slot], o)
				}
			}
		}
	}
	return bySlot
}

// copies tells whether a part can be had from the shed, by buying, or both.
func copies(p *model.Part) []bool {
	var list []bool
	if p.Owned > 0 {
		list = append(list, true)
	}
	if !p.Available.Known || p.Available.Value > 0 {
		list = append(list, false)
	}
	return list
}

// offerOptions adds one slot's options of an offer.
func (c *Compiled) offerOptions(o offer, slot string, add func(OptionLabel)) {
	th := c.Shed.Tables.BoughtThing(o.part, o.place, slot)
	label := OptionLabel{Thing: th, Place: o.place, Owned: o.owned, kit: o.kit}
	c.withWork(label, c.Now[slot], add)
}

// withWork adds the option once with the rider's own work where it may, and once more with the shop's where that could
// be cheaper: own tools would have to be bought, or the rider does no work.
func (c *Compiled) withWork(l OptionLabel, before model.Thing, add func(OptionLabel)) {
	l.Bill = c.coster.Bill(l.Thing, before)
	if l.Owned {
		l.Bill = l.Bill.Owned()
	}
	self, shop := make([]bool, len(l.Bill.Jobs)), make([]bool, len(l.Bill.Jobs))
	choice, tools := false, false
	for i, j := range l.Bill.Jobs {
		if !j.Self && !j.Shop {
			c.NotOffered = append(c.NotOffered, NotOffered{
				Part: l.Thing.Part, Place: l.Place,
				Reason: j.Refused(),
			})
			return
		}
		self[i], shop[i] = !j.Self, j.Shop
		choice = choice || self[i] != shop[i]
		if j.Self {
			tools = tools || j.BuysTools()
		}
	}
	first, second := self, shop
	if c.Shed.Rider.Work.Or(model.Self) == model.ShopWork {
		first, second = shop, self
		tools = false
	}
	l.ByShop = first
	add(l)
	if choice && tools {
		l.ByShop = second
		add(l)
	}
}

// option writes a label as an option of the program.
func (c *Compiled) option(l OptionLabel) program.Option {
	o := program.Option{Name: optionName(l), Shop: program.NoShop, Amounts: c.amounts(l.Thing)}
	if l.Thing.Leads() {
		if !l.Owned {
			o.Purchases = 1
		}
		o.Cash = int64(l.Bill.Price + l.Bill.Tax)
		o.Listed = int64(l.Bill.Listed)
		if at, ok := c.shops[l.Bill.Shop]; ok && !l.Owned {
			o.Shop = at
		}
	}
	for i, j := range l.Bill.Jobs {
		o.Charges = append(o.Charges, c.jobCharges(j, l.ByShop[i])...)
	}
	slices.Sort(o.Charges)
	o.Charges = slices.Compact(o.Charges)
	return o
}

// jobCharges are the charges of one job: its small parts, and either tools to buy or every price level of the shop's
// work at that place up to the job's own.
func (c *Compiled) jobCharges(j cost.Job, byShop bool) []int {
	var list []int
	for _, sp := range j.SmallParts {
		if sp.Price > 0 {
			list = append(list, c.charge(sp.Name+", "+j.Name+", "+j.Place, sp.Price))
		}
	}
	if !byShop {
		for _, t := range j.Tools {
			if t.Buys() {
				list = append(list, c.charge("tool: "+t.Name, t.Price))
			}
		}
		return list
	}
	key, below := j.Key(), int64(0)
	for _, level := range c.levels[key] {
		if level > int64(j.ShopPrice.Value) {
			break
		}
		list = append(list, c.charge(fmt.Sprintf("shop work: %s up to %d", key, level), model.Money(level-below)))
		below = level
	}
	return list
}

func optionName(l OptionLabel) string {
	name := l.Thing.Name
	switch {
	case l.Thing.State == model.Empty:
		return "none"
	case l.Thing.State == model.AsFitted:
		return name + " (as fitted)"
	case l.Thing.State == model.Serviced:
		name += " (serviced"
	case l.Owned:
		name += " (owned"
	default:
		name += " (bought"
	}
	if slices.Contains(l.ByShop, true) {
		name += ", fitted by a shop"
	}
	return name + ")"
}
