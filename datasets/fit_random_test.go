package datasets_test

import (
	"math/rand/v2"
	"slices"
	"strconv"
	"testing"

	"firstbolt/datasets"
	"firstbolt/model"
	"firstbolt/model/fit"
)

// lot draws bikes and parts at random, always the same ones for a seed.
type lot struct {
	*rand.Rand
	shed *model.Shed
}

func newLot(t *testing.T, seed uint64) lot {
	t.Helper()
	shed, _, err := datasets.LoadDemo(datasets.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return lot{rand.New(rand.NewPCG(seed, 3)), shed}
}

// bike is one of the demo's bikes of which some facts were never measured, some only assumed, and some pieces put in.
func (l lot) bike() *model.Bike {
	b := l.shed.Bikes[l.IntN(len(l.shed.Bikes))]
	b.Fitted = slices.Clone(b.Fitted)
	for i := range b.Fitted {
		f := &b.Fitted[i]
		facts := model.Facts{}
		for _, name := range sortedNames(f.Facts) {
			v := f.Facts[name]
			switch dice := l.IntN(20); {
			case dice == 0:
				continue
			case dice < 3:
				v.Origin = model.Origin{Sheet: "like", How: model.Assumed}
			}
			facts[name] = v
		}
		f.Facts = facts
	}
	return &b
}

func sortedNames(facts model.Facts) []string {
	var names []string
	for name := range facts {
		names = append(names, name)
	}
	slices.Sort(names)
	return names
}

// part has every fact of the slot, drawn from what the bike wants, what stands there, and what is allowed or plausible.
func (l lot) part(slot string, wants []fit.Requirement, bike *model.Bike) *model.Part {
	p := &model.Part{ID: "random", Name: "random " + slot, Places: []model.Place{{slot}}, Facts: model.Facts{}}
	for i := range l.shed.Tables.Facts {
		f := &l.shed.Tables.Facts[i]
		if f.Has(slot) {
			p.Facts[f.Name] = l.value(f, slot, wants, bike)
		}
	}
	return p
}

// nearly is the thing that stands in the slot now as a part, with one or no fact otherwise.
func (l lot) nearly(slot string, bike *model.Bike) *model.Part {
	p := &model.Part{ID: "random", Name: "like the old " + slot, Places: []model.Place{{slot}}, Facts: model.Facts{}}
	for name, v := range l.shed.Tables.FittedThing(bike, slot).Facts {
		v.Origin = model.Origin{Sheet: "test", How: model.Measured}
		p.Facts[name] = v
	}
	if l.IntN(3) > 0 {
		f := &l.shed.Tables.Facts[l.IntN(len(l.shed.Tables.Facts))]
		for !f.Has(slot) {
			f = &l.shed.Tables.Facts[l.IntN(len(l.shed.Tables.Facts))]
		}
		p.Facts[f.Name] = l.value(f, slot, nil, bike)
	}
	return p
}

func (l lot) value(f *model.Fact, slot string, wants []fit.Requirement, bike *model.Bike) model.Value {
	o := model.Origin{Sheet: "test", How: model.Measured}
	var hits []model.Value
	for _, q := range wants {
		if q.Fact != f.Name {
			continue
		}
		for _, v := range append([]fit.Values{q.Does}, values(q.Ways)...) {
			hits = append(hits, l.inside(v, f)...)
		}
	}
	if f.Name == "used" || f.Name == "dropper" || f.Name == "inspected" || len(hits) > 0 && l.IntN(5) > 0 {
		hits = append(hits, choices(f)...)
		if len(hits) > 0 {
			v := hits[l.IntN(len(hits))]
			v.Origin = o
			return v
		}
	}
	if fitted := bike.InSlot(slot); fitted != nil && fitted.Facts[f.Name].Known() && l.IntN(3) == 0 {
		v := fitted.Facts[f.Name]
		if v.Number || len(v.Choices) == 1 {
			v.Origin = o
			return v
		}
	}
	if f.Kind == model.Number {
		return model.NumberValue([]int64{f.Low, f.High, f.Low + l.Int64N(f.High-f.Low+1)}[l.IntN(3)], o)
	}
	all := choices(f)
	v := all[l.IntN(len(all))]
	v.Origin = o
	return v
}

func choices(f *model.Fact) []model.Value {
	words := f.Allowed
	if f.Kind == model.YesOrNo {
		words = []string{"yes", "no"}
	}
	var list []model.Value
	for _, w := range words {
		list = append(list, model.ChoiceValue(model.Origin{}, w))
	}
	return list
}

func values(ways []fit.Way) []fit.Values {
	var list []fit.Values
	for _, w := range ways {
		list = append(list, w.Values)
	}
	return list
}

// inside are values that a requirement names, its edges and the numbers just beyond them.
func (l lot) inside(v fit.Values, f *model.Fact) []model.Value {
	var list []model.Value
	for _, c := range v.Choices {
		if n, err := strconv.ParseFloat(c, 64); err == nil && f.Kind == model.Number {
			list = append(list, model.NumberValue(int64(n*1000+0.5), model.Origin{}))
			continue
		}
		list = append(list, model.ChoiceValue(model.Origin{}, c))
	}
	if v.Listed || v.None() {
		return list
	}
	low, high := max(v.Low, f.Low), min(v.High, f.High)
	for _, x := range slices.Concat(v.Except, []int64{low - 1, low, high, high + 1, (low + high) / 2}) {
		if f.Low <= x && x <= f.High {
			list = append(list, model.NumberValue(x, model.Origin{}))
		}
	}
	return list
}
