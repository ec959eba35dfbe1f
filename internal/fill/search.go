package fill

import (
	"math"
	"slices"
)

// node is a box of group totals still to be searched; no plan in it has a higher value than bound.
type node struct {
	lo, hi []int64
	bound  int64
}

// search is a depth-first branch and bound. It runs twice: the first pass proves value and left-over and cuts off ties, the
// second starts from the plan found and goes through the ties for the most even one.
type search struct {
	t           *table
	r           *relaxation
	value, mass []int64 // of one pack, divided by their greatest common divisors, which makes bounds that are whole sharper
	valueUnit   int64
	budget      int

	best               []int64 // group totals
	bestValue, bestUse int64   // in the divided units
	decided            Rule

	done  bool
	bound int64 // on the value, in micro-money
	steps int

	stack  []node
	spare  [][]int64
	left   []int64
	trial  []int64
	valueX []float64
	rank   *ranking
}

func newSearch(t *table, budget int) *search {
	if budget <= 0 {
		budget = DefaultBudget
	}
	s := &search{t: t, r: newRelaxation(t), budget: budget, left: make([]int64, len(t.stock)),
		trial: make([]int64, len(t.groups)), valueX: make([]float64, len(t.groups)), rank: newRanking(t), decided: ByValue}
	s.value, s.valueUnit = divided(t.value)
	s.mass, _ = divided(t.mass)
	s.best = slices.Clone(t.lo)
	s.bestValue, s.bestUse = dot(s.value, s.best), dot(s.mass, s.best)
	return s
}

// divided is v over the greatest common divisor of its members.
func divided(v []int64) ([]int64, int64) {
	var unit int64
	for _, x := range v {
		unit = gcd(x, unit)
	}
	if unit == 0 {
		unit = 1
	}
	out := make([]int64, len(v))
	for i, x := range v {
		out[i] = x / unit
	}
	return out, unit
}

// gcd is the greatest common divisor, 0 of nothing but zeros.
func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return max(a, -a)
}

func dot(a, x []int64) int64 {
	var sum int64
	for i := range a {
		sum += a[i] * x[i]
	}
	return sum
}

// The parts of the budget that going through the ties gets, and each probe of raise. A tie costs no money, so it gets less time.
const (
	tiesPart  = 4
	probePart = 16
)

// run searches until nothing is open or the budget is used up. With ties it keeps boxes that may hold a plan of the same value
// and left-over.
func (s *search) run(ties bool) {
	steps := s.budget
	if ties {
		steps /= tiesPart
	}
	s.done = s.explore(s.t.lo, max(1, steps), ties, func() bool { return false })
	bound := s.bestValue
	for _, n := range s.stack {
		bound = max(bound, n.bound)
	}
	s.bound = min(bound, 2*limit/s.valueUnit) * s.valueUnit
}

// explore searches the box above lo for so many steps, or until enough says so, and reports whether nothing is left open.
func (s *search) explore(lo []int64, steps int, ties bool, enough func() bool) bool {
	s.stack = append(s.stack[:0], node{slices.Clone(lo), slices.Clone(s.t.hi), math.MaxInt64})
	for ; len(s.stack) > 0 && steps > 0 && !enough(); steps-- {
		n := s.stack[len(s.stack)-1]
		s.stack = s.stack[:len(s.stack)-1]
		s.steps++
		s.visit(n, ties)
		s.spare = append(s.spare, n.lo, n.hi)
	}
	return len(s.stack) == 0
}

// raise looks for a plan as good as the best whose smallest count is higher, halving the range of what it can be. When most plans
// tie, as with packs that are worth what they weigh, going through the ties alone would find the even ones very late.
func (s *search) raise() {
	if len(s.best) == 0 {
		return
	}
	low, high := s.rank.smallest(s.best), s.rank.level(node{lo: s.t.lo, hi: s.t.hi}, maxPacks)
	for low < high {
		level := low + (high-low+1)/2
		lo := s.rank.atLeast(level)
		s.explore(lo, max(1, s.budget/probePart), true, func() bool { return s.rank.smallest(s.best) >= level })
		if got := s.rank.smallest(s.best); got >= level {
			low = got
		} else {
			high = level - 1
		}
	}
}

// visit looks at one box: it tightens and bounds it, tries the plans near its relaxed corners, and splits it if it may hold
// something better.
func (s *search) visit(n node, ties bool) {
	if n.bound < s.bestValue || !s.tighten(n) {
		return
	}
	s.r.solve(s.value, n.lo, n.hi, s.left)
	n.bound = min(n.bound, s.r.bound(s.value, n.lo, n.hi, s.left))
	copy(s.valueX, s.r.x)
	s.tryNear(n)
	if n.bound < s.bestValue {
		return
	}
	if n.bound == s.bestValue {
		s.r.solve(s.mass, n.lo, n.hi, s.left)
		use := s.r.bound(s.mass, n.lo, n.hi, s.left)
		s.tryNear(n)
		if n.bound == s.bestValue && s.hopeless(n, use, ties) {
			return
		}
	}
	s.split(n)
}

// hopeless reports whether a box whose value can at most tie holds nothing better than the best plan.
func (s *search) hopeless(n node, use int64, ties bool) bool {
	if !ties || use != s.bestUse {
		return use <= s.bestUse
	}
	return s.rank.noneMoreEven(n, s.best)
}

// tighten works out what the lower limits leave and lowers the upper limits to what still fits; false when nothing fits.
func (s *search) tighten(n node) bool {
	copy(s.left, s.t.stock)
	for g, take := range s.t.take {
		for j, a := range take {
			s.left[j] -= a * n.lo[g]
		}
	}
	for _, left := range s.left {
		if left < 0 {
			return false
		}
	}
	for g := range n.lo {
		if n.lo[g] > n.hi[g] {
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

// tryNear rounds the relaxed corner down to a plan and fills it up, packs of the highest value first. s.left is that of n.
func (s *search) tryNear(n node) {
	left := slices.Clone(s.left)
	for g, x := range s.r.x {
		whole := int64(math.Round(x))
		if math.Abs(x-float64(whole)) > 1e-6 {
			whole = int64(math.Floor(x))
		}
		whole = most(max(0, min(whole, n.hi[g]-n.lo[g])), s.t.take[g], left)
		s.trial[g] = n.lo[g] + whole
		for j, a := range s.t.take[g] {
			left[j] -= a * whole
		}
	}
	for _, g := range s.rank.byValue {
		if s.value[g] < 0 {
			break
		}
		more := most(n.hi[g]-s.trial[g], s.t.take[g], left)
		s.trial[g] += more
		for j, a := range s.t.take[g] {
			left[j] -= a * more
		}
	}
	s.offer(s.trial)
}

// offer keeps a plan if the rules prefer it to the best one, and keeps track of the last rule that had to be asked.
func (s *search) offer(total []int64) {
	if slices.Equal(total, s.best) {
		return
	}
	value, use := dot(s.value, total), dot(s.mass, total)
	rule, better := ByValue, value > s.bestValue
	if value == s.bestValue {
		rule, better = ByLeft, use > s.bestUse
		if use == s.bestUse {
			rule, better = s.rank.compare(total, s.best)
		}
	}
	switch {
	case better:
		copy(s.best, total)
		s.bestValue, s.bestUse, s.decided = value, use, rule
	default:
		s.decided = max(s.decided, rule)
	}
}

// split cuts a box in two at the most fractional count of a relaxed corner, or, when none is, in the middle of its widest side.
// The half that holds the corner is searched first.
func (s *search) split(n node) {
	g, at := -1, int64(0)
	worst := 1e-6
	for _, corner := range [][]float64{s.valueX, s.r.x} {
		for i, x := range corner {
			if f := math.Abs(x - math.Round(x)); f > worst && n.hi[i] > n.lo[i] {
				g, at, worst = i, n.lo[i]+int64(math.Floor(x)), f
			}
		}
		if g >= 0 {
			break
		}
	}
	if g < 0 {
		for i := range n.lo {
			if n.hi[i] > n.lo[i] && (g < 0 || n.hi[i]-n.lo[i] > n.hi[g]-n.lo[g]) {
				g = i
			}
		}
		if g < 0 {
			return // one plan, and it was offered
		}
		at = n.lo[g] + (n.hi[g]-n.lo[g])/2
	}
	at = max(n.lo[g], min(at, n.hi[g]-1))
	low := node{s.copyOf(n.lo), s.copyOf(n.hi), n.bound}
	high := node{s.copyOf(n.lo), s.copyOf(n.hi), n.bound}
	low.hi[g], high.lo[g] = at, at+1
	s.stack = append(s.stack, low, high) // more of a pack first
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
