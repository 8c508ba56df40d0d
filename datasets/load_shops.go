package datasets

import (
	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

// shopRow is a row of shops.csv.
type shopRow struct {
	Shop     sheet.Cell `csv:"shop"`
	Shipping sheet.Cell `csv:"shipping"`
	FreeOver sheet.Cell `csv:"free_over"`
	Tax      sheet.Cell `csv:"tax"`
}

func (l *loader) loadShops() {
	seen := map[string]sheet.Cell{}
	for _, s := range l.read("shops", shopsTable) {
		r := l.reader(s)
		for i, row := range decode[shopRow](l, s) {
			if row.Shop.Plain() == "" || !l.once(seen, row.Shop, "shop") {
				continue
			}
			l.shed.Shops = append(l.shed.Shops, model.Shop{
				Name: row.Shop.Plain(), Shipping: r.amount(row.Shipping),
				FreeOver: r.money(row.FreeOver), TaxPercent: r.tax(row.Tax), Origin: rowOrigin(s.Rows[i]),
			})
		}
		r.done()
	}
}

// tax reads a percentage; a share such as 0.19 is asked about.
func (r *reader) tax(c sheet.Cell) model.Stated[float64] {
	tax := r.number(c, within{0, 100, "percent"})
	if tax.Known && tax.Value > 0 && tax.Value < 1 {
		r.complain(c.Warn("tax_share", "a percentage such as 19", "it is taken as less than one percent; is a share meant?"))
	}
	return tax
}

// toolRow is a row of tools.csv.
type toolRow struct {
	Tool  sheet.Cell `csv:"tool"`
	Price sheet.Cell `csv:"price"`
	Have  sheet.Cell `csv:"have"`
}

func (l *loader) loadTools() {
	seen := map[string]sheet.Cell{}
	names := make([]string, len(l.tables.Tools))
	for i, t := range l.tables.Tools {
		names[i] = t.Name
	}
	for _, s := range l.read("tools", toolsTable) {
		r := l.reader(s)
		for i, row := range decode[toolRow](l, s) {
			if row.Tool.Plain() == "" || !l.once(seen, row.Tool, "tool") {
				continue
			}
			name, known := sheet.Match(row.Tool.Text, names)
			if !known {
				name = row.Tool.Plain()
				r.complain(row.Tool.Warn("unknown_tool", "a tool that some job needs", sheet.DidYouMean(name, names, "it is kept, but no job of the tables asks for it")))
			}
			l.shed.Tools = append(l.shed.Tools, model.ToolOwned{Name: name, Price: r.money(row.Price), Having: r.having(row.Have), Origin: rowOrigin(s.Rows[i])})
		}
		r.done()
	}
}

// having reads yes, no, borrow or club.
func (r *reader) having(c sheet.Cell) model.Having {
	for word, h := range map[string]model.Having{"borrow": model.Borrow, "borrowed": model.Borrow, "club": model.Club} {
		if sheet.Key(c.Text) == word {
			return h
		}
	}
	before := len(r.Complaints)
	a := r.YesNo(c)
	if len(r.Complaints) > before {
		r.Complaints = r.Complaints[:before]
		r.Choice(c, []string{"yes", "no", "borrow", "club"})
	}
	if a.Given && a.Yes {
		return model.Have
	}
	return model.Buy
}
