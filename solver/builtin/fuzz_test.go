package builtin_test

import (
	"context"
	"fmt"
	"slices"
	"testing"
	"time"

	"firstbolt/solver/builtin"
	"firstbolt/solver/internal/brute"
	"firstbolt/solver/program"
)

// tape reads a program off arbitrary bytes; at its end it gives zeros.
type tape []byte

func (t *tape) next() int {
	if len(*t) == 0 {
		return 0
	}
	b := (*t)[0]
	*t = (*t)[1:]
	return int(b)
}

func (t *tape) upTo(n int) int { return t.next() % n }

// number is mostly small, sometimes negative, rarely huge.
func (t *tape) number() int64 {
	v := int64(t.next()) - 40
	switch t.next() % 16 {
	case 0:
		return v * 1_000_003
	case 1:
		return v << 44
	}
	return v
}

func (t *tape) program() *program.Program {
	p := &program.Program{Name: "fuzz", Objective: program.Objective{Benefit: int64(t.upTo(4)), Cash: int64(t.upTo(4))}}
	for range t.upTo(3) {
		p.Charges = append(p.Charges, program.Charge{Cash: t.number()})
	}
	for range t.upTo(3) {
		p.Shops = append(p.Shops, program.Shop{Shipping: t.number(), FreeOver: t.number()})
	}
	for range t.upTo(3) {
		m := program.Measure{Weight: int64(t.upTo(5)), Base: t.number(), Curve: program.Curve{Knots: []int64{t.number()}}}
		slope := t.number()
		for range 1 + t.upTo(3) {
			m.Curve.Slopes = append(m.Curve.Slopes, slope)
			m.Curve.Knots = append(m.Curve.Knots, m.Curve.Knots[len(m.Curve.Knots)-1]+1+int64(t.next()))
			slope -= int64(t.next())
		}
		p.Measures = append(p.Measures, m)
	}
	for range 1 + t.upTo(4) {
		s := program.Slot{}
		for range 1 + t.upTo(4) {
			s.Options = append(s.Options, t.option(p))
		}
		p.Slots = append(p.Slots, s)
	}
	t.rules(p)
	p.Budget, p.Floor = program.NoBudget, program.NoFloor
	if t.upTo(3) > 0 {
		p.Budget = t.number()
	}
	if t.upTo(3) == 0 {
		p.Floor = t.number()
	}
	return p
}

func (t *tape) option(p *program.Program) program.Option {
	o := program.Option{Cash: t.number(), Listed: int64(t.next()), Shop: t.upTo(len(p.Shops)+1) - 1, Purchases: t.upTo(3)}
	if len(p.Charges) > 0 && t.upTo(2) == 1 {
		o.Charges = []int{t.upTo(len(p.Charges))}
	}
	for range t.upTo(3) {
		if len(p.Measures) > 0 {
			o.Amounts = append(o.Amounts, program.Amount{Measure: t.upTo(len(p.Measures)), Steps: t.number()})
		}
	}
	return o
}

func (t *tape) rules(p *program.Program) {
	for i := range t.upTo(4) {
		r := program.Relation{Name: fmt.Sprint(i)}
		size := 1
		for s := range p.Slots {
			if t.upTo(2) == 1 {
				class := make([]int, len(p.Slots[s].Options))
				for k := range class {
					class[k] = t.upTo(2)
				}
				r.Slots, r.Class, r.Count = append(r.Slots, s), append(r.Class, class), append(r.Count, 2)
				size *= 2
			}
		}
		for range size {
			r.Allowed = append(r.Allowed, t.upTo(3) > 0)
		}
		if len(r.Slots) > 1 {
			p.Relations = append(p.Relations, r)
		}
	}
	for range t.upTo(3) {
		r := program.Row{AtMost: t.number()}
		for s := range p.Slots {
			if t.upTo(2) == 1 {
				r.Terms = append(r.Terms, program.Term{Slot: s, Option: t.upTo(len(p.Slots[s].Options)), Coef: t.number()})
			}
		}
		p.Rows = append(p.Rows, r)
	}
}

// Whatever the program, the engine refuses it or answers as full enumeration does.
func FuzzSolve(f *testing.F) {
	f.Add([]byte{})
	f.Add([]byte("the quick brown fox jumps over the lazy dog and then some more to fill the tape with numbers of many kinds"))
	f.Add([]byte{1, 0, 2, 90, 9, 60, 9, 2, 80, 9, 120, 9, 2, 3, 50, 9, 30, 9, 2, 60, 5, 60, 5, 3, 3, 70, 9, 5, 1, 1, 1, 0, 1, 0, 60, 9})
	f.Fuzz(func(t *testing.T, data []byte) {
		in := tape(data)
		p := in.program()
		ctx, cancel := context.WithTimeout(context.Background(), 5*time.Second)
		defer cancel()
		got, err := builtin.New(tunings[len(data)%3]).Solve(ctx, p)
		if err != nil {
			return
		}
		want, err := brute.Solve(p)
		if err != nil {
			t.Fatalf("the engine took what the referee refuses: %v", err)
		}
		if got.Status != want.Status || !slices.Equal(got.Choice, want.Choice) {
			t.Fatalf("got %+v, want %+v\n%+v", got, want, p)
		}
	})
}
