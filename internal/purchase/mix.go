package purchase

import (
	"cmp"
	"slices"
)

// mix looks for the best purchase of a leaf that costs at most a limit, which begins at the bound and is raised until something is
// found, nothing can come before the best that is known, or more ways are open than are kept. The bound rises with it.
func (s *searcher) mix(n *node, d dual) {
	width := firstWidth << (2 * min(n.tries, mostTries))
	step := s.firstStep(n)
	var dims []int
	for j, price := range d.price {
		if price > 0 {
			dims = append(dims, j)
		}
	}
	for s.steps < s.most {
		limit := min(s.total, s.up(n.bound.cost+step))
		if s.found() {
			limit = min(limit, s.best.cost)
		}
		x := mixer{searcher: s, node: n, dual: d, limit: limit, width: width, room: 16 * width, dims: dims}
		counts, whole := x.run()
		if counts != nil {
			s.try(counts)
			if missed := s.missed(d.goal, counts, dims); len(missed) > 0 {
				dims = append(dims, missed...)
				continue
			}
		}
		switch {
		case !whole:
			s.dive(n, d, dims, limit, width)
			s.giveUp(n)
			return
		case counts != nil:
			return // the best of the leaf
		}
		n.bound = rank{cost: s.up(limit + 1), suppliers: n.bound.suppliers}
		if s.beaten(n.bound) || limit == s.total {
			return
		}
		step = max(2*step, s.grain)
	}
	s.keep(n)
}

// giveUp puts a node back for another try that keeps more, or for good; its bound holds all the same.
func (s *searcher) giveUp(n *node) {
	if n.tries++; n.tries <= mostTries {
		s.keep(n)
	} else if !s.beaten(n.bound) {
		s.givenUp = append(s.givenUp, n)
	}
}

// dive looks for a purchase further above the bound than the limit at which more ways were open than are kept: once a little further,
// once among a few ways as far as the best purchase that is known.
func (s *searcher) dive(n *node, d dual, dims []int, limit int64, width int) {
	most := s.total
	if s.found() {
		most = s.best.cost - s.grain
	}
	near := mixer{searcher: s, node: n, dual: d, limit: limit + 3*(limit-n.bound.cost), width: width, dims: dims}
	far := mixer{searcher: s, node: n, dual: d, limit: most, width: firstWidth, dims: dims}
	near.room, far.room = 16*near.width, fewWays
	for _, x := range []*mixer{&near, &far} {
		x.limit = min(x.limit, most)
		if x.limit <= limit {
			return
		}
		if counts, _ := x.run(); counts != nil {
			s.try(counts)
			most = min(most, s.best.cost-s.grain)
		}
	}
}

// missed are the suppliers whose order value is not reached, though it was not looked at.
func (s *searcher) missed(goal []int64, counts [][]int64, dims []int) []int {
	var missed []int
	for j, g := range s.goods(counts) {
		if g < goal[j] && !slices.Contains(dims, j) {
			missed = append(missed, j)
		}
	}
	return missed
}

const (
	mostTries  = 4   // after the first, each with four times the width
	firstWidth = 500 // partial purchases that are kept at each need at first
	fewWays    = 64  // choices for one need that a dive looks at
)

// firstStep is how far the first limit lies above the bound: a part of the gap.
func (s *searcher) firstStep(n *node) int64 {
	if !s.found() {
		return n.bound.cost/64 + s.grain
	}
	return (s.best.cost - n.bound.cost) / 64
}

// mixer builds purchases need by need and keeps those that may still become the best: of two with the same needs decided, one that
// costs no more and has as much in every order replaces the other. The last few needs, which have most ways, are put together apart:
// what they come to is looked up instead of added to every part.
type mixer struct {
	*searcher
	node  *node
	dual  dual
	limit int64 // on cost
	width int   // parts that are kept
	room  int   // ways that are kept for a need

	dims   []int // suppliers whose order value is looked at
	stages []stage
	spare  []int64
	whole  bool
}

// stage is a need with what may be bought for it.
type stage struct {
	need  int
	ways  []way
	rest  int64 // least weighted cost of orders and all needs after it
	reach []int64
	sure  []int64 // most and least that all needs after it add to the orders
	parts []part  // the partial purchases up to it
}

// way is one choice for a need, or what it comes to.
type way struct {
	score    score // cost as it is, not weighted
	weighted int64
	goods    []int64 // by dims
	counts   []int64
}

// part is a partial purchase: goods are held at what is enough.
type part struct {
	score  score
	bound  int64 // nothing that begins with it costs less, weighted
	goods  []int64
	before int32 // part of the stage before
	way    int32
}

// run returns the best purchase within the limit, nil if none was found, and whether every one was looked at.
func (x *mixer) run() ([][]int64, bool) {
	x.whole = true
	least := x.dual.least.cost + x.fixed(x.node)*x.scale
	slack := x.limit*x.scale - least
	if slack < 0 {
		return nil, true
	}
	if len(x.wants) == 0 {
		return nil, true
	}
	for i := range x.wants {
		ways := x.ways(i, slack)
		if x.steps >= x.most {
			return nil, false
		}
		if len(ways) == 0 {
			return nil, x.whole
		}
		x.stages = append(x.stages, stage{need: i, ways: ways})
	}
	if !x.trim() {
		return nil, x.whole
	}
	slices.SortStableFunc(x.stages, func(a, b stage) int { return cmp.Compare(len(a.ways), len(b.ways)) })
	first := x.stages[:len(x.stages)-x.lastOnes()]
	last := x.stages[len(first):]
	x.lookAhead(first, last)
	x.lookAhead(last, first)
	starts, ends := x.build(first, least), x.build(last, least)
	if starts == nil || ends == nil {
		return nil, x.whole && x.steps < x.most
	}
	a, b := x.join(starts, ends)
	if a < 0 {
		return nil, x.whole
	}
	counts := make([][]int64, len(x.wants))
	trace(first, a, counts)
	trace(last, b, counts)
	return counts, x.whole
}

// bestWays puts the best score first and leaves out what another replaces.
func (x *mixer) bestWays(all []way) []way {
	slices.SortStableFunc(all, func(a, b way) int { return a.score.compare(b.score) })
	return front(all, func(w way) []int64 { return w.goods }, &x.steps)
}

// trim leaves out ways with which an order cannot reach its value whatever else is bought, and holds the goods of the others at
// what is enough whatever else is bought. It reports false if a need is left without a way.
func (x *mixer) trim() bool {
	for d, j := range x.dims {
		least, most := make([]int64, len(x.stages)), make([]int64, len(x.stages))
		sure, reach := int64(0), int64(0)
		for k, st := range x.stages {
			least[k] = never
			for _, w := range st.ways {
				least[k], most[k] = min(least[k], w.goods[d]), max(most[k], w.goods[d])
			}
			sure, reach = sure+least[k], reach+most[k]
		}
		goal := x.dual.goal[j]
		for k := range x.stages {
			st := &x.stages[k]
			st.ways = slices.DeleteFunc(st.ways, func(w way) bool { return w.goods[d]+reach-most[k] < goal })
			enough := max(goal-(sure-least[k]), least[k])
			for _, w := range st.ways {
				w.goods[d] = min(w.goods[d], enough)
			}
		}
	}
	for k := range x.stages {
		x.stages[k].ways = x.bestWays(x.stages[k].ways)
		if len(x.stages[k].ways) == 0 {
			return false
		}
	}
	return true
}
