package datasets

import (
	"fmt"
	"sort"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

func (l *layer) criterion(r sheet.Row) {
	c := model.Criterion{
		Key:   l.filled(r.Get("criterion"), "a name"),
		Says:  l.filled(r.Get("says"), "what riders call it"),
		Words: list(r.Get("words").Text),
		Worst: r.Get("worst").Text,
		Best:  r.Get("best").Text,
	}
	if l.once(r.Get("criterion")) {
		put(&l.tables.Criteria, c, func(a, b *model.Criterion) bool { return a.Key == b.Key })
	}
}

func (l *layer) criterionKeys() []string {
	var keys []string
	for _, c := range l.tables.Criteria {
		keys = append(keys, c.Key)
	}
	return keys
}

func (l *layer) knownCriterion(c sheet.Cell, key string) {
	if l.tables.CriterionNamed(key) == nil {
		l.fault(c, "unknown_criterion", fmt.Sprintf("a criterion; %q is none", key), sheet.DidYouMean(key, l.criterionKeys(), "criteria.csv lists them"))
	}
}

func (l *layer) curve(r sheet.Row) {
	m := model.Measure{
		Key:       l.filled(r.Get("measure"), "a name for the measure"),
		Criterion: r.Get("criterion").Text,
		Share:     l.wholeIn(r.Get("share")),
		Says:      l.filled(r.Get("says"), "what riders call it"),
		Unit:      l.filled(r.Get("unit"), "what one unit of the amount is"),
		Points:    l.points(r.Get("points")),
		Source:    source(r),
	}
	l.knownCriterion(r.Get("criterion"), m.Criterion)
	if l.good {
		l.concave(r.Get("points"), m.Points)
	}
	if l.once(r.Get("measure")) {
		put(&l.tables.Measures, m, func(a, b *model.Measure) bool { return a.Key == b.Key })
	}
}

// points reads a curve, "0:0; 1:35; 2:62" or "ln 0.4:0; ln 0.7:40".
func (l *layer) points(c sheet.Cell) []model.CurvePoint {
	var points []model.CurvePoint
	for _, entry := range list(c.Text) {
		at, level, _ := cut(entry, ":")
		x, goodX := figure(at)
		y, goodY := figure(level)
		if !goodX || !goodY {
			l.fault(c, "points", fmt.Sprintf("amount:level; %q is none", entry), "such as 0:0; 1:35; 2:62")
		}
		points = append(points, model.CurvePoint{Amount: x, Level: y})
	}
	return points
}

// concave refuses a curve on which a later gain is worth more than an earlier one, or any is worth less than nothing.
func (l *layer) concave(c sheet.Cell, points []model.CurvePoint) {
	if len(points) < 2 {
		l.fault(c, "points", "at least two points", "such as 0:0; 5:100")
		return
	}
	const rounding = 1e-9 // of figures that come from logarithms
	last := 0.0
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		if b.Amount <= a.Amount {
			l.fault(c, "points", "amounts that rise from point to point", fmt.Sprintf("point %d does not lie above the one before", i+1))
			return
		}
		slope := (b.Level - a.Level) / (b.Amount - a.Amount)
		if slope < -rounding {
			l.fault(c, "points", "levels that never fall", fmt.Sprintf("point %d lies below the one before", i+1))
			return
		}
		if i > 1 && slope > last+rounding {
			l.fault(c, "not_concave", "a curve that gets flatter: the second helps less than the first",
				fmt.Sprintf("up to point %d it rises by %.4g per unit, before that by %.4g; raise point %d", i+1, slope, last, i))
			return
		}
		last = slope
	}
}

func (l *layer) measureKeys() []string {
	var keys []string
	for _, m := range l.tables.Measures {
		keys = append(keys, m.Key)
	}
	return keys
}

func (l *layer) knownMeasure(c sheet.Cell) string {
	if l.tables.MeasureIndex(c.Text) < 0 {
		l.fault(c, "unknown_measure", "a measure of curves.csv", sheet.DidYouMean(c.Text, l.measureKeys(), "curves.csv lists them"))
	}
	return c.Text
}

func (l *layer) amount(r sheet.Row) {
	a := model.AmountRule{
		Measure: l.knownMeasure(r.Get("measure")),
		Slot:    l.filled(r.Get("slot"), "a slot"),
		Fact:    r.Get("fact").Text,
		Form:    model.AmountForm(l.choiceIn(r.Get("form"), "table", "factor", "log", "linear")),
		Coef:    l.figureIn(r.Get("coef"), 0),
		Source:  source(r),
		Origin:  origin(r),
	}
	l.knownSlot(r.Get("slot"), a.Slot)
	f := l.amountFact(r.Get("fact"), a.Slot)
	if f != nil && l.good {
		a.Rows = l.amountRows(r.Get("rows"), f)
	}
	l.formFits(r, &a)
	if l.once(r.Get("measure"), r.Get("slot"), r.Get("fact")) {
		put(&l.tables.Amounts, a, func(a, b *model.AmountRule) bool {
			return a.Measure == b.Measure && a.Slot == b.Slot && a.Fact == b.Fact
		})
	}
}

// amountFact is the fact an amount is worked out from: a fact of the slot, "condition", "grams", "seasons", or none.
func (l *layer) amountFact(c sheet.Cell, slot string) *model.Fact {
	switch c.Text {
	case "":
		return nil
	case "grams", "seasons":
		return &model.Fact{Name: c.Text, Kind: model.Number}
	}
	return l.slotFact(c, slot, c.Text)
}

// amountRows reads "slick:0; knobbly:3" or, for a number, "140:0.85; 160:1" in rising order.
func (l *layer) amountRows(c sheet.Cell, f *model.Fact) []model.AmountRow {
	var rows []model.AmountRow
	for _, entry := range list(c.Text) {
		at, gives, _ := cut(entry, ":")
		row := model.AmountRow{}
		var good bool
		if row.Gives, good = figure(gives); !good {
			l.fault(c, "rows", fmt.Sprintf("value:amount; %q is none", entry), "such as slick:0; knobbly:3")
		}
		if f.Kind == model.Number {
			if row.At, good = figure(at); !good {
				l.fault(c, "rows", fmt.Sprintf("a number before the colon; %q is none", at), "such as 140:0.85; 160:1")
			}
		} else {
			row.Choice = at
			l.valueIn(c, f, at, model.Origin{})
		}
		rows = append(rows, row)
	}
	if f.Kind == model.Number && !sort.SliceIsSorted(rows, func(a, b int) bool { return rows[a].At < rows[b].At }) {
		l.fault(c, "rows", "numbers in rising order", "sort them")
	}
	return rows
}

// formFits complains where the form lacks what it needs: rows, positive factors, or a coefficient.
func (l *layer) formFits(r sheet.Row, a *model.AmountRule) {
	looked := a.Form == model.Table || a.Form == model.Factor
	switch {
	case looked && a.Fact == "":
		l.fault(r.Get("fact"), "empty", "a fact to look up", "name the fact, or write linear and a coefficient for mere presence")
	case looked && len(a.Rows) == 0:
		l.fault(r.Get("rows"), "empty", "rows to look up", "such as slick:0; knobbly:3")
	case !looked && r.Get("coef").Text == "":
		l.fault(r.Get("coef"), "empty", "a coefficient", "such as 1 or -1")
	}
	for _, row := range a.Rows {
		if a.Form == model.Factor && row.Gives <= 0 {
			l.fault(r.Get("rows"), "factor", "factors above 0", "write table for amounts that are added")
			return
		}
	}
}

func (l *layer) assumption(r sheet.Row) {
	a := model.Assumption{
		Measure: l.knownMeasure(r.Get("measure")),
		Slot:    r.Get("slot").Text,
		Like:    r.Get("like").Text,
		Likely:  l.figureIn(r.Get("likely"), 0),
		Rated:   r.Get("rated_high").Text != "",
		Source:  source(r),
		Origin:  origin(r),
	}
	if a.Slot != "" { // empty: the bike as a whole
		l.knownSlot(r.Get("slot"), a.Slot)
	}
	l.filled(r.Get("likely"), "the amount that is likely")
	if a.Like != "" && !contains(l.likeNames(), a.Like) {
		l.fault(r.Get("like"), "unknown_like", "a class of bike in likes.csv", sheet.DidYouMean(a.Like, l.likeNames(), "likes.csv lists them"))
	}
	a.Low, a.High = l.figureIn(r.Get("low"), a.Likely), l.figureIn(r.Get("high"), a.Likely)
	a.RatedLow, a.RatedHigh = l.figureIn(r.Get("rated_low"), 0), l.figureIn(r.Get("rated_high"), 0)
	if l.good && (a.Low > a.Likely || a.Likely > a.High || a.RatedLow > a.RatedHigh) {
		l.fault(r.Get("low"), "range", "low, likely and high in rising order", "more is better in every measure")
	}
	if l.once(r.Get("measure"), r.Get("slot"), r.Get("like")) {
		put(&l.tables.Assumptions, a, func(a, b *model.Assumption) bool {
			return a.Measure == b.Measure && a.Slot == b.Slot && a.Like == b.Like
		})
	}
}

// likeNames are the classes of bikes, each once.
func (l *layer) likeNames() []string {
	var names []string
	for _, k := range l.tables.Likes {
		if !contains(names, k.Name) {
			names = append(names, k.Name)
		}
	}
	return names
}

// mostConditions of a pair's worth: each slot more multiplies the combinations the program must tell apart.
const mostConditions = 3

func (l *layer) value(r sheet.Row) {
	v := model.ValueRule{
		Name:    l.filled(r.Get("value"), "a name"),
		Measure: l.knownMeasure(r.Get("measure")),
		When:    l.values(r.Get("when")),
		Gives:   l.figureIn(r.Get("gives"), 0),
		Source:  source(r),
		Origin:  origin(r),
	}
	if len(v.When) == 0 || len(v.When) > mostConditions {
		l.fault(r.Get("when"), "condition", fmt.Sprintf("one to %d conditions", mostConditions), "such as front wheel.tubeless_rated=yes; front tubeless set=present")
	}
	if l.once(r.Get("value")) {
		put(&l.tables.Values, v, func(a, b *model.ValueRule) bool { return a.Name == b.Name })
	}
}

func (l *layer) profile(r sheet.Row) {
	p := model.Profile{Name: l.filled(r.Get("profile"), "a name"), Source: source(r)}
	for _, entry := range list(r.Get("points").Text) {
		key, points, _ := cut(entry, "=")
		l.knownCriterion(r.Get("points"), key)
		n, ok := figure(points)
		if !ok || n < 0 {
			l.fault(r.Get("points"), "points", fmt.Sprintf("criterion=points; %q is none", entry), "such as braking=22; traction=18")
		}
		p.Points = append(p.Points, model.Priority{Criterion: key, Points: n})
	}
	if l.once(r.Get("profile")) {
		put(&l.tables.Profiles, p, func(a, b *model.Profile) bool { return a.Name == b.Name })
	}
}
