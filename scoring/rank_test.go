package scoring

import (
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

func decimals(weights []*big.Rat, digits int) string {
	texts := make([]string, len(weights))
	for i, w := range weights {
		texts[i] = w.FloatString(digits)
	}
	return strings.Join(texts, " ")
}

// Source: Edwards and Barron 1994, Barron and Barrett 1996, table of rank-order-centroid weights (from memory); the
// formula w_i = (1/n) * sum of 1/k over k = i..n in Roszkowska 2013.
func TestRankOrderCentroid(t *testing.T) {
	t.Parallel()
	for n, want := range map[int]string{
		1: "1.0000",
		2: "0.7500 0.2500",
		3: "0.6111 0.2778 0.1111",
		4: "0.5208 0.2708 0.1458 0.0625",
		5: "0.4567 0.2567 0.1567 0.0900 0.0400",
		6: "0.4083 0.2417 0.1583 0.1028 0.0611 0.0278",
		7: "0.3704 0.2276 0.1561 0.1085 0.0728 0.0442 0.0204",
		8: "0.3397 0.2147 0.1522 0.1106 0.0793 0.0543 0.0335 0.0156",
	} {
		if got := decimals(RankOrderCentroid(n), 4); got != want {
			t.Errorf("n = %d: %s, want %s", n, got, want)
		}
	}
}

// The name says what it is: the mean of all weights that respect the ranking (definition, Barron and Barrett 1996, from
// memory). Sorted gaps between sorted uniform draws are such weights, evenly spread.
func TestRankOrderCentroidIsTheMeanOfRankedWeights(t *testing.T) {
	t.Parallel()
	const n, draws = 6, 200_000
	random, sums := rand.New(rand.NewPCG(2024, 5)), make([]float64, n)
	for range draws {
		cuts := []float64{0, 1}
		for range n - 1 {
			cuts = append(cuts, random.Float64())
		}
		slices.Sort(cuts)
		weights := make([]float64, n)
		for i := range weights {
			weights[i] = cuts[i+1] - cuts[i]
		}
		slices.Sort(weights)
		for i := range weights {
			sums[i] += weights[n-1-i]
		}
	}
	for i, w := range RankOrderCentroid(n) {
		if want, _ := w.Float64(); math.Abs(sums[i]/draws-want) > 0.001 {
			t.Errorf("weight %d: the mean of the draws is %.4f, the centroid %.4f", i+1, sums[i]/draws, want)
		}
	}
}

// Source: rank sum rule (n - r + 1), normalised: gitta.info, lesson on suitability.
func TestRankSum(t *testing.T) {
	t.Parallel()
	if got, want := decimals(RankSum(4), 1), "0.4 0.3 0.2 0.1"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

func TestShareOut(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name   string
		total  int64
		claims []int64
		least  []int64
		want   string
	}{
		// Source: Goodwin and Wright, Decision Analysis for Management Judgment, chapter 3: swings to whole weights.
		{"swing weights of the office example", 100, []int64{100, 80, 70, 30, 20, 10}, nil, "[32 26 23 10 6 3]"},
		// Source: Hamilton's method by definition: 34/33/33 out of thirds, the first of equals gets the odd one.
		{"thirds", 100, []int64{1, 1, 1}, nil, "[34 33 33]"},
		{"a small named claim gets its unit", 100, []int64{1000, 1000, 1}, []int64{1, 1, 1}, "[50 49 1]"},
		{"nothing claimed stays nothing", 100, []int64{5, 0}, nil, "[100 0]"},
		{"nothing to share", 0, []int64{5, 3}, nil, "[0 0]"},
	} {
		portions := make([]portion, len(c.claims))
		for i, claim := range c.claims {
			portions[i].claim = big.NewRat(claim, 1)
			if c.least != nil {
				portions[i].least = c.least[i]
			}
		}
		if got := fmt.Sprint(shareOut(c.total, portions)); got != c.want {
			t.Errorf("%s: %s, want %s", c.name, got, c.want)
		}
	}
}
