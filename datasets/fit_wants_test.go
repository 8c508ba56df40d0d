package datasets_test

import (
	"slices"
	"testing"

	"firstbolt/model"
	"firstbolt/model/fit"
)

// asked is what a requirement says of a part: the answer, and the way that gives it where it is not met as things stand.
func asked(q *fit.Requirement, part *model.Part) (fit.Answer, *fit.Way) {
	for _, w := range q.If {
		if v := part.Facts[w.Fact]; !v.Is(w.Constant) && v.String() != w.Constant {
			return fit.Fits, nil
		}
	}
	v := part.Facts[q.Fact]
	switch {
	case q.Sum != nil:
		sum := 0.0
		for _, t := range q.Sum {
			sum += t.Coef * float64(part.Facts[t.Fact].Milli)
		}
		v = model.NumberValue(int64(sum), model.Origin{})
	case q.Fact == "":
		return q.Answer, nil
	}
	if q.Does.Has(v) {
		return fit.Fits, nil
	}
	for i := range q.Ways {
		if w := &q.Ways[i]; w.Values.Has(v) {
			return wayAnswer(w), w
		}
	}
	return fit.DoesNotFit, nil
}

func wayAnswer(w *fit.Way) fit.Answer {
	switch {
	case len(w.Measure) > 0:
		return fit.MeasureFirst
	case len(w.Pieces)+len(w.Off) > 0:
		return fit.FitsWith
	case len(w.Allow) > 0:
		return fit.BothSides
	default:
		return fit.Fits
	}
}

// TestWantsAgreesWithAlone: a thing with facts drawn at random is called fitting exactly where it meets every
// requirement of its slot. Where it meets them under an allowance it fits under it, and the rules of a requirement that
// is met with a piece, or once a piece is off, hold on the bike with it.
func TestWantsAgreesWithAlone(t *testing.T) {
	t.Parallel()
	l := newLot(t, 1)
	answers := map[fit.Answer]int{}
	tables := l.shed.Tables
	for range 25 {
		bike := l.bike()
		bench := fit.On(tables, bike, nil)
		for _, s := range tables.Slots {
			wants := bench.Wants(s.Name)
			for range 6 {
				part := l.part(s.Name, wants, bike)
				answer, results := bench.Alone(part, part.Places[0])
				answers[answer]++
				if !agrees(t, tables, bike, part, wants, answer) {
					t.Fatalf("%s on %s: %s: %v\n%+v", part.Name, bike.Name, answer, part.Facts, results)
				}
			}
		}
	}
	for _, a := range []fit.Answer{fit.Fits, fit.FitsWith, fit.BothSides, fit.MeasureFirst, fit.DoesNotFit} {
		if answers[a] < 20 {
			t.Errorf("%s was drawn %d times only", a, answers[a])
		}
	}
}

func agrees(t *testing.T, tables *model.Tables, bike *model.Bike, part *model.Part, wants []fit.Requirement, answer fit.Answer) bool {
	t.Helper()
	worst, openSum := fit.Fits, false
	var allow []string
	for i := range wants {
		one, way := asked(&wants[i], part)
		worst = max(worst, one)
		// Of a sum it is not said that a thing like the old one need not be measured.
		openSum = openSum || wants[i].Sum != nil && one == fit.MeasureFirst
		switch {
		case way == nil:
		case len(way.Measure) == 0 && len(way.Pieces)+len(way.Off) > 0:
			if !holdsWith(t, tables, bike, part, &wants[i], way) {
				return false
			}
		case one == fit.BothSides:
			allow = append(allow, way.Allow...)
		}
	}
	if (worst == fit.Fits) != (answer == fit.Fits) && !(answer == fit.Fits && worst == fit.MeasureFirst && openSum) {
		t.Errorf("Wants says %s", worst)
		return false
	}
	if worst != fit.BothSides || slices.ContainsFunc(wants, func(q fit.Requirement) bool { a, _ := asked(&q, part); return a == fit.FitsWith }) {
		return true
	}
	allowed, _ := fit.On(tables, bike, allow).Alone(part, part.Places[0])
	if answer != fit.BothSides || allowed != fit.Fits {
		t.Errorf("both sides, with %v %s", allow, allowed)
		return false
	}
	return true
}

// holdsWith puts the pieces of a way into the bike, or takes them off it, and asks the requirement's rules again.
func holdsWith(t *testing.T, tables *model.Tables, bike *model.Bike, part *model.Part, q *fit.Requirement, way *fit.Way) bool {
	t.Helper()
	changed := *bike
	changed.Fitted = slices.DeleteFunc(slices.Clone(bike.Fitted), func(f model.Fitted) bool {
		return slices.Contains(way.Off, f.Slot) || slices.ContainsFunc(way.Pieces, func(p fit.Piece) bool { return p.Bridge.Slot == f.Slot })
	})
	for _, slot := range way.Off {
		changed.Fitted = append(changed.Fitted, model.Fitted{Slot: slot, None: true})
	}
	for _, p := range way.Pieces {
		from, to := p.From, p.To
		if !from.Known() {
			from = part.Facts[q.Fact]
		}
		if !to.Known() {
			to = part.Facts[q.Fact]
		}
		facts := model.Facts{}
		if p.Bridge.Step != "" {
			facts[p.Bridge.Step] = model.NumberValue(to.Milli-from.Milli, measuredHere)
		} else {
			from.Origin, to.Origin = measuredHere, measuredHere
			facts[p.Bridge.From], facts[p.Bridge.To] = from, to
		}
		changed.Fitted = append(changed.Fitted, model.Fitted{Slot: p.Bridge.Slot, Part: "piece", Facts: facts})
	}
	_, results := fit.On(tables, &changed, way.Allow).Alone(part, part.Places[0])
	for _, r := range results {
		asked := slices.ContainsFunc(q.Clauses, func(c fit.Clause) bool { return c.Rule == r.Rule })
		if asked && !way.AsNow && (r.Forbids() || r.State == fit.Missing) {
			t.Errorf("with %+v %s is %s: %s", way, r.Rule.ID, r.State, r.Says)
			return false
		}
	}
	return true
}

var measuredHere = model.Origin{Sheet: "test", How: model.Measured}
