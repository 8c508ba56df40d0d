package datasets

import (
	"regexp"
	"strings"

	"firstbolt/datasets/sheet"
	"firstbolt/model"
)

// widestLine is how long a line of boxes may be, so that it fits a printed page.
const widestLine = 78

// BoxLine is the line of the printed page on which one fact is asked for, and which ReadAnswers understands once it is
// filled in:
//
//	[          ] mm   frame: seat_tube_bore_mm             a number, in the unit behind the box
//	[ ] IS   [ ] PM   [ ] flat   frame: rear_brake_mount   one choice: an x in its box
//	[                    ]   rear wheel: cog_carrier       one choice by its name, where they are too many for a line
//
// Boxes come first, what was asked last: slot, colon, fact. A "?" in the box behind the value says that it is in doubt.
// An empty box is a question still open. Two blanks end the fact's name; what stands behind them is a remark. Every
// other line is the page's own text, which must not end in the name of a slot, a colon and a fact that the slot has.
func BoxLine(slot string, f *model.Fact) string {
	asked := "   " + slot + ": " + f.Name
	if f.Kind == model.Number {
		return strings.TrimRight("["+strings.Repeat(" ", 10)+"] "+f.Unit, " ") + asked
	}
	var boxes []string
	for _, choice := range f.Allowed {
		boxes = append(boxes, "[ ] "+choice)
	}
	if line := strings.Join(boxes, "   ") + asked; len(boxes) > 0 && len(line) <= widestLine {
		return line
	}
	return "[" + strings.Repeat(" ", 20) + "]" + asked
}

// BikeLine begins the part of the page about one bike. Above the first one the rider's own bike is meant.
func BikeLine(name string) string { return "BIKE: " + name }

// PartLine begins the questions about one part of parts.csv, for its seller.
func PartLine(id string) string { return "PART: " + id }

var (
	sectionLine = regexp.MustCompile(`^\s*(BIKE|PART):\s*(\S.*?)\s*$`)
	askedLine   = regexp.MustCompile(`^\s*(\[.*\][^\[\]:]*):\s*(\S.*?)(?:\s{2,}.*)?\s*$`)
	bareLine    = regexp.MustCompile(`^\s*([^:]*?\S)\s+(\S[^:]*):\s*(\S+)\s*$`)
	oneBox      = regexp.MustCompile(`\[([^\[\]]*)\]([^\[\]]*)`)
	crossed     = regexp.MustCompile(`^[xX×✗✘✓✔☒*+](\s*\?)?$`)
)

// box is a box with what is printed behind it: a unit, a choice or nothing.
type box struct{ text, label string }

// boxes is a line of boxes with what it asks for, not looked up yet.
type boxes struct {
	list []box // those with something in them
	of   int   // how many there are
	slot string
	fact string
}

// boxesIn cuts a line apart; false where it is not a line of boxes.
func boxesIn(line string, t *model.Tables) (boxes, bool) {
	m := askedLine.FindStringSubmatch(line)
	if m == nil {
		return boxes{}, false
	}
	b := boxes{fact: m[2]}
	found := oneBox.FindAllStringSubmatch(m[1], -1)
	for i, one := range found {
		label := strings.Join(strings.Fields(one[2]), " ")
		if i == len(found)-1 {
			label, b.slot = labelAndSlot(label, t)
		}
		if text := strings.Trim(one[1], " \t\u00a0_.…"); text != "" {
			b.list = append(b.list, box{text, label})
		}
	}
	b.of = len(found)
	return b, true
}

// lostBox tells whether a line asks for a fact but has lost the box around its answer: "27.2 mm   frame: seat_tube_bore_mm".
func lostBox(line string, t *model.Tables) bool {
	m := bareLine.FindStringSubmatch(line)
	if m == nil {
		return false
	}
	_, slot := labelAndSlot(m[1]+" "+m[2], t)
	f := t.FactNamed(m[3])
	return f != nil && f.Has(slot) && sheet.Key(m[1]+m[2]) != sheet.Key(slot)
}

// longestName is how many words a slot's name has at most.
const longestName = 6

// labelAndSlot parts what stands between the last box and the colon: the longest slot's name at its end is the slot.
// Where none is there, the last word is one that is not known.
func labelAndSlot(text string, t *model.Tables) (label, slot string) {
	words, names := strings.Fields(text), append(slotNames(t), model.RiderSlot)
	for i := max(0, len(words)-longestName); i < len(words); i++ {
		if name, ok := sheet.Match(strings.Join(words[i:], " "), names); ok {
			return strings.Join(words[:i], " "), name
		}
	}
	if len(words) == 0 {
		return "", ""
	}
	return strings.Join(words[:len(words)-1], " "), words[len(words)-1]
}

// boxed is what the boxes say of the fact, as a cell of a sheet would; false, complained about, where they say nothing
// that can be used.
func (r *reader) boxed(b boxes, f *model.Fact, c sheet.Cell) (sheet.Cell, bool) {
	c.Text = b.list[0].text
	switch {
	case len(b.list) > 1:
		c.Text = b.list[1].text
		r.complain(c.Complain("two_boxes", "one box filled in", "leave only one; alternatives are written into measured.csv, such as IS or PM"))
		return c, false
	case f.Kind == model.Number:
		if label := b.list[0].label; label != f.Unit {
			c.Text += " " + label
		}
		return c, true
	case b.of == 1 && b.list[0].label == "":
		return c, true
	}
	choice, known := sheet.Match(b.list[0].label, f.Allowed)
	m := crossed.FindStringSubmatch(c.Text)
	if !known || m == nil && sheet.Key(c.Text) != sheet.Key(choice) {
		r.complain(c.Complain("box", "an x in the box before one of "+strings.Join(f.Allowed, ", "), "leave what is printed behind the boxes as it is"))
		return c, false
	}
	c.Text = choice
	if m != nil && m[1] != "" {
		c.Text += "?"
	}
	return c, true
}
