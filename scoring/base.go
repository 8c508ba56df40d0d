package scoring

import (
	"fmt"
	"math"

	"firstbolt/model"
)

// brakingCriterion is the criterion whose measures count a brake against the mass it has to stop.
const brakingCriterion = "braking"

// usualRider is taken where the rider's mass is not stated (90-trade: judgement).
const usualRider model.Grams = 85_000

// Mass is what the brakes have to stop: the rider, what they carry, and the bike as it stands.
type Mass struct {
	Rider, Load, Bike model.Grams
	RiderAssumed      bool
	BikeAssumed       []string // slots whose mass nobody said
}

// Total is the whole mass.
func (m Mass) Total() model.Grams { return m.Rider + m.Load + m.Bike }

// Mass is what was reckoned with.
func (s *Scorer) Mass() Mass { return s.mass }

// Base is what no thing carries, in whole steps of a measure: for braking the mass, else what the rider's ratings of
// the bike as a whole stand for.
func (s *Scorer) Base(measure int) int64 { return s.base[measure].Steps }

// BaseAmount is Base with its trace.
func (s *Scorer) BaseAmount(measure int) Amount { return s.base[measure] }

// Notes are what an answer must say about this bike's reckoning: assumed masses, and what is not scored.
func (s *Scorer) Notes() []Note { return append(append([]Note(nil), s.notes...), s.uncount...) }

func (s *Scorer) weighMass(r model.Rider) {
	s.mass = Mass{Rider: r.Mass.Or(usualRider), Load: r.Load.Or(0), RiderAssumed: !r.Mass.Known}
	for _, slot := range s.tables.Slots {
		grams, said := s.gramsFitted(s.fitted[slot.Name])
		s.mass.Bike += grams
		if !said {
			s.mass.BikeAssumed = append(s.mass.BikeAssumed, slot.Name)
		}
	}
	if s.mass.RiderAssumed {
		s.notes = append(s.notes, Note{
			Code: "assumed-mass", Where: "rider.csv",
			Says: fmt.Sprintf("rider_kg is not stated: %d kg is assumed", usualRider/1000), Fix: "add a row rider_kg to rider.csv",
		})
	}
	if n := len(s.mass.BikeAssumed); n > 0 {
		s.notes = append(s.notes, Note{
			Code: "assumed-mass", Where: s.bike.Name,
			Says: fmt.Sprintf("the mass of %d slots of %q is typical, not weighed: %d g altogether", n, s.bike.Name, s.mass.Bike),
			Fix:  "add grams to fitted.csv",
		})
	}
}

// gramsFitted is the mass of a fitted thing; where nobody said it, what its row of the weight measure assumes.
func (s *Scorer) gramsFitted(th model.Thing) (grams model.Grams, said bool) {
	if th.State == model.Empty {
		return 0, true
	}
	if v, ground := s.valueOf("grams", th); ground != ByNothing {
		return model.Grams(v.Milli / 1000), ground == ByFact
	}
	groups := s.groups[th.Slot]
	for i := range groups {
		g := &groups[i]
		if len(g.rules) == 1 && g.rules[0].Fact == "grams" && g.rules[0].Form == model.Linear && g.rules[0].Coef != 0 {
			return model.Grams(math.Round(s.traceAssumed(g, th).Gives / g.rules[0].Coef)), false
		}
	}
	return 0, false
}

// reckonBase sets the amounts that no thing carries. The mass in braking is that of the bike as it stands, so it is a
// constant: what a purchase weighs more or less changes the whole by well under a hundredth, and it counts under weight.
func (s *Scorer) reckonBase() {
	s.base = make([]Amount, len(s.tables.Measures))
	for m := range s.tables.Measures {
		var lines []TraceLine
		if s.tables.Measures[m].Criterion == brakingCriterion {
			lines = append(lines, s.traceMass())
		}
		g := group{measure: m}
		if line, ok := s.traceRating(&g, s.bike.Ratings); ok {
			lines = append(lines, line)
		} else if s.assumption(&g) != nil {
			lines = append(lines, s.traceAssumed(&g, model.Thing{State: model.AsFitted, Origin: s.bike.Origin}))
		}
		s.base[m] = s.sum(m, lines)
	}
}

func (s *Scorer) traceMass() TraceLine {
	total := float64(s.mass.Total())
	line := TraceLine{
		Fact: "total kg", Value: number(total / 1000), Form: fmt.Sprintf("-ln (%s / 100)", number(total/1000)),
		Gives: -math.Log(total / 100_000), Source: "statics: the force needed grows with the mass",
	}
	if s.mass.RiderAssumed || len(s.mass.BikeAssumed) > 0 {
		line.Ground = ByAssumedFact
	}
	return line
}

// listUncounted notes what cannot be scored on this bike: criteria without a curve, slots of which nothing is known.
func (s *Scorer) listUncounted() {
	counted := map[string]bool{}
	for _, m := range s.tables.Measures {
		counted[m.Criterion] = true
	}
	for _, c := range s.tables.Criteria {
		if !counted[c.Key] {
			s.uncount = append(s.uncount, Note{Code: "not-scored", Where: c.Key, Says: c.Says + " is not scored: curves.csv has no row for it", Fix: "add rows to curves.csv and measures.csv"})
		}
	}
	for _, slot := range s.tables.Slots {
		for _, a := range s.Amounts(s.fitted[slot.Name]) {
			if len(a.Trace) == 0 || a.Trace[0].Ground != ByNothing {
				continue
			}
			m := s.tables.Measures[a.Measure]
			s.uncount = append(s.uncount, Note{
				Code: "not-scored", Where: slot.Name,
				Says: fmt.Sprintf("nothing is known of the %s of %q for %s, and nothing is assumed: it counts nothing there", slot.Name, s.bike.Name, m.Says),
				Fix:  "add a fact to fitted.csv, or a row to assumptions.csv",
			})
		}
	}
}
