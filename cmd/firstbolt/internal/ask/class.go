package ask

import (
	"fmt"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/solver"
)

// ridings are the use classes of ASTM F2043 in plain words (F2043-13; drops and jumps by its editions since 2013).
var ridings = map[int]string{
	1: "surfaced roads, wheels on the ground", 2: "gravel and gentle trails, drops to 15 cm",
	3: "rough trails, jumps and drops under 61 cm", 4: "steep rough downhill, jumps under 122 cm", 5: "more than that",
}

// madeFor says that the kept bike is not made for the riding it is to be used for; null where it is, or where another
// bike is bought anyway.
func (f *filler) madeFor() *answer.MadeFor {
	c := f.ans.Class
	if c == nil || f.ans.Decision == solver.Switch {
		return nil
	}
	m := &answer.MadeFor{Class: c.Made, Known: c.Known, Riding: c.Riding}
	if c.Else != nil {
		m.Elsewhere = &answer.Elsewhere{Bike: c.Else.Name, Cost: f.money(c.Cost)}
	}
	m.Says = f.madeForText(c)
	return m
}

// madeForText says it in sentences: first what the bike is made for, then what that means for the plan, then the least
// money at which a bike made for the riding is to be had.
func (f *filler) madeForText(c *solver.Class) string {
	bike := f.shed.OwnBike()
	if f.ans.Kept != nil {
		bike = f.ans.Kept.Bike
	}
	name := "your bike"
	if bike != nil {
		name = bike.Name
	}
	ride := fmt.Sprintf("you ride class %d (%s)", c.Riding, ridings[c.Riding])
	text := fmt.Sprintf("%s is made for use class %d (%s) and %s: no part cures that. What follows is made for class %d.", name, c.Made, ridings[c.Made], ride, c.Made)
	if !c.Known {
		text = fmt.Sprintf("Nobody said what riding %s is made for, and %s. Read the label on its frame and the manual; until then take it for use class %d (%s), as is usual for inexpensive bikes.",
			name, ride, c.Made, ridings[c.Made])
	}
	text = asSentence(text)
	if c.Else == nil {
		return text + " None of the other bikes on your sheets is known to be made for it."
	}
	return text + fmt.Sprintf(" The least money for a bike made for it: %s %s (%s).", f.money(c.Cost), f.currency, c.Else.Name)
}
