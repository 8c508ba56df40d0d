package fit_test

import (
	"slices"
	"testing"

	"firstbolt/model"
	"firstbolt/model/fit"
)

// The rules here are as small as the point needs; published values are checked where the real tables are
// (datasets/fit_test.go). Facts are made up; what is checked is the logic.

var measured = model.Origin{Sheet: "test", How: model.Measured}

func number(milli int64) model.Value { return model.NumberValue(milli, measured) }

func word(w ...string) model.Value { return model.ChoiceValue(measured, w...) }

func of(slot, fact string) model.Side { return model.Side{{Coef: 1, Slot: slot, Fact: fact}} }

func bought(slot string, facts model.Facts) model.Thing {
	part := &model.Part{ID: slot, Name: "new " + slot, Facts: facts}
	return model.Thing{Slot: slot, State: model.Bought, Name: part.Name, Part: part, Facts: facts}
}

func fitted(slot string, facts model.Facts) model.Thing {
	return model.Thing{Slot: slot, State: model.AsFitted, Name: "fitted " + slot, Fitted: &model.Fitted{Slot: slot}, Facts: facts}
}

func on(things ...model.Thing) map[string]model.Thing {
	built := map[string]model.Thing{}
	for _, th := range things {
		built[th.Slot] = th
	}
	return built
}

var (
	lever   = model.Rule{ID: "drive.front", Left: of("lever", "drive"), Right: of("caliper", "drive"), Severity: model.Danger}
	bore    = model.Rule{ID: "bore", Left: of("post", "mm"), Right: of("frame", "bore_mm"), Margin: 50, Severity: model.Firm, Bridge: &model.Bridge{Slot: "sleeve", From: "in", To: "out"}}
	rotor   = model.Rule{ID: "step", Left: of("fork", "native"), Right: of("rotor", "mm"), Severity: model.Firm, Bridge: &model.Bridge{Slot: "adapter", Step: "step"}}
	tyre    = model.Rule{ID: "rated", Left: of("tyre", "rated"), Right: model.Side{{Constant: "yes"}}, When: []model.Term{{Slot: "rim", Fact: "hookless", Constant: "yes"}}, Severity: model.Danger}
	guide   = model.Rule{ID: "guide", Left: of("rings", "count"), Relation: model.AtMost, Right: model.Side{{Coef: 1}}, When: []model.Term{{Slot: "guide", Constant: "present"}}, Severity: model.Firm}
	disc    = model.Rule{ID: "disc", Left: of("rotor", "mount"), Right: of("wheel", "mount"), Needs: true, Severity: model.Firm}
	hub     = model.Rule{ID: "hub.rear", Left: of("frame", "axle"), Relation: model.PairIn, Right: of("wheel", "axle"), Table: "axles", Severity: model.Firm}
	caution = model.Rule{ID: "say", Left: of("post", "mm"), Right: of("frame", "bore_mm"), Severity: model.Advice}
	pairs   = &model.Tables{Pairs: map[string][]model.Pair{"axles": {
		{Left: "130", Right: "135", Severity: model.BothSides}, {Left: "130", Right: "130", Severity: model.Firm},
	}}}
)

func TestJudge(t *testing.T) {
	t.Parallel()
	post := func(mm int64) model.Thing { return bought("post", model.Facts{"mm": number(mm)}) }
	tube := fitted("frame", model.Facts{"bore_mm": number(30_900)})
	sleeve := func(in, out int64) model.Thing {
		return bought("sleeve", model.Facts{"in": number(in), "out": number(out)})
	}
	fork := fitted("fork", model.Facts{"native": number(160_000)})
	disk := func(mm int64) model.Thing { return bought("rotor", model.Facts{"mm": number(mm)}) }
	step := func(mm int64) model.Thing { return bought("adapter", model.Facts{"step": number(mm)}) }
	for _, c := range []struct {
		name    string
		rule    *model.Rule
		things  map[string]model.Thing
		allow   []string
		want    fit.State
		forbids bool
	}{
		{"an empty slot is not concerned", &lever, on(bought("lever", model.Facts{"drive": word("a")})), nil, fit.NotConcerned, false},
		{"an alternative in common is enough", &lever, on(bought("lever", model.Facts{"drive": word("a", "b")}), bought("caliper", model.Facts{"drive": word("b")})), nil, fit.Met, false},
		{"27.18 is 27.2 within 0.05", &bore, on(post(30_850), tube), nil, fit.Met, false},
		{"27.0 is not", &bore, on(post(30_840), tube), nil, fit.Broken, true},
		{"a sleeve joins", &bore, on(post(27_200), tube, sleeve(27_200, 30_900)), nil, fit.Bridged, false},
		{"a sleeve joins one way only", &bore, on(bought("post", model.Facts{"mm": number(30_900)}), fitted("frame", model.Facts{"bore_mm": number(27_200)}), sleeve(27_200, 30_900)), nil, fit.Broken, true},
		{"a sleeve too much does not go in", &bore, on(post(30_900), tube, sleeve(27_200, 30_900)), nil, fit.Broken, true},
		// 40-program: mount 160, rotor 200 and a "+20" adapter were once let through.
		{"160 + 20 is not 200", &rotor, on(fork, disk(200_000), step(20_000)), nil, fit.Broken, true},
		{"160 + 40 is 200", &rotor, on(fork, disk(200_000), step(40_000)), nil, fit.Bridged, false},
		{"an adapter where none belongs", &rotor, on(fork, disk(160_000), step(20_000)), nil, fit.Broken, true},
		{"an adapter of unknown step", &rotor, on(fork, disk(200_000), bought("adapter", model.Facts{})), nil, fit.Missing, false},
		{"a condition that does not hold", &tyre, on(bought("tyre", model.Facts{"rated": word("no")}), fitted("rim", model.Facts{"hookless": word("no")})), nil, fit.NotConcerned, false},
		{"a condition that holds", &tyre, on(bought("tyre", model.Facts{"rated": word("no")}), fitted("rim", model.Facts{"hookless": word("yes")})), nil, fit.Broken, true},
		{"met whatever the condition", &tyre, on(bought("tyre", model.Facts{"rated": word("yes")}), fitted("rim", model.Facts{})), nil, fit.Met, false},
		{"an unknown condition decides", &tyre, on(bought("tyre", model.Facts{"rated": word("no")}), fitted("rim", model.Facts{})), nil, fit.Missing, false},
		{"a condition on presence", &guide, on(bought("guide", nil), fitted("rings", model.Facts{"count": number(3000)})), nil, fit.Broken, true},
		{"needed and empty", &disc, on(bought("wheel", model.Facts{"mount": word("6")})), nil, fit.Broken, true},
		{"needed, and nobody knows whether it is there", &disc, on(bought("wheel", model.Facts{"mount": word("6")}), model.Thing{Slot: "rotor", State: model.Empty}), nil, fit.NotConcerned, false},
		{"a disputed pair", &hub, on(fitted("frame", model.Facts{"axle": word("130")}), bought("wheel", model.Facts{"axle": word("135")})), nil, fit.Broken, true},
		{"a disputed pair, allowed", &hub, on(fitted("frame", model.Facts{"axle": word("130")}), bought("wheel", model.Facts{"axle": word("135")})), []string{"hub"}, fit.Allowed, false},
		{"an undisputed alternative wins", &hub, on(fitted("frame", model.Facts{"axle": word("130")}), bought("wheel", model.Facts{"axle": word("135", "130")})), nil, fit.Met, false},
		{"no pair at all cannot be allowed", &hub, on(fitted("frame", model.Facts{"axle": word("126")}), bought("wheel", model.Facts{"axle": word("135")})), []string{"hub.rear"}, fit.Broken, true},
		{"danger cannot be allowed", &lever, on(bought("lever", model.Facts{"drive": word("a")}), fitted("caliper", model.Facts{"drive": word("b")})), []string{"drive", "drive.front"}, fit.Broken, true},
		{"danger and a bought part that does not say", &lever, on(bought("lever", model.Facts{}), fitted("caliper", model.Facts{"drive": word("b")})), nil, fit.Broken, true},
		{"danger and a bought part of which it is supposed", &lever, on(fit.Suppose(bought("lever", model.Facts{}), "drive", word("b")), fitted("caliper", model.Facts{"drive": word("b")})), nil, fit.Broken, true},
		{"danger and a fitted part that is not known", &lever, on(bought("lever", model.Facts{"drive": word("b")}), fitted("caliper", model.Facts{})), nil, fit.Missing, false},
		{"danger and a fitted part of which it is supposed", &lever, on(bought("lever", model.Facts{"drive": word("b")}), fit.Suppose(fitted("caliper", model.Facts{}), "drive", word("a"))), nil, fit.Broken, true},
		{"the bike as it stands breaks a rule: said, not forbidden", &lever, on(fitted("lever", model.Facts{"drive": word("a")}), fitted("caliper", model.Facts{"drive": word("b")})), nil, fit.Broken, false},
		{"advice never forbids", &caution, on(post(27_200), tube), nil, fit.Broken, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			o := fit.Judge(pairs, c.rule, c.things, c.allow)
			if o.State != c.want || o.Forbids() != c.forbids {
				t.Errorf("got %s, forbids %v; want %s, forbids %v", o.State, o.Forbids(), c.want, c.forbids)
			}
		})
	}
}

// TestOneSet: what one maker delivers together goes together where a fact is not stated, two parts do not.
func TestOneSet(t *testing.T) {
	t.Parallel()
	kit := &model.Part{ID: "kit", Name: "brake"}
	thing := func(slot string, p *model.Part) model.Thing {
		return model.Thing{Slot: slot, State: model.Bought, Name: p.Name, Part: p, Facts: model.Facts{}}
	}
	if o := fit.Judge(pairs, &lever, on(thing("lever", kit), thing("caliper", kit)), nil); o.State != fit.Met {
		t.Errorf("one set: %s", o.State)
	}
	other := &model.Part{ID: "other", Name: "brake"}
	if o := fit.Judge(pairs, &lever, on(thing("lever", kit), thing("caliper", other)), nil); !o.Forbids() {
		t.Errorf("two sets: %s", o.State)
	}
}

// TestServicedStands: servicing what is fitted is not a change that fit could forbid.
func TestServicedStands(t *testing.T) {
	t.Parallel()
	a := fitted("lever", model.Facts{"drive": word("a")})
	a.State = model.Serviced
	if o := fit.Judge(pairs, &lever, on(a, fitted("caliper", model.Facts{"drive": word("b")})), nil); o.Forbids() || !o.Standing {
		t.Errorf("got %+v", o)
	}
	gone := model.Thing{Slot: "lever", State: model.Empty, Fitted: &model.Fitted{Slot: "lever"}}
	needed := lever
	needed.Needs = true
	if o := fit.Judge(pairs, &needed, on(gone, fitted("caliper", model.Facts{"drive": word("b")})), nil); !o.Forbids() {
		t.Errorf("taken off and needed: %+v", o)
	}
}

// TestSum: links >= 4C/25.4 + (F + R)/2 + 2; C = 16 in, F = 44, R = 12 gives 47 in, 94 half-links
// (worked example of calculatorultra.com, chain length calculator).
func TestSum(t *testing.T) {
	t.Parallel()
	r := model.Rule{
		ID: "chain", Left: of("chain", "links"), Relation: model.AtLeast, Severity: model.Danger, Fails: "{left} < {right}",
		Right: model.Side{{Coef: 4 / 25.4, Slot: "frame", Fact: "stay"}, {Coef: 0.5, Slot: "ring", Fact: "max"}, {Coef: 0.5, Slot: "cog", Fact: "max"}, {Coef: 2}},
	}
	tables := &model.Tables{Rules: []model.Rule{r}}
	built := on(fitted("frame", model.Facts{"stay": number(406_400)}), fitted("ring", model.Facts{"max": number(44_000)}), bought("cog", model.Facts{"max": number(12_000)}))
	for links, want := range map[int64]fit.State{94: fit.Met, 93: fit.Broken} {
		built["chain"] = bought("chain", model.Facts{"links": number(links * 1000)})
		if o := fit.Judge(tables, &r, built, nil); o.State != want {
			t.Errorf("%d links: %s", links, o.State)
		}
	}
	built["chain"] = bought("chain", model.Facts{"links": number(90_000)})
	if results := fit.Check(tables, built, nil); len(results) != 1 || results[0].Says != "90 < 94" || len(results[0].Right) != 3 {
		t.Errorf("got %+v", results)
	}
}

// TestOrderOfRows: the order of rules and pairs changes neither the outcomes nor the order of the results.
func TestOrderOfRows(t *testing.T) {
	t.Parallel()
	tables := model.Tables{Rules: []model.Rule{lever, bore, rotor, tyre, guide, disc, hub, caution}, Pairs: pairs.Pairs}
	turned := model.Tables{Rules: slices.Clone(tables.Rules), Pairs: map[string][]model.Pair{"axles": slices.Clone(pairs.Pairs["axles"])}}
	slices.Reverse(turned.Rules)
	slices.Reverse(turned.Pairs["axles"])
	built := on(bought("post", model.Facts{"mm": number(27_200)}), fitted("frame", model.Facts{"bore_mm": number(30_900), "axle": word("130")}),
		bought("wheel", model.Facts{"axle": word("135", "130"), "mount": word("6")}), bought("lever", model.Facts{"drive": word("a")}),
		fitted("caliper", model.Facts{"drive": word("b")}))
	one, two := fit.Check(&tables, built, nil), fit.Check(&turned, built, nil)
	if len(one) == 0 || len(one) != len(two) {
		t.Fatalf("%d and %d results", len(one), len(two))
	}
	for i := range one {
		if one[i].Rule.ID != two[i].Rule.ID || one[i].State != two[i].State || one[i].Says != two[i].Says {
			t.Errorf("%s %s, %s %s", one[i].Rule.ID, one[i].State, two[i].Rule.ID, two[i].State)
		}
	}
}
