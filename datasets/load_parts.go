package datasets

import (
	"fmt"
	"maps"
	"slices"
	"sort"
	"strings"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

// partRow is a row of parts.csv.
type partRow struct {
	Part       sheet.Cell `csv:"part"`
	Kind       sheet.Cell `csv:"kind"`
	Slot       sheet.Cell `csv:"slot"`
	Price      sheet.Cell `csv:"price"`
	ID         sheet.Cell `csv:"id"`
	Shop       sheet.Cell `csv:"shop"`
	Link       sheet.Cell `csv:"link"`
	Used       sheet.Cell `csv:"used"`
	Inspected  sheet.Cell `csv:"inspected"`
	Available  sheet.Cell `csv:"available"`
	Owned      sheet.Cell `csv:"owned"`
	Returnable sheet.Cell `csv:"returnable"`
	Grams      sheet.Cell `csv:"grams"`
	Seasons    sheet.Cell `csv:"seasons"`
	Wish       sheet.Cell `csv:"wish"`
	Facts      sheet.Cell `csv:"facts"`
	Note       sheet.Cell `csv:"note"`
}

// loadParts reads parts.csv and parts-*.csv.
func (l *loader) loadParts() {
	ids := map[string]sheet.Cell{}
	rows := 0
	for _, s := range l.read("parts", l.withOpenColumns(partsTable)) {
		r := l.reader(s)
		l.shed.Parts = slices.Grow(l.shed.Parts, len(s.Rows))
		for i, row := range decode[partRow](l, s) {
			r.part(row, s.Rows[i], ids)
		}
		r.done()
		rows += len(s.Rows)
	}
	if rows == 0 {
		l.emptySheet("parts", partsTable, "at least one part that can be bought")
	}
	l.noShops()
}

// noShops warns once where parts name shops of which no sheet says what they ask for shipping.
func (l *loader) noShops() {
	if len(l.sources["shops"]) > 0 {
		return
	}
	for _, p := range l.shed.Parts {
		if p.Shop == "" {
			continue
		}
		c := sheet.Cell{Sheet: p.Origin.Sheet, Line: p.Origin.Row, Name: "shop", Text: p.Shop}
		l.complain(c.Warn("no_shops", "a shops.csv that says what its shops ask for shipping",
			fmt.Sprintf("shipping is not counted; write shops.csv with the lines \"shop,shipping\" and \"%s,4.50\"", p.Shop)))
		return
	}
}

// emptySheet complains about a sheet without rows, unless something was said about it already.
func (l *loader) emptySheet(name string, t sheet.Table, wanted string) {
	file := l.sources[name][0].file
	for _, c := range l.complaints {
		if c.Sheet == file && !c.Warning {
			return
		}
	}
	l.complain(sheet.Complaint{Code: "empty_sheet", Sheet: file, Wanted: wanted, Fix: "add a row; " + t.Example()})
}

// part reads one row; one without a name, a price or a place is left out.
func (r *reader) part(row partRow, cells sheet.Row, ids map[string]sheet.Cell) {
	if row.Part.Plain() == "" {
		return
	}
	price := r.price(row.Price)
	p := model.Part{
		Name: row.Part.Plain(), ID: row.ID.Plain(), Price: price.Value, PriceAt: price.Origin, Link: row.Link.Plain(), Note: row.Note.Plain(),
		Used: r.yesNo(row.Used), Inspected: r.yesNo(row.Inspected), Returnable: r.yesNo(row.Returnable),
		Available: r.count(row.Available), Owned: r.count(row.Owned).Value,
		Grams: r.grams(row.Grams), Seasons: r.number(row.Seasons, within{0, 50, "seasons"}),
		Wish:  model.Wish(r.choiceIndex(row.Wish, []string{"consider", "must", "never"})),
		Facts: r.factsOf(cells, row.Facts), Ratings: r.ratings(cells), Origin: rowOrigin(cells),
	}
	if p.Inspected == model.No {
		delete(p.Facts, "inspected") // not yet: it is to be looked over, not to be refused
	}
	id := row.ID
	if p.ID == "" {
		p.ID, id = p.Name, row.Part
	}
	first := r.l.once(ids, id, "part")
	p.Shop = r.shop(row.Shop)
	placed := r.place(&p, row)
	if first && placed && price.Known {
		r.l.shed.Parts = append(r.l.shed.Parts, p)
	}
}

// price reads what a part costs; there must be one.
func (r *reader) price(c sheet.Cell) model.Stated[model.Money] {
	before := len(r.Complaints)
	price := r.money(c)
	if !price.Known && len(r.Complaints) == before && c.Text != "" {
		r.complain(c.Complain("price", "an amount such as 12.50", "a part without a price cannot be bought; ask the shop"))
	}
	if price.Known && price.Origin.How == model.Remembered {
		r.complain(c.Warn("price_doubtful", "a price without a doubt", "it is taken as it stands; ask before you order"))
	}
	if len(r.Complaints) > before && sheet.Key(c.Text) == "free" {
		r.Complaints[len(r.Complaints)-1].Fix = "write 0 for what costs nothing"
	}
	return price
}

// shop reads a shop's name, which must be a row of shops.csv where that sheet is there.
func (r *reader) shop(c sheet.Cell) string {
	if c.Plain() == "" || len(r.l.sources["shops"]) == 0 {
		return c.Plain()
	}
	names := make([]string, len(r.l.shed.Shops))
	for i, s := range r.l.shed.Shops {
		names[i] = s.Name
	}
	name, _ := r.known(c, "shop", names)
	return name
}

// place finds where the part goes: its slot cell, else its kind, whose typical facts it takes where nothing is said.
func (r *reader) place(p *model.Part, row partRow) bool {
	kind, ok := r.kind(row.Kind)
	if !ok {
		return false
	}
	if row.Slot.Plain() != "" {
		if p.Places, ok = r.places(row.Slot); !ok {
			return false
		}
	}
	if kind != nil {
		p.Kind = kind.Name
		if p.Places == nil {
			p.Places = kind.Places
		}
		r.sayWritten(p.Facts, kind.Facts, row.Kind)
		addAssumed(p.Facts, kind.Facts, assumed("kind", kind.Name))
		if !p.Grams.Known && kind.Grams.Known {
			p.Grams = model.Say(kind.Grams.Value, assumed("kind", kind.Name))
		}
	}
	if len(p.Places) == 0 {
		c := row.Kind
		c.Text = ""
		r.complain(c.Complain("no_place", "a kind or a slot", "say in the column kind or slot what "+p.Name+" is"))
		return false
	}
	r.foreignFacts(p)
	return true
}

// places reads "crankset + chainring" (a set) and "front tyre / rear tyre" (alternatives).
func (r *reader) places(c sheet.Cell) ([]model.Place, bool) {
	var places []model.Place
	for _, alternative := range strings.Split(c.Text, "/") {
		var p model.Place
		for _, name := range strings.Split(alternative, "+") {
			one := c
			one.Text = strings.TrimSpace(name)
			slot, ok := r.slot(one)
			if !ok {
				return nil, false
			}
			p = append(p, slot)
		}
		sort.Slice(p, func(i, j int) bool { return r.l.tables.SlotIndex(p[i]) < r.l.tables.SlotIndex(p[j]) })
		for i := 1; i < len(p); i++ {
			if p[i] == p[i-1] {
				r.complain(c.Complain("twice", "each slot of a set once", p[i]+" stands there twice"))
				return nil, false
			}
		}
		places = append(places, p)
	}
	return places, true
}

// slot finds a slot; the complaint about an unknown one knows kinds too.
func (r *reader) slot(c sheet.Cell) (string, bool) {
	names := slotNames(r.l.tables)
	if slot, ok := sheet.Match(c.Text, names); ok {
		return slot, true
	}
	if k := r.l.kindNamed(c.Text); k != nil {
		r.complain(c.Complain("unknown_slot", "a slot", fmt.Sprintf("%q is a kind: write it in the column kind", k.Name)))
		return "", false
	}
	return r.known(c, "slot", names)
}

// foreignFacts warns of facts that nothing in the part's slots has.
func (r *reader) foreignFacts(p *model.Part) {
	for _, name := range slices.Sorted(maps.Keys(p.Facts)) {
		f, v := r.l.tables.FactNamed(name), p.Facts[name]
		if v.Origin.How == model.Assumed || has(f, p.Places) {
			continue
		}
		if name == "used" || name == "inspected" { // columns of every part, facts of those that break dangerously
			delete(p.Facts, name)
			continue
		}
		c := sheet.Cell{Sheet: v.Origin.Sheet, Line: v.Origin.Row, Name: name, Text: v.Origin.Raw}
		w := c.Warn("foreign_fact", "a fact that "+p.Name+" has", "it is not used; "+name+" belongs to "+strings.Join(f.Slots, ", "))
		w.Cell = v.Origin.Cell
		r.complain(w)
		delete(p.Facts, name)
	}
}

func has(f *model.Fact, places []model.Place) bool {
	for _, p := range places {
		for _, slot := range p {
			if f.Has(slot) {
				return true
			}
		}
	}
	return false
}
