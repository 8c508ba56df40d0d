package builtin

import (
	"context"
	"fmt"
	"os"
	"testing"
	"time"

	"firstbolt/solver/internal/random"
)

func TestProbe(t *testing.T) {
	if os.Getenv("PROBE") == "" {
		t.Skip()
	}
	for _, op := range []Options{{Lines: 1}, {Lines: 1, Steps: 400}, {Lines: 1, Steps: 2000}, {Table: 4096, Lines: 1, Steps: 120}, {Table: 4096, Lines: 1, Steps: 400}, {Table: 4096, Lines: 1, Steps: 2000}} {
		for seed := uint64(2); seed <= 3; seed++ {
			o := random.Demo(seed)
			p := random.New(o)
			m, alive, _ := compile(p)
			m.filter(alive)
			m.dominate(alive)
			s := &search{ctx: context.Background(), m: m, options: New(op).options}
			s.g = bestOf(m, p.Objective)
			best := []int64{141722, 154643}[seed-2]
			s.bound = 1e18
			s.g.known, s.g.value, s.g.spent = true, best, 10
			b := time.Now()
			sp := newSpace(m, alive)
			promise := make([]float64, len(alive))
			for i := range promise {
				promise[i] = float64(len(alive[i]))
			}
			sp.arrange(sp.free(promise, s.options.Table, 300), s.options.Table)
			rows, big := 0, 0
			for _, tb := range sp.tables {
				rows += len(tb.rowState)
				big = max(big, tb.size*sp.states[tb.slot])
			}
			t0 := time.Since(b)
			var x *prices
			l := s.price(sp, &x, 0)
			fmt.Println(op, seed, "tables", len(sp.tables), "free", len(sp.order)-sp.fixed, "rows", rows, "big", big, "bound", l[0].bound, "prom", s.bound/float64(s.g.scale), "best", best, "arr", t0, time.Since(b)-t0)
		}
	}
}
