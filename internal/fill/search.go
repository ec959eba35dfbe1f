package fill

import (
	"math"
	"slices"
)

// node is a box of group totals still to be searched; no plan in it comes to more than bound in the goal of the pass.
type node struct {
	lo, hi []int64
	bound  int64
}

// search is a depth-first branch and bound. It runs once for each goal, with the earlier goals held at their best, and once more
// through the plans that tie for the most even one.
type search struct {
	t      *table
	r      *relaxation
	rank   *ranking
	goals  []goal
	budget int

	best     []int64 // group totals
	reached  []int64 // what each goal comes to under best
	decided  Rule
	rejected []int64 // group totals, nil when there are none

	pass   int     // index of the goal that is raised; len(goals) for ties
	proven int     // how many goals are proven
	bounds []int64 // on each goal that a pass was run for
	even   bool
	cut    bool // cuts were added
	steps  int

	stack   []node
	spare   [][]int64
	left    []int64
	corners [][]float64
	asked   []step
	moved   []int64 // a plan that exchange tries
	total   []int64 // one that tryNear tries
	rest    []int64 // and what that leaves
	sides   []int64
	boxLo   []int64 // of the box being bounded
	boxHi   []int64
	fills   [][]int // for each goal: the groups that add to it, the most first
}

func newSearch(t *table, goals []goal, budget int) *search {
	if budget <= 0 {
		budget = DefaultBudget
	}
	s := &search{t: t, r: newRelaxation(t), rank: newRanking(t), goals: goals, budget: budget, left: make([]int64, len(t.stock)),
		best: slices.Clone(t.lo), bounds: make([]int64, len(goals)), decided: ByList}
	if len(goals) > 0 {
		s.decided = goals[0].rule
	}
	for k := range goals {
		s.reached = append(s.reached, goals[k].of(s.best))
		s.fills = append(s.fills, s.fillsOf(k))
	}
	return s
}

// tiesPart is the part of the budget that going through the ties gets. A tie costs nothing that a goal counts, so it gets less time.
const tiesPart = 4

// run searches goal by goal until nothing is open or the budget is used up, then meets the plans next to the best, so that what was
// turned down is near.
func (s *search) run() {
	s.prove()
	s.meetNeighbours()
}

func (s *search) prove() {
	for s.pass = range s.goals {
		open, done := s.explore(s.budget - s.steps)
		s.bounds[s.pass] = max(s.reached[s.pass], open)
		if !done {
			return
		}
		s.proven++
	}
	s.pass = len(s.goals)
	_, s.even = s.explore(max(1, s.budget/tiesPart))
}

// After so many steps of a pass the search adds cuts: easy cases are done by then.
const cutAfter = 60

// After so many steps the search looks around the best plan: early among ties, where it nearly always helps, and late for a goal,
// where only hard cases need it.
const (
	exchangeTies = 150
	exchangeHard = 4000
)

// explore searches everything for so many steps and reports whether nothing is left open, and the highest bound of what is.
func (s *search) explore(steps int) (bound int64, done bool) {
	bound = math.MaxInt64
	if s.pass < len(s.goals) {
		bound = s.t.beyond(&s.goals[s.pass])
	}
	s.stack = append(s.stack[:0], node{slices.Clone(s.t.lo), slices.Clone(s.t.hi), bound})
	for done := 1; len(s.stack) > 0 && done <= steps; done++ {
		if s.pass < len(s.goals) && done == cutAfter && !s.cut {
			s.addCuts()
			s.cut = true
		}
		if s.pass == len(s.goals) && done == exchangeTies || done%exchangeHard == 0 {
			s.exchange()
		}
		n := s.stack[len(s.stack)-1]
		s.stack = s.stack[:len(s.stack)-1]
		s.steps++
		s.visit(n)
		s.spare = append(s.spare, n.lo, n.hi)
	}
	bound = math.MinInt64
	for _, n := range s.stack {
		bound = max(bound, n.bound)
	}
	return bound, len(s.stack) == 0
}

// visit looks at one box: it tightens and bounds it, tries the plans near its relaxed corners, and splits it if it may hold
// something better.
func (s *search) visit(n node) {
	ties := s.pass == len(s.goals)
	if !ties && n.bound <= s.reached[s.pass] || !s.settle(n) || !s.tighten(n) || ties && s.rank.noneMoreEven(n.hi, s.best) {
		return
	}
	before := s.widths(n)
	s.corners = s.corners[:0]
	v := s.probe(&n, s.goalSteps())
	if v == matches {
		if !s.tighten(n) {
			return
		}
		v = s.probe(&n, append(s.goalSteps(), s.t.evenSteps(s.best, s.rank.counts(s.best))...))
	}
	switch {
	case v != open:
	case s.halved(n, before):
		s.stack = append(s.stack, node{s.copyOf(n.lo), s.copyOf(n.hi), n.bound})
	default:
		s.split(n)
	}
}

func (s *search) widths(n node) []int64 {
	s.sides = s.sides[:0]
	for g := range n.lo {
		s.sides = append(s.sides, n.hi[g]-n.lo[g])
	}
	return s.sides
}

// addCorner keeps the corner just found.
func (s *search) addCorner() {
	k := len(s.corners)
	if k < cap(s.corners) {
		s.corners = s.corners[:k+1]
	} else {
		s.corners = append(s.corners, nil)
	}
	s.corners[k] = s.r.corner(s.corners[k])
}

// halved reports whether some side of the box is now at most half as wide as before, so that bounding it once more pays.
func (s *search) halved(n node, before []int64) bool {
	for g, w := range before {
		if w > 1 && n.hi[g]-n.lo[g] <= w/2 {
			return true
		}
	}
	return false
}

// goalSteps are the goals of the pass against the best plan.
func (s *search) goalSteps() []step {
	steps := s.asked[:0]
	for k := range s.goals[:min(s.pass+1, len(s.goals))] {
		o := step{&s.goals[k], s.reached[k], math.MaxInt64} // proven: nothing beats it
		if k == s.pass {
			o.target++ // a tie is of no use yet
			o.beat = o.target
		}
		steps = append(steps, o)
	}
	s.asked = steps
	return steps
}

// verdict is what a box may hold, compared with the best plan by some steps.
type verdict int

const (
	hopeless verdict = iota // nothing as good
	matches                 // at best something as good by all the steps
	open                    // maybe something better
)

// probe bounds one step after another in a box, holding those that can only match, and narrows the box to what is not worse.
func (s *search) probe(n *node, steps []step) verdict {
	s.boxLo, s.boxHi = append(s.boxLo[:0], n.lo...), append(s.boxHi[:0], n.hi...)
	s.r.begin(steps, s.boxLo, s.boxHi, s.left)
	for k, o := range steps {
		s.r.maximise(k)
		bound := s.r.bound(k)
		s.addCorner()
		if k == s.pass {
			n.bound = min(n.bound, bound)
		}
		if bound < o.target {
			s.tryNear()
			return hopeless
		}
		s.r.narrow(o.target, n.lo, n.hi)
		if bound >= o.beat {
			s.tryNear()
			return open
		}
		s.r.hold(k)
	}
	if len(steps) > 0 {
		s.tryNear()
	}
	return matches
}
