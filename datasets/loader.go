package datasets

import (
	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

// loader reads the sheets of one shed, one after another: what names a thing is read after what the thing is in.
type loader struct {
	options    Options
	sources    map[string][]sheetFile
	tables     *model.Tables
	shed       *model.Shed
	currency   sheet.Currency
	complaints []sheet.Complaint
	like       stated                 // of rider.csv or a flag
	kinds      map[string]*model.Kind // by name and alias, as sheet.Key writes them
	facts      []string               // names of all facts, made when the first is looked up
	parts      *partNames             // made when the first row of measured.csv names a part
}

// stated is a text with its place.
type stated struct {
	text string
	cell sheet.Cell
}

func (l *loader) load() {
	l.layTables()
	l.loadRider()
	l.rescaleTables()
	l.loadShops()
	l.loadTools()
	l.loadBikes()
	l.loadFitted()
	l.fillFromLikes()
	l.loadParts()
	l.loadMeasured()
	l.takeDonors()
	l.seatRider()
}

// complain adds complaints.
func (l *loader) complain(cs ...sheet.Complaint) { l.complaints = append(l.complaints, cs...) }

// read reads all files of a sheet.
func (l *loader) read(name string, t sheet.Table) []*sheet.Sheet {
	var sheets []*sheet.Sheet
	for _, src := range l.sources[name] {
		s, complaints := sheet.Read(src.file, src.data, t, sheet.Options{Decimal: l.options.Decimal})
		l.complain(complaints...)
		sheets = append(sheets, s)
	}
	return sheets
}

// decode maps the rows of a sheet to structs.
func decode[T any](l *loader, s *sheet.Sheet) []T {
	rows, err := sheet.Decode[T](s)
	if err != nil {
		l.complain(sheet.Complaint{Code: "unreadable", Sheet: s.Name, Wanted: "rows that can be read", Fix: err.Error()})
		return nil
	}
	return rows
}

// layTables lays the rider's own tables over the embedded ones, each after those whose names it may use.
func (l *loader) layTables() {
	laid := false
	var pairs []sheet.Row
	for _, r := range tableReaders() {
		t, _ := TableNamed(r.name)
		if r.name == toolsTable.Name { // tools.csv is a sheet of the shed
			continue
		}
		for _, s := range l.read(t.Name, t) {
			laid = true
			if t.Name == factsTable.Name {
				l.complain(takenNames(l.tables, s.Rows)...)
			}
			l.complain(Lay(l.tables, t.Name, s.Rows)...)
			if t.Name == pairsTable.Name {
				pairs = append(pairs, s.Rows...)
			}
		}
	}
	if laid {
		forgetDanger(l.tables)
		l.complain(wholeFaults(l.tables)...)
		l.complain(brokenRules(l.tables)...)
		l.complain(uselessPairs(l.tables, pairs)...)
	}
}

// rescaleTables turns the tables' amounts, which are in hundredths, into minor units of the shed's currency.
func (l *loader) rescaleTables() {
	scale := func(m model.Money) model.Money {
		for range l.currency.Digits {
			m *= 10
		}
		return model.Money(model.RoundHalfUp(int64(m), 100))
	}
	if l.currency.Digits == 2 {
		return
	}
	for i := range l.tables.Tools {
		l.tables.Tools[i].Price = scale(l.tables.Tools[i].Price)
	}
	for i := range l.tables.Jobs {
		j := &l.tables.Jobs[i]
		j.PerSeason, j.ShopPrice.Value = scale(j.PerSeason), scale(j.ShopPrice.Value)
		for k := range j.SmallParts {
			j.SmallParts[k].Price = scale(j.SmallParts[k].Price)
		}
	}
}

// originOf is where a value was read.
func originOf(c sheet.Cell, doubt bool) model.Origin {
	o := model.Origin{Sheet: c.Sheet, Row: c.Line, Cell: c.Ref(), Raw: c.Text, How: model.Measured}
	if doubt {
		o.How = model.Remembered
	}
	return o
}

// rowOrigin is where a row stands.
func rowOrigin(r sheet.Row) model.Origin {
	return model.Origin{Sheet: r.Sheet, Row: r.Line, How: model.Measured}
}

// assumed is the origin of typical values: of a kind or of a like.
func assumed(sheetName, row string) model.Origin {
	return model.Origin{Sheet: sheetName, Raw: row, How: model.Assumed}
}

// once complains about a name that stood on an earlier line and tells whether it is the first; names are compared as
// sheet.Key writes them.
func (l *loader) once(seen map[string]sheet.Cell, c sheet.Cell, what string) bool {
	key := sheet.Key(c.Text)
	before, twice := seen[key]
	if twice {
		l.complain(c.Complain("twice", "each "+what+" once", "the same "+what+" stands at "+place(before)+"; delete or rename one"))
		return false
	}
	seen[key] = c
	return true
}

func place(c sheet.Cell) string { return c.Complain("", "", "").Where() }
