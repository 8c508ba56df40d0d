package solver_test

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"firstbolt/model"
	"firstbolt/model/fit"
	"firstbolt/solver"
	"firstbolt/solver/builtin"
	"firstbolt/solver/formulate"
)

func fitsOf(t testing.TB, s *model.Shed, o formulate.Options) []solver.Fitting {
	t.Helper()
	list, err := solver.Fits(context.Background(), solver.FitQuestion{Shed: s, Bike: s.OwnBike(), Options: o, Lead: builtin.New(builtin.Options{})})
	if err != nil {
		t.Fatal(err)
	}
	return list
}

// clusters are slots whose parts take one another along.
var clusters = [][]string{
	{"rear wheel", "cassette", "rear shifter", "rear tube"},
	{"front wheel", "front tube", "front tyre", "front tubeless set"},
	{"stem", "handlebar", "bar sleeve", "grips"},
	{"front rotor", "front brake adapter", "front pads", "front brake caliper"},
	{"rear rotor", "rear brake adapter", "rear pads", "seatpost", "seatpost sleeve"},
	{"rear wheel", "cassette", "rear shifter", "rear derailleur", "chain"},
}

// related keeps the parts of one cluster; in most sheds without those that nothing mends.
func related(s *model.Shed, i int) *model.Shed {
	bench := fit.On(s.Tables, s.OwnBike(), nil)
	s.Parts = slices.DeleteFunc(s.Parts, func(p model.Part) bool {
		return !slices.ContainsFunc(p.Places, func(place model.Place) bool {
			answer, _ := bench.Alone(&p, place)
			return slices.Contains(clusters[i%len(clusters)], place[0]) && (answer != fit.DoesNotFit || i%5 == 0)
		})
	})
	return s
}

// TestCompanyIsTheCheapest never looks at a program: of every set of purchases of small sheds the cheapest with a part
// in it must cost what the part and its company cost, and where there is none, the part must not be said to fit.
func TestCompanyIsTheCheapest(t *testing.T) {
	t.Parallel()
	count := map[fit.Answer]int{}
	for i := range 30 {
		s := plainShed(rand.New(rand.NewPCG(23, uint64(i))), related(demoShed(t), i))
		for k := range s.Shops {
			s.Shops[k].FreeOver.Known = false // nothing goes with a part only to save postage
		}
		c, err := formulate.Compile(s, s.OwnBike(), formulate.Options{})
		if err != nil {
			t.Fatal(err)
		}
		e := enumerate(t, s, c, math.MaxInt32)
		for _, f := range fitsOf(t, s, formulate.Options{}) {
			count[f.Answer]++
			least, exists := e.least[key(f.Part, f.Place)]
			switch {
			case f.Lacks.Fact != "" || f.Answer == fit.MeasureFirst && !exists:
			case (f.Answer == fit.DoesNotFit || f.Answer == fit.BothSides) == exists:
				t.Errorf("shed %d: %s is said %s, a set with it exists: %v", i, key(f.Part, f.Place), f.Answer, exists)
			case exists && f.Alone+f.Cost != least:
				t.Errorf("shed %d: %s: %d and %d for its company, the cheapest set costs %d", i, key(f.Part, f.Place), f.Alone, f.Cost, least)
			}
		}
	}
	for _, a := range []fit.Answer{fit.Fits, fit.FitsWith, fit.MeasureFirst, fit.DoesNotFit} {
		if count[a] < 10 {
			t.Errorf("%s came out %d times, which tests too little", a, count[a])
		}
	}
	t.Log(count)
}

// TestCompanyIsMinimal: without any one of its companions the part does not fit.
func TestCompanyIsMinimal(t *testing.T) {
	t.Parallel()
	s := demoShed(t)
	now, tried := s.Tables.Standing(s.OwnBike()), 0
	for _, f := range fitsOf(t, s, formulate.Options{}) {
		for without := range f.Company {
			built := map[string]model.Thing{}
			for slot, th := range now {
				built[slot] = th
			}
			for _, slot := range f.Place {
				built[slot] = s.Tables.BoughtThing(f.Part, f.Place, slot)
			}
			for i, c := range f.Company {
				for _, ch := range c.Purchase.Changes {
					if i != without {
						built[ch.Label.Thing.Slot] = ch.Label.Thing
					}
				}
			}
			tried++
			if !forbidden(s.Tables, built, now) {
				t.Errorf("%s fits without %v", key(f.Part, f.Place), f.Company[without].Purchase.Changes[0].Label.Thing.Name)
			}
		}
	}
	if tried < 20 {
		t.Errorf("only %d companions were tried", tried)
	}
}

// forbidden tells whether a rule forbids the built bike.
func forbidden(tables *model.Tables, built, now map[string]model.Thing) bool {
	return slices.ContainsFunc(fit.Check(tables, built, nil), func(r fit.Result) bool {
		return r.Forbids() && !fit.AsBefore(r.Rule, built, now)
	})
}

// TestFitsOfAnUnsafeBike: what is unsafe is not mended on the way, and parts that are never wanted are judged all the same.
func TestFitsOfAnUnsafeBike(t *testing.T) {
	t.Parallel()
	s := demoShed(t)
	before := fitsOf(t, s, formulate.Options{})
	for i := range s.Bikes {
		for j := range s.Bikes[i].Fitted {
			if s.Bikes[i].Fitted[j].Slot == "front brake caliper" {
				s.Bikes[i].Fitted[j].Condition = model.Unsafe
			}
		}
	}
	for i := range s.Parts {
		s.Parts[i].Wish = model.Never
	}
	after := fitsOf(t, s, formulate.Options{})
	if len(after) != len(before) {
		t.Fatalf("%d verdicts, want %d", len(after), len(before))
	}
	for i := range after {
		if after[i].Answer != before[i].Answer || after[i].Cost != before[i].Cost {
			t.Errorf("%s: %s with %d, want %s with %d", key(after[i].Part, after[i].Place), after[i].Answer, after[i].Cost, before[i].Answer, before[i].Cost)
		}
	}
}

// TestAllowedRules: a disputed rule that is allowed makes of "both sides" what was foretold.
func TestAllowedRules(t *testing.T) {
	t.Parallel()
	s, seen := demoShed(t), 0
	for _, f := range fitsOf(t, s, formulate.Options{}) {
		if f.Milder == nil {
			continue
		}
		seen++
		q := solver.FitQuestion{Shed: s, Bike: s.OwnBike(), Part: f.Part, Options: formulate.Options{Allow: f.Allow}, Lead: builtin.New(builtin.Options{})}
		list, err := solver.Fits(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		for _, allowed := range list {
			if !slices.Equal(allowed.Place, f.Place) {
				continue
			}
			if allowed.Answer != f.Milder.Answer || allowed.Cost != f.Milder.Cost {
				t.Errorf("%s under %v: %s with %d, foretold %s with %d", f.Part.Name, f.Allow, allowed.Answer, allowed.Cost, f.Milder.Answer, f.Milder.Cost)
			}
		}
	}
	if seen < 3 {
		t.Errorf("only %d parts hang on disputed rules", seen)
	}
}

// BenchmarkFits judges every part of the demo on its own bike, company included, and one part that takes a whole
// drivetrain along.
func BenchmarkFits(b *testing.B) {
	s := demoShed(b)
	far := 0
	for i := range s.Parts {
		if s.Parts[i].ID == "RD2" {
			far = i
		}
	}
	for name, part := range map[string]*model.Part{"parts=all": nil, "parts=one": &s.Parts[far]} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				q := solver.FitQuestion{Shed: s, Bike: s.OwnBike(), Part: part, Lead: builtin.New(builtin.Options{})}
				if _, err := solver.Fits(context.Background(), q); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
