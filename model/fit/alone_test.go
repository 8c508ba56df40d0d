package fit_test

import (
	"strings"
	"testing"

	"firstbolt/model"
	"firstbolt/model/fit"
)

// shop is a small set of tables: a frame with a bore, a fork with a limit, brakes, a post.
func shop() *model.Tables {
	number := func(name string, low, high int64, slots ...string) model.Fact {
		return model.Fact{Name: name, Kind: model.Number, Low: low, High: high, Slots: slots, How: "measure it"}
	}
	plausible := func(f model.Fact, milli ...int64) model.Fact {
		for _, m := range milli {
			f.Plausible = append(f.Plausible, model.Plausible{Value: model.NumberValue(m, model.Origin{})})
		}
		return f
	}
	t := &model.Tables{Facts: []model.Fact{
		plausible(number("bore_mm", 22_000, 36_000, "frame"), 27_200, 30_900),
		number("post_mm", 22_000, 36_000, "post"),
		number("in_mm", 22_000, 36_000, "sleeve"), number("out_mm", 22_000, 36_000, "sleeve"),
		number("max_kg", 60_000, 250_000, "fork"), number("total_kg", 20_000, 400_000, model.RiderSlot),
		number("rotor_mm", 140_000, 220_000, "rotor"),
		plausible(number("limit_mm", 160_000, 230_000, "fork"), 160_000, 180_000),
		{Name: "drive", Kind: model.Choice, Allowed: []string{"cable", "mineral"}, Slots: []string{"lever", "caliper"}, How: "look at it"},
	}}
	for _, name := range []string{"frame", "fork", "post", "sleeve", "rotor", "lever", "caliper"} {
		t.Slots = append(t.Slots, model.Slot{Name: name})
	}
	t.Rules = []model.Rule{
		{ID: "bore", Left: of("post", "post_mm"), Right: of("frame", "bore_mm"), Severity: model.Firm, Bridge: &model.Bridge{Slot: "sleeve", From: "in_mm", To: "out_mm"}, Fails: "{left} in {right}"},
		{ID: "limit", Left: of("rotor", "rotor_mm"), Relation: model.AtMost, Right: of("fork", "limit_mm"), Severity: model.Danger, Fails: "{left} over {right}"},
		{ID: "mass", Left: of(model.RiderSlot, "total_kg"), Relation: model.AtMost, Right: of("fork", "max_kg"), Stated: []model.Term{{Slot: "fork", Fact: "max_kg"}}, Severity: model.Danger, Fails: "{left} kg"},
		{ID: "drive", Left: of("lever", "drive"), Right: of("caliper", "drive"), Severity: model.Danger, Fails: "{left} on {right}"},
	}
	return t
}

func TestAlone(t *testing.T) {
	t.Parallel()
	tables := shop()
	for _, c := range []struct {
		name    string
		fitted  []model.Fitted
		place   model.Place
		facts   model.Facts
		want    fit.Answer
		missing string
	}{
		{"the right post", []model.Fitted{{Slot: "frame", Facts: model.Facts{"bore_mm": number(27_200)}}}, model.Place{"post"}, model.Facts{"post_mm": number(27_200)}, fit.Fits, ""},
		{"a thin post wants a sleeve", []model.Fitted{{Slot: "frame", Facts: model.Facts{"bore_mm": number(30_900)}}}, model.Place{"post"}, model.Facts{"post_mm": number(27_200)}, fit.FitsWith, ""},
		{"a thick post never goes in", []model.Fitted{{Slot: "frame", Facts: model.Facts{"bore_mm": number(27_200)}}}, model.Place{"post"}, model.Facts{"post_mm": number(30_900)}, fit.DoesNotFit, ""},
		// 40-program: parts for two different values of one unknown bore were both called fine.
		{"an unknown bore is measured first", []model.Fitted{{Slot: "frame"}}, model.Place{"post"}, model.Facts{"post_mm": number(27_200)}, fit.MeasureFirst, "bore_mm"},
		{"a rotor over the limit", []model.Fitted{{Slot: "fork", Facts: model.Facts{"limit_mm": number(160_000)}}}, model.Place{"rotor"}, model.Facts{"rotor_mm": number(180_000)}, fit.FitsWith, ""},
		{"a rotor and an unknown limit", []model.Fitted{{Slot: "fork"}}, model.Place{"rotor"}, model.Facts{"rotor_mm": number(180_000)}, fit.MeasureFirst, "limit_mm"},
		// T8: only a rotor larger than the fitted one makes an unknown limit a question.
		{"a rotor of the old one's size", []model.Fitted{{Slot: "fork"}, {Slot: "rotor", Facts: model.Facts{"rotor_mm": number(180_000)}}}, model.Place{"rotor"}, model.Facts{"rotor_mm": number(180_000)}, fit.Fits, ""},
		{"a larger rotor", []model.Fitted{{Slot: "fork"}, {Slot: "rotor", Facts: model.Facts{"rotor_mm": number(160_000)}}}, model.Place{"rotor"}, model.Facts{"rotor_mm": number(180_000)}, fit.MeasureFirst, "limit_mm"},
		{"the old one's size is only assumed", []model.Fitted{{Slot: "fork"}, {Slot: "rotor", Facts: model.Facts{"rotor_mm": model.NumberValue(180_000, model.Origin{How: model.Assumed})}}}, model.Place{"rotor"}, model.Facts{"rotor_mm": number(180_000)}, fit.MeasureFirst, "limit_mm"},
		{"a rotor of the old one's size over a known limit", []model.Fitted{{Slot: "fork", Facts: model.Facts{"limit_mm": number(160_000)}}, {Slot: "rotor", Facts: model.Facts{"rotor_mm": number(180_000)}}}, model.Place{"rotor"}, model.Facts{"rotor_mm": number(180_000)}, fit.FitsWith, ""},
		{"a sleeve that is too much comes off", []model.Fitted{{Slot: "frame", Facts: model.Facts{"bore_mm": number(28_600)}}, {Slot: "sleeve", Part: "old sleeve", Facts: model.Facts{"in_mm": number(27_200), "out_mm": number(28_600)}}}, model.Place{"post"}, model.Facts{"post_mm": number(28_600)}, fit.FitsWith, "old sleeve between"},
		{"a rotor under every possible limit", []model.Fitted{{Slot: "fork"}}, model.Place{"rotor"}, model.Facts{"rotor_mm": number(160_000)}, fit.Fits, ""},
		{"a lever that does not say its drive", []model.Fitted{{Slot: "caliper", Facts: model.Facts{"drive": word("mineral")}}}, model.Place{"lever"}, nil, fit.MeasureFirst, "drive"},
		{"a set of which the second thing is too large", []model.Fitted{{Slot: "fork", Facts: model.Facts{"limit_mm": number(160_000)}}}, model.Place{"post", "rotor"}, model.Facts{"rotor_mm": number(180_000)}, fit.FitsWith, "180 over 160"},
		{"a fork for lighter riders", []model.Fitted{{Slot: model.RiderSlot, Facts: model.Facts{"total_kg": number(110_000)}}}, model.Place{"fork"}, model.Facts{"max_kg": number(100_000), "limit_mm": number(180_000)}, fit.DoesNotFit, "110 kg"},
		{"a set that does not say its drive", []model.Fitted{{Slot: "caliper", Facts: model.Facts{"drive": word("mineral")}}}, model.Place{"lever", "caliper"}, nil, fit.Fits, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			part := &model.Part{ID: "p", Name: "p", Facts: c.facts}
			got, results := fit.Alone(tables, &model.Bike{Fitted: c.fitted}, part, c.place, nil)
			if got != c.want {
				t.Errorf("got %s, want %s: %+v", got, c.want, results)
			}
			said := ""
			for _, r := range results {
				said += r.Says
			}
			if !strings.Contains(said, c.missing) {
				t.Errorf("%q does not name %s", said, c.missing)
			}
		})
	}
}

func TestUnofferable(t *testing.T) {
	t.Parallel()
	tables := shop()
	for _, c := range []struct {
		name  string
		place model.Place
		facts model.Facts
		want  bool
	}{
		{"a lever without its drive", model.Place{"lever"}, nil, true},
		{"a lever with it", model.Place{"lever"}, model.Facts{"drive": word("mineral")}, false},
		{"a whole brake without it", model.Place{"lever", "caliper"}, nil, false},
		{"a post without its size breaks no danger rule", model.Place{"post"}, nil, false},
		{"a fork without its rotor limit", model.Place{"fork"}, nil, true},
	} {
		reason := fit.Unofferable(tables, &model.Part{ID: "p", Facts: c.facts}, c.place)
		if (reason != "") != c.want {
			t.Errorf("%s: %q", c.name, reason)
		}
	}
}
