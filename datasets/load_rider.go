package datasets

import (
	"fmt"
	"regexp"
	"strings"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

// riderRow is a row of rider.csv.
type riderRow struct {
	Setting sheet.Cell `csv:"setting"`
	Value   sheet.Cell `csv:"value"`
}

// loadRider reads rider.csv and lays the flags over it. The currency comes first: all amounts depend on it.
func (l *loader) loadRider() {
	settings := map[string]sheet.Cell{}
	r := l.flagReader(sheet.Undecided)
	for _, s := range l.read("rider", riderTable) {
		r = l.reader(s)
		l.settings(settings, decode[riderRow](l, s))
	}
	l.currency, _ = sheet.CurrencyNamed("EUR")
	flags := l.flagReader(l.options.Decimal)
	given := map[string]sheet.Cell{}
	for _, s := range l.options.Settings {
		given[s.Name] = sheet.Cell{Sheet: s.Flag, Name: s.Name, Text: s.Value}
		delete(settings, s.Name)
		if priorityForms[s.Name] {
			forgetPriorities(settings)
		}
	}
	for _, from := range []struct {
		*reader
		cells map[string]sheet.Cell
	}{{r, settings}, {flags, given}} {
		if c, ok := from.cells["currency"]; ok && c.Plain() != "" {
			from.setCurrency(c)
		}
	}
	l.shed.Currency = model.Currency{Code: l.currency.Code, Digits: l.currency.Digits}
	r.settings(settings)
	flags.settings(given)
	r.done()
	flags.done()
}

// priorityForms are the three ways to say what one cares about; a flag of one puts away the sheet's others.
var priorityForms = map[string]bool{"priorities": true, "ranking": true, "profile": true}

func forgetPriorities(settings map[string]sheet.Cell) {
	for name := range priorityForms {
		delete(settings, name)
	}
}

// settings sorts the rows of rider.csv by what they set.
func (l *loader) settings(settings map[string]sheet.Cell, rows []riderRow) {
	seen := map[string]sheet.Cell{}
	for _, row := range rows {
		name, ok := settingNamed(row.Setting.Text)
		if !ok {
			if row.Setting.Plain() != "" {
				l.complain(row.Setting.Complain("unknown_setting", "a setting", sheet.DidYouMean(row.Setting.Text, settingNames(), listed(settingNames()))))
			}
			continue
		}
		if l.once(seen, row.Setting, "setting") {
			c := row.Value
			c.Name = name
			settings[name] = c
		}
	}
}

func settingNamed(text string) (string, bool) {
	for _, s := range riderSettings {
		if _, ok := sheet.Match(text, append([]string{s.Name}, s.Aliases...)); ok {
			return s.Name, true
		}
	}
	return "", false
}

func settingNames() []string {
	names := make([]string, len(riderSettings))
	for i, s := range riderSettings {
		names[i] = s.Name
	}
	return names
}

func (r *reader) setCurrency(c sheet.Cell) {
	currency, ok := sheet.CurrencyNamed(c.Text)
	if !ok {
		r.complain(c.Complain("currency", "an ISO 4217 code such as EUR", sheet.DidYouMean(c.Text, sheet.CurrencyCodes(), "write three letters")))
		return
	}
	r.l.currency = currency
}

// settings reads every setting into the rider.
func (r *reader) settings(cells map[string]sheet.Cell) {
	rider := &r.l.shed.Rider
	for name, c := range cells {
		if c.Plain() == "" {
			continue
		}
		if !r.numbers(rider, name, c) {
			r.texts(rider, name, c)
		}
	}
}

// numbers reads the settings that are numbers; false where the name is another.
func (r *reader) numbers(rider *model.Rider, name string, c sheet.Cell) bool {
	switch name {
	case "riding":
		rider.Riding = r.riding(c)
	case "rider_kg":
		rider.Mass = r.kilograms(c, within{15, 250, "kg"})
	case "load_kg":
		rider.Load = r.kilograms(c, within{0, 100, "kg"})
	case "height_cm":
		rider.HeightCM = r.number(c, within{90, 240, "cm"})
	case "inseam_cm":
		rider.InseamCM = r.number(c, within{40, 130, "cm"})
	case "budget":
		rider.Budget = r.money(c)
	case "per_month":
		rider.PerMonth = r.money(c)
	case "skill":
		rider.Skill = r.whole(c, within{1, 3, ""})
	case "hours":
		rider.Hours = r.number(c, within{0, 1000, "hours"})
	case "most_parts":
		rider.MostParts = r.whole(c, within{0, 1000, ""})
	case "horizon_seasons":
		rider.Horizon = r.number(c, within{0, 30, "seasons"})
	case "worth":
		rider.Worth = r.number(c, within{0, 1000, ""})
	case "tax_percent":
		rider.TaxPercent = r.tax(c)
	default:
		return false
	}
	return true
}

// texts reads the settings that are words.
func (r *reader) texts(rider *model.Rider, name string, c sheet.Cell) {
	switch name {
	case "priorities":
		rider.Priorities = r.priorities(c)
	case "ranking":
		rider.Ranking = r.ranking(c)
	case "profile":
		names := make([]string, len(r.l.tables.Profiles))
		for i, p := range r.l.tables.Profiles {
			names[i] = p.Name
		}
		if profile, ok := r.known(c, "profile", names); ok {
			rider.Profile = model.Say(profile, originOf(c, false))
		}
	case "work":
		if work, ok := r.Choice(c, []string{"self", "shop"}); ok {
			rider.Work = model.Say(map[string]model.Work{"self": model.Self, "shop": model.ShopWork}[work], originOf(c, false))
		}
	case "like":
		r.l.like = stated{c.Plain(), c}
	}
}

// riding reads 1 to 5, or the words for them.
func (r *reader) riding(c sheet.Cell) model.Stated[int] {
	for i, words := range ridingWords {
		if sheet.Key(words) == sheet.Key(c.Text) {
			return model.Say(i+1, originOf(c, false))
		}
	}
	if !strings.ContainsAny(c.Text, "0123456789") {
		r.complain(c.Complain("riding", "1 to 5, or one of "+strings.Join(ridingWords, ", "), sheet.DidYouMean(c.Text, ridingWords, "3 is rough trails")))
		return model.Stated[int]{}
	}
	return r.whole(c, within{1, 5, ""})
}

func (r *reader) kilograms(c sheet.Cell, w within) model.Stated[model.Grams] {
	kg := r.Measure(c, "kg")
	if !kg.Given || !r.inside(c, kg.N, w) {
		return model.Stated[model.Grams]{}
	}
	return model.Say(model.Grams(kg.N), originOf(c, kg.Doubt)) // thousandths of a kilogram are grams
}

var commaBeforeName = regexp.MustCompile(`,\s*(\pL)`)

// priorities reads "braking=5; grip=3": at least one of them above 0.
func (r *reader) priorities(c sheet.Cell) model.Stated[[]model.Priority] {
	var all []model.Priority
	sum, before := 0.0, len(r.Complaints)
	seen := map[string]bool{}
	list := c
	if !strings.Contains(c.Text, ";") {
		list.Text = commaBeforeName.ReplaceAllString(c.Text, "; $1")
	}
	for _, p := range r.Pairs(list) {
		named := p.Value
		named.Text = p.Name
		key, ok := r.criterion(named)
		points := r.number(p.Value, within{0, 1_000_000, ""})
		if !ok || !points.Known {
			continue
		}
		if seen[key] {
			r.complain(named.Complain("twice", "each of them once", "keep one of the two"))
		}
		seen[key] = true
		sum += points.Value
		all = append(all, model.Priority{Criterion: key, Points: points.Value})
	}
	if len(r.Complaints) > before {
		return model.Stated[[]model.Priority]{}
	}
	if sum <= 0 {
		r.complain(c.Complain("priorities", "points above 0 for at least one of "+criterionWords(r.l.tables), "such as braking=5; grip=3"))
		return model.Stated[[]model.Priority]{}
	}
	return model.Say(all, originOf(c, false))
}

// ranking reads "braking > grip > chain stays on".
func (r *reader) ranking(c sheet.Cell) model.Stated[[]string] {
	var keys []string
	before := len(r.Complaints)
	separator := ">"
	if !strings.Contains(c.Text, separator) {
		separator = ","
	}
	seen := map[string]bool{}
	for _, name := range strings.Split(strings.ReplaceAll(c.Text, ";", separator), separator) {
		one := c
		if one.Text = strings.TrimSpace(name); one.Text == "" {
			continue
		}
		key, ok := r.criterion(one)
		if ok && seen[key] {
			r.complain(one.Complain("twice", "each of them once", "it stands further left already"))
		}
		seen[key] = true
		keys = append(keys, key)
	}
	if len(r.Complaints) > before || len(keys) == 0 {
		return model.Stated[[]string]{}
	}
	return model.Say(keys, originOf(c, false))
}

// criterion finds a criterion by its key or by any of the words riders use for it.
func (r *reader) criterion(c sheet.Cell) (string, bool) {
	var names []string
	for _, cr := range r.l.tables.Criteria {
		words := append([]string{cr.Key, cr.Says}, cr.Words...)
		if _, ok := sheet.Match(c.Text, words); ok {
			return cr.Key, true
		}
		names = append(names, words...)
	}
	r.complain(c.Complain("unknown_criterion", "something to care about", sheet.DidYouMean(c.Text, names, "known are "+criterionWords(r.l.tables))))
	return "", false
}

// criterionWords lists the criteria by their plain words with the keys beside them, where the two differ.
func criterionWords(t *model.Tables) string {
	words := make([]string, len(t.Criteria))
	for i, c := range t.Criteria {
		words[i] = c.Says
		if c.Says != c.Key {
			words[i] = fmt.Sprintf("%s (%s)", c.Says, c.Key)
		}
	}
	return strings.Join(words, ", ")
}
