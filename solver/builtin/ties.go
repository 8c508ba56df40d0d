package builtin

// settle finds, among the choices with the benefit and cash of the best, the one with the fewest purchases and then the
// first options; true when that is proved. It goes by witness: the best choice known stands until a better one is found,
// and only options that would come earlier than the witness's are tried. All choices that matter have the same benefit
// and cash, so the lines of the search that proved them leave few options.
func (s *search) settle(alive [][]int) bool {
	s.g.any, s.g.budget, s.g.floor, s.g.purchases = true, s.is.cash, s.is.benefit, s.is.purchases
	left := clone(alive)
	if _, _, open := s.reprice(left); !open {
		return false // not reached: the witness itself is left
	}
	for s.is.purchases > 0 {
		s.g.purchases = s.is.purchases - 1
		if !s.another(clone(left)) {
			break
		}
	}
	s.g.purchases = s.is.purchases
	for slot := range left {
		if s.ctx.Err() != nil {
			return false
		}
		if left[slot][0] < s.choice[slot] {
			s.reprice(left)
		}
		for _, k := range left[slot] {
			if k >= s.choice[slot] {
				break
			}
			trial := clone(left)
			trial[slot] = []int{k}
			if s.another(trial) {
				break
			}
		}
		left[slot] = []int{s.choice[slot]}
	}
	return s.ctx.Err() == nil
}

// another looks for any choice that meets the goal and keeps it.
func (s *search) another(alive [][]int) bool {
	s.met = false
	sp, lines, open := s.reprice(alive)
	if !open || s.met {
		return s.met
	}
	if s.descend(sp, lines, manyNodes) || s.met {
		return s.met
	}
	promise := make([]float64, len(alive))
	for i := range alive {
		promise[i] = float64(len(sp.alive[i]))
	}
	s.split(sp.alive, promise)
	return s.met
}

// reprice narrows the living options by the lines of the last search, and by the first of them with a price on
// purchases. It is false when nothing is left.
func (s *search) reprice(alive [][]int) (*space, []*line, bool) {
	promise := make([]float64, len(alive))
	for i := range alive {
		promise[i] = float64(len(alive[i]))
	}
	for {
		sp, lines, open := s.again(alive, promise)
		if !open {
			return nil, nil, false
		}
		lines = append(lines, s.thrifty(sp, lines[0])...)
		left, dropped := drop(sp, lines, s, 1, alive, promise)
		if !left || dropped == 0 {
			return sp, lines, left
		}
	}
}

// thrifty are lines like the given one with a price on purchases.
func (s *search) thrifty(sp *space, from *line) []*line {
	lines := []*line{}
	for _, part := range []int64{1, 4} {
		l := newLine(s.m)
		l.set(s.m, &s.g, &s.prices[0])
		l.purchase = max(0, from.bound-s.g.need(from))/part + 1
		l.evaluate(sp)
		lines = append(lines, l)
	}
	return lines
}
