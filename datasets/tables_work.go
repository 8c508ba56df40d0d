package datasets

import (
	"fmt"
	"strings"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

func (l *layer) tool(r sheet.Row) {
	t := model.Tool{Name: l.filled(r.Get("tool"), "a name"), Owned: l.yesIn(r.Get("owned")), Source: source(r)}
	price, known := l.moneyIn(r.Get("price"))
	if !known {
		l.fault(r.Get("price"), "price", "what the tool costs", "such as 8.00")
	}
	t.Price = price
	if l.once(r.Get("tool")) {
		put(&l.tables.Tools, t, func(a, b *model.Tool) bool { return a.Name == b.Name })
	}
}

func (l *layer) job(r sheet.Row) {
	j := model.Job{
		Name:      l.filled(r.Get("job"), "a name"),
		Slots:     l.slotsIn(r.Get("slots")),
		Change:    model.JobChange(l.choiceIn(r.Get("change"), "fit", "remove", "service")),
		Place:     l.filled(r.Get("place"), "where the work happens"),
		Shared:    r.Get("shared").Text,
		Minutes:   l.wholeIn(r.Get("minutes")),
		Skill:     1,
		Tools:     list(r.Get("tools").Text),
		Restores:  r.Get("restores").Text,
		ShopPrice: l.shopPrice(r.Get("shop_price")),
		Optional:  l.yesIn(r.Get("optional")),
		Source:    source(r),
		Origin:    origin(r),
	}
	if c := r.Get("skill"); c.Text != "" {
		j.Skill = l.choiceIn(c, "1", "2", "3") + 1
	}
	j.PerSeason, _ = l.moneyIn(r.Get("per_season"))
	j.When = l.jobConditions(r.Get("when"), j.Slots)
	j.SmallParts = l.smallParts(r.Get("small_parts"))
	l.jobWords(r, &j)
	if j.Shared == "" {
		j.Shared = j.Name
	}
	if l.once(r.Get("job")) {
		put(&l.tables.Jobs, j, func(a, b *model.Job) bool { return a.Name == b.Name })
	}
}

// jobWords complains about a job's words that no other table knows.
func (l *layer) jobWords(r sheet.Row, j *model.Job) {
	var tools, places []string
	for _, t := range l.tables.Tools {
		tools = append(tools, t.Name)
	}
	for _, s := range l.tables.Slots {
		places = append(places, s.Place)
	}
	for _, t := range j.Tools {
		if !contains(tools, t) {
			l.fault(r.Get("tools"), "unknown_tool", fmt.Sprintf("tools of tools.csv; %q is none", t), sheet.DidYouMean(t, tools, "add it to tools.csv"))
		}
	}
	if !contains(places, j.Place) {
		l.fault(r.Get("place"), "unknown_place", "a place of slots.csv", sheet.DidYouMean(j.Place, places, "slots.csv lists the places"))
	}
	if len(j.Slots) == 0 {
		l.fault(r.Get("slots"), "empty", "the slots whose change brings the job", "such as front tyre; front tube")
	}
	if (j.Change == model.OnService) != (j.Restores != "") || j.Restores != "" && !contains(conditionWords(), j.Restores) {
		l.fault(r.Get("restores"), "restores", "the condition that a service restores, and only for a service", "write good for a service, nothing otherwise")
	}
}

// jobConditions reads "prebled=no" and "condition=tired": facts of the thing the work is done on.
func (l *layer) jobConditions(c sheet.Cell, slots []string) []model.Term {
	var terms []model.Term
	for _, entry := range list(c.Text) {
		name, constant, _ := cut(entry, "=")
		f := &model.Fact{Name: name, Kind: model.Choice, Allowed: conditionWords(), Slots: slots}
		if name != "condition" {
			f = l.factIn(c, "", name)
		}
		if f == nil {
			continue
		}
		if !hasAny(f, slots) {
			l.fault(c, "unknown_fact", "facts of "+strings.Join(slots, ", "), name+" belongs to "+strings.Join(f.Slots, ", "))
		}
		l.valueIn(c, f, constant, model.Origin{})
		terms = append(terms, model.Term{Coef: 1, Fact: name, Constant: constant})
	}
	return terms
}

// smallParts reads "olive and insert=3.50; fluid=4.00".
func (l *layer) smallParts(c sheet.Cell) []model.SmallPart {
	var parts []model.SmallPart
	for _, entry := range list(c.Text) {
		name, amount, _ := cut(entry, "=")
		price, ok := hundredths(amount)
		if !ok {
			l.fault(c, "price", fmt.Sprintf("name=amount; %q is none", entry), "such as olive and insert=3.50")
		}
		parts = append(parts, model.SmallPart{Name: name, Price: price})
	}
	return parts
}

// shopPrice reads an amount; "ask" or an empty cell means that the shop must be asked first.
func (l *layer) shopPrice(c sheet.Cell) model.Stated[model.Money] {
	if c.Text == "ask" {
		return model.Stated[model.Money]{}
	}
	price, known := l.moneyIn(c)
	if !known {
		return model.Stated[model.Money]{}
	}
	return model.Say(price, model.Origin{Sheet: c.Sheet, Row: c.Line, Cell: c.Ref(), Raw: c.Text, How: model.Measured})
}

func (l *layer) caution(r sheet.Row) {
	c := model.Caution{
		Code:      l.filled(r.Get("caution"), "a short name"),
		Slots:     l.slotsIn(r.Get("slots")),
		When:      r.Get("when").Text,
		Text:      l.filled(r.Get("text"), "what to be careful about"),
		CheckWith: l.filled(r.Get("check_with"), "whom or what to check with"),
		Source:    source(r),
	}
	l.choiceIn(r.Get("when"), "free", "before", "work", "first-ride")
	if l.once(r.Get("caution")) {
		put(&l.tables.Cautions, c, func(a, b *model.Caution) bool { return a.Code == b.Code })
	}
}
