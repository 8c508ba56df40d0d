package ask

import (
	"bytes"
	"cmp"
	"context"
	"slices"
	"strings"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/datasets"
	"firstbolt/datasets/sheet"
	"firstbolt/model"
	"firstbolt/solver"
)

// Measure answers `measure`: what to measure first, as a page to take to the shed. With r.Read it takes the filled page
// back, writes measured.csv and answers with what is still open. An error is wrong use; whatever else goes wrong comes
// back as a Failure.
func Measure(ctx context.Context, r Request) (answer.Answer, error) {
	var taken takenBack
	if r.Read != "" {
		var err error
		if taken, err = readBack(r); err != nil || taken.failure != nil {
			return failureOrNil(taken.failure), err
		}
	}
	f, l, err := bench(r)
	if err != nil || l.failure != nil {
		return failureOrNil(l.failure), err
	}
	limited, cancel := limit(ctx, r.TimeLimit)
	defer cancel()
	fittings, err := solver.Fits(limited, f.q)
	if err != nil {
		return failed(ctx, r, err), nil
	}
	m := f.page(f.toMeasure(fittings))
	m.Read, m.Warnings = taken.back, append(taken.warnings, l.warnings...)
	return m, nil
}

// failureOrNil keeps a nil failure a nil answer.
func failureOrNil(f *answer.Failure) answer.Answer {
	if f == nil {
		return nil
	}
	return f
}

// page puts the questions in the order of the bench: those of bikes by slot, those for sellers by part; within them
// those first that most parts wait for.
func (f *fitter) page(facts []answer.ToMeasure) *answer.Measuring {
	m := &answer.Measuring{Head: head(f.r.Command, f.shed), Bike: f.q.Bike.Name, Cautions: f.lookOver()}
	t := f.shed.Tables
	slices.SortStableFunc(facts, func(a, b answer.ToMeasure) int {
		return cmp.Or(
			cmp.Compare(f.bikeOrder(a), f.bikeOrder(b)), strings.Compare(deref(a.ID), deref(b.ID)),
			cmp.Compare(t.SlotIndex(a.Slot), t.SlotIndex(b.Slot)), cmp.Compare(len(b.NeededFor), len(a.NeededFor)),
		)
	})
	for _, fact := range facts {
		box := answer.Box{ToMeasure: fact, Line: datasets.BoxLine(fact.Slot, t.FactNamed(fact.Fact))}
		switch {
		case fact.Slot == model.RiderSlot:
			m.Notes = append(m.Notes, "rider.csv lacks "+fact.Says+": "+asSentence(deref(fact.How)))
		case fact.OnOffer:
			box.Section = datasets.PartLine(*fact.ID)
			asked := func(b answer.Box) bool { return b.Section == box.Section && b.Fact == box.Fact }
			if !slices.ContainsFunc(m.Ask, asked) { // a part is one thing in all its places
				m.Ask = append(m.Ask, box)
			}
		default:
			box.Section = datasets.BikeLine(fact.Bike)
			m.Measure = append(m.Measure, box)
		}
	}
	m.Sheet = f.questions(slices.Concat(m.Measure, m.Ask))
	return m
}

// questions are rows of measured.csv without values; the note says how each is found.
func (f *fitter) questions(boxes []answer.Box) string {
	var out bytes.Buffer
	w := sheet.NewWriter(&out, sheet.Dialect{})
	row := func(cells ...string) {
		for _, c := range cells {
			w.Text(c)
		}
		_ = w.Row() // writing to memory cannot fail
	}
	row("bike", "part", "slot", "fact", "value", "note")
	for _, b := range boxes {
		bike := b.Bike
		if own := f.shed.OwnBike(); b.OnOffer || own != nil && own.Name == bike {
			bike = ""
		}
		row(bike, deref(b.ID), b.Slot, b.Fact, "", note(b.ToMeasure))
	}
	_ = w.Close()
	return out.String()
}

// note says what a question wants: the unit or the choices, and how it is found.
func note(m answer.ToMeasure) string {
	says := []string{m.Says}
	if len(m.Choices) > 0 {
		says = append(says, "one of "+strings.Join(m.Choices, ", "))
	}
	if m.How != nil {
		says = append(says, *m.How)
	}
	return strings.Join(says, ": ")
}

// bikeOrder is the place of a question's bike: the one on the bench first.
func (f *fitter) bikeOrder(m answer.ToMeasure) int {
	for i := range f.shed.Bikes {
		if f.shed.Bikes[i].Name == m.Bike && m.Bike != f.q.Bike.Name {
			return i + 1
		}
	}
	return 0
}

// lookOver is the list to look the bike over with before anything is bought.
func (f *fitter) lookOver() []answer.Caution {
	var list []answer.Caution
	for _, c := range f.shed.Tables.Cautions {
		if c.When == "before" {
			list = append(list, answer.Caution{Code: c.Code, Severity: "caution", When: c.When, Text: c.Text, CheckWith: c.CheckWith, Source: c.Source})
		}
	}
	return list
}
