package scoring

import (
	"fmt"
	"math"

	"firstbolt/model"
)

// Scorer reckons the amounts of one bike. It is read only after New and may be used by several goroutines.
type Scorer struct {
	tables  *model.Tables
	bike    *model.Bike
	scales  []Scale
	groups  map[string][]group
	fitted  map[string]model.Thing
	anchors map[string][]Amount // of what is fitted, in the order of groups
	base    []Amount
	mass    Mass
	horizon model.Stated[float64] // seasons the rider plans for
	notes   []Note
	uncount []Note
}

// New prepares one bike of a shed. Errors name every faulty row of curves.csv, measures.csv and assumptions.csv.
func New(t *model.Tables, shed *model.Shed, bike *model.Bike) (*Scorer, error) {
	scales, err := Scales(t)
	if err != nil {
		return nil, err
	}
	groups, err := groupRules(t)
	if err != nil {
		return nil, err
	}
	s := &Scorer{tables: t, bike: bike, scales: scales, groups: groups, fitted: map[string]model.Thing{}, anchors: map[string][]Amount{}, horizon: shed.Rider.Horizon}
	for _, slot := range t.Slots {
		s.fitted[slot.Name] = t.FittedThing(bike, slot.Name)
	}
	s.weighMass(shed.Rider)
	s.reckonBase()
	s.anchor()
	s.listUncounted()
	return s, nil
}

// Scales are the measures' scales, by position in curves.csv.
func (s *Scorer) Scales() []Scale { return s.scales }

// Amounts are what a thing adds to every measure that its slot takes part in, in the order of curves.csv, zero or not.
// An empty slot is looked up as the choice "none" and adds nothing where there is no such row.
//
// Whole steps are counted from what is fitted, so that a gain is rounded once, and what is fitted is rounded along the
// slots, so that the bike as it stands is within half a step however many things it is the sum of. (Rounding every
// thing by itself lost up to 1.3 levels of the weight of 40 parts.)
func (s *Scorer) Amounts(th model.Thing) []Amount {
	groups := s.groups[th.Slot]
	amounts := make([]Amount, len(groups))
	for i := range groups {
		now := &s.anchors[th.Slot][i]
		a := s.sum(groups[i].measure, s.trace(&groups[i], th))
		a.Steps = now.Steps + s.scales[a.Measure].Steps(a.Exact-now.Exact)
		amounts[i] = a
	}
	return amounts
}

// anchor reckons what is fitted, from what no thing carries on: each thing gets the steps by which the rounded sum grows.
func (s *Scorer) anchor() {
	exact, steps := make([]float64, len(s.scales)), make([]int64, len(s.scales))
	for m := range s.base {
		exact[m], steps[m] = s.base[m].Exact, s.base[m].Steps
	}
	for _, slot := range s.tables.Slots {
		for i := range s.groups[slot.Name] {
			g := &s.groups[slot.Name][i]
			a := s.sum(g.measure, s.trace(g, s.fitted[slot.Name]))
			exact[g.measure] += a.Exact
			a.Steps = s.scales[g.measure].Steps(exact[g.measure]) - steps[g.measure]
			steps[g.measure] += a.Steps
			s.anchors[slot.Name] = append(s.anchors[slot.Name], a)
		}
	}
}

// sum adds up a trace and rounds once.
func (s *Scorer) sum(measure int, trace []TraceLine) Amount {
	a := Amount{Measure: measure, Trace: trace}
	for _, l := range trace {
		a.Exact += l.Gives
	}
	a.Steps = s.scales[measure].Steps(a.Exact)
	return a
}

// trace finds what a group's amount rests on: facts that were said, else the rider's rating, else assumed facts, else
// assumptions.csv.
func (s *Scorer) trace(g *group, th model.Thing) []TraceLine {
	if th.State == model.Empty {
		return traceEmpty(g)
	}
	ground := s.ground(g, th)
	if ground == ByFact && g.rules[0].Fact != "" {
		return s.traceFacts(g, th)
	}
	if line, ok := s.traceRating(g, th.Ratings); ok {
		return []TraceLine{line}
	}
	if ground != ByNothing {
		return s.traceFacts(g, th)
	}
	return append([]TraceLine{s.traceAssumed(g, th)}, s.traceCondition(g, th)...)
}

func traceEmpty(g *group) []TraceLine {
	var lines []TraceLine
	none := model.ChoiceValue(model.Origin{}, "none")
	for _, r := range g.rules {
		if len(r.Rows) == 0 {
			continue
		}
		if gives, form := reckon(r, none); gives != 0 {
			lines = append(lines, TraceLine{Fact: r.Fact, Value: "none", Form: form, Gives: gives, Row: r.Origin, Source: r.Source})
		}
	}
	return lines
}

// ground is what a group's facts rest on: its first rule's fact; ByNothing where that is not known, or a logarithm's
// number is not, because half a ratio says nothing.
func (s *Scorer) ground(g *group, th model.Thing) Ground {
	ground := ByNothing
	for i, r := range g.rules {
		line := s.traceRule(r, th)
		if i == 0 {
			ground = line.Ground
		}
		if r.Form == model.Log && line.Ground == ByNothing {
			return ByNothing
		}
	}
	return ground
}

func (s *Scorer) traceFacts(g *group, th model.Thing) []TraceLine {
	lines := make([]TraceLine, len(g.rules))
	for i, r := range g.rules {
		lines[i] = s.traceRule(r, th)
	}
	return lines
}

// traceRule is what one rule makes of a thing.
func (s *Scorer) traceRule(r *model.AmountRule, th model.Thing) TraceLine {
	line := TraceLine{Fact: r.Fact, Row: r.Origin, Source: r.Source}
	if r.Fact == "" && len(r.Rows) == 0 {
		line.Value, line.Form, line.Gives, line.Origin = "present", "given for being there", r.Coef, th.Origin
		return line
	}
	v, ground := s.valueOf(r.Fact, th)
	if r.Form == model.Log && v.Number && v.Milli <= 0 {
		v = model.Value{Origin: v.Origin} // no logarithm: as good as not known
		ground = ByNothing
	}
	line.Value, line.Ground, line.Origin = v.String(), ground, v.Origin
	if ground == ByNothing {
		line.Form = "counts nothing"
		return line
	}
	line.Gives, line.Form = reckon(r, v)
	return line
}

// valueOf is a fact of a thing, with grams, seasons, condition and presence among them.
func (s *Scorer) valueOf(fact string, th model.Thing) (model.Value, Ground) {
	var v model.Value
	switch fact {
	case "":
		return model.ChoiceValue(th.Origin, "present"), ByFact
	case "grams":
		v = gramsOf(th)
	case "seasons":
		v = s.seasonsOf(th)
	case "condition":
		v = th.Facts[fact]
		if !v.Known() && th.State == model.Bought {
			v = model.ChoiceValue(th.Origin, model.Good.String()) // the sheets give a condition to fitted things only
		}
	default:
		v = th.Facts[fact]
	}
	switch {
	case !v.Known():
		return v, ByNothing
	case v.Origin.How == model.Assumed:
		return v, ByAssumedFact
	default:
		return v, ByFact
	}
}

// gramsOf is a thing's mass. A set's mass stands on its first slot, so its other slots weigh nothing more.
func gramsOf(th model.Thing) model.Value {
	switch {
	case th.Grams.Known:
		return model.NumberValue(int64(th.Grams.Value)*1000, th.Grams.Origin)
	case th.State == model.Bought && !th.Leads() && th.Part.Grams.Known:
		return model.NumberValue(0, th.Part.Grams.Origin)
	default:
		return model.Value{}
	}
}

// seasonsOf is how long a thing lasts; what it would last beyond the rider's horizon counts nothing.
func (s *Scorer) seasonsOf(th model.Thing) model.Value {
	var seasons model.Stated[float64]
	switch {
	case th.Part != nil:
		seasons = th.Part.Seasons
	case th.Fitted != nil:
		seasons = th.Fitted.SeasonsLeft
	}
	if !seasons.Known {
		return model.Value{}
	}
	years := min(seasons.Value, s.horizon.Or(seasons.Value))
	return model.NumberValue(int64(math.Round(years*1000)), seasons.Origin)
}

// traceRating is what the rider's rating of the measure's criterion stands for: low + rating / 10 * (high - low).
func (s *Scorer) traceRating(g *group, ratings map[string]model.Stated[float64]) (TraceLine, bool) {
	rating := ratings[s.tables.Measures[g.measure].Criterion]
	a := s.assumption(g)
	if !rating.Known || a == nil || !a.Rated {
		return TraceLine{}, false
	}
	return TraceLine{
		Value:  "rated " + number(rating.Value),
		Form:   fmt.Sprintf("%s + %s / 10 x (%s - %s)", number(a.RatedLow), number(rating.Value), number(a.RatedHigh), number(a.RatedLow)),
		Gives:  a.RatedLow + float64(rating.Value/10*(a.RatedHigh-a.RatedLow)),
		Ground: ByRating, Origin: rating.Origin, Row: a.Origin, Source: a.Source,
	}, true
}

// traceAssumed stands in for what nobody said: what is likely for this class of bike; for a bought part the lower of
// that and what is fitted, so that no gain is claimed from a part that nothing is known of.
func (s *Scorer) traceAssumed(g *group, th model.Thing) TraceLine {
	line := TraceLine{Value: "unknown", Form: "counts nothing", Ground: ByNothing, Origin: th.Origin}
	if a := s.assumption(g); a != nil {
		line = TraceLine{Value: "unknown", Form: "likely " + number(a.Likely), Gives: a.Likely, Ground: ByAssumption, Origin: th.Origin, Row: a.Origin, Source: a.Source}
	}
	if th.State != model.Bought {
		return line
	}
	now := 0.0 // what is fitted, were it in good condition: that a new part is not worn is known
	for _, l := range s.trace(g, s.fitted[g.slot]) {
		if l.Fact != "condition" {
			now += l.Gives
		}
	}
	if line.Ground == ByNothing || now < line.Gives {
		line.Gives, line.Form, line.Ground = now, "no better than what is fitted: "+number(now), ByAssumption
	}
	return line
}

// traceCondition is what wear takes from a thing of which nothing else is known.
func (s *Scorer) traceCondition(g *group, th model.Thing) []TraceLine {
	var lines []TraceLine
	for _, r := range g.rules {
		if r.Fact != "condition" {
			continue
		}
		if line := s.traceRule(r, th); line.Ground != ByNothing {
			lines = append(lines, line)
		}
	}
	return lines
}

// assumption is the row for this class of bike, else the row for any.
func (s *Scorer) assumption(g *group) *model.Assumption {
	var found *model.Assumption
	for i := range s.tables.Assumptions {
		a := &s.tables.Assumptions[i]
		if a.Slot != g.slot || a.Measure != s.tables.Measures[g.measure].Key {
			continue
		}
		if a.Like == s.bike.Like {
			return a
		}
		if a.Like == "" {
			found = a
		}
	}
	return found
}
