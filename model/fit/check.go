package fit

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"firstbolt/model"
)

// Reading is one fact that a rule read, with the value and where it came from.
type Reading struct {
	Ref
	Thing string // name of the thing that has it
	Value model.Value
}

// Result is one rule on a built bike.
type Result struct {
	Rule *model.Rule
	Outcome
	Left, Right []Reading // the facts of both sides
	Says        string    // what is wrong, or what must be known; empty where the rule is met
}

// Check evaluates every rule on a bike, by slot; rules that do not concern it are left out. The results stand in the
// order of severity and rule id, whatever the order of the tables.
func Check(t *model.Tables, built map[string]model.Thing, allow []string) []Result {
	s := sight{tables: t, things: built}
	var results []Result
	for i := range t.Rules {
		s.rule = &t.Rules[i]
		if res, concerned := s.result(allow); concerned {
			results = append(results, res)
		}
	}
	return inOrder(results)
}

// result evaluates the rule and says what it read; false where it does not concern the bike.
func (s sight) result(allow []string) (res Result, concerned bool) {
	o := Judge(s.tables, s.rule, s.things, allow)
	if o.State == NotConcerned {
		return Result{}, false
	}
	return Result{Rule: s.rule, Outcome: o, Left: s.readings(s.rule.Left), Right: s.readings(s.rule.Right), Says: s.says(o)}, true
}

// inOrder sorts by severity and rule id, without echoes.
func inOrder(results []Result) []Result {
	results = withoutEchoes(results)
	slices.SortFunc(results, func(a, b Result) int {
		return cmp.Or(cmp.Compare(a.Severity, b.Severity), strings.Compare(a.Rule.ID, b.Rule.ID))
	})
	return results
}

// withoutEchoes leaves out what practice disagrees on where a stricter rule over the same two sides is broken anyway.
func withoutEchoes(results []Result) []Result {
	return slices.DeleteFunc(slices.Clone(results), func(mild Result) bool {
		return mild.State == Broken && mild.Rule.Severity == model.BothSides && slices.ContainsFunc(results, func(strict Result) bool {
			return strict.State == Broken && strict.Rule.Severity < model.BothSides && strict.Rule.Relation == mild.Rule.Relation &&
				slices.Equal(strict.Rule.Left, mild.Rule.Left) && slices.Equal(strict.Rule.Right, mild.Rule.Right)
		})
	})
}

func (s sight) readings(side model.Side) []Reading {
	var list []Reading
	for _, t := range side {
		if t.Slot == "" {
			continue
		}
		th := s.things[t.Slot]
		list = append(list, Reading{Ref: Ref{t.Slot, t.Fact}, Thing: th.Name, Value: th.Facts[t.Fact]})
	}
	return list
}

// says is the rule's own sentence with both values, or how to learn what is not known.
func (s sight) says(o Outcome) string {
	switch {
	case len(o.Missing) > 0:
		var list []string
		for _, ref := range o.Missing {
			list = append(list, s.ask(ref))
		}
		return "not known: " + strings.Join(list, "; ")
	case o.State == Broken || o.State == Allowed:
		says := sentence(s.rule.Fails, s.text(s.rule.Left), s.text(s.rule.Right))
		if piece, there := s.between(); there {
			says += fmt.Sprintf(" (with %s between them)", piece.Name)
		}
		return says
	default:
		return ""
	}
}

// sentence puts both values into a rule's own sentence.
func sentence(fails, left, right string) string {
	return strings.ReplaceAll(strings.ReplaceAll(fails, "{left}", left), "{right}", right)
}

// ask says which fact is not known and how it is measured.
func (s sight) ask(ref Ref) string {
	f := s.tables.FactNamed(ref.Fact)
	if f == nil || f.How == "" {
		return fmt.Sprintf("%s of the %s", ref.Fact, ref.Slot)
	}
	return fmt.Sprintf("%s of the %s (%s)", ref.Fact, ref.Slot, f.How)
}

// text is a side's value as a sentence says it: sums to a tenth.
func (s sight) text(side model.Side) string {
	v, missing := s.side(side)
	if len(missing) > 0 {
		for _, t := range side {
			if _, there := s.in(t.Slot); t.Slot != "" && !there {
				return "nothing"
			}
		}
		return "unknown"
	}
	if v.Number && len(side) > 1 {
		v.Milli = int64(math.Round(float64(v.Milli)/100)) * 100
	}
	return v.String()
}
