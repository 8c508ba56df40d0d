package datasets

import (
	"fmt"
	"slices"
	"strings"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

// Measured is one thing that the rider measured on a bike, or that a seller said of a part.
type Measured struct {
	Bike   string // "" where Part is given
	Own    bool   // Bike is the rider's own: its sheet may leave the bike's name out
	Part   string // id of a part of parts.csv; "" where it was measured on a bike
	Slot   string // "" of a part where no slot was named: the fact holds in each of its slots that has it
	Fact   string
	Value  model.Value // certain, or Remembered where there is a doubt beside it
	Raw    string      // as written
	Origin model.Origin

	partName string // another name that Part may go by in an older sheet
}

// what is the measured thing in words: "frame: seat_tube_bore_mm".
func (m Measured) what() string {
	switch {
	case m.Part != "":
		return m.Part + ": " + m.Fact
	case m.Own:
		return m.Slot + ": " + m.Fact
	default:
		return m.Bike + ", " + m.Slot + ": " + m.Fact
	}
}

// thing is the same for two values of the same fact of the same thing. A part is one thing in all its slots.
func (m Measured) thing() [3]string {
	if m.Part != "" {
		return [3]string{"part", m.Part, m.Fact}
	}
	return [3]string{m.Bike, m.Slot, m.Fact}
}

// measuredRow is a row of measured.csv, or a filled box of the printed page.
type measuredRow struct {
	Bike  sheet.Cell `csv:"bike"`
	Slot  sheet.Cell `csv:"slot"`
	Fact  sheet.Cell `csv:"fact"`
	Value sheet.Cell `csv:"value"`
	Part  sheet.Cell `csv:"part"`
}

// loadMeasured lays what was measured over what the other sheets say, typical bikes and kinds among them.
func (l *loader) loadMeasured() {
	for _, m := range l.eachOnce(l.readMeasured()) {
		if m.Part != "" {
			l.measuredOfPart(m)
		} else {
			l.measuredOnBike(m)
		}
	}
}

// readMeasured reads measured.csv, rows without a value left out.
func (l *loader) readMeasured() []Measured {
	var all []Measured
	for _, s := range l.read(measuredTable.Name, measuredTable) {
		r := l.reader(s)
		for _, row := range decode[measuredRow](l, s) {
			if m, ok := r.measured(row); ok {
				all = append(all, m)
			}
		}
		r.done()
	}
	return all
}

// eachOnce keeps one of several equal measurements, the surest; of two that differ it complains.
func (l *loader) eachOnce(all []Measured) []Measured {
	var kept []Measured
	seen := map[[3]string]int{}
	for _, m := range all {
		at, twice := seen[m.thing()]
		switch {
		case !twice:
			seen[m.thing()] = len(kept)
			kept = append(kept, m)
		case kept[at].Value.String() == m.Value.String():
			if m.Value.Origin.How >= kept[at].Value.Origin.How {
				kept[at] = m
			}
		default:
			o := m.Origin
			l.complain(sheet.Complaint{
				Code: "two_values", Sheet: o.Sheet, Line: o.Row, Cell: o.Cell, Column: "value", Found: m.Raw, Wanted: "one value of " + m.what(),
				Fix: fmt.Sprintf("%s says %s; keep the one you trust, or measure anew", kept[at].Origin, kept[at].Value),
			})
		}
	}
	return kept
}

// measuredOnBike lays one value over what the bike has in the slot. What a typical bike does not have but was measured
// is there.
func (l *loader) measuredOnBike(m Measured) {
	for i := range l.shed.Bikes {
		b := &l.shed.Bikes[i]
		if b.Name != m.Bike {
			continue
		}
		if b.InSlot(m.Slot) == nil {
			b.Fitted = append(b.Fitted, model.Fitted{Slot: m.Slot, Ratings: map[string]model.Stated[float64]{}, Origin: m.Origin})
			l.sortFitted(b)
		}
		f := b.InSlot(m.Slot)
		if f.None {
			f.None, f.Origin = false, m.Origin
		}
		if f.Facts == nil {
			f.Facts = model.Facts{}
		}
		f.Facts[m.Fact] = m.Value
	}
}

func (l *loader) measuredOfPart(m Measured) {
	for i := range l.shed.Parts {
		p := &l.shed.Parts[i]
		if p.ID != m.Part {
			continue
		}
		switch said := m.Value.Is("yes"); {
		case m.Fact == "used":
			p.Used = yesOrNo(said)
		case m.Fact == "inspected":
			p.Inspected = yesOrNo(said)
		}
		if p.Facts[m.Fact] = m.Value; p.Inspected == model.No {
			delete(p.Facts, "inspected") // as in parts.csv: it is to be looked over, not to be refused
		}
	}
}

func yesOrNo(yes bool) model.YesNo {
	if yes {
		return model.Yes
	}
	return model.No
}

// measured reads one row; false where its value is still open, or something was complained about.
func (r *reader) measured(row measuredRow) (Measured, bool) {
	if row.Value.Plain() == "" || row.Fact.Plain() == "" {
		return Measured{}, false
	}
	name, ok := r.known(row.Fact, "fact", r.l.factNames())
	if !ok {
		return Measured{}, false
	}
	m, f := Measured{Fact: name, Raw: row.Value.Text}, r.l.tables.FactNamed(name)
	if row.Part.Plain() != "" {
		ok = r.ofPart(&m, f, row)
	} else {
		ok = r.onBike(&m, f, row)
	}
	if !ok {
		return Measured{}, false
	}
	m.Value = r.fact(f, row.Value)
	m.Origin = m.Value.Origin
	return m, m.Value.Known()
}

// onBike finds the bike and the slot that a row speaks of.
func (r *reader) onBike(m *Measured, f *model.Fact, row measuredRow) (ok bool) {
	if m.Slot, ok = r.slotWith(f, row.Slot); !ok {
		return false
	}
	b := r.l.shed.OwnBike()
	if row.Bike.Plain() != "" {
		b = r.bikeOf(row.Bike)
	} else if b == nil {
		r.complain(row.Bike.Complain("whose", "the name of the bike", "no bike of bikes.csv is your own: say which one was measured"))
	}
	if b == nil {
		return false
	}
	m.Bike, m.Own = b.Name, b == r.l.shed.OwnBike()
	if there := b.InSlot(m.Slot); there != nil && there.None && there.Origin.Row > 0 {
		r.complain(row.Slot.Complain("nothing_there", "a slot in which something stands",
			fmt.Sprintf("%s says that there is none; change that, or delete this row", there.Origin)))
		return false
	}
	return true
}

// slotWith finds the slot that a cell names, which must have the fact. It may be left out where only one has it.
func (r *reader) slotWith(f *model.Fact, c sheet.Cell) (string, bool) {
	switch {
	case c.Plain() == "" && len(f.Slots) == 1 && f.Slots[0] != model.RiderSlot:
		return f.Slots[0], true
	case c.Plain() == "":
		r.complain(c.Complain("no_slot", "the slot whose "+f.Name+" it is", "one of "+strings.Join(f.Slots, ", ")))
		return "", false
	case sheet.Key(c.Text) == sheet.Key(model.RiderSlot):
		r.complain(c.Complain("rider", "a slot of a bike", "what you say of yourself stands in rider.csv"))
		return "", false
	}
	slot, ok := r.slot(c)
	if ok && !f.Has(slot) {
		r.complain(c.Complain("foreign_fact", "a slot that has "+f.Name, f.Name+" belongs to "+strings.Join(f.Slots, ", ")))
		return "", false
	}
	return slot, ok
}

// ofPart finds the part that a row speaks of.
func (r *reader) ofPart(m *Measured, f *model.Fact, row measuredRow) bool {
	p := r.partOf(row.Part)
	switch {
	case p == nil:
		return false
	case row.Bike.Plain() != "":
		r.complain(row.Bike.Complain("whose", "nothing here where a part is named", "write either the bike or the part"))
		return false
	case !has(f, p.Places):
		r.complain(row.Fact.Complain("foreign_fact", "a fact that "+p.Name+" has", f.Name+" belongs to "+strings.Join(f.Slots, ", ")))
		return false
	}
	m.Part, m.partName = p.ID, p.Name
	if row.Slot.Plain() == "" {
		return true
	}
	slot, ok := r.slotWith(f, row.Slot)
	if ok && !slices.ContainsFunc(p.Places, func(place model.Place) bool { return slices.Contains(place, slot) }) {
		r.complain(row.Slot.Complain("foreign_slot", "a slot that "+p.Name+" goes in", "leave it empty: the part says it itself"))
		return false
	}
	m.Slot = slot
	return ok
}

// partOf finds a part by its id, else by its name.
func (r *reader) partOf(c sheet.Cell) *model.Part {
	if r.l.parts == nil {
		r.l.parts = newPartNames(r.l.shed.Parts)
	}
	known := r.l.parts
	if p := known.byID[sheet.Key(c.Text)]; p != nil {
		return p
	}
	switch found := known.byName[sheet.Key(c.Text)]; len(found) {
	case 0:
		r.complain(c.Complain("unknown_part", "a part of parts.csv", sheet.DidYouMean(c.Text, known.names, "write its id or its name as it stands there")))
		return nil
	case 1:
		return found[0]
	default:
		r.complain(c.Complain("two_parts", "one part", fmt.Sprintf("%d parts are called so; write the id of the one that is meant", len(found))))
		return nil
	}
}

// partNames find the parts of parts.csv by what a rider may call them, as sheet.Key writes it.
type partNames struct {
	byID   map[string]*model.Part
	byName map[string][]*model.Part
	names  []string // ids and names, for suggestions
}

// newPartNames leaves out what hangs on a donor bike: that is measured there.
func newPartNames(parts []model.Part) *partNames {
	n := &partNames{byID: map[string]*model.Part{}, byName: map[string][]*model.Part{}}
	for i := range parts {
		p := &parts[i]
		if p.Donor != "" {
			continue
		}
		n.byID[sheet.Key(p.ID)] = p
		n.byName[sheet.Key(p.Name)] = append(n.byName[sheet.Key(p.Name)], p)
		n.names = append(n.names, p.ID, p.Name)
	}
	return n
}
