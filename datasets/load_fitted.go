package datasets

import (
	"fmt"
	"sort"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

// fittedRow is a row of fitted.csv.
type fittedRow struct {
	Bike        sheet.Cell `csv:"bike"`
	Slot        sheet.Cell `csv:"slot"`
	Part        sheet.Cell `csv:"part"`
	Kind        sheet.Cell `csv:"kind"`
	Condition   sheet.Cell `csv:"condition"`
	SeasonsLeft sheet.Cell `csv:"seasons_left"`
	SellsFor    sheet.Cell `csv:"sells_for"`
	BoundTo     sheet.Cell `csv:"bound_to"`
	Grams       sheet.Cell `csv:"grams"`
	Facts       sheet.Cell `csv:"facts"`
}

// loadFitted reads fitted.csv into the bikes that it names.
func (l *loader) loadFitted() {
	seen := map[string]sheet.Cell{}
	for _, s := range l.read("fitted", l.withOpenColumns(fittedTable)) {
		r := l.reader(s)
		for i, row := range decode[fittedRow](l, s) {
			b := r.bikeOf(row.Bike)
			slot, ok := "", false
			if row.Slot.Plain() != "" {
				slot, ok = r.slot(row.Slot)
			}
			if b == nil || !ok {
				continue
			}
			both := row.Slot
			both.Text = b.Name + ": " + slot
			if l.once(seen, both, "slot of a bike") {
				b.Fitted = append(b.Fitted, r.fitted(slot, row, s.Rows[i]))
			}
		}
		r.done()
	}
}

// bikeOf finds the bike that a cell names; nil, complained about, where there is none.
func (r *reader) bikeOf(c sheet.Cell) *model.Bike {
	if c.Plain() == "" {
		return nil
	}
	names := make([]string, len(r.l.shed.Bikes))
	for i, b := range r.l.shed.Bikes {
		names[i] = b.Name
	}
	name, ok := sheet.Match(c.Text, names)
	if !ok {
		r.complain(c.Complain("unknown_bike", "a bike of bikes.csv", sheet.DidYouMean(c.Text, names, listed(names))))
		return nil
	}
	for i := range r.l.shed.Bikes {
		if r.l.shed.Bikes[i].Name == name {
			return &r.l.shed.Bikes[i]
		}
	}
	return nil
}

func (r *reader) fitted(slot string, row fittedRow, cells sheet.Row) model.Fitted {
	f := model.Fitted{
		Slot: slot, Part: row.Part.Plain(), None: sheet.Key(row.Part.Text) == "none",
		Condition:   model.Condition(r.choiceIndex(row.Condition, conditionWords())),
		SeasonsLeft: r.number(row.SeasonsLeft, within{0, 50, "seasons"}), SellsFor: r.money(row.SellsFor),
		Facts: r.factsOf(cells, row.Facts), Grams: r.grams(row.Grams), Ratings: r.ratings(cells), Origin: rowOrigin(cells),
	}
	if f.None {
		f.Part = ""
	}
	if row.BoundTo.Plain() != "" {
		f.BoundTo, _ = r.slot(row.BoundTo)
	}
	kind, _ := r.kind(row.Kind)
	if kind == nil {
		return f
	}
	if f.Part == "" && !f.None {
		f.Part = kind.Name
	}
	addAssumed(f.Facts, r.l.tables.FactsOf(slot, kind.Facts), assumed("kind", kind.Name))
	if !f.Grams.Known && kind.Grams.Known && kind.Places[0][0] == slot {
		f.Grams = model.Say(kind.Grams.Value, assumed("kind", kind.Name))
	}
	return f
}

// fillFromLikes gives every bike what its typical bike has where fitted.csv is silent, and sorts by slot. A slot whose
// row names a kind takes nothing from the typical bike: it is another thing.
func (l *loader) fillFromLikes() {
	for i := range l.shed.Bikes {
		b := &l.shed.Bikes[i]
		if b.Like != "" && b.Ownership != model.DonorBike {
			for _, like := range l.tables.Likes {
				if like.Name == b.Like {
					fillSlot(b, like)
				}
			}
		}
		l.bareBike(b)
		l.sortFitted(b)
	}
}

// sortFitted puts what is on a bike in the order of slots.csv.
func (l *loader) sortFitted(b *model.Bike) {
	sort.SliceStable(b.Fitted, func(i, j int) bool {
		return l.tables.SlotIndex(b.Fitted[i].Slot) < l.tables.SlotIndex(b.Fitted[j].Slot)
	})
}

// fillSlot lays a typical bike's slot under what the bike's own row says.
func fillSlot(b *model.Bike, like model.Like) {
	o := assumed("like", like.Name)
	f := b.InSlot(like.Slot)
	if f == nil {
		b.Fitted = append(b.Fitted, model.Fitted{Slot: like.Slot, Facts: model.Facts{}, Ratings: map[string]model.Stated[float64]{}, Origin: o})
		f = &b.Fitted[len(b.Fitted)-1]
		if f.None = like.Part == "none"; !f.None {
			f.Part = like.Part
		}
	}
	if f.None || like.Part == "none" || fromKind(f) {
		return
	}
	if f.Part == "" {
		f.Part = like.Part
	}
	addAssumed(f.Facts, like.Facts, o)
	if !f.Grams.Known && like.Grams.Known {
		f.Grams = model.Say(like.Grams.Value, o)
	}
}

// fromKind tells whether some of the thing's facts came from a kind.
func fromKind(f *model.Fitted) bool {
	for _, v := range f.Facts {
		if v.Origin.Sheet == "kind" {
			return true
		}
	}
	return f.Grams.Known && f.Grams.Origin.Sheet == "kind"
}

// bareBike warns of a bike of which no sheet says what is on it.
func (l *loader) bareBike(b *model.Bike) {
	if len(b.Fitted) > 0 || b.Like != "" || b.Origin.Row == 0 || len(l.tables.Likes) == 0 {
		return
	}
	c := sheet.Cell{Sheet: b.Origin.Sheet, Line: b.Origin.Row, Name: "bike", Text: b.Name}
	l.complain(c.Warn("bare_bike", "what is on it: a typical bike in the column like, or rows for it in fitted.csv",
		fmt.Sprintf("such as like=%q; `firstbolt schema likes` lists them", likeNames(l.tables)[0])))
}

// takeDonors turns what is on the donor bikes into parts that cost nothing and are there once.
func (l *loader) takeDonors() {
	for i := range l.shed.Bikes {
		b := &l.shed.Bikes[i]
		if b.Ownership != model.DonorBike {
			continue
		}
		for _, f := range b.Fitted {
			if !f.None && f.Condition != model.Unsafe {
				l.shed.Parts = append(l.shed.Parts, donated(b, f))
			}
		}
	}
}

func donated(b *model.Bike, f model.Fitted) model.Part {
	name := f.Part
	if name == "" {
		name = f.Slot
	}
	name += " of " + b.Name
	facts := model.Facts{}
	for fact, v := range f.Facts {
		facts[fact] = v
	}
	return model.Part{
		ID: b.Name + ": " + f.Slot, Name: name, Places: []model.Place{{f.Slot}}, Facts: facts, PriceAt: f.Origin,
		Used: model.Yes, Available: model.Say(1, f.Origin), Grams: f.Grams, Seasons: f.SeasonsLeft, Ratings: f.Ratings, Donor: b.Name, Origin: f.Origin,
	}
}
