package scoring

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	"slices"
	"strings"

	"firstbolt/model"
)

// DefaultProfile is the row of profiles.csv that counts where the rider says nothing.
const DefaultProfile = "default"

// namedShare is the part of the weight, in percent, that a ranking moves to the named criteria; the rest stays with the
// default profile, so that what the rider did not name still counts (90-trade: judgement).
const namedShare = 60

// Method is how the rider stated what matters. The zero value is ByDefault: not at all.
type Method int

// The ways to state priorities.
const (
	ByDefault Method = iota
	ByPoints
	ByRanking
	ByProfile
)

// Weight is what one criterion counts.
type Weight struct {
	Criterion string
	Percent   int  // 0..100; criteria that count nothing are kept
	Named     bool // the rider named it
}

// Weights say how much every criterion and measure counts for one rider.
type Weights struct {
	Criteria  []Weight // in the order of criteria.csv; sum 100
	Measures  []int    // whole percent by position in curves.csv; sum 100
	Method    Method
	Stated    string // as an answer says it: "braking > traction", "default, nobody asked you"
	Origin    model.Origin
	NotScored []string // criteria that were named but that no row of curves.csv counts: their weight goes to the others
}

// Benefit weighs levels (Scale.Level, by position in curves.csv); 1,000,000 is 100 points.
func (w *Weights) Benefit(levels []int64) int64 {
	sum := int64(0)
	for m, percent := range w.Measures {
		sum += int64(percent) * levels[m]
	}
	return sum
}

// Weigh turns the rider's points, ranking or profile into whole percent; a ranking by RankOrderCentroid.
// Errors: an unknown criterion or profile, a criterion named twice, points that are negative or sum to nothing, shares
// inside a criterion that do not sum to 100.
func Weigh(t *model.Tables, r model.Rider) (Weights, error) {
	return WeighBy(t, r, RankOrderCentroid)
}

// WeighBy is Weigh with another rule for rankings, to show where the answer hangs on the rule.
func WeighBy(t *model.Tables, r model.Rider, rule RankRule) (Weights, error) {
	w, claims, err := claimed(t, r, rule)
	if err != nil {
		return Weights{}, err
	}
	if w.NotScored, err = dropUncounted(t, claims); err != nil {
		return Weights{}, fmt.Errorf("%s: %w", place(w.Origin, "priorities"), err)
	}
	portions := make([]portion, len(t.Criteria))
	for i, c := range t.Criteria {
		claim := claims[c.Key]
		named := w.Method != ByDefault && claim.named && claim.points.Sign() > 0
		portions[i] = portion{claim: claim.amount()}
		if named {
			portions[i].least = 1
		}
		w.Criteria = append(w.Criteria, Weight{Criterion: c.Key, Named: named})
	}
	for i, percent := range shareOut(100, portions) {
		w.Criteria[i].Percent = int(percent)
	}
	return w, w.shareMeasures(t)
}

// claim is what one criterion asks of the whole.
type claim struct {
	points *big.Rat
	named  bool
}

func (c claim) amount() *big.Rat {
	if c.points == nil {
		return new(big.Rat)
	}
	return c.points
}

// claimed reads the first of points, ranking and profile that was stated.
func claimed(t *model.Tables, r model.Rider, rule RankRule) (w Weights, claims map[string]claim, err error) {
	switch {
	case r.Priorities.Known:
		w = Weights{Method: ByPoints, Stated: pointsText(r.Priorities.Value), Origin: r.Priorities.Origin}
		claims, err = claimPoints(t, r.Priorities.Value)
	case r.Ranking.Known:
		w = Weights{Method: ByRanking, Stated: strings.Join(r.Ranking.Value, " > "), Origin: r.Ranking.Origin}
		claims, err = claimRanking(t, r.Ranking.Value, rule)
	case r.Profile.Known:
		w = Weights{Method: ByProfile, Stated: r.Profile.Value, Origin: r.Profile.Origin}
		claims, err = claimProfile(t, r.Profile.Value)
	default:
		w = Weights{Method: ByDefault, Stated: "default, nobody asked you", Origin: model.Origin{Sheet: "profiles", How: model.Assumed}}
		claims, err = claimProfile(t, DefaultProfile)
	}
	if err != nil {
		err = fmt.Errorf("%s: %w", place(w.Origin, "priorities"), err)
	}
	return w, claims, err
}

func claimPoints(t *model.Tables, priorities []model.Priority) (map[string]claim, error) {
	claims, sum := map[string]claim{}, new(big.Rat)
	for _, p := range priorities {
		if math.IsNaN(p.Points) || math.IsInf(p.Points, 0) || p.Points < 0 {
			return nil, fmt.Errorf("%s has %v points, want 0 or more", p.Criterion, p.Points)
		}
		if err := claimable(t, claims, p.Criterion); err != nil {
			return nil, err
		}
		points := new(big.Rat).SetFloat64(p.Points)
		claims[p.Criterion] = claim{points: points, named: true}
		sum.Add(sum, points)
	}
	if sum.Sign() == 0 {
		return nil, errors.New("the points sum to nothing; give at least one criterion some, such as braking=5")
	}
	return claims, nil
}

func claimRanking(t *model.Tables, ranking []string, rule RankRule) (map[string]claim, error) {
	if len(ranking) == 0 {
		return nil, errors.New("the ranking is empty; name what matters most first, such as braking > traction")
	}
	base, err := claimProfile(t, DefaultProfile)
	if err != nil {
		return nil, err
	}
	whole := new(big.Rat)
	for _, c := range base {
		whole.Add(whole, c.points)
	}
	claims := map[string]claim{}
	for i, weight := range rule(len(ranking)) {
		if err := claimable(t, claims, ranking[i]); err != nil {
			return nil, err
		}
		claims[ranking[i]] = claim{points: weight.Mul(weight, big.NewRat(namedShare, 100)), named: true}
	}
	for key, c := range base {
		rest := new(big.Rat).Quo(c.points, whole)
		rest.Mul(rest, big.NewRat(100-namedShare, 100))
		claims[key] = claim{points: rest.Add(rest, claims[key].amount()), named: claims[key].named}
	}
	return claims, nil
}

func claimProfile(t *model.Tables, name string) (map[string]claim, error) {
	for _, p := range t.Profiles {
		if p.Name == name {
			claims, err := claimPoints(t, p.Points)
			if err != nil {
				return nil, fmt.Errorf("profile %q: %w", name, err)
			}
			return claims, nil
		}
	}
	names := make([]string, len(t.Profiles))
	for i, p := range t.Profiles {
		names[i] = p.Name
	}
	return nil, fmt.Errorf("there is no profile %q, want one of: %s", name, strings.Join(names, "; "))
}

// claimable tells why a criterion cannot be named (again).
func claimable(t *model.Tables, claims map[string]claim, key string) error {
	if t.CriterionNamed(key) == nil {
		keys := make([]string, len(t.Criteria))
		for i, c := range t.Criteria {
			keys[i] = c.Key
		}
		return fmt.Errorf("there is no criterion %q, want one of: %s", key, strings.Join(keys, ", "))
	}
	if _, twice := claims[key]; twice {
		return fmt.Errorf("%s is named twice, want it once", key)
	}
	return nil
}

// dropUncounted takes out the criteria that no measure counts and names them.
func dropUncounted(t *model.Tables, claims map[string]claim) ([]string, error) {
	var dropped []string
	left := false
	for _, c := range t.Criteria {
		claimed := claims[c.Key].amount().Sign() > 0
		counted := slices.ContainsFunc(t.Measures, func(m model.Measure) bool { return m.Criterion == c.Key })
		if claimed && !counted {
			dropped = append(dropped, c.Key)
			delete(claims, c.Key)
		}
		left = left || claimed && counted
	}
	if !left {
		return nil, fmt.Errorf("nothing counts %s yet: curves.csv has no row for it; name another criterion too", strings.Join(dropped, ", "))
	}
	return dropped, nil
}

// shareMeasures splits every criterion's percent among its measures.
func (w *Weights) shareMeasures(t *model.Tables) error {
	w.Measures = make([]int, len(t.Measures))
	for _, c := range w.Criteria {
		var at []int
		var portions []portion
		sum := 0
		for m, measure := range t.Measures {
			if measure.Criterion == c.Criterion {
				at, sum = append(at, m), sum+measure.Share
				portions = append(portions, portion{claim: new(big.Rat).SetInt64(int64(measure.Share))})
			}
		}
		if len(at) == 0 {
			continue
		}
		if sum != 100 || slices.ContainsFunc(portions, func(p portion) bool { return p.claim.Sign() < 0 }) {
			return fmt.Errorf("curves.csv: the shares of %s sum to %d, want 100 and none negative", c.Criterion, sum)
		}
		for i, percent := range shareOut(int64(c.Percent), portions) {
			w.Measures[at[i]] = int(percent)
		}
	}
	return nil
}

func pointsText(priorities []model.Priority) string {
	texts := make([]string, len(priorities))
	for i, p := range priorities {
		texts[i] = fmt.Sprintf("%s=%v", p.Criterion, p.Points)
	}
	return strings.Join(texts, "; ")
}

// place is where a value came from, or what it is where no sheet says.
func place(o model.Origin, what string) string {
	if o.Sheet == "" {
		return what
	}
	return o.String()
}
