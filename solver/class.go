package solver

import (
	"slices"

	"firstbolt/model"
	"firstbolt/model/fit"
)

// presumedClass is the use class that a bike is taken to have where nobody read its label: gravel and gentle trails
// (ASTM F2043 condition 2; that it is so for inexpensive bikes is judgement).
const presumedClass = 2

// Class tells that the kept bike is not known to be made for the rider's riding (use classes 1 to 5, ASTM F2043).
type Class struct {
	Made   int         // what the frame is made for
	Known  bool        // false: nobody said, and Made is taken for it
	Riding int         // what the rider does
	Else   *model.Bike // the cheapest other bike that is made for it; nil where none on the sheets is known to be
	Cost   model.Money // of Else, less what the kept bike brings
}

// class compares the kept bike's frame with the rider's riding; nil where they agree or the rider did not say.
func (a *asker) class() *Class {
	if a.kept == nil {
		return nil
	}
	riding := a.q.Shed.Rider.Riding
	made, known := useClass(a.q.Shed.Tables, a.kept.bike)
	if !riding.Known || riding.Value <= made {
		return nil
	}
	c := &Class{Made: made, Known: known, Riding: riding.Value}
	for _, e := range a.rivals {
		if class, known := useClass(a.q.Shed.Tables, e.bike); known && class >= riding.Value && (c.Else == nil || e.base < c.Cost) {
			c.Else, c.Cost = e.bike, e.base
		}
	}
	return c
}

// useClass is what a bike's frame is made for, and whether that was said.
func useClass(t *model.Tables, b *model.Bike) (class int, known bool) {
	if v := t.FittedThing(b, "frame").Facts["use_class"]; v.Known() {
		return int(v.Milli / 1000), true
	}
	return presumedClass, false
}

// madeFor is the bike with the riding that it is made for in place of the rider's, where its frame is known to be made
// for less: no part cures that, so its parts need be no better either.
func madeFor(t *model.Tables, b *model.Bike) *model.Bike {
	made, known := useClass(t, b)
	rider := b.InSlot(model.RiderSlot)
	if !known || rider == nil || rider.Facts["riding"].Milli <= int64(made)*1000 {
		return b
	}
	lesser := *b
	lesser.Fitted = slices.Clone(b.Fitted)
	for i := range lesser.Fitted {
		if f := &lesser.Fitted[i]; f.Slot == model.RiderSlot {
			facts := model.Facts{}
			for name, v := range f.Facts {
				facts[name] = v
			}
			facts["riding"] = model.NumberValue(int64(made)*1000, f.Facts["riding"].Origin)
			f.Facts = facts
		}
	}
	return &lesser
}

// barred is the reason why a bike for sale is no choice as it stands: it breaks a rule that keeps people from getting
// hurt, it is not made for this rider, or it does not fit the rider. Empty where it is one.
func (a *asker) barred(b *model.Bike) string {
	t := a.q.Shed.Tables
	for _, r := range fit.Check(t, t.Standing(b), a.q.Options.Allow) {
		rider := slices.Contains(fit.Slots(r.Rule), model.RiderSlot)
		if r.State == fit.Broken && len(r.Missing) == 0 && (r.Severity == model.Danger || rider && r.Severity == model.Firm) {
			return r.Says
		}
	}
	if b.SizeOK == model.No {
		return "it is not the rider's size"
	}
	return ""
}
