package builtin

// settle finds, among the choices with the benefit and cash of the best, the one with the fewest purchases and then the
// first options; true when that is proved. It goes by witness: the best choice known stands until a better one is found,
// and only options that would come earlier than the witness's are tried.
func (s *search) settle(alive [][]int) bool {
	s.g = goal{benefit: 1, scale: 1, any: true, budget: s.is.cash, floor: s.is.benefit}
	s.g.setScale(s.m)
	for {
		s.g.purchases = s.is.purchases - 1
		if s.is.purchases == 0 || !s.another(clone(alive)) {
			break
		}
	}
	if s.ctx.Err() != nil {
		return false
	}
	s.g.purchases = s.is.purchases
	prefix := clone(alive)
	for slot := range prefix {
		for _, k := range alive[slot] {
			if k >= s.choice[slot] {
				break
			}
			trial := clone(prefix)
			trial[slot] = []int{k}
			if s.another(trial) {
				break
			}
			if s.ctx.Err() != nil {
				return false
			}
		}
		prefix[slot] = []int{s.choice[slot]}
	}
	return true
}

// another looks for any choice that meets the goal and keeps it.
func (s *search) another(alive [][]int) bool {
	s.met = false
	s.run(alive)
	return s.met
}
