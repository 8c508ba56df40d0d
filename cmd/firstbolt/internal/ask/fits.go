package ask

import (
	"context"
	"slices"

	"firstbolt/cmd/firstbolt/internal/answer"
	"firstbolt/model"
	"firstbolt/model/fit"
	"firstbolt/solver"
	"firstbolt/solver/program"
)

// Fits answers `fits`: what goes on a bike, what goes with it, and what does not go and why. An error is wrong use;
// whatever else goes wrong comes back as a Failure.
func Fits(ctx context.Context, r Request) (answer.Answer, error) {
	f, l, err := bench(r)
	if err != nil {
		return nil, err
	}
	if l.failure != nil {
		return l.failure, nil
	}
	limited, cancel := limit(ctx, r.TimeLimit)
	defer cancel()
	fittings, err := solver.Fits(limited, f.q)
	if err != nil {
		return failed(ctx, r, err), nil
	}
	a := f.fits(fittings)
	a.Warnings = append(l.warnings, a.Warnings...)
	return a, nil
}

// bench loads a shed and puts one of its bikes, and maybe one part, on the bench.
func bench(r Request) (*fitter, loaded, error) {
	l, err := load(r)
	if err != nil || l.failure != nil {
		return nil, l, err
	}
	q := solver.FitQuestion{Shed: l.shed}
	if q.Bike, err = chosenBike(r.Bike, l.shed); err != nil {
		return nil, l, err
	}
	if r.Part != "" {
		if q.Part, err = partNamed(r.Part, l.shed); err != nil {
			return nil, l, err
		}
	}
	if q.Options.Allow, err = allowed(r.Allow, l.shed.Tables); err != nil {
		return nil, l, err
	}
	if q.Lead, _, err = engines(r.Engine); err != nil {
		return nil, l, err
	}
	f := &fitter{bench: fit.On(l.shed.Tables, q.Bike, q.Options.Allow), filler: filler{r: r, shed: l.shed, currency: l.shed.Currency.Code}, q: q, now: l.shed.Tables.Standing(q.Bike)}
	return f, l, nil
}

// fitter turns what the solver says of parts into an answer. It judges nothing itself.
type fitter struct {
	filler
	q     solver.FitQuestion
	bench *fit.Bench
	now   map[string]model.Thing // the bike as it stands
}

func (f *fitter) fits(fittings []solver.Fitting) *answer.Fits {
	t := f.shed.Tables
	a := &answer.Fits{Head: head(f.r.Command, f.shed), Bike: f.q.Bike.Name}
	if f.q.Part != nil {
		a.Asked = some(f.q.Part.Name)
	}
	best := map[*model.Part]fit.Answer{}
	for i := range fittings {
		one := &fittings[i]
		if b, seen := best[one.Part]; !seen || worse(b) > worse(one.Answer) {
			best[one.Part] = one.Answer
		}
	}
	for _, b := range best {
		count(&a.Counts, b)
	}
	slices.SortStableFunc(fittings, func(x, y solver.Fitting) int {
		if d := t.SlotIndex(x.Place[0]) - t.SlotIndex(y.Place[0]); d != 0 {
			return d
		}
		return worse(x.Answer) - worse(y.Answer)
	})
	for i := range fittings {
		a.Parts = append(a.Parts, f.part(&fittings[i]))
	}
	a.Measure = f.toMeasure(fittings)
	a.Cautions = f.allCautions(fittings)
	gap := answer.Points(0)
	a.Proof = &answer.Proof{Engine: f.q.Lead.Name(), Status: program.Optimal.String(), Gap: &gap, Unconfirmed: some("fit is judged rule by rule; what goes with a part is found by one method")}
	return a
}

// worse orders verdicts as riders read them: what fits first.
func worse(a fit.Answer) int {
	return map[fit.Answer]int{fit.Fits: 0, fit.FitsWith: 1, fit.MeasureFirst: 2, fit.BothSides: 3, fit.DoesNotFit: 4}[a]
}

func count(c *answer.Counts, verdict fit.Answer) {
	switch verdict {
	case fit.Fits:
		c.Fits++
	case fit.FitsWith:
		c.FitsWith++
	case fit.BothSides:
		c.BothSides++
	case fit.MeasureFirst:
		c.MeasureFirst++
	default:
		c.DoesNotFit++
	}
}
