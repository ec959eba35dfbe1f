package fill

import "math"

// tighten works out what the lower limits leave and lowers the upper limits to what still fits; false when nothing fits.
func (s *search) tighten(n node) bool {
	copy(s.left, s.t.stock)
	for g, take := range s.t.take {
		if n.lo[g] > n.hi[g] {
			return false
		}
		for j, a := range take {
			s.left[j] -= a * n.lo[g]
		}
	}
	for _, left := range s.left {
		if left < 0 {
			return false
		}
	}
	for g, take := range s.t.take {
		n.hi[g] = n.lo[g] + most(n.hi[g]-n.lo[g], take, s.left)
	}
	return true
}

// most is how many, up to limit, fit into what is left.
func most(limit int64, take, left []int64) int64 {
	for j, a := range take {
		if a > 0 {
			limit = min(limit, left[j]/a)
		}
	}
	return limit
}

// split cuts a box in two at the most fractional count of the latest relaxed corner that has one, or, when none has, in the middle
// of its widest side.
func (s *search) split(n node) {
	wide := 0
	for g := range n.lo {
		if n.hi[g] < n.lo[g] {
			return
		}
		if n.hi[g]-n.lo[g] > n.hi[wide]-n.lo[wide] {
			wide = g
		}
	}
	if len(n.lo) == 0 || n.hi[wide] == n.lo[wide] {
		if s.tighten(n) {
			s.offer(n.lo)
		}
		return
	}
	g, at := s.fractional(n)
	if narrowest, is := s.equation(n); is {
		g, at = narrowest, n.lo[narrowest]+(n.hi[narrowest]-n.lo[narrowest])/2
	} else if g < 0 {
		g, at = wide, n.lo[wide]+(n.hi[wide]-n.lo[wide])/2
	}
	at = max(n.lo[g], min(at, n.hi[g]-1))
	low := node{s.copyOf(n.lo), s.copyOf(n.hi), n.bound}
	high := node{s.copyOf(n.lo), s.copyOf(n.hi), n.bound}
	low.hi[g], high.lo[g] = at, at+1
	s.stack = append(s.stack, low, high) // more of a pack is looked at first
}

func (s *search) fractional(n node) (g int, at int64) {
	g = -1
	for k := len(s.corners) - 1; k >= 0 && g < 0; k-- {
		worst := 1e-6
		for i, x := range s.corners[k] {
			if f := math.Abs(x - math.Round(x)); f > worst && n.hi[i] > n.lo[i] {
				g, at, worst = i, int64(math.Floor(x)), f
			}
		}
	}
	return g, at
}

func (s *search) copyOf(v []int64) []int64 {
	var c []int64
	if k := len(s.spare); k > 0 {
		c, s.spare = s.spare[k-1], s.spare[:k-1]
	} else {
		c = make([]int64, len(v))
	}
	copy(c, v)
	return c
}
