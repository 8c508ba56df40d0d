package builtin

import (
	"context"
	"fmt"
	"os"
	"syscall"
	"testing"
	"time"

	"firstbolt/solver/internal/random"
)

func TestStats(t *testing.T) {
	if os.Getenv("STATS") == "" {
		t.Skip()
	}
	fam := map[string]func(uint64) random.Options{"demo": random.Demo, "8": func(s uint64) random.Options { return random.Sheet(s, 8) }, "20": func(s uint64) random.Options { return random.Sheet(s, 20) }, "40": func(s uint64) random.Options { return random.Sheet(s, 40) }}[os.Getenv("STATS")]
	for seed := uint64(1); seed <= 5; seed++ {
		for _, share := range []float64{0.1, 0.25, 0.5} {
			o := fam(seed)
			o.Budget = share
			p := random.New(o)
			begin := cpu()
			m, alive, _ := compile(p)
			m.filter(alive)
			n0 := countOptions(alive)
			m.dominate(alive)
			n1 := countOptions(alive)
			s := &search{ctx: context.Background(), m: m, options: New(Options{}).options}
			s.g = bestOf(m, p.Objective)
			t0 := cpu() - begin
			al := clone(alive)
			promise := make([]float64, len(al))
			sp, lines, open := s.narrow(al, promise)
			t1 := cpu() - begin
			rows, free, slack := 0, 0, 0.0
			inc := s.is.benefit
			if open {
				for _, tb := range sp.tables {
					rows += len(tb.rowState)
				}
				free = len(sp.order) - sp.fixed
				slack = float64(lines[0].bound-s.g.need(lines[0])) / float64(s.g.scale)
				if !s.descend(sp, lines, manyNodes) {
					s.split(sp.alive, promise)
				}
			}
			t2 := cpu() - begin
			n := s.nodes
			s.settle(alive)
			t3 := cpu() - begin
			fmt.Printf("%d/%.2f opts %d->%d | narrow %v: free %d opts %d rows %d dropped %d slack %.0f inc %d->%d | tree %v nodes %d in %v | settle %v nodes %d | pre %v\n", seed, share, n0, n1, (t1 - t0).Round(time.Millisecond), free, countOptions(al), rows, 0, slack, inc, s.is.benefit, (t2 - t1).Round(time.Millisecond), n, t2.Round(time.Millisecond), (t3 - t2).Round(time.Millisecond), s.nodes-n, t0.Round(time.Millisecond))
		}
	}
}

func cpu() time.Duration {
	var r syscall.Rusage
	syscall.Getrusage(0, &r)
	return time.Duration(r.Utime.Nano() + r.Stime.Nano())
}
