package scoring

import "math/big"

// RankRule gives weights with sum 1 to n ranked criteria, the most important first.
type RankRule func(n int) []*big.Rat

// RankOrderCentroid is the centre of gravity of all weights that respect a ranking of n criteria:
// w[i] = 1/n * sum over k = i..n of 1/k (Barron and Barrett 1996).
func RankOrderCentroid(n int) []*big.Rat {
	weights, sum := make([]*big.Rat, n), new(big.Rat)
	for i := n; i >= 1; i-- {
		sum.Add(sum, big.NewRat(1, int64(i)))
		weights[i-1] = new(big.Rat).Mul(sum, big.NewRat(1, int64(n)))
	}
	return weights
}

// RankSum is flatter than the centroid: w[i] = (n - i + 1) / (1 + 2 + ... + n).
func RankSum(n int) []*big.Rat {
	weights := make([]*big.Rat, n)
	for i := range weights {
		weights[i] = big.NewRat(int64(2*(n-i)), int64(n*(n+1)))
	}
	return weights
}

// portion is one claim on a whole that is shared out in whole units.
type portion struct {
	claim *big.Rat // >= 0
	least int64    // units it gets at the very least
}

// shareOut divides total units by the claims, by largest remainder; equal remainders go to the one that stands first.
// The claims must not sum to nothing and the least units must fit into the total.
func shareOut(total int64, portions []portion) []int64 {
	sum := new(big.Rat)
	for _, p := range portions {
		sum.Add(sum, p.claim)
	}
	units, due, left := make([]int64, len(portions)), make([]*big.Rat, len(portions)), total
	for i, p := range portions {
		due[i] = new(big.Rat).Quo(p.claim, sum)
		due[i].Mul(due[i], new(big.Rat).SetInt64(total))
		floor := new(big.Int).Quo(due[i].Num(), due[i].Denom()).Int64()
		units[i] = max(floor, p.least)
		left -= units[i]
	}
	for ; left > 0; left-- {
		units[shortest(due, units)]++
	}
	for ; left < 0; left++ {
		units[longest(due, units, portions)]--
	}
	return units
}

// shortest is the portion that lacks most of what is due to it.
func shortest(due []*big.Rat, units []int64) int {
	best, most := 0, (*big.Rat)(nil)
	for i := range due {
		lacks := new(big.Rat).Sub(due[i], new(big.Rat).SetInt64(units[i]))
		if most == nil || lacks.Cmp(most) > 0 {
			best, most = i, lacks
		}
	}
	return best
}

// longest is the portion that has most beyond what is due to it and can spare a unit.
func longest(due []*big.Rat, units []int64, portions []portion) int {
	best, most := 0, (*big.Rat)(nil)
	for i := range due {
		if units[i] <= portions[i].least {
			continue
		}
		over := new(big.Rat).Sub(new(big.Rat).SetInt64(units[i]), due[i])
		if most == nil || over.Cmp(most) > 0 {
			best, most = i, over
		}
	}
	return best
}
