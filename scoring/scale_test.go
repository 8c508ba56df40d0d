package scoring

import (
	"math"
	"strings"
	"testing"

	"firstbolt/model"
)

func curve(pairs ...float64) []model.CurvePoint {
	var points []model.CurvePoint
	for i := 0; i < len(pairs); i += 2 {
		points = append(points, model.CurvePoint{Amount: pairs[i], Level: pairs[i+1]})
	}
	return points
}

func scaleFor(t *testing.T, points []model.CurvePoint) Scale {
	t.Helper()
	scales, err := Scales(&model.Tables{Measures: []model.Measure{{Key: "m", Points: points}}})
	if err != nil {
		t.Fatal(err)
	}
	return scales[0]
}

// Source: test vectors of the R package smaa, tests/pvf.R (github cran/smaa): a decreasing piecewise-linear value with
// knots 50 75 90 100 and values 1 0.8 0.5 0; v(60) = 0.92; beyond its ends v(10) = 1.32, v(40) = 1.08, v(101) = -0.05,
// v(120) = -1 when it goes on. What should be small has a minus here.
func TestScaleOfAPublishedConcaveCurve(t *testing.T) {
	t.Parallel()
	s := scaleFor(t, curve(-100, 0, -90, 50, -75, 80, -50, 100))
	for x, want := range map[float64]int64{50: 10_000, 60: 9_200, 75: 8_000, 90: 5_000, 100: 0, 10: 13_200, 40: 10_800, 101: -500, 120: -10_000} {
		if got := s.Level(s.Steps(-x)); got != want {
			t.Errorf("level of %v is %d, want %d", x, got, want)
		}
	}
	if s.Loss > 1e-9 {
		t.Errorf("loss %v, want none: 500 steps hold this curve exactly", s.Loss)
	}
}

// Source: the same test vectors: knots -0.15 0 0.25 0.35 with values 0 0.1 0.9 1 (slopes 0.667, 3.2, 1) are not concave.
func TestScalesRefuseACurveThatIsNotConcave(t *testing.T) {
	t.Parallel()
	refused := func(name, want string, points []model.CurvePoint) {
		_, err := Scales(&model.Tables{Measures: []model.Measure{{Key: "control.fork", Points: points}}})
		if err == nil || !strings.Contains(err.Error(), "curves.csv: measure control.fork: ") || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: error %v, want the row named and %q", name, err, want)
		}
	}
	refused("published", "it is not concave: from -0.15 to 0 a unit brings 66.67 levels, after that 320", curve(-0.15, 0, 0, 10, 0.25, 90, 0.35, 100))
	refused("one point", "want at least two", curve(0, 0))
	refused("amounts fall", "want amounts that rise", curve(18000, 0, 10000, 100))
	refused("levels fall", "want levels that do not fall", curve(0, 0, 1, 50, 2, 40))
	refused("does not start at 0", "want 0 at the first amount", curve(0, 10, 1, 50))
	refused("above 100", "at most 100", curve(0, 0, 1, 101))
	refused("not a number", "want plain numbers", curve(0, 0, math.NaN(), 100))
	refused("too close", "closer than a 600th", curve(0, 0, 0.0001, 50, 1, 100))
}

func TestScalesNameEveryFaultyRow(t *testing.T) {
	t.Parallel()
	_, err := Scales(&model.Tables{Measures: []model.Measure{{Key: "a", Points: curve(0, 0)}, {Key: "b", Points: curve(0, 0, 1, 100)}, {Key: "c", Points: curve(1, 0)}}})
	if err == nil || !strings.Contains(err.Error(), "measure a") || !strings.Contains(err.Error(), "measure c") || strings.Contains(err.Error(), "measure b") {
		t.Errorf("error %v, want a and c named and not b", err)
	}
}

// The start values of 90-trade (judgement), checked for the promises of a scale: about 500 steps, whole and never
// rising slopes, 0 at the first knot, and little lost.
func TestScalesOfTheStartValues(t *testing.T) {
	t.Parallel()
	ln := math.Log
	for name, points := range map[string][]model.CurvePoint{
		"brake":     curve(ln(.4), 0, ln(.7), 40, 0, 63, ln(1.5), 83, ln(2), 94, ln(2.6), 100),
		"grip":      curve(0, 0, 1, 35, 2, 62, 3, 82, 4, 94, 5, 100),
		"fork":      curve(0, 0, 2, 36, 3, 53, 4, 67, 5, 79, 6, 88, 7, 95, 8, 100),
		"retention": curve(0, 0, .3, 25.9, .7, 50.3, 1.2, 69.9, 1.9, 85, 3, 95, 4.5, 98.9),
		"easy gear": curve(-ln(2.6), 0, -ln(2.1), 40, -ln(1.8), 63, -ln(1.5), 85, -ln(1.3), 95, -ln(1.1), 100),
		"range":     curve(ln(1.5), 0, ln(3), 60, ln(4), 80, ln(5), 92, ln(6), 100),
		"weight":    curve(-18000, 0, -10000, 100),
		"drop":      curve(0, 0, 80, 60, 120, 80, 150, 92, 180, 100),
	} {
		s := scaleFor(t, points)
		steps := math.Round((points[len(points)-1].Amount - points[0].Amount) / s.Step)
		if steps < 400 || steps > 600 || s.Level(s.Knots[0]) != 0 || s.Loss > 0.25 {
			t.Errorf("%s: %v steps, %d at the first knot, loss %.3f levels; want 400 to 600, 0 and at most 0.25", name, steps, s.Level(s.Knots[0]), s.Loss)
		}
		for i := range s.Slopes {
			if s.Slopes[i] < 0 || i > 0 && s.Slopes[i] > s.Slopes[i-1] || s.Knots[i+1] <= s.Knots[i] {
				t.Errorf("%s: knots %v, slopes %v; want rising knots and slopes that never rise or fall below 0", name, s.Knots, s.Slopes)
			}
		}
		t.Logf("%-9s %v steps of %.5g, %d pieces, at most %.3f levels lost", name, steps, s.Step, len(s.Slopes), s.Loss)
	}
}

// Scale.Level is the least of its pieces' lines on every side: the definition of a concave piecewise-linear function.
func TestScaleLevelIsTheLeastOfItsLines(t *testing.T) {
	t.Parallel()
	s := scaleFor(t, curve(0, 0, 1, 38, 2, 66, 3, 86, 4, 100))
	for x := s.Knots[0] - 300; x < s.Knots[len(s.Knots)-1]+300; x++ {
		least := int64(math.MaxInt64)
		for _, k := range s.Knots[1:] {
			least = min(least, s.Piece(k).Level(x))
		}
		if got := s.Level(x); got != least {
			t.Fatalf("level of %d is %d, want %d", x, got, least)
		}
	}
}
