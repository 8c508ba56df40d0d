package formulate

import (
	"slices"

	"firstbolt/model"
	"firstbolt/solver/program"
)

// mostJoined bounds the relation that takes the place of an eliminated guess.
const mostJoined = 4096

// eliminated is a guess that the program no longer sees, with the relations that held it.
type eliminated struct {
	slot   int
	bucket []program.Relation
}

// eliminateGuesses takes the unknown facts out of the program, one after the other: the relations that look at a fact
// are joined into one that asks whether some plausible value of it satisfies them all. So a plan still rests on one
// value of each fact, and the engine has only the bike's own slots to choose in. This is bucket elimination (Dechter,
// 1999; from memory); recover finds the values again. A guess whose joined relation would be large stays a slot.
func (c *Compiled) eliminateGuesses() {
	for s := len(c.Slots) - 1; s >= 0; s-- {
		if c.Slots[s].Role != Guess {
			continue
		}
		var bucket, rest []program.Relation
		for _, r := range c.Program.Relations {
			if slices.Contains(r.Slots, s) {
				bucket = append(bucket, r)
			} else {
				rest = append(rest, r)
			}
		}
		joined, ok := c.join(s, bucket)
		if !ok {
			continue
		}
		c.eliminated = append(c.eliminated, eliminated{slot: s, bucket: bucket})
		c.Program.Relations = rest
		c.Program.Slots[s].Options = c.Program.Slots[s].Options[:1]
		if slices.Contains(joined.Allowed, false) {
			c.keep(joined)
		}
	}
}

// keep adds a relation, or the row that a relation over one slot comes to.
func (c *Compiled) keep(r program.Relation) {
	if len(r.Slots) == 1 {
		c.forbid(r)
		return
	}
	c.Program.Relations = append(c.Program.Relations, r)
}

// join is the relation over all slots of the bucket but one: some option of that slot satisfies every relation of the
// bucket. It is false where the relation would be too large, or nothing would be left of it.
func (c *Compiled) join(slot int, bucket []program.Relation) (program.Relation, bool) {
	joined := program.Relation{}
	size := 1
	var of [][][]int // per slot of joined and class: the class in every relation of the bucket
	for _, r := range bucket {
		joined.Name = r.Name
		for _, s := range r.Slots {
			if s == slot || slices.Contains(joined.Slots, s) {
				continue
			}
			class, classes := refine(bucket, s, len(c.Program.Slots[s].Options))
			joined.Slots, joined.Class, joined.Count = append(joined.Slots, s), append(joined.Class, class), append(joined.Count, len(classes))
			of = append(of, classes)
			if size *= len(classes); size > mostJoined {
				return joined, false
			}
		}
	}
	if len(joined.Slots) == 0 {
		return joined, len(bucket) == 0
	}
	_, values := refine(bucket, slot, len(c.Program.Slots[slot].Options))
	joined.Allowed = make([]bool, size)
	at := make([]int, len(joined.Slots))
	for i := range joined.Allowed {
		joined.Allowed[i] = slices.ContainsFunc(values, func(value []int) bool {
			return satisfied(bucket, func(r, s int) int {
				if s == slot {
					return value[r]
				}
				j := slices.Index(joined.Slots, s)
				return of[j][at[j]][r]
			})
		})
		advance(at, joined.Count)
	}
	return joined, true
}

// refine groups a slot's options that no relation of the bucket tells apart: the class of every option, and for every
// class what it is in each relation (-1 where the relation does not look at the slot).
func refine(bucket []program.Relation, s, options int) (class []int, classes [][]int) {
	for k := range options {
		key := make([]int, len(bucket))
		for i := range bucket {
			key[i] = -1
			if at := slices.Index(bucket[i].Slots, s); at >= 0 {
				key[i] = bucket[i].Class[at][k]
			}
		}
		known := slices.IndexFunc(classes, func(other []int) bool { return slices.Equal(other, key) })
		if known < 0 {
			known = len(classes)
			classes = append(classes, key)
		}
		class = append(class, known)
	}
	return class, classes
}

// satisfied tells whether all relations allow the classes, given by relation and slot.
func satisfied(bucket []program.Relation, classOf func(r, s int) int) bool {
	for i := range bucket {
		classes := make([]int, len(bucket[i].Slots))
		for j, s := range bucket[i].Slots {
			classes[j] = classOf(i, s)
		}
		if !bucket[i].Allows(classes) {
			return false
		}
	}
	return true
}

// recover is the option of every guess: for those still in the program the chosen one, for the eliminated ones the
// likeliest that goes with the rest, the last eliminated first.
func (c *Compiled) recover(choice []int) []int {
	full := slices.Clone(choice)
	for i := len(c.eliminated) - 1; i >= 0; i-- {
		e := &c.eliminated[i]
		for k := range c.Slots[e.slot].Options {
			full[e.slot] = k
			if satisfied(e.bucket, func(r, s int) int {
				return e.bucket[r].Class[slices.Index(e.bucket[r].Slots, s)][full[s]]
			}) {
				break
			}
		}
	}
	return full
}

// Guesses are the unknown facts and the values that the choice takes for them.
func (c *Compiled) Guesses(choice []int) map[[2]string]model.Value {
	values, full := map[[2]string]model.Value{}, c.recover(choice)
	for key, s := range c.guesses {
		values[key] = c.Slots[s].Options[full[s]].Value
	}
	return values
}
