package datasets

import (
	"fmt"
	"strings"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

// bikeRow is a row of bikes.csv.
type bikeRow struct {
	Bike     sheet.Cell `csv:"bike"`
	Owned    sheet.Cell `csv:"owned"`
	Like     sheet.Cell `csv:"like"`
	Price    sheet.Cell `csv:"price"`
	Delivery sheet.Cell `csv:"delivery"`
	Assembly sheet.Cell `csv:"assembly"`
	Repairs  sheet.Cell `csv:"repairs"`
	Used     sheet.Cell `csv:"used"`
	SellsFor sheet.Cell `csv:"sells_for"`
	SizeFrom sheet.Cell `csv:"size_from_cm"`
	SizeTo   sheet.Cell `csv:"size_to_cm"`
	SizeOK   sheet.Cell `csv:"size_ok"`
	Facts    sheet.Cell `csv:"facts"`
	Note     sheet.Cell `csv:"note"`
}

// loadBikes reads bikes.csv; without it there is one bike, the rider's own.
func (l *loader) loadBikes() {
	if len(l.sources["bikes"]) == 0 {
		l.shed.Bikes = []model.Bike{{
			Name: l.onlyBike(), Ownership: model.Own, Like: l.ownLike(), Facts: model.Facts{},
			Ratings: map[string]model.Stated[float64]{}, Origin: model.Origin{Sheet: "bikes.csv", How: model.Assumed},
		}}
		return
	}
	seen := map[string]sheet.Cell{}
	for _, s := range l.read("bikes", l.withOpenColumns(bikesTable)) {
		r := l.reader(s)
		for i, row := range decode[bikeRow](l, s) {
			if row.Bike.Plain() != "" && l.once(seen, row.Bike, "bike") {
				l.shed.Bikes = append(l.shed.Bikes, r.bike(row, s.Rows[i]))
			}
		}
		r.done()
	}
	if len(l.shed.Bikes) == 0 {
		l.emptySheet("bikes", bikesTable, "at least one bike")
	}
}

// defaultBike is the name of the rider's own bike where no sheet names one.
const defaultBike = "my bike"

// onlyBike is the name of the own bike without a bikes.csv: the one that fitted.csv speaks of, if it speaks of one.
func (l *loader) onlyBike() string {
	name := ""
	for _, src := range l.sources["fitted"] {
		s, _ := sheet.Read(src.file, src.data, l.withOpenColumns(fittedTable), sheet.Options{Decimal: l.options.Decimal})
		for _, row := range s.Rows {
			bike := row.Get("bike").Plain()
			if name != "" && sheet.Key(bike) != sheet.Key(name) {
				return defaultBike
			}
			name = bike
		}
	}
	if name == "" {
		return defaultBike
	}
	return name
}

// ownLike is the typical bike that the only bike resembles: without bikes.csv it must be said.
func (l *loader) ownLike() string {
	if l.like.text == "" {
		if len(l.sources["fitted"]) == 0 {
			l.complain(sheet.Complaint{
				Code: "no_bike", Sheet: "bikes.csv", Wanted: "your bike",
				Fix: "say in rider.csv which typical bike yours resembles, setting `like`: " + strings.Join(likeNames(l.tables), "; "),
			})
		}
		return ""
	}
	name, ok := sheet.Match(l.like.text, likeNames(l.tables))
	if !ok {
		l.complain(unknownLike(l.like.cell, likeNames(l.tables)))
	}
	return name
}

// like finds the typical bike that a cell names; empty, complained about, where there is none.
func (r *reader) like(c sheet.Cell) string {
	names := likeNames(r.l.tables)
	name, ok := sheet.Match(c.Text, names)
	if !ok {
		r.complain(unknownLike(c, names))
	}
	return name
}

// unknownLike complains about a typical bike that is none and names the nearest one only: by letters, else by words.
func unknownLike(c sheet.Cell, names []string) sheet.Complaint {
	near, most := sheet.Nearest(c.Text, names), 0
	if near == "" {
		for _, n := range names {
			if shared := sharedWords(nameWords(c.Text), nameWords(n)); shared > most {
				near, most = n, shared
			}
		}
	}
	fix := "`firstbolt schema likes` lists them"
	if near != "" {
		fix = fmt.Sprintf("did you mean %q? %s all", near, fix[:len(fix)-len(" them")])
	}
	return c.Complain("unknown_like", "a typical bike", fix)
}

func likeNames(t *model.Tables) []string {
	var names []string
	seen := map[string]bool{}
	for _, k := range t.Likes {
		if !seen[k.Name] {
			names, seen[k.Name] = append(names, k.Name), true
		}
	}
	return names
}

func (r *reader) bike(row bikeRow, cells sheet.Row) model.Bike {
	price := r.money(row.Price)
	b := model.Bike{
		Name: row.Bike.Plain(), Ownership: r.ownership(row.Owned), Price: price.Value, Delivery: r.amount(row.Delivery),
		Assembly: r.amount(row.Assembly), Repairs: r.amount(row.Repairs), SellsFor: r.money(row.SellsFor), Used: r.yesNo(row.Used),
		SizeOK: r.sizeOK(row), Facts: r.factsOf(cells, row.Facts), Ratings: r.ratings(cells), Note: row.Note.Plain(), Origin: rowOrigin(cells),
	}
	if row.Like.Plain() != "" {
		b.Like = r.like(row.Like)
	}
	if b.SizeOK == model.Yes { // tried, or within the range: the maker's table has nothing to add
		delete(b.Facts, "size_from_cm")
		delete(b.Facts, "size_to_cm")
	}
	if b.Ownership == model.Rival && row.Price.Plain() == "" {
		r.complain(row.Price.Complain("price", "what the bike costs", "write its price, or say in the column owned that it is yours"))
	}
	if own := r.l.shed.OwnBike(); own != nil && b.Ownership == model.Own {
		r.complain(row.Owned.Warn("two_own", "one bike of your own", own.Name+" is taken as the bike to upgrade; choose with --bike"))
	}
	return b
}

// ownership reads yes, no or donor; a bike of which nothing is said is for sale.
func (r *reader) ownership(c sheet.Cell) model.Ownership {
	if sheet.Key(c.Text) == "donor" {
		return model.DonorBike
	}
	before := len(r.Complaints)
	a := r.YesNo(c)
	if len(r.Complaints) > before {
		r.Complaints = r.Complaints[:before]
		r.Choice(c, []string{"yes", "no", "donor"})
	}
	if a.Yes {
		return model.Own
	}
	return model.Rival
}

// sizeOK is what the sheet says, else whether the rider's height is within the sizes the bike is made for.
func (r *reader) sizeOK(row bikeRow) model.YesNo {
	said := r.yesNo(row.SizeOK)
	from := r.number(row.SizeFrom, within{90, 240, "cm"})
	to := r.number(row.SizeTo, within{90, 240, "cm"})
	if from.Known && to.Known && from.Value > to.Value {
		r.complain(row.SizeTo.Complain("size", "at least size_from_cm", "swap the two"))
		return said
	}
	height := r.l.shed.Rider.HeightCM
	if said != model.NotSaid || !height.Known || !from.Known || !to.Known {
		return said
	}
	if height.Value < from.Value || height.Value > to.Value {
		return model.No
	}
	return model.Yes
}
