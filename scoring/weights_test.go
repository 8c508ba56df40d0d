package scoring

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"firstbolt/model"
)

// careTables have the criteria of a small rider and one measure each, but two for braking.
func careTables() *model.Tables {
	t := &model.Tables{}
	for _, key := range []string{"braking", "retention", "traction", "weight", "looks"} {
		t.Criteria = append(t.Criteria, model.Criterion{Key: key, Says: key})
	}
	for _, m := range []model.Measure{
		{Key: "braking.front", Criterion: "braking", Share: 68},
		{Key: "braking.rear", Criterion: "braking", Share: 32},
		{Key: "retention", Criterion: "retention", Share: 100},
		{Key: "traction", Criterion: "traction", Share: 100},
		{Key: "weight", Criterion: "weight", Share: 100},
	} {
		m.Points = []model.CurvePoint{{Amount: 0, Level: 0}, {Amount: 1, Level: 100}}
		t.Measures = append(t.Measures, m)
	}
	t.Profiles = []model.Profile{
		{Name: "default", Points: []model.Priority{{Criterion: "braking", Points: 50}, {Criterion: "traction", Points: 30}, {Criterion: "retention", Points: 20}}},
		{Name: "light", Points: []model.Priority{{Criterion: "weight", Points: 100}}},
	}
	return t
}

func percents(w Weights) string {
	var texts []string
	for _, c := range w.Criteria {
		texts = append(texts, fmt.Sprintf("%s %d", c.Criterion, c.Percent))
	}
	return strings.Join(texts, ", ") + " | " + fmt.Sprint(w.Measures)
}

func TestWeigh(t *testing.T) {
	t.Parallel()
	points := func(p ...model.Priority) model.Rider {
		return model.Rider{Priorities: model.Say(p, model.Origin{Sheet: "rider.csv", Row: 4})}
	}
	ranking := func(keys ...string) model.Rider { return model.Rider{Ranking: model.Say(keys, model.Origin{})} }
	for _, c := range []struct {
		name   string
		rider  model.Rider
		want   string
		method Method
		stated string
	}{
		{"nobody asked", model.Rider{}, "braking 50, retention 20, traction 30, weight 0, looks 0 | [34 16 20 30 0]", ByDefault, "default, nobody asked you"},
		{
			"points 5 and 3", points(model.Priority{Criterion: "braking", Points: 5}, model.Priority{Criterion: "retention", Points: 3}),
			"braking 63, retention 37, traction 0, weight 0, looks 0 | [43 20 37 0 0]", ByPoints, "braking=5; retention=3",
		},
		{
			"a named criterion counts at least 1", points(model.Priority{Criterion: "braking", Points: 1000}, model.Priority{Criterion: "weight", Points: 1}),
			"braking 99, retention 0, traction 0, weight 1, looks 0 | [67 32 0 0 1]", ByPoints, "braking=1000; weight=1",
		},
		{
			// 60 % by rank 11/18, 5/18, 2/18 over 40 % of the default's 0, 50, 20: 36 2/3, 36 2/3, 14 2/3, and 12 for
			// traction. The two units left go to those of the equal remainders that stand first in criteria.csv.
			"ranking", ranking("weight", "braking", "retention"),
			"braking 37, retention 15, traction 12, weight 36, looks 0 | [25 12 15 12 36]", ByRanking, "weight > braking > retention",
		},
		{"profile", model.Rider{Profile: model.Say("light", model.Origin{})}, "braking 0, retention 0, traction 0, weight 100, looks 0 | [0 0 0 0 100]", ByProfile, "light"},
	} {
		w, err := Weigh(careTables(), c.rider)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got := percents(w); got != c.want || w.Method != c.method || w.Stated != c.stated {
			t.Errorf("%s:\n got %s, %v, %s\nwant %s, %v, %s", c.name, got, w.Method, w.Stated, c.want, c.method, c.stated)
		}
	}
}

// A ranking by the rank sum is flatter than by the centroid: the answer can show both.
func TestWeighByRankSumIsFlatter(t *testing.T) {
	t.Parallel()
	rider := model.Rider{Ranking: model.Say([]string{"weight", "retention", "traction"}, model.Origin{})}
	centroid, err := Weigh(careTables(), rider)
	if err != nil {
		t.Fatal(err)
	}
	sum, err := WeighBy(careTables(), rider, RankSum)
	if err != nil {
		t.Fatal(err)
	}
	if centroid.Criteria[3].Percent <= sum.Criteria[3].Percent {
		t.Errorf("the first wish has %d by centroid and %d by rank sum, want less by rank sum", centroid.Criteria[3].Percent, sum.Criteria[3].Percent)
	}
}

func TestWeighDropsWhatNothingCounts(t *testing.T) {
	t.Parallel()
	rider := model.Rider{Ranking: model.Say([]string{"looks", "braking"}, model.Origin{})}
	w, err := Weigh(careTables(), rider)
	if err != nil {
		t.Fatal(err)
	}
	if fmt.Sprint(w.NotScored) != "[looks]" || w.Criteria[4].Percent != 0 {
		t.Errorf("not scored %v, looks %d %%; want looks named and counting nothing", w.NotScored, w.Criteria[4].Percent)
	}
	sum := 0
	for _, m := range w.Measures {
		sum += m
	}
	if sum != 100 {
		t.Errorf("the measures sum to %d, want 100: the weight goes to the others", sum)
	}
}

func TestWeighRefuses(t *testing.T) {
	t.Parallel()
	points := func(p ...model.Priority) model.Rider {
		return model.Rider{Priorities: model.Say(p, model.Origin{Sheet: "rider.csv", Row: 4, Cell: "B4"})}
	}
	for want, rider := range map[string]model.Rider{
		`rider.csv:4 (B4): the points sum to nothing`:          points(model.Priority{Criterion: "braking"}),
		`rider.csv:4 (B4): there is no criterion "speed"`:      points(model.Priority{Criterion: "speed", Points: 1}),
		`braking is named twice`:                               {Ranking: model.Say([]string{"braking", "braking"}, model.Origin{})},
		`braking has -1 points`:                                points(model.Priority{Criterion: "braking", Points: -1}),
		`braking has NaN points`:                               points(model.Priority{Criterion: "braking", Points: math.NaN()}),
		`there is no profile "racer", want one of: default; l`: {Profile: model.Say("racer", model.Origin{})},
		`nothing counts looks yet`:                             points(model.Priority{Criterion: "looks", Points: 1}),
		`the ranking is empty`:                                 {Ranking: model.Say([]string{}, model.Origin{})},
	} {
		if _, err := Weigh(careTables(), rider); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v, want it to hold %q", err, want)
		}
	}
	broken := careTables()
	broken.Measures[0].Share = 60
	if _, err := Weigh(broken, model.Rider{}); err == nil || !strings.Contains(err.Error(), "the shares of braking sum to 92, want 100") {
		t.Errorf("shares of 92 percent gave %v, want an error", err)
	}
}

// Source: Goodwin and Wright, Decision Analysis for Management Judgment, chapter 3, page 44: one office worked in full,
// values 100 60 100 75 0 90 with weights 32 26 23 10 6 3 give 80.8.
func TestBenefitOfTheOfficeExample(t *testing.T) {
	t.Parallel()
	w := Weights{Measures: []int{32, 26, 23, 10, 6, 3}}
	levels := []int64{100, 60, 100, 75, 0, 90}
	for i := range levels {
		levels[i] *= LevelUnit
	}
	if got := w.Benefit(levels); got != 808_000 {
		t.Errorf("%d, want 808,000 = 80.8 points", got)
	}
}
