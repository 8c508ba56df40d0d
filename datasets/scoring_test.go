package datasets_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"firstbolt/model"
	"firstbolt/scoring"
	"firstbolt/scoring/cost"
)

var said = model.Origin{Sheet: "fitted.csv", How: model.Measured}

// sum is the exact amount of one measure over things; their facts are written as name, value in turn.
func sum(t *testing.T, tables *model.Tables, measure string, things map[string][]any) float64 {
	t.Helper()
	s, err := scoring.New(tables, &model.Shed{}, &model.Bike{Name: "bare"})
	if err != nil {
		t.Fatal(err)
	}
	total := 0.0
	for slot, known := range things {
		th := model.Thing{Slot: slot, State: model.AsFitted, Facts: facts(append(known, "condition", "good")...)}
		for _, a := range s.Amounts(th) {
			if tables.Measures[a.Measure].Key == measure {
				total += a.Exact
			}
		}
	}
	return total
}

func level(t *testing.T, tables *model.Tables, measure string, amount float64) float64 {
	t.Helper()
	scales, err := scoring.Scales(tables)
	if err != nil {
		t.Fatal(err)
	}
	s := scales[tables.MeasureIndex(measure)]
	return float64(s.Level(s.Steps(amount))) / scoring.LevelUnit
}

// Chances of dropping the chain multiply: 100 x (1 - product). The factors are judgement, the arithmetic is not:
// narrow-wide .15 x clutch .5 leaves .075, a triple's front mechanism .6 x clutch .5 leaves .30. So the clutch brings
// 30 levels to a triple and 7.5 after a narrow-wide ring. (The curve is made of chords: within one level.)
func TestEmbeddedHazards(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	narrow, shifting := []any{"ring_profile", "narrow-wide"}, []any{"ring_profile", "shifting"}
	for _, c := range []struct {
		name   string
		things map[string][]any
		want   float64
	}{
		{"a triple", map[string][]any{"chainring": shifting, "front derailleur": {}}, 40},
		{"a triple and a clutch", map[string][]any{"chainring": shifting, "front derailleur": {}, "rear derailleur": {"clutch", "yes"}}, 70},
		{"narrow-wide", map[string][]any{"chainring": narrow, "rear derailleur": {"clutch", "no"}}, 85},
		{"narrow-wide and clutch", map[string][]any{"chainring": narrow, "rear derailleur": {"clutch", "yes"}}, 92.5},
	} {
		if got := level(t, tables, "retention", sum(t, tables, "retention", c.things)); math.Abs(got-c.want) > 1 {
			t.Errorf("%s: level %.2f, want %.1f", c.name, got, c.want)
		}
	}
}

// Development = ring / cog x wheel circumference (page "Calculating Gear Inches"; gear inches x 0.0254 x pi, page
// "Engineering: Gear inches"). Computed values: 32/42 on 2.29 m (57-622) 1.74 m, 22/34 on 2.10 m (57-559) 1.36 m.
func TestEmbeddedGearDevelopment(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	for _, c := range []struct {
		ring, cog, bead int
		want            float64
	}{{32, 42, 622, 1.74}, {22, 34, 559, 1.36}} {
		x := sum(t, tables, "range.easy", map[string][]any{
			"chainring": {"ring_min", c.ring, "ring_max", c.ring}, "cassette": {"cog_min", 11, "cog_max", c.cog}, "rear wheel": {"bead_mm", c.bead},
		})
		if got := math.Exp(-x); math.Abs(got-c.want) > 0.01 {
			t.Errorf("%d/%d on %d: %.3f m, want %.2f", c.ring, c.cog, c.bead, got, c.want)
		}
	}
	x := sum(t, tables, "range.total", map[string][]any{"chainring": {"ring_min", 24, "ring_max", 42}, "cassette": {"cog_min", 11, "cog_max", 34}})
	if got, want := math.Exp(x), 42.0/11/(24.0/34); math.Abs(got-want) > 1e-9 {
		t.Errorf("42/24 with 11-34 has a range of %.4f, want %.4f: hardest over easiest gear", got, want)
	}
}

// Load on the front wheel when braking with a: (g x b + a x h) / (g x L), with L 1.10 m, h 1.10 m and b 0.44 m (computed
// from statics): 40 % standing, 60 % at 0.2 g, 80 % at 0.4 g, 100 % (pitch-over) at 0.6 g. Published pitch-over limits
// are 0.6 to 0.83 g (Riel 2005; newsgroup about 0.6 g). On loose ground and slopes riders brake with 0.2 to 0.4 g, so the
// share of the front brake must lie between those two loads.
func TestEmbeddedBrakeSharesFollowTheLoad(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	const wheelbase, height, behind = 1.10, 1.10, 0.44
	load := func(a float64) float64 { return 100 * (behind + a*height) / wheelbase }
	for a, want := range map[float64]float64{0: 40, 0.2: 60, 0.4: 80, 0.6: 100} {
		if got := load(a); math.Abs(got-want) > 1e-9 {
			t.Fatalf("%v g: %.2f %% on the front wheel, want %v", a, got, want)
		}
	}
	share := float64(tables.Measures[tables.MeasureIndex("braking.front")].Share)
	if share <= load(0.2) || share >= load(0.4) {
		t.Errorf("the front brake has %v %% of braking, want more than %v and less than %v", share, load(0.2), load(0.4))
	}
}

func TestEmbeddedProfilesWeighWhole(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	riders := map[string]model.Rider{"nobody asked": {}, "ranking": {Ranking: model.Say([]string{"braking", "traction", "retention"}, said)}}
	for _, p := range tables.Profiles {
		riders[p.Name] = model.Rider{Profile: model.Say(p.Name, said)}
	}
	for name, r := range riders {
		w, err := scoring.Weigh(tables, r)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		criteria, measures := 0, 0
		for _, c := range w.Criteria {
			criteria += c.Percent
		}
		for _, percent := range w.Measures {
			measures += percent
		}
		if criteria != 100 || measures != 100 || len(w.NotScored) != 0 {
			t.Errorf("%s: criteria sum to %d, measures to %d, not scored %v; want 100, 100 and none", name, criteria, measures, w.NotScored)
		}
	}
	// 60 % by rank 11/18, 5/18, 2/18 (rank-order centroid, Barron and Barrett 1996) over 40 % of the default profile.
	w, _ := scoring.Weigh(tables, riders["ranking"])
	got := fmt.Sprint(w.Criteria[0].Percent, w.Criteria[1].Percent, w.Criteria[2].Percent)
	if got != "45 11 24" {
		t.Errorf("braking, retention, traction weigh %s, want 45 11 24: 45.5, 10.7 and 23.9 rounded", got)
	}
}

// A deciding fact that is a choice needs a row for every choice: without one it would count nothing, unseen.
func TestEmbeddedRowsCoverEveryChoice(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	decided := map[string]bool{}
	for _, r := range tables.Amounts {
		key := r.Measure + " of " + r.Slot
		f := tables.FactNamed(r.Fact)
		if decided[key] || f == nil || f.Kind != model.Choice {
			decided[key] = true
			continue
		}
		decided[key] = true
		for _, choice := range f.Allowed {
			if choice != "unknown" && choice != "none" && !slices.ContainsFunc(r.Rows, func(row model.AmountRow) bool { return row.Choice == choice }) {
				t.Errorf("%s: the deciding fact %s has no row for %q", key, r.Fact, choice)
			}
		}
	}
}

// Where a slot takes part in a measure, something must be assumed for it, or an unknown thing counts as the worst.
func TestEmbeddedAssumptionsCoverEveryDecision(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	for _, r := range tables.Amounts {
		if r.Fact == "" || r.Fact == "condition" {
			continue
		}
		if !slices.ContainsFunc(tables.Assumptions, func(a model.Assumption) bool {
			return a.Measure == r.Measure && a.Slot == r.Slot && a.Like == ""
		}) {
			t.Errorf("%s of %s: nothing is assumed where %s is not known", r.Measure, r.Slot, r.Fact)
		}
	}
}

func TestEmbeddedJobsCanBeBilled(t *testing.T) {
	t.Parallel()
	tables := embedded(t)
	if _, err := cost.New(tables, &model.Shed{}); err != nil {
		t.Error(err)
	}
	for _, j := range tables.Jobs {
		if j.Skill == 3 && !j.ShopPrice.Known {
			t.Logf("%s: ask first, so a rider of usual skill cannot plan it", j.Name)
		}
	}
}
