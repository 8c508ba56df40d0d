package datasets

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"sync"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

// factFits complains where a fact's kind, choices, limits and slots do not go together.
func (l *layer) factFits(r sheet.Row, f *model.Fact) {
	low, high := r.Get("low"), r.Get("high")
	switch f.Kind {
	case model.YesOrNo:
		if len(f.Allowed) > 0 {
			l.fault(r.Get("allowed"), "allowed", "an empty cell, for the choices are yes and no", "delete it")
		}
		f.Allowed = []string{"yes", "no"}
	case model.Choice:
		if len(f.Allowed) == 0 {
			l.fault(r.Get("allowed"), "empty", "the choices of "+f.Name, "such as IS; PM; flat")
		}
	case model.Number:
		if len(f.Allowed) > 0 {
			l.fault(r.Get("allowed"), "allowed", "an empty cell, for a number has limits and no choices", "delete it, or write choice as the kind")
		}
		if (low.Text == "") != (high.Text == "") || low.Text != "" && f.Low >= f.High {
			l.fault(high, "range", "a number above low, or both empty", "exchange low and high, or write both")
		}
	}
	if f.Kind != model.Number && low.Text+high.Text != "" {
		l.fault(low, "range", "limits only of a number", "delete low and high, or write number as the kind")
	}
	if len(f.Slots) == 0 {
		l.fault(r.Get("slots"), "empty", "the slots whose things have it", "such as front tyre; rear tyre")
	}
	l.plainName(r.Get("fact"))
}

// plainName complains about a name that the small languages of the tables could not tell from their own signs.
func (l *layer) plainName(c sheet.Cell) {
	if i := strings.IndexAny(c.Text, ".;:=*+/[]{}"); i >= 0 {
		l.fault(c, "name", fmt.Sprintf("a name without %q, which has a meaning of its own in the tables", c.Text[i:i+1]), "write letters, digits, blanks, - and _")
	}
}

// takenNames complains about own facts that have the name of a column, which would win. The program's own facts of such
// a name are filled from that column.
func takenNames(t *model.Tables, rows []sheet.Row) []sheet.Complaint {
	var faults []sheet.Complaint
	for _, row := range rows {
		c := row.Get("fact")
		if t.FactNamed(c.Text) == nil && (columnNames()[sheet.Key(c.Text)] || t.CriterionNamed(c.Text) != nil) {
			faults = append(faults, c.Complain("taken", "a name that is not a column's", "the sheets have a column of this name; choose another"))
		}
	}
	return faults
}

// columnNames are the names and aliases of the columns beside which facts have theirs, as sheet.Key writes them.
var columnNames = sync.OnceValue(func() map[string]bool {
	names := map[string]bool{}
	for _, t := range []sheet.Table{partsTable, bikesTable, fittedTable, measuredTable} {
		for _, c := range t.Columns {
			for _, name := range append([]string{c.Name}, c.Aliases...) {
				names[sheet.Key(name)] = true
			}
		}
	}
	return names
})

// inLimits complains about a number that facts.csv does not allow for the fact.
func (l *layer) inLimits(c sheet.Cell, f *model.Fact, milli int64) {
	if f.Low < f.High && (milli < f.Low || milli > f.High) {
		l.fault(c, "range", fmt.Sprintf("%s from %s to %s; found %s", f.Name, tidyMilli(f.Low), tidyMilli(f.High), tidyMilli(milli)), "correct it, or the limits in facts.csv")
	}
}

// ownPhrases complains about a phrase that means another kind already: the first would always win.
func (l *layer) ownPhrases(r sheet.Row, k *model.Kind) {
	if l.phrases == nil {
		l.phrases = map[string]string{}
		for i := range l.tables.Kinds {
			l.notePhrases(&l.tables.Kinds[i])
		}
	}
	for i, phrase := range kindNames(k) {
		kind, taken := l.phrases[sheet.Key(phrase)]
		if !taken || kind == k.Name {
			continue
		}
		c := r.Get("kind")
		if i > 0 {
			c = r.Get("aliases")
		}
		l.fault(c, "taken", fmt.Sprintf("phrases of its own; %q means the kind %q", phrase, kind), "choose another, or write the kind's name exactly so to replace it")
		return
	}
	l.notePhrases(k)
}

func (l *layer) notePhrases(k *model.Kind) {
	for _, phrase := range kindNames(k) {
		l.phrases[sheet.Key(phrase)] = k.Name
	}
}

// assumesNoDanger complains about a typical fact that a danger rule reads, unless the phrase itself says the value: a
// danger rule must never pass on what nobody said.
func (l *layer) assumesNoDanger(c sheet.Cell, k *model.Kind) {
	for _, name := range slices.Sorted(maps.Keys(k.Facts)) {
		if strings.Contains(k.Name, k.Facts[name].String()) {
			continue
		}
		for _, place := range k.Places {
			for _, slot := range place {
				if id := l.dangerOf(slot, name); id != "" {
					l.fault(c, "assumes_danger", fmt.Sprintf("no fact that a danger rule reads; %s is read by %s", name, id), "say it of each part, or in the kind's own words")
					return
				}
			}
		}
	}
}

// dangerOf is the danger rule whose sides read the fact in the slot; empty where none does.
func (l *layer) dangerOf(slot, fact string) string {
	for i := range l.tables.Rules {
		r := &l.tables.Rules[i]
		reads := func(t model.Term) bool { return t.Slot == slot && t.Fact == fact }
		if r.Severity == model.Danger && (slices.ContainsFunc(r.Left, reads) || slices.ContainsFunc(r.Right, reads)) {
			return r.ID
		}
	}
	return ""
}

// forgetDanger takes from kinds and typical bikes what an own danger rule reads: it must be said of each thing.
func forgetDanger(t *model.Tables) {
	l := &layer{tables: t}
	for _, k := range t.Kinds {
		for name, v := range k.Facts {
			for _, place := range k.Places {
				reads := func(slot string) bool { return l.dangerOf(slot, name) != "" }
				if !strings.Contains(k.Name, v.String()) && slices.ContainsFunc(place, reads) {
					delete(k.Facts, name)
				}
			}
		}
	}
	for _, k := range t.Likes {
		for name := range k.Facts {
			if l.dangerOf(k.Slot, name) != "" {
				delete(k.Facts, name)
			}
		}
	}
}

// brokenRules are the faults of rules that an own table has made useless: a fact that became a choice, a slot's fact
// that is gone. Own rules were looked at on their own rows.
func brokenRules(t *model.Tables) []sheet.Complaint {
	var faults []sheet.Complaint
	for i := range t.Rules {
		r := &t.Rules[i]
		for _, f := range append(lostFacts(t, r), ruleFaults(t, r)...) {
			if !f.warning {
				faults = append(faults, sheet.Complaint{
					Code: "broken_rule", Sheet: "facts.csv", Found: r.ID,
					Wanted: fmt.Sprintf("facts with which this rule still works (%s: %s)", f.column, f.wanted),
					Fix:    "give your own fact another name, or write the rule anew in rules.csv",
				})
				break
			}
		}
	}
	return faults
}

// lostFacts are a rule's facts that its slots do not have, or not with the value that a condition asks for.
func lostFacts(t *model.Tables, r *model.Rule) []ruleFault {
	for _, s := range []namedSide{{"left", r.Left}, {"right", r.Right}, {"when", r.When}} {
		for _, term := range s.terms {
			if term.Slot == "" || term.Fact == "" || term.Fact == "condition" {
				continue
			}
			f := t.FactNamed(term.Fact)
			if f == nil || !f.Has(term.Slot) {
				return []ruleFault{{column: s.column, wanted: term.Slot + "." + term.Fact}}
			}
			if _, number := milli(term.Constant); term.Constant != "" && (f.Kind == model.Number && !number || len(f.Allowed) > 0 && !contains(f.Allowed, term.Constant)) {
				return []ruleFault{{column: s.column, wanted: term.Slot + "." + term.Fact + "=" + term.Constant}}
			}
		}
	}
	return nil
}

// uselessPairs are the faults of own rows of pairs.csv that no rule can ever look up.
func uselessPairs(t *model.Tables, rows []sheet.Row) []sheet.Complaint {
	var tables []string
	for i := range t.Rules {
		if name := t.Rules[i].Table; name != "" && !contains(tables, name) {
			tables = append(tables, name)
		}
	}
	var faults []sheet.Complaint
	for _, row := range rows {
		c := row.Get("table")
		if !contains(tables, c.Text) {
			faults = append(faults, c.Warn("unused_table", "a table that a rule looks up", sheet.DidYouMean(c.Text, tables, "add a rule with pair_in and this table to rules.csv")))
			continue
		}
		for _, column := range []string{"left", "right"} {
			if cell := row.Get(column); cell.Text != "" && !someRuleHas(t, c.Text, column, cell.Text) {
				faults = append(faults, cell.Complain("choice", "a value that the rules of "+c.Text+" can meet", sheet.DidYouMean(cell.Text, wordsOf(t, c.Text, column), "facts.csv lists the choices")))
			}
		}
	}
	return faults
}

// sideNamed is the left or the right side.
func sideNamed(r *model.Rule, column string) model.Side {
	if column == "left" {
		return r.Left
	}
	return r.Right
}

// someRuleHas tells whether one side of a rule of the lookup table can have the value.
func someRuleHas(t *model.Tables, table, column, word string) bool {
	return slices.ContainsFunc(t.Rules, func(r model.Rule) bool {
		s := sideNamed(&r, column)
		return r.Table == table && (len(s) != 1 || prospect{t, &model.Rule{}}.possible(s[0], word))
	})
}

// wordsOf are the choices of one side of the rules of a lookup table.
func wordsOf(t *model.Tables, table, column string) []string {
	var all []string
	for i := range t.Rules {
		if r := &t.Rules[i]; r.Table == table && len(sideNamed(r, column)) == 1 {
			words, _ := prospect{t, &model.Rule{}}.words(sideNamed(r, column)[0])
			all = append(all, words...)
		}
	}
	return all
}
