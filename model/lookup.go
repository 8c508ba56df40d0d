package model

// SlotNamed finds a slot; nil where there is none.
func (t *Tables) SlotNamed(name string) *Slot {
	if i := t.SlotIndex(name); i >= 0 {
		return &t.Slots[i]
	}
	return nil
}

// SlotIndex is a slot's position in slots.csv, -1 where there is none.
func (t *Tables) SlotIndex(name string) int {
	for i := range t.Slots {
		if t.Slots[i].Name == name {
			return i
		}
	}
	return -1
}

// FactNamed finds a fact; nil where there is none.
func (t *Tables) FactNamed(name string) *Fact {
	for i := range t.Facts {
		if t.Facts[i].Name == name {
			return &t.Facts[i]
		}
	}
	return nil
}

// CriterionNamed finds a criterion by its key; nil where there is none.
func (t *Tables) CriterionNamed(key string) *Criterion {
	for i := range t.Criteria {
		if t.Criteria[i].Key == key {
			return &t.Criteria[i]
		}
	}
	return nil
}

// MeasureIndex is a measure's position in curves.csv, -1 where there is none.
func (t *Tables) MeasureIndex(key string) int {
	for i := range t.Measures {
		if t.Measures[i].Key == key {
			return i
		}
	}
	return -1
}

// FactsOf keeps those facts that things in the slot have.
func (t *Tables) FactsOf(slot string, facts Facts) Facts {
	own := Facts{}
	for name, v := range facts {
		if f := t.FactNamed(name); f != nil && f.Has(slot) {
			own[name] = v
		}
	}
	return own
}
