package fit

import (
	"slices"

	"firstbolt/model"
)

// Bench is a bike as it stands, made ready to have many parts held against it. Nothing in it changes after On, so
// several goroutines may use one at the same time, as long as nobody changes the tables and the bike meanwhile.
type Bench struct {
	tables *model.Tables
	allow  []string
	now    map[string]model.Thing
	rules  map[string][]int    // by slot: the rules that look at it, as positions in the table
	near   map[string][]string // by slot: all slots that these rules look at
}

// On prepares a bike. allow lists what practice disagrees on and the rider allowed, as for Judge.
func On(t *model.Tables, bike *model.Bike, allow []string) *Bench {
	b := &Bench{tables: t, allow: allow, now: t.Standing(bike), rules: map[string][]int{}, near: map[string][]string{}}
	for i := range t.Rules {
		together := Slots(&t.Rules[i])
		for _, slot := range together {
			b.rules[slot] = append(b.rules[slot], i)
			for _, other := range together {
				if !slices.Contains(b.near[slot], other) {
					b.near[slot] = append(b.near[slot], other)
				}
			}
		}
	}
	return b
}

// Alone mounts a part on the bike as it stands and evaluates every rule that looks at one of the part's slots.
func (b *Bench) Alone(part *model.Part, place model.Place) (Answer, []Result) {
	built := b.around(place)
	for _, slot := range place {
		built[slot] = b.tables.BoughtThing(part, place, slot)
	}
	s := sight{tables: b.tables, things: built}
	rules := b.concerned(place)
	results := make([]Result, 0, len(rules))
	for _, i := range rules {
		s.rule = &b.tables.Rules[i]
		if res, concerned := s.result(b.allow); concerned {
			results = append(results, res)
		}
	}
	results = inOrder(results)
	answer := Fits
	for _, res := range results {
		s.rule = res.Rule
		answer = max(answer, s.verdict(res.Outcome, b.now, place))
	}
	return answer, results
}

// around are the things that stand in those slots which rules see together with the place.
func (b *Bench) around(place model.Place) map[string]model.Thing {
	things := map[string]model.Thing{}
	for _, slot := range place {
		for _, other := range b.near[slot] {
			if _, there := things[other]; there {
				continue
			}
			if th, there := b.now[other]; there {
				things[other] = th
			}
		}
	}
	return things
}

// concerned are the rules that look at one of the slots, each once.
func (b *Bench) concerned(place model.Place) []int {
	if len(place) == 1 {
		return b.rules[place[0]]
	}
	var list []int
	seen := map[int]bool{}
	for _, slot := range place {
		for _, i := range b.rules[slot] {
			if !seen[i] {
				seen[i] = true
				list = append(list, i)
			}
		}
	}
	return list
}
