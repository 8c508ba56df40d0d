package scoring

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"firstbolt/model"
)

// group are the rules of one measure in one slot. The first rule's fact decides, and so do the numbers of logarithms:
// without them nothing can be said, and a rating or an assumption stands in. The other facts are refinements; where one
// is missing it adds nothing.
type group struct {
	measure int
	slot    string
	rules   []*model.AmountRule
}

// groupRules sorts rules and assumptions by slot; within a slot in the order of curves.csv.
func groupRules(t *model.Tables) (map[string][]group, error) {
	bySlot, faults := map[string][]group{}, []error(nil)
	for i := range t.Amounts {
		r := &t.Amounts[i]
		if err := checkRule(t, r); err != nil {
			faults = append(faults, fmt.Errorf("%s: measure %s, slot %s: %w", place(r.Origin, "measures.csv"), r.Measure, r.Slot, err))
			continue
		}
		g := groupOf(bySlot, t.MeasureIndex(r.Measure), r.Slot)
		g.rules = append(g.rules, r)
	}
	for i := range t.Assumptions {
		a := &t.Assumptions[i]
		if err := checkAssumption(t, a); err != nil {
			faults = append(faults, fmt.Errorf("%s: measure %s, slot %s: %w", place(a.Origin, "assumptions.csv"), a.Measure, a.Slot, err))
			continue
		}
		groupOf(bySlot, t.MeasureIndex(a.Measure), a.Slot)
	}
	for _, groups := range bySlot {
		slices.SortFunc(groups, func(a, b group) int { return a.measure - b.measure })
	}
	return bySlot, errors.Join(faults...)
}

// groupOf finds or makes a group.
func groupOf(bySlot map[string][]group, measure int, slot string) *group {
	at := slices.IndexFunc(bySlot[slot], func(g group) bool { return g.measure == measure })
	if at < 0 {
		at = len(bySlot[slot])
		bySlot[slot] = append(bySlot[slot], group{measure: measure, slot: slot})
	}
	return &bySlot[slot][at]
}

func checkRule(t *model.Tables, r *model.AmountRule) error {
	if r.Slot == "" {
		return errors.New("no slot is named, want one of slots.csv")
	}
	if err := checkPlace(t, r.Measure, r.Slot); err != nil {
		return err
	}
	kind := model.Number
	switch f := t.FactNamed(r.Fact); {
	case r.Fact == "" || r.Fact == "condition":
		kind = model.Choice
	case r.Fact == "grams" || r.Fact == "seasons":
	case f == nil:
		return fmt.Errorf("there is no fact %q in facts.csv", r.Fact)
	default:
		kind = f.Kind
	}
	tabled := r.Form == model.Table || r.Form == model.Factor
	if !tabled && kind != model.Number && r.Fact != "" {
		return fmt.Errorf("the fact %q is no number, want the form table or factor with rows", r.Fact)
	}
	if tabled && r.Fact != "" && len(r.Rows) == 0 {
		return errors.New("the form table or factor has no rows, want some such as yes:1; no:0")
	}
	return checkRows(r)
}

func checkRows(r *model.AmountRule) error {
	last := math.Inf(-1)
	for _, row := range r.Rows {
		if r.Form == model.Factor && row.Gives <= 0 {
			return fmt.Errorf("the factor %v has no logarithm, want more than 0", row.Gives)
		}
		if row.Choice != "" {
			continue
		}
		if row.At <= last {
			return fmt.Errorf("the row for %v follows that for %v, want rising numbers", row.At, last)
		}
		last = row.At
	}
	return nil
}

func checkAssumption(t *model.Tables, a *model.Assumption) error {
	if err := checkPlace(t, a.Measure, a.Slot); err != nil {
		return err
	}
	if a.Low > a.Likely || a.Likely > a.High {
		return fmt.Errorf("low %v, likely %v, high %v, want them in this order", a.Low, a.Likely, a.High)
	}
	return nil
}

// checkPlace wants a known measure and a known slot; an assumption without a slot is for what no slot carries.
func checkPlace(t *model.Tables, measure, slot string) error {
	if t.MeasureIndex(measure) < 0 {
		return fmt.Errorf("there is no measure %q in curves.csv", measure)
	}
	if slot != "" && t.SlotIndex(slot) < 0 {
		return fmt.Errorf("there is no slot %q in slots.csv", slot)
	}
	return nil
}

// reckon is what one rule makes of a fact's value: the number it gives and how.
func reckon(r *model.AmountRule, v model.Value) (gives float64, form string) {
	coef := r.Coef
	switch r.Form {
	case model.Log:
		return float64(coef * math.Log(v.Float())), fmt.Sprintf("%s x ln %s", number(coef), number(v.Float()))
	case model.Linear:
		return float64(coef * v.Float()), fmt.Sprintf("%s x %s", number(coef), number(v.Float()))
	}
	if coef == 0 {
		coef = 1 // an empty cell: the rows say it all
	}
	looked, row := lookUp(r.Rows, v)
	if row == "" {
		return 0, "no row, counts nothing"
	}
	if r.Form == model.Factor {
		looked, row = math.Log(looked), fmt.Sprintf("ln %s, row %s", number(looked), row)
	} else {
		row = fmt.Sprintf("%s, row %s", number(looked), row)
	}
	if coef != 1 {
		row = number(coef) + " x " + row
	}
	return float64(coef * looked), row
}

// lookUp finds the row of a choice, of several alternatives the one that gives least; a number lies between two rows
// or is taken as the nearest end. No row: "".
func lookUp(rows []model.AmountRow, v model.Value) (gives float64, row string) {
	if v.Number {
		return between(rows, v.Float())
	}
	for _, r := range rows {
		if r.Choice != "" && v.Is(r.Choice) && (row == "" || r.Gives < gives) {
			gives, row = r.Gives, r.Choice
		}
	}
	return gives, row
}

func between(rows []model.AmountRow, x float64) (gives float64, row string) {
	var before *model.AmountRow
	for i := range rows {
		r := &rows[i]
		switch {
		case r.Choice != "":
			continue
		case x > r.At:
		case before == nil || x == r.At:
			return r.Gives, number(r.At)
		default:
			share := (x - before.At) / (r.At - before.At)
			return before.Gives + float64(share*(r.Gives-before.Gives)), number(before.At) + " to " + number(r.At)
		}
		before = r
	}
	if before == nil {
		return 0, ""
	}
	return before.Gives, number(before.At)
}
