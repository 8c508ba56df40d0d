package solver

import (
	"math/bits"
	"slices"

	"firstbolt/model"
	"firstbolt/solver/formulate"
)

// mostOrdered is how many purchases are ordered exactly, over all their subsets; above it the order is built greedily,
// best benefit per money first.
const mostOrdered = 11

// order puts a plan's purchases into steps: every step leads from one fitting bike to the next, and the benefit comes
// as soon as it can (the area under benefit over money spent is largest). Shared charges stand on the first step that
// uses them, and the steps add up to the plan.
func order(c *formulate.Compiled, choice []int) []Step {
	o := orderer{c: c, choice: choice, purchases: c.Purchases(choice), seen: map[uint]state{}}
	if len(o.purchases) == 0 {
		return nil
	}
	o.begin = o.start()
	full := uint(1)<<len(o.purchases) - 1
	var chain []uint
	if len(o.purchases) <= mostOrdered {
		chain = o.exact(full)
	} else {
		chain = o.greedy(full)
	}
	chain = o.withRemovals(chain)
	steps, before := make([]Step, 0, len(chain)), o.begin
	for i, set := range chain {
		from := uint(0)
		if i > 0 {
			from = chain[i-1]
		}
		now := o.at(set)
		steps = append(steps, o.step(set&^from, before, now))
		before = now
	}
	return steps
}

// withRemovals drops the sets after which things would only have been taken off: what comes off does so in the step of
// the part that takes its place or wants it gone.
func (o *orderer) withRemovals(chain []uint) []uint {
	var kept []uint
	from := uint(0)
	for i, set := range chain {
		if i+1 < len(chain) && o.onlyRemoves(set&^from) {
			continue
		}
		kept, from = append(kept, set), set
	}
	return kept
}

func (o *orderer) onlyRemoves(added uint) bool {
	for i, p := range o.purchases {
		for _, ch := range p.Changes {
			if added>>i&1 == 1 && ch.Label.Thing.State != model.Empty {
				return false
			}
		}
	}
	return true
}

type orderer struct {
	c         *formulate.Compiled
	choice    []int
	purchases []formulate.Purchase
	seen      map[uint]state
	begin     state // the bike as it stands
}

// state is the bike after some of the purchases.
type state struct {
	fits    bool
	cash    int64
	benefit int64
	amounts []int64
	ship    int64
}

// start is the bike as it stands, reckoned even where something fitted is unsafe.
func (o *orderer) start() state {
	amounts := o.c.StandingAmounts()
	return state{fits: true, benefit: o.c.BenefitOf(amounts), amounts: amounts}
}

// at is the bike after the purchases of a set.
func (o *orderer) at(set uint) state {
	if s, ok := o.seen[set]; ok {
		return s
	}
	choice, ok := o.partial(set)
	s := state{}
	if ok && o.c.Program.Feasible(choice) == nil || set == uint(1)<<len(o.purchases)-1 {
		e := o.c.Program.Evaluate(choice)
		s = state{fits: true, cash: e.Cash, benefit: e.Benefit, amounts: e.Amounts}
		for _, ship := range e.Shipping {
			s.ship += ship
		}
	}
	o.seen[set] = s
	return s
}

// partial is the choice with only some of the purchases made; false where the bike as it stands is no option.
func (o *orderer) partial(set uint) ([]int, bool) {
	choice := slices.Clone(o.choice)
	if set == uint(1)<<len(o.purchases)-1 {
		return choice, true
	}
	for s := range choice {
		if o.c.Slots[s].Role == formulate.OnBike {
			choice[s] = o.c.AsItStands[s]
		}
	}
	for i, p := range o.purchases {
		for _, ch := range p.Changes {
			if set>>i&1 == 1 {
				choice[ch.Slot] = o.choice[ch.Slot]
			}
		}
	}
	if slices.Contains(choice, -1) {
		return nil, false
	}
	o.c.SettleWorths(choice)
	return choice, true
}

// exact finds the chain of fitting sets with the largest area by dynamic programming over subsets; of equal chains the
// one with more and earlier steps. A set that fits only through one larger step is a bundle.
func (o *orderer) exact(full uint) []uint {
	type best struct {
		area int64
		from uint
		ok   bool
	}
	table := make([]best, full+1)
	table[0] = best{ok: true}
	for set := uint(1); set <= full; set++ {
		now := o.at(set)
		if !now.fits {
			continue
		}
		for from := (set - 1) & set; ; from = (from - 1) & set {
			if prior := table[from]; prior.ok {
				before := o.begin
				if from != 0 {
					before = o.at(from)
				}
				area := prior.area + before.benefit*(now.cash-before.cash)
				old := table[set]
				if !old.ok || area > old.area || area == old.area && bits.OnesCount(from) > bits.OnesCount(old.from) {
					table[set] = best{area: area, from: from, ok: true}
				}
			}
			if from == 0 {
				break
			}
		}
	}
	var chain []uint
	for set := full; set != 0; set = table[set].from {
		chain = append(chain, set)
	}
	slices.Reverse(chain)
	return chain
}

// greedy adds the single purchase or pair with the best benefit per money that leads to a fitting bike; where none
// does, everything left is one step.
func (o *orderer) greedy(full uint) []uint {
	var chain []uint
	for set := uint(0); set != full; {
		before, next := o.begin, full
		if set != 0 {
			before = o.at(set)
		}
		for i := range o.purchases {
			for j := range i + 1 {
				to := set | 1<<i | 1<<j
				if to != set && o.at(to).fits && (next == full || steeper(before, o.at(to), o.at(next))) {
					next = to
				}
			}
		}
		chain, set = append(chain, next), next
	}
	return chain
}

// steeper compares benefit per money of two next states without dividing; what costs nothing comes first.
func steeper(before, a, b state) bool {
	costA, costB := max(a.cash-before.cash, 0), max(b.cash-before.cash, 0)
	left, right := (a.benefit-before.benefit)*costB, (b.benefit-before.benefit)*costA
	if left != right {
		return left > right
	}
	return costA < costB
}

func (o *orderer) step(added uint, before, now state) Step {
	s := Step{
		Cost: model.Money(now.cash - before.cash), Benefit: Points(now.benefit - before.benefit),
		Shipping: model.Money(now.ship - before.ship),
	}
	for i, p := range o.purchases {
		if added>>i&1 == 1 {
			s.Purchases = append(s.Purchases, p)
			s.Due += min(o.c.DueAnyway(p), s.Cost)
		}
	}
	s.Due = min(s.Due, max(s.Cost, 0))
	for i := range o.c.Shed.Tables.Criteria {
		s.Gains = append(s.Gains, gain(o.c, i, before.amounts, now.amounts))
	}
	return s
}

// gain is what one criterion contributes to the benefit between two states.
func gain(c *formulate.Compiled, criterion int, before, after []int64) Points {
	sum := int64(0)
	for m, measure := range c.Shed.Tables.Measures {
		if measure.Criterion == c.Shed.Tables.Criteria[criterion].Key {
			pm := &c.Program.Measures[m]
			sum += pm.Weight * (pm.Curve.At(after[m]) - pm.Curve.At(before[m]))
		}
	}
	return Points(sum)
}
