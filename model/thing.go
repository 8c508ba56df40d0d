package model

// FittedThing is what a bike has in the slot now, as a Thing: Empty when nothing stands there, or when nothing is known
// of a slot that may be empty. A required slot of which nothing is known holds something with unknown facts.
// Facts of the whole bike that facts.csv gives to the slot are among its facts; the slot's own facts win.
func (t *Tables) FittedThing(b *Bike, slot string) Thing {
	f := b.InSlot(slot)
	if s := t.SlotNamed(slot); f == nil && s != nil && s.Required {
		f = &Fitted{Slot: slot, Origin: b.Origin}
	}
	if f == nil || f.None {
		return Thing{Slot: slot, State: Empty, Fitted: f, Facts: Facts{}}
	}
	facts := t.FactsOf(slot, b.Facts)
	for name, v := range t.FactsOf(slot, f.Facts) {
		facts[name] = v
	}
	t.presume(slot, facts)
	facts["condition"] = ChoiceValue(f.Origin, f.Condition.String())
	name := f.Part
	if name == "" {
		name = "fitted " + slot
	}
	return Thing{Slot: slot, State: AsFitted, Name: name, Fitted: f, Facts: facts, Grams: f.Grams, Ratings: f.Ratings, Origin: f.Origin}
}

// RiderSlot is the place on a bike that its rider takes. Fit rules may compare the rider's facts (riding, total_kg,
// height_cm ...) with those of parts. No row of slots.csv: nothing can be bought for it.
const RiderSlot = "rider"

// Standing is the bike as it stands: what every slot holds now, and the rider.
func (t *Tables) Standing(b *Bike) map[string]Thing {
	things := make(map[string]Thing, len(t.Slots)+1)
	for i := range t.Slots {
		things[t.Slots[i].Name] = t.FittedThing(b, t.Slots[i].Name)
	}
	things[RiderSlot] = t.FittedThing(b, RiderSlot)
	return things
}

// ServicedThing is the fitted thing after a job that restores it to the condition.
func (t *Tables) ServicedThing(b *Bike, slot, restored string) Thing {
	th := t.FittedThing(b, slot)
	th.State = Serviced
	th.Facts["condition"] = ChoiceValue(th.Origin, restored)
	return th
}

// BoughtThing is one slot's share of a part: the facts the slot has; grams and ratings stand on the first slot of its place.
func (t *Tables) BoughtThing(p *Part, place Place, slot string) Thing {
	th := Thing{Slot: slot, State: Bought, Name: p.Name, Part: p, Place: place, Facts: t.FactsOf(slot, p.Facts), Origin: p.Origin}
	t.presume(slot, th.Facts)
	if th.Leads() {
		th.Grams, th.Ratings = p.Grams, p.Ratings
	}
	return th
}

// FactsTable is the sheet that values come from which go without saying.
const FactsTable = "facts table"

// presume fills in what goes without saying: a fact whose only plausible value has a share of 100 percent has that
// value unless a sheet says otherwise (a rim is hooked unless it is marked hookless).
func (t *Tables) presume(slot string, facts Facts) {
	for i := range t.Facts {
		f := &t.Facts[i]
		if len(f.Plausible) != 1 || f.Plausible[0].Share != 100 || facts[f.Name].Known() || !f.Has(slot) {
			continue
		}
		v := f.Plausible[0].Value
		v.Origin = Origin{Sheet: FactsTable, How: Assumed}
		facts[f.Name] = v
	}
}
