package fill

import (
	"cmp"
	"math"
	"slices"
)

// fillsOf lists the groups of which one more is good for goal k and bad for none before it, those that add the most first.
func (s *search) fillsOf(k int) []int {
	var groups []int
	for g := range s.t.groups {
		spoils := slices.ContainsFunc(s.goals[:k], func(o goal) bool { return o.w[g] < 0 })
		if s.goals[k].w[g] > 0 && !spoils {
			groups = append(groups, g)
		}
	}
	slices.SortStableFunc(groups, func(x, y int) int {
		return cmp.Or(cmp.Compare(s.goals[k].w[y], s.goals[k].w[x]), cmp.Compare(s.t.mass[y], s.t.mass[x]))
	})
	return groups
}

// tryNear rounds the latest relaxed corner down to a plan and fills it up, goal by goal.
func (s *search) tryNear() {
	corner := s.corners[len(s.corners)-1]
	left, total, hi := append(s.rest[:0], s.left...), append(s.total[:0], s.boxLo...), s.boxHi
	s.rest, s.total = left, total
	for g, x := range corner {
		whole := int64(math.Round(x))
		if math.Abs(x-float64(whole)) > 1e-6 {
			whole = int64(math.Floor(x))
		}
		s.raise(g, whole, hi, total, left)
	}
	s.fillUp(hi, total, left)
	s.offer(total)
}

// raise makes up to to of a group, as far as what is left goes.
func (s *search) raise(g int, to int64, hi, total, left []int64) {
	more := most(max(0, min(to, hi[g])-total[g]), s.t.take[g], left)
	if more == 0 {
		return
	}
	total[g] += more
	for j, a := range s.t.take[g] {
		left[j] -= a * more
	}
}

func (s *search) fillUp(hi, total, left []int64) {
	for k := range s.goals {
		for _, g := range s.fills[k] {
			s.raise(g, s.goals[k].cap[g], hi, total, left)
		}
	}
}

// meetNeighbours offers the plans with one of a group less and what then fits of another more.
func (s *search) meetNeighbours() {
	from := slices.Clone(s.best)
	for less := range from {
		if from[less] == s.t.lo[less] {
			continue
		}
		for more := range from {
			total, left := slices.Clone(from), s.leftOf(from)
			total[less]--
			for j, a := range s.t.take[less] {
				left[j] += a
			}
			if more != less {
				s.raise(more, s.t.hi[more], s.t.hi, total, left)
				s.fillUp(s.t.hi, total, left)
			}
			s.offer(total)
		}
	}
}

// leftOf is what a plan leaves of each resource.
func (s *search) leftOf(total []int64) []int64 {
	left := slices.Clone(s.t.stock)
	for g, take := range s.t.take {
		for j, a := range take {
			left[j] -= a * total[g]
		}
	}
	return left
}

// offer keeps a plan if the rules prefer it to the best one, and keeps track of the last rule that had to be asked and of the best
// plan that this rule turned down.
func (s *search) offer(total []int64) {
	if slices.Equal(total, s.best) {
		return
	}
	rule, c := s.compare(total, s.best)
	switch {
	case c > 0:
		s.rejected, s.decided = s.best, rule
		s.best = slices.Clone(total)
		for k := range s.goals {
			s.reached[k] = s.goals[k].of(s.best)
		}
	case s.rejected == nil || s.place(rule) > s.place(s.decided):
		s.rejected, s.decided = slices.Clone(total), rule
	case rule == s.decided:
		if _, c := s.compare(total, s.rejected); c > 0 {
			s.rejected = slices.Clone(total)
		}
	}
}

// place is where a rule comes in the order of this search.
func (s *search) place(r Rule) int {
	if k := slices.IndexFunc(s.goals, func(o goal) bool { return o.rule == r }); k >= 0 {
		return k
	}
	return len(s.goals) + int(r)
}

// compare reports which rule tells x from y, and +1 if x is the better.
func (s *search) compare(x, y []int64) (Rule, int) {
	for k := range s.goals {
		if c := cmp.Compare(s.goals[k].of(x), s.goals[k].of(y)); c != 0 {
			return s.goals[k].rule, c
		}
	}
	return s.rank.compare(x, y)
}
