package datasets

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

// list is a cell's entries, which are separated by semicolons.
func list(text string) []string {
	var entries []string
	for _, e := range strings.Split(text, ";") {
		if e = strings.TrimSpace(e); e != "" {
			entries = append(entries, e)
		}
	}
	return entries
}

// cut splits an entry at the last occurrence of sep: "ln 0.4:0" at ":".
func cut(entry, sep string) (before, after string, ok bool) {
	i := strings.LastIndex(entry, sep)
	if i < 0 {
		return entry, "", false
	}
	return strings.TrimSpace(entry[:i]), strings.TrimSpace(entry[i+len(sep):]), true
}

// withPoint is a number with a decimal comma as one with a point. What could be thousands is left as it is, and is no
// number then: "1,200".
func withPoint(text string) string {
	whole, part, comma := strings.Cut(text, ",")
	thousands := len(part) == 3 && strings.Trim(whole, "-0") != ""
	if !comma || thousands || strings.ContainsAny(part, ",.") || strings.Contains(whole, ".") {
		return text
	}
	return whole + "." + part
}

// mostDigits before the decimal sign: more than any bicycle has of anything.
const mostDigits = 9

// milli is a decimal number in whole thousandths, exactly; ok is false for anything else, also for more decimals.
func milli(text string) (thousandths int64, ok bool) {
	whole, part, _ := strings.Cut(withPoint(text), ".")
	if len(part) > 3 || whole == "" || len(whole) > mostDigits {
		return 0, false
	}
	n, err := strconv.ParseInt(whole+part+"000"[len(part):], 10, 64)
	return n, err == nil
}

// figure is a number as tables write it: "0.85", "ln 0.4" or "-ln 2.6" (the natural logarithm).
func figure(text string) (float64, bool) {
	text = withPoint(text)
	if rest, found := strings.CutPrefix(text, "-ln "); found {
		f, err := strconv.ParseFloat(rest, 64)
		return -math.Log(f), err == nil && f > 0
	}
	if rest, found := strings.CutPrefix(text, "ln "); found {
		f, err := strconv.ParseFloat(rest, 64)
		return math.Log(f), err == nil && f > 0
	}
	f, err := strconv.ParseFloat(text, 64)
	return f, err == nil && math.Abs(f) < math.Pow10(mostDigits) // which NaN is not
}

// figureIn is the number in a cell; empty stands for the other value.
func (l *layer) figureIn(c sheet.Cell, empty float64) float64 {
	if c.Text == "" {
		return empty
	}
	f, ok := figure(c.Text)
	if !ok {
		l.fault(c, "number", `a number such as 0.85, or "ln 0.4"`, "write it with a decimal point")
	}
	return f
}

// wholeIn is the whole number in a cell; an empty cell is 0.
func (l *layer) wholeIn(c sheet.Cell) int {
	if c.Text == "" {
		return 0
	}
	n, err := strconv.Atoi(c.Text)
	if err != nil || n < 0 {
		l.fault(c, "number", "a whole number such as 20", "write digits only")
	}
	return n
}

// milliIn is the number in a cell in thousandths; an empty cell is 0.
func (l *layer) milliIn(c sheet.Cell) int64 {
	if c.Text == "" {
		return 0
	}
	n, ok := milli(c.Text)
	if !ok {
		l.fault(c, "number", "a number with at most three decimals, such as 27.2", "write it with a decimal point")
	}
	return n
}

// moneyIn is the amount in a cell in hundredths; an empty cell is 0 and not known.
func (l *layer) moneyIn(c sheet.Cell) (model.Money, bool) {
	if c.Text == "" {
		return 0, false
	}
	m, ok := hundredths(c.Text)
	if !ok {
		l.fault(c, "price", "an amount such as 12.50", "write it with a decimal point and at most two decimals")
	}
	return m, ok
}

// hundredths is an amount of money in hundredths of the whole unit; never below zero.
func hundredths(text string) (model.Money, bool) {
	n, ok := milli(text)
	return model.Money(n / 10), ok && n%10 == 0 && n >= 0
}

// yesIn tells whether the cell says yes; an empty cell is no.
func (l *layer) yesIn(c sheet.Cell) bool {
	switch c.Text {
	case "yes":
		return true
	case "", "no":
		return false
	}
	l.fault(c, "yes_no", "yes or no", "write yes or no")
	return false
}

// choiceIn is the position of the cell's text among the words; a fault and 0 where it is none of them.
func (l *layer) choiceIn(c sheet.Cell, words ...string) int {
	for i, w := range words {
		if c.Text == w {
			return i
		}
	}
	l.fault(c, "choice", "one of "+strings.Join(words, ", "), sheet.DidYouMean(c.Text, words, "write one of them"))
	return 0
}

// filled is the text of a cell that must not be empty.
func (l *layer) filled(c sheet.Cell, what string) string {
	if c.Text == "" {
		l.fault(c, "empty", what, "fill the cell")
	}
	return c.Text
}

// source is where the row's figures come from: a standard, "common practice", "judgement" or "from memory". Riders need
// not say it of their own rows.
func source(r sheet.Row) string {
	if text := r.Get("source").Text; text != "" {
		return text
	}
	return "the rider's own"
}

// slotNames are the names of all slots in their order.
func (l *layer) slotNames() []string {
	var names []string
	for _, s := range l.tables.Slots {
		names = append(names, s.Name)
	}
	return names
}

// knownSlot complains about a name that is no slot. The rider counts as one: rules may look at facts of the rider.
func (l *layer) knownSlot(c sheet.Cell, name string) {
	if name != model.RiderSlot && l.tables.SlotNamed(name) == nil {
		l.fault(c, "unknown_slot", fmt.Sprintf("a slot; %q is none", name), sheet.DidYouMean(name, l.slotNames(), "`firstbolt schema` lists the slots"))
	}
}

// slotsIn are the slots that a cell lists.
func (l *layer) slotsIn(c sheet.Cell) []string {
	names := list(c.Text)
	for _, name := range names {
		l.knownSlot(c, name)
	}
	return names
}

// factIn finds a fact by name, and in the slot unless that is "". "condition" and "grams" are no rows of facts.csv.
func (l *layer) factIn(c sheet.Cell, slot, name string) *model.Fact {
	f := l.tables.FactNamed(name)
	if f == nil {
		l.fault(c, "unknown_fact", fmt.Sprintf("a fact; %q is none", name), sheet.DidYouMean(name, l.factNames(), "`firstbolt schema` lists the facts"))
		return nil
	}
	if slot != "" && !f.Has(slot) {
		l.fault(c, "unknown_fact", fmt.Sprintf("a fact that a %s has; %s has none called %s", slot, slot, name),
			name+" belongs to "+strings.Join(f.Slots, ", "))
	}
	return f
}

func (l *layer) factNames() []string {
	var names []string
	for _, f := range l.tables.Facts {
		names = append(names, f.Name)
	}
	return names
}
