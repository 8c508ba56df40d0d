package datasets

import (
	"fmt"
	"slices"
	"strings"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

// ruleFault is what is wrong with a rule whose words are all known: the column to mend, what is wanted there, and how.
type ruleFault struct {
	column, code, wanted, fix string
	warning                   bool
}

// ruleFaults finds what makes a rule useless: sides that cannot be compared, conditions that never hold together, a
// relation that never holds or never fails whatever the facts are.
func ruleFaults(t *model.Tables, r *model.Rule) []ruleFault {
	p := prospect{tables: t, rule: r}
	for _, find := range []func() []ruleFault{p.sidesFaults, p.bridgeFaults, p.conditionFaults, p.neverFaults} {
		if faults := find(); len(faults) > 0 {
			return faults
		}
	}
	return nil
}

// prospect is a rule with all that its facts may turn out to be.
type prospect struct {
	tables *model.Tables
	rule   *model.Rule
}

// factOf is the fact of a term; nil for a constant.
func (p prospect) factOf(t model.Term) *model.Fact {
	switch {
	case t.Slot == "" || t.Fact == "":
		return nil
	case t.Fact == "condition":
		return &model.Fact{Name: t.Fact, Kind: model.Choice, Allowed: conditionWords()}
	}
	return p.tables.FactNamed(t.Fact)
}

// isNumber tells whether a term is a number rather than a choice.
func (p prospect) isNumber(t model.Term) bool {
	if f := p.factOf(t); f != nil {
		return f.Kind == model.Number
	}
	return t.Constant == ""
}

func (p prospect) isNumeric(s model.Side) bool {
	return !slices.ContainsFunc(s, func(t model.Term) bool { return !p.isNumber(t) })
}

func isConstant(s model.Side) bool {
	return !slices.ContainsFunc(s, func(t model.Term) bool { return t.Slot != "" })
}

// sidesFaults are faults of what is compared with what.
func (p prospect) sidesFaults() []ruleFault {
	r := p.rule
	if isConstant(r.Left) && isConstant(r.Right) {
		return []ruleFault{{column: "left", code: "no_fact", wanted: "a fact on one side at least", fix: "write slot.fact, such as front rotor.rotor_mm"}}
	}
	numbers := p.isNumeric(r.Left) && p.isNumeric(r.Right)
	ordered := r.Relation == model.AtMost || r.Relation == model.AtLeast
	for _, s := range p.sides() {
		if fault := p.choiceInSum(s); fault != nil {
			return []ruleFault{*fault}
		}
		if ordered && !p.isNumeric(s.terms) {
			return []ruleFault{{column: s.column, code: "not_a_number", wanted: "a number on both sides; " + p.says(s.terms), fix: "write same, or pair_in with a table of its own"}}
		}
	}
	if r.Margin != 0 && (!numbers || r.Relation == model.PairIn) {
		return []ruleFault{{column: "margin", code: "margin", wanted: "an empty cell, for only two numbers can differ by a margin", fix: "delete it"}}
	}
	if r.Table != "" && r.Relation != model.PairIn {
		return []ruleFault{{column: "table", code: "table", wanted: "an empty cell, for only pair_in looks values up", fix: "delete it, or write pair_in as the relation"}}
	}
	return p.constantFaults()
}

type namedSide struct {
	column string
	terms  model.Side
}

func (p prospect) sides() []namedSide {
	return []namedSide{{"left", p.rule.Left}, {"right", p.rule.Right}}
}

// choiceInSum finds a choice that is added or multiplied.
func (p prospect) choiceInSum(s namedSide) *ruleFault {
	for _, t := range s.terms {
		if !p.isNumber(t) && (len(s.terms) > 1 || t.Coef != 1 && t.Slot != "") {
			return &ruleFault{column: s.column, code: "sum", wanted: "numbers only in a sum; " + p.says(model.Side{{Coef: 1, Slot: t.Slot, Fact: t.Fact, Constant: t.Constant}}), fix: "a choice stands alone"}
		}
	}
	return nil
}

// constantFaults finds a choice that the fact on the other side cannot have.
func (p prospect) constantFaults() []ruleFault {
	for i, s := range p.sides() {
		other := p.sides()[1-i].terms
		if len(s.terms) != 1 || s.terms[0].Slot != "" || s.terms[0].Constant == "" || len(other) != 1 || p.rule.Relation != model.Same {
			continue
		}
		word, f := s.terms[0].Constant, p.factOf(other[0])
		switch {
		case f == nil:
		case f.Kind == model.Number:
			return []ruleFault{{column: s.column, code: "not_a_number", wanted: fmt.Sprintf("a number, for %s is one; %q is none", f.Name, word), fix: "write a number, slot.fact, or a sum of them"}}
		case len(f.Allowed) > 0 && !contains(f.Allowed, word):
			return []ruleFault{{
				column: s.column, code: "choice", wanted: fmt.Sprintf("for %s one of %s; %q is none", f.Name, strings.Join(f.Allowed, ", "), word),
				fix: sheet.DidYouMean(word, f.Allowed, "write one of them, or slot.fact"),
			}}
		}
	}
	return nil
}

// bridgeFaults are faults of the piece that joins the two sides.
func (p prospect) bridgeFaults() []ruleFault {
	b := p.rule.Bridge
	if b == nil {
		return nil
	}
	fault := func(wanted, fix string) []ruleFault {
		return []ruleFault{{column: "bridge", code: "bridge", wanted: wanted, fix: fix}}
	}
	if p.rule.Relation != model.Same {
		return fault("an empty cell, for only what must be the same can be joined by a piece", "write same as the relation, or delete the bridge")
	}
	fits := func(fact string, s model.Side) bool {
		return p.isNumber(model.Term{Coef: 1, Slot: b.Slot, Fact: fact}) == p.isNumeric(s)
	}
	switch {
	case b.Step != "" && (!fits(b.Step, p.rule.Left) || !p.isNumeric(p.rule.Left) || !p.isNumeric(p.rule.Right)):
		return fault("a step only between numbers", "use from=FACT to=FACT for choices")
	case b.From != "" && !fits(b.From, p.rule.Left):
		return fault(b.From+" to be of the kind of the left side; "+p.says(p.rule.Left), "name the fact of the "+b.Slot+" that meets the left side")
	case b.To != "" && !fits(b.To, p.rule.Right):
		return fault(b.To+" to be of the kind of the right side; "+p.says(p.rule.Right), "name the fact of the "+b.Slot+" that meets the right side")
	}
	return nil
}

// conditionFaults finds conditions that can never hold together, so that the rule never applies.
func (p prospect) conditionFaults() []ruleFault {
	never := func(why, fix string) []ruleFault {
		return []ruleFault{{column: "when", code: "never_applies", wanted: "conditions that can hold together; this rule can never apply: " + why, fix: fix}}
	}
	said, gone := map[string]string{}, map[string]bool{}
	for _, w := range p.rule.When {
		name := strings.TrimSuffix(w.Slot+"."+w.Fact, ".")
		if before, twice := said[name]; twice && before != w.Constant {
			return never(fmt.Sprintf("%s is not both %s and %s", name, before, w.Constant), "write one row for each")
		}
		said[name] = w.Constant
		gone[w.Slot] = gone[w.Slot] || w.Fact == "" && w.Constant == "none"
		if f := p.factOf(w); f != nil && f.Kind == model.Number && f.Low < f.High {
			if n, ok := milli(w.Constant); ok && (n < f.Low || n > f.High) {
				return never(fmt.Sprintf("%s goes from %s to %s", name, tidyMilli(f.Low), tidyMilli(f.High)), "write a number between them")
			}
		}
	}
	for _, terms := range [][]model.Term{p.rule.Left, p.rule.Right, p.rule.When} {
		for _, t := range terms {
			if gone[t.Slot] && (t.Fact != "" || t.Constant != "none") {
				return never("it looks at the "+t.Slot+" where that is not there", "delete "+t.Slot+"=none")
			}
		}
	}
	return nil
}

// neverFaults finds a rule that can never hold, or never fail.
func (p prospect) neverFaults() []ruleFault {
	can, must := p.outcomes()
	sides := p.says(p.rule.Left) + "; on the right " + p.says(p.rule.Right)
	switch {
	case !can && p.rule.Relation == model.PairIn:
		return []ruleFault{{column: "table", code: "never_holds", wanted: fmt.Sprintf("a table with pairs of these facts; this rule can never hold: %s; no row of %q has both", sides, p.rule.Table), fix: "add the pairs that go together to pairs.csv"}}
	case !can:
		return []ruleFault{{column: "right", code: "never_holds", wanted: "sides that can meet; this rule can never hold: " + sides, fix: `correct it, or write at_most 0 for what must not be there at all`}}
	case must && !p.rule.Needs:
		return []ruleFault{{column: "right", code: "never_fails", wanted: "sides that can differ; this rule can never fail: " + sides, fix: "correct it, or delete the row", warning: true}}
	}
	return nil
}
