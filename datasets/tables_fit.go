package datasets

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

func (l *layer) slot(r sheet.Row) {
	s := model.Slot{
		Name:     l.filled(r.Get("slot"), "a name for the slot"),
		Required: l.yesIn(r.Get("required")),
		Place:    l.filled(r.Get("place"), "where its bench work happens"),
		Says:     r.Get("says").Text,
	}
	l.plainName(r.Get("slot"))
	if s.Name == model.RiderSlot {
		l.fault(r.Get("slot"), "taken", "a slot of the bike", "the rider is there already; what you say of yourself stands in rider.csv")
	}
	if l.once(r.Get("slot")) {
		put(&l.tables.Slots, s, func(a, b *model.Slot) bool { return a.Name == b.Name })
	}
}

func (l *layer) fact(r sheet.Row) {
	f := model.Fact{
		Name:     l.filled(r.Get("fact"), "a name for the fact"),
		Kind:     model.FactKind(l.choiceIn(r.Get("kind"), "number", "choice", "yes/no")),
		Unit:     r.Get("unit").Text,
		Allowed:  list(r.Get("allowed").Text),
		Low:      l.milliIn(r.Get("low")),
		High:     l.milliIn(r.Get("high")),
		Slots:    l.slotsIn(r.Get("slots")),
		How:      r.Get("how").Text,
		Tool:     r.Get("tool").Text,
		Mistakes: r.Get("mistakes").Text,
		Source:   source(r),
	}
	l.factFits(r, &f)
	f.Plausible = l.plausible(r.Get("plausible"), &f, origin(r))
	if l.once(r.Get("fact")) {
		put(&l.tables.Facts, f, func(a, b *model.Fact) bool { return a.Name == b.Name })
	}
}

// plausible reads "27.2=45; 30.9=30": values with their shares in percent, or values alone.
func (l *layer) plausible(c sheet.Cell, f *model.Fact, o model.Origin) []model.Plausible {
	var all []model.Plausible
	total := 0
	o.How = model.Assumed
	for _, entry := range list(c.Text) {
		text, percent, shared := cut(entry, "=")
		p := model.Plausible{Value: l.valueIn(c, f, text, o)}
		if shared {
			share, ok := milli(percent)
			if !ok || share < 0 || share%1000 != 0 {
				l.fault(c, "share", fmt.Sprintf("whole percent after %s=", text), "such as 27.2=45; 30.9=30")
			}
			p.Share = int(share / 1000)
		}
		total += p.Share
		all = append(all, p)
	}
	if total > 100 {
		l.fault(c, "share", "shares of at most 100 percent together", fmt.Sprintf("they come to %d", total))
	}
	return all
}

// valueIn is a fact's value as tables write it: a number, or one of the allowed choices, or several joined by " or ".
// A choice of which facts.csv lists none takes any word.
func (l *layer) valueIn(c sheet.Cell, f *model.Fact, text string, o model.Origin) model.Value {
	o.Raw = text
	if f.Kind == model.Number {
		n, ok := milli(text)
		if !ok {
			l.fault(c, "number", fmt.Sprintf("a number for %s; %q is none", f.Name, text), "such as 27.2")
		} else {
			l.inLimits(c, f, n)
		}
		return model.NumberValue(n, o)
	}
	choices := strings.Split(text, " or ")
	for _, choice := range choices {
		if len(f.Allowed) > 0 && !contains(f.Allowed, choice) {
			l.fault(c, "choice", fmt.Sprintf("for %s one of %s; %q is none", f.Name, strings.Join(f.Allowed, ", "), choice),
				sheet.DidYouMean(choice, f.Allowed, "write one of them"))
		}
	}
	return model.ChoiceValue(o, choices...)
}

func contains(words []string, word string) bool {
	for _, w := range words {
		if w == word {
			return true
		}
	}
	return false
}

var severities = []string{"danger", "rule", "both-sides", "caution"}

func (l *layer) rule(r sheet.Row) {
	rule := model.Rule{
		ID:       l.filled(r.Get("rule"), "a name for the rule"),
		Left:     l.side(r.Get("left")),
		Relation: model.Relation(l.choiceIn(r.Get("relation"), "same", "at_most", "at_least", "pair_in")),
		Right:    l.side(r.Get("right")),
		Margin:   l.milliIn(r.Get("margin")),
		Table:    r.Get("table").Text,
		Bridge:   l.bridge(r.Get("bridge")),
		Needs:    l.yesIn(r.Get("needs")),
		Severity: model.Severity(l.choiceIn(r.Get("severity"), severities...)),
		Fails:    l.filled(r.Get("fails"), "the sentence when the rule is broken"),
		Mend:     r.Get("mend").Text,
		Source:   source(r),
		URL:      r.Get("url").Text,
		Origin:   origin(r),
	}
	rule.When, rule.Stated = split(l.conditions(r.Get("when")))
	if _, filled := l.tables.Pairs[rule.Table]; rule.Relation == model.PairIn && !filled {
		l.fault(r.Get("table"), "unknown_table", "the name of a table in pairs.csv", sheet.DidYouMean(rule.Table, l.pairTables(), "add its rows to pairs.csv"))
	}
	if l.good {
		l.wholeRule(r, &rule)
	}
	if l.once(r.Get("rule")) {
		put(&l.tables.Rules, rule, func(a, b *model.Rule) bool { return a.ID == b.ID })
	}
}

// wholeRule complains about what no single cell shows.
func (l *layer) wholeRule(r sheet.Row, rule *model.Rule) {
	for _, f := range ruleFaults(l.tables, rule) {
		if f.warning {
			l.warn(r.Get(f.column), f.code, f.wanted, f.fix)
		} else {
			l.fault(r.Get(f.column), f.code, f.wanted, f.fix)
		}
	}
	for _, word := range placeholder.FindAllString(rule.Fails, -1) {
		if word != "{left}" && word != "{right}" {
			l.fault(r.Get("fails"), "placeholder", fmt.Sprintf("no words in braces but {left} and {right}; %s is none", word), "write {left} or {right} for the two values")
		}
	}
	for _, e := range ends {
		if id := rule.ID + "." + e.side; slices.ContainsFunc(l.tables.Rules, func(o model.Rule) bool { return o.ID == id }) {
			l.warn(r.Get("rule"), "one_more", "a name of its own", fmt.Sprintf("it stands beside %s; to replace that, write {side} for front and rear in its slots", id))
			return
		}
	}
}

var placeholder = regexp.MustCompile(`\{[^{}]*\}`)

func (l *layer) pairTables() []string {
	var names []string
	for name := range l.tables.Pairs {
		names = append(names, name)
	}
	return names
}

// side reads a sum of terms: "chain.links", "0.5*chainring.ring_max + 2", or a choice such as "no".
func (l *layer) side(c sheet.Cell) model.Side {
	var side model.Side
	for _, text := range strings.Split(l.filled(c, "slot.fact, a sum of them, or a choice"), " + ") {
		side = append(side, l.term(c, strings.TrimSpace(text)))
	}
	for _, t := range side {
		if len(side) > 1 && t.Constant != "" {
			l.fault(c, "sum", "numbers and slot.fact in a sum; "+t.Constant+" is neither", "a choice stands alone")
		}
	}
	return side
}

// term reads one summand: "2", "chain.links", "0.5*chainring.ring_max" or a choice.
func (l *layer) term(c sheet.Cell, text string) model.Term {
	if f, ok := figure(text); ok {
		return model.Term{Coef: f}
	}
	t := model.Term{Coef: 1}
	if factor, rest, found := strings.Cut(text, "*"); found {
		f, ok := figure(strings.TrimSpace(factor))
		if !ok {
			l.fault(c, "number", "a number before *", "such as 0.5*chainring.ring_max")
		}
		t.Coef, text = f, strings.TrimSpace(rest)
	}
	slot, fact, dotted := strings.Cut(text, ".")
	if !dotted || !startsWithLetter(text) {
		return model.Term{Constant: text}
	}
	t.Slot, t.Fact = slot, fact
	l.slotFact(c, slot, fact)
	return t
}

func startsWithLetter(text string) bool {
	for _, r := range text {
		return unicode.IsLetter(r)
	}
	return false
}

// slotFact complains where the slot or its fact is not known, and returns the fact. Things have "condition" besides.
func (l *layer) slotFact(c sheet.Cell, slot, fact string) *model.Fact {
	l.knownSlot(c, slot)
	if fact == "condition" {
		return &model.Fact{Name: fact, Kind: model.Choice, Allowed: conditionWords()}
	}
	if l.tables.SlotNamed(slot) == nil {
		slot = ""
	}
	return l.factIn(c, slot, fact)
}

// conditionWords are the conditions of fitted things.
func conditionWords() []string {
	var words []string
	for c := model.Good; c <= model.Unsafe; c++ {
		words = append(words, c.String())
	}
	return words
}

// conditions reads "front brake caliper.drive=hydraulic mineral; front tubeless set=present".
func (l *layer) conditions(c sheet.Cell) []model.Term {
	var terms []model.Term
	for _, entry := range list(c.Text) {
		name, constant, ok := cut(entry, "=")
		slot, fact, dotted := strings.Cut(name, ".")
		t := model.Term{Coef: 1, Slot: slot, Fact: fact, Constant: constant}
		switch {
		case !ok:
			l.fault(c, "condition", fmt.Sprintf("slot.fact=value; %q is none", entry), "such as front wheel.tubeless_rated=yes")
		case !dotted:
			l.knownSlot(c, slot)
			if constant != "present" && constant != "none" {
				l.fault(c, "condition", slot+"=present or "+slot+"=none", "name a fact of the slot, or write present or none")
			}
		default:
			if f := l.slotFact(c, slot, fact); f != nil && constant != known {
				t.Constant = l.oneValue(c, f, constant)
			}
		}
		terms = append(terms, t)
	}
	return terms
}

// known in a condition asks only that somebody stated the fact.
const known = "known"

// values are conditions that ask for values; that a fact is known at all is worth nothing.
func (l *layer) values(c sheet.Cell) []model.Term {
	when, stated := split(l.conditions(c))
	for _, t := range stated {
		l.fault(c, "condition", fmt.Sprintf("a value of %s.%s", t.Slot, t.Fact), "\"known\" is for fit rules")
	}
	return when
}

// split parts the facts that must be stated from the other conditions.
func split(terms []model.Term) (when, stated []model.Term) {
	for _, t := range terms {
		if t.Constant == known {
			t.Constant = ""
			stated = append(stated, t)
		} else {
			when = append(when, t)
		}
	}
	return when, stated
}

// oneValue is a value that a condition asks for, as things have it: one choice, or a number without needless zeros.
func (l *layer) oneValue(c sheet.Cell, f *model.Fact, text string) string {
	v := l.valueIn(c, f, text, model.Origin{})
	if len(v.Choices) > 1 {
		l.fault(c, "condition", fmt.Sprintf("one value of %s; %q are several", f.Name, text), "write one row for each")
	}
	return v.String()
}

// bridge reads "front brake adapter: step=step_mm" or "seatpost sleeve: from=sleeve_inner_mm to=sleeve_outer_mm".
func (l *layer) bridge(c sheet.Cell) *model.Bridge {
	if c.Text == "" {
		return nil
	}
	slot, words, _ := strings.Cut(c.Text, ":")
	b := &model.Bridge{Slot: strings.TrimSpace(slot)}
	l.knownSlot(c, b.Slot)
	for _, word := range strings.Fields(words) {
		name, fact, _ := strings.Cut(word, "=")
		switch name {
		case "step":
			b.Step = fact
		case "from":
			b.From = fact
		case "to":
			b.To = fact
		default:
			l.fault(c, "bridge", `"SLOT: step=FACT" or "SLOT: from=FACT to=FACT"`, "write it like one of them")
			continue
		}
		l.slotFact(c, b.Slot, fact)
	}
	if (b.Step == "") == (b.From == "" || b.To == "") {
		l.fault(c, "bridge", "either step, or both from and to", "such as seatpost sleeve: from=sleeve_inner_mm to=sleeve_outer_mm")
	}
	return b
}

func (l *layer) pair(r sheet.Row) {
	p := model.Pair{
		Left:     l.filled(r.Get("left"), "the left value of the pair"),
		Right:    l.filled(r.Get("right"), "the right value of the pair"),
		Severity: model.Firm,
		Source:   source(r),
	}
	table := l.filled(r.Get("table"), "the table the pair belongs to")
	if c := r.Get("severity"); c.Text != "" {
		p.Severity = [...]model.Severity{model.Firm, model.BothSides}[l.choiceIn(c, "rule", "both-sides")]
	}
	if !l.once(r.Get("table"), r.Get("left"), r.Get("right")) {
		return
	}
	if l.tables.Pairs == nil {
		l.tables.Pairs = map[string][]model.Pair{}
	}
	rows := l.tables.Pairs[table]
	put(&rows, p, func(a, b *model.Pair) bool { return a.Left == b.Left && a.Right == b.Right })
	l.tables.Pairs[table] = rows
}
