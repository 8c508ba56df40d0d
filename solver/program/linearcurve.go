package program

// within gives the lines of the pieces that matter between low and high, at least one, each slope once.
func (c Curve) within(low, high int64) (intercepts, slopes []int64) {
	allIntercepts, allSlopes := c.Pieces()
	last := len(allSlopes) - 1
	for i, slope := range allSlopes {
		below := i > 0 && c.Knots[i] >= high
		above := i < last && c.Knots[i+1] <= low
		repeated := len(slopes) > 0 && slopes[len(slopes)-1] == slope
		if repeated || (len(slopes) > 0 && below) || above {
			continue
		}
		intercepts, slopes = append(intercepts, allIntercepts[i]), append(slopes, slope)
	}
	return intercepts, slopes
}

// extremes are the least and the largest value between low and high. A concave curve is least at an end.
func (c Curve) extremes(low, high int64) (least, most int64) {
	least, most = min(c.At(low), c.At(high)), max(c.At(low), c.At(high))
	for _, knot := range c.Knots {
		if low < knot && knot < high {
			most = max(most, c.At(knot))
		}
	}
	return least, most
}
