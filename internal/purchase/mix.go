package purchase

import (
	"cmp"
	"slices"
)

// mix looks for the best purchase of a leaf that costs at most a limit, which begins at the bound and is raised until something is
// found, nothing can come before the best that is known, or more ways are open than are kept. The bound rises with it.
func (s *searcher) mix(n *node, d dual) {
	width := firstWidth << (2 * n.tries)
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
		x := mixer{searcher: s, node: n, dual: d, limit: limit, width: width, dims: dims}
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
			s.dive(n, d, dims, limit)
			n.tries++
			s.keep(n)
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

// dive looks for a purchase further above the bound than the limit at which more ways were open than are kept, among those that
// promise most.
func (s *searcher) dive(n *node, d dual, dims []int, limit int64) {
	further := limit + diveFactor*(limit-n.bound.cost)
	if s.found() {
		further = min(further, s.best.cost-s.grain)
	}
	if further <= limit || further > s.total {
		return
	}
	x := mixer{searcher: s, node: n, dual: d, limit: further, width: firstWidth << (2 * n.tries), dims: dims}
	if counts, _ := x.run(); counts != nil {
		s.try(counts)
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
	firstWidth = 500 // partial purchases that are kept at each need at first
	diveFactor = 3
	mostWays   = 20_000 // choices for one need that are looked at for each of them
)

// firstStep is how far the first limit lies above the bound: a part of the gap.
func (s *searcher) firstStep(n *node) int64 {
	if !s.found() {
		return n.bound.cost/64 + s.grain
	}
	return (s.best.cost - n.bound.cost) / 64
}

// mixer builds purchases need by need and keeps those that may still become the best: of two with the same needs decided, one that
// costs no more and has as much in every order replaces the other.
type mixer struct {
	*searcher
	node  *node
	dual  dual
	limit int64 // on cost
	width int

	dims   []int // suppliers whose order value is looked at
	stages []stage
	spare  []int64
	whole  bool
}

// stage is a need with what may be bought for it.
type stage struct {
	need  int
	ways  []way
	rest  int64 // least weighted cost of all needs after it
	reach []int64
	sure  []int64 // most and least that all needs after it add to the orders
	parts []part  // the partial purchases up to it
}

// way is one choice for a need, or what it comes to.
type way struct {
	score  score   // cost as it is, not weighted
	goods  []int64 // by dims
	counts []int64
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
	for i := range x.wants {
		ways := x.ways(i, slack)
		if len(ways) == 0 {
			return nil, x.whole
		}
		x.stages = append(x.stages, stage{need: i, ways: ways})
	}
	slices.SortStableFunc(x.stages, func(a, b stage) int { return cmp.Compare(len(a.ways), len(b.ways)) })
	x.lookAhead()
	before := []part{{score: score{cost: x.fixed(x.node)}, goods: make([]int64, len(x.dims))}}
	for k := range x.stages {
		before = x.extend(k, before)
		if len(before) == 0 || x.steps >= x.most {
			return nil, x.whole && len(before) == 0
		}
		x.stages[k].parts = before
	}
	best := -1
	for p, e := range before {
		if best < 0 || e.score.compare(before[best].score) < 0 {
			best = p
		}
	}
	return x.trace(best), x.whole
}

// ways are the choices for need i that cost at most slack more, weighted, than the least; none of them is replaced by another.
func (x *mixer) ways(i int, slack int64) []way {
	w := make(weights, len(x.terms))
	var pushed uint64
	for j := range w {
		w[j] = x.scale - x.dual.price[j]
	}
	for _, j := range x.dims {
		pushed |= 1 << j
	}
	sh := x.shelf(i, x.node.open, x.scale, w)
	var all []way
	steps := int64(mostForOne) << (2 * x.node.tries)
	x.whole = sh.within(x.dual.picks[i].least.cost+slack, pushed, steps, func(sc score) {
		if len(all) < mostWays<<(2*x.node.tries) {
			counts := sh.listed(sh.counts, len(x.wants[i].packs))
			all = append(all, x.way(i, counts, sc))
		} else {
			x.whole = false
		}
	}) && x.whole
	x.steps += sh.steps
	slices.SortStableFunc(all, func(a, b way) int { return a.score.compare(b.score) })
	return front(all, func(w way) []int64 { return w.goods }, &x.steps)
}

func (x *mixer) way(i int, counts []int64, weighted score) way {
	n := &x.wants[i]
	w := way{score: score{cost: -worth(weighted.over, n.keep, n.perKg), over: weighted.over, packs: weighted.packs},
		goods: make([]int64, len(x.dims)), counts: counts}
	for k, c := range counts {
		cost := n.packs[k].cost(c)
		w.score.cost += cost
		if d := slices.Index(x.dims, n.packs[k].supplier); d >= 0 {
			w.goods[d] += cost
		}
	}
	return w
}
