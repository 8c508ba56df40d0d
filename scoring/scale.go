package scoring

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"firstbolt/model"
)

// How many whole steps lie between a curve's first and last amount: about 500. Fewer would lose a small part's gain,
// more would make the program's numbers needlessly large.
const (
	fewestSteps = 400
	usualSteps  = 500
	mostSteps   = 600
)

// refined is how many numbers of steps are looked at closely: beyond the best five nothing was seen to win.
const refined = 5

// lowestLevel is how far below its first point a curve's loss is looked at: old bikes lie there.
const lowestLevel = -50

// LevelUnit is how many units of Scale.Level one level point has: a curve rises from 0 to 100 levels, 0 to 10,000 here.
const LevelUnit = 100

// Scale is the whole-number form of one measure's curve. Amounts are counted in whole steps; over these the curve has
// whole knots and whole slopes, the value 0 at Knots[0], and slope Slopes[i] between Knots[i] and Knots[i+1]. Slopes
// never rise and are never negative. The first slope goes on to the left without limit and the last one to the right:
// a curve that is clipped at zero is not concave. len(Knots) = len(Slopes) + 1.
type Scale struct {
	Measure string
	Step    float64 // the amount of one whole step
	Knots   []int64 // in whole steps, rising
	Slopes  []int64 // level units for each step
	Loss    float64 // largest difference to the curve as typed between level -50 and its last point, in level points
}

// Steps is an amount in whole steps; halves are rounded away from zero.
func (s *Scale) Steps(amount float64) int64 { return int64(math.Round(amount / s.Step)) }

// Level is the value of an amount in whole steps: 0 at the curve's first point, 10,000 = level 100.
func (s *Scale) Level(steps int64) int64 { return s.Piece(steps).Level(steps) }

// Piece is the straight piece of a curve that an amount lies on, for answers that follow a number by hand:
// level = Value + Slope * (steps - From).
type Piece struct{ From, Value, Slope int64 }

// Level is the piece's value.
func (p Piece) Level(steps int64) int64 { return p.Value + p.Slope*(steps-p.From) }

// Piece finds the piece that an amount lies on.
func (s *Scale) Piece(steps int64) Piece {
	p := Piece{From: s.Knots[0], Slope: s.Slopes[0]}
	for i := 1; i < len(s.Slopes) && steps > s.Knots[i]; i++ {
		p = Piece{From: s.Knots[i], Value: p.Level(s.Knots[i]), Slope: s.Slopes[i]}
	}
	return p
}

// Scales is the whole-number form of every curve, by position in curves.csv. Of 400 to 600 steps it takes the number
// that loses least against the curve as typed, and then the one nearest to 500. Errors name the row: fewer than two points, amounts that do not rise, a
// first level that is not 0, a level above 100, a curve that falls or is not concave.
func Scales(t *model.Tables) ([]Scale, error) {
	scales, faults := make([]Scale, len(t.Measures)), []error(nil)
	for i := range t.Measures {
		m := &t.Measures[i]
		err := checkCurve(m.Points)
		if err == nil {
			scales[i], err = scaleOf(m)
		}
		if err != nil {
			faults = append(faults, fmt.Errorf("curves.csv: measure %s: %w", m.Key, err))
		}
	}
	if len(faults) > 0 {
		return nil, errors.Join(faults...)
	}
	return scales, nil
}

func checkCurve(points []model.CurvePoint) error {
	if len(points) < 2 {
		return fmt.Errorf("%d points, want at least two", len(points))
	}
	for i, p := range points {
		if math.IsNaN(p.Amount+p.Level) || math.IsInf(p.Amount, 0) || math.IsInf(p.Level, 0) {
			return fmt.Errorf("point %d is %v:%v, want plain numbers", i+1, p.Amount, p.Level)
		}
		if i > 0 && p.Amount <= points[i-1].Amount {
			return fmt.Errorf("amount %v follows %v, want amounts that rise; give what should be small a minus", p.Amount, points[i-1].Amount)
		}
		if i > 0 && p.Level < points[i-1].Level {
			return fmt.Errorf("level %v follows %v, want levels that do not fall; give the amount a minus", p.Level, points[i-1].Level)
		}
	}
	if first, last := points[0].Level, points[len(points)-1].Level; first != 0 || last > 100 {
		return fmt.Errorf("levels run from %v to %v, want 0 at the first amount and at most 100 at the last", first, last)
	}
	return checkConcave(points)
}

// checkConcave refuses a curve on which a later improvement is worth more than an earlier one: the program would then
// not be linear, and the second part would be bought for what the first one does not bring.
func checkConcave(points []model.CurvePoint) error {
	const hair = 1e-9 // the points are decimals and logarithms: equal slopes may differ in the last digits
	for i := 2; i < len(points); i++ {
		before, after := slope(points, i-2), slope(points, i-1)
		if after > before*(1+hair)+hair {
			return fmt.Errorf("it is not concave: from %v to %v a unit brings %.4g levels, after that %.4g; want each piece to bring no more than the one before",
				points[i-2].Amount, points[i-1].Amount, before, after)
		}
	}
	return nil
}

func slope(points []model.CurvePoint, i int) float64 {
	return (points[i+1].Level - points[i].Level) / (points[i+1].Amount - points[i].Amount)
}

// scaleOf tries every number of steps and shifts knots and slopes of the best few.
func scaleOf(m *model.Measure) (Scale, error) {
	var tried []*Scale
	for away := 0; away <= mostSteps-fewestSteps; away++ {
		n := usualSteps + (away+1)/2*(1-2*(away%2)) // 500, 499, 501, 498 ...
		if s := rounded(m, n); s.wellFormed() {
			s.Loss = s.loss(m.Points)
			tried = append(tried, s)
		}
	}
	if len(tried) == 0 {
		return Scale{}, errors.New("two of its points lie closer than a 600th of the whole curve; leave one of them out")
	}
	slices.SortStableFunc(tried, func(a, b *Scale) int { return compareLoss(a.Loss, b.Loss) })
	best := tried[0]
	for _, s := range tried[:min(len(tried), refined)] {
		if compareLoss(best.Loss, 0) == 0 {
			break
		}
		s.refine(m.Points)
		if compareLoss(s.Loss, best.Loss) < 0 {
			best = s
		}
	}
	return *best, nil
}

// compareLoss holds losses that differ by less than a millionth of a level equal, so that the last digit of a
// logarithm never decides.
func compareLoss(a, b float64) int {
	return cmp.Compare(math.Round(a*1e6), math.Round(b*1e6))
}

// refine shifts single knots and slopes by one as long as that lowers the loss.
func (s *Scale) refine(points []model.CurvePoint) {
	for better := true; better; {
		better = false
		for _, numbers := range [][]int64{s.Knots, s.Slopes} {
			for i := range numbers {
				for _, by := range []int64{-1, 1} {
					better = s.shift(points, &numbers[i], by) || better
				}
			}
		}
	}
}

// shift changes one number and keeps that only where the curve stays well formed and loses less.
func (s *Scale) shift(points []model.CurvePoint, number *int64, by int64) bool {
	*number += by
	if s.wellFormed() {
		if loss := s.loss(points); compareLoss(loss, s.Loss) < 0 {
			s.Loss = loss
			return true
		}
	}
	*number -= by
	return false
}

// wellFormed tells whether knots rise and slopes neither rise nor fall below 0.
func (s *Scale) wellFormed() bool {
	for i := range s.Slopes {
		if s.Knots[i+1] <= s.Knots[i] || s.Slopes[i] < 0 || i > 0 && s.Slopes[i] > s.Slopes[i-1] {
			return false
		}
	}
	return true
}

// rounded is the curve over n steps with knots and slopes rounded to whole numbers; it need not be well formed.
func rounded(m *model.Measure, n int) *Scale {
	points := m.Points
	s := &Scale{
		Measure: m.Key, Step: (points[len(points)-1].Amount - points[0].Amount) / float64(n),
		Knots: make([]int64, len(points)), Slopes: make([]int64, len(points)-1),
	}
	for i, p := range points {
		s.Knots[i] = s.Steps(p.Amount)
	}
	for i := range s.Slopes {
		s.Slopes[i] = int64(math.Round(LevelUnit * slope(points, i) * s.Step))
		if i > 0 {
			s.Slopes[i] = min(s.Slopes[i], s.Slopes[i-1]) // equal slopes may differ in the last digits
		}
	}
	return s
}

// loss is the largest difference to the curve as typed, in level points. Both are straight between their knots, so it is
// enough to look there and at the ends.
func (s *Scale) loss(points []model.CurvePoint) float64 {
	first, last := points[0].Amount, points[len(points)-1].Amount
	if rise := slope(points, 0); rise > 0 {
		first += lowestLevel / rise
	}
	most := s.lossAt(points, first)
	for i := range points {
		most = max(most, s.lossAt(points, points[i].Amount))
		if knot := float64(s.Knots[i]) * s.Step; knot <= last {
			most = max(most, s.lossAt(points, knot))
		}
	}
	return most
}

func (s *Scale) lossAt(points []model.CurvePoint, amount float64) float64 {
	return math.Abs(s.exact(amount) - curveAt(points, amount))
}

// exact is the scale's level, in level points, of an amount that is not whole steps.
func (s *Scale) exact(amount float64) float64 {
	x := amount / s.Step
	p := s.Piece(int64(math.Ceil(x)))
	return (float64(p.Value) + float64(p.Slope)*(x-float64(p.From))) / LevelUnit
}

// curveAt is the curve as typed, its first and last slope going on beyond its ends.
func curveAt(points []model.CurvePoint, amount float64) float64 {
	i := 0
	for i < len(points)-2 && amount > points[i+1].Amount {
		i++
	}
	return points[i].Level + slope(points, i)*(amount-points[i].Amount)
}
