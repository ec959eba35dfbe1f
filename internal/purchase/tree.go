package purchase

import (
	"cmp"
	"container/heap"
	"math/bits"
)

// node is a set of purchases: those that order from all in open, from none in shut, and from the others or not.
type node struct {
	open, shut uint64
	free       uint64 // of open: those whose order is large enough for free delivery; the others of open pay
	bound      rank   // none of them comes before this
	prices     *dual  // once order values are priced
	tries      int    // how often it was given up
	seq        int    // what came first stays first among equals
}

// queue has what was given up least often first, then what promises most.
type queue []*node

func (q queue) Len() int      { return len(q) }
func (q queue) Swap(a, b int) { q[a], q[b] = q[b], q[a] }
func (q queue) Less(a, b int) bool {
	x, y := q[a], q[b]
	return cmp.Or(cmp.Compare(x.tries, y.tries), x.bound.compare(y.bound), cmp.Compare(x.seq, y.seq)) < 0
}
func (q *queue) Push(x any) { *q = append(*q, x.(*node)) }
func (q *queue) Pop() any {
	last := (*q)[len(*q)-1]
	*q = (*q)[:len(*q)-1]
	return last
}

func (r rank) compare(s rank) int {
	return cmp.Or(cmp.Compare(r.cost, s.cost), cmp.Compare(r.suppliers, s.suppliers), cmp.Compare(r.over, s.over), cmp.Compare(r.packs, s.packs))
}

// searcher looks for the best purchase: first which suppliers to order from and who of them delivers free, then what to buy of whom.
type searcher struct {
	*model
	known map[plainKey]pick
	ones  weights
	order []int // suppliers in the order they are decided on

	best        rank
	bestCounts  [][]int64
	queue       queue
	givenUp     []*node
	nodes       int
	steps, most int64
}

func (s *searcher) found() bool { return s.bestCounts != nil }

// run reports the cost that nothing comes below, and whether nothing at all comes before what was found.
func (s *searcher) run() (atLeast int64, settled bool) {
	s.begin()
	s.push(&node{shut: ^s.usable})
	for len(s.queue) > 0 && s.steps < s.most {
		n := heap.Pop(&s.queue).(*node)
		if s.beaten(n.bound) {
			continue
		}
		s.steps++
		if undecided := ^(n.open | n.shut); undecided != 0 {
			s.branch(n, undecided)
		} else {
			s.leaf(n)
		}
	}
	atLeast, settled = never, true
	for _, n := range append(s.queue, s.givenUp...) {
		if !s.beaten(n.bound) {
			settled = false
			atLeast = min(atLeast, n.bound.cost)
		}
	}
	if s.found() {
		atLeast = min(atLeast, s.best.cost)
	}
	return atLeast, settled
}

// beaten reports whether nothing with this bound can come before what was found.
func (s *searcher) beaten(bound rank) bool { return s.found() && bound.compare(s.best) >= 0 }

// push bounds a node and puts it into the queue, unless it has nothing, or nothing better.
func (s *searcher) push(n *node) {
	picks, least, _, ok := s.plains(^n.shut)
	if !ok || bits.OnesCount64(n.open) > s.atMost {
		return
	}
	n.bound = rank{s.up(least.cost + s.fixed(n)), int64(max(bits.OnesCount64(n.open), s.fewest())), least.over, least.packs}
	if n.bound.cost > least.cost+s.fixed(n) {
		n.bound.over, n.bound.packs = 0, 0 // what costs more may leave less
	}
	s.try(countsOf(picks))
	s.keep(n)
}

func (s *searcher) keep(n *node) {
	if s.beaten(n.bound) {
		return
	}
	s.nodes++
	n.seq = s.nodes
	heap.Push(&s.queue, n)
}

// fewest is the least number of suppliers: one, if anything is needed.
func (s *searcher) fewest() int {
	for _, w := range s.wants {
		if w.need > 0 {
			return 1
		}
	}
	return 0
}

// fixed is what is paid for the orders that are decided on, whatever is in them.
func (s *searcher) fixed(n *node) int64 {
	sum := int64(0)
	for j, t := range s.terms {
		if n.open>>j&1 == 1 {
			sum += t.handling
			if n.free>>j&1 == 0 {
				sum += t.delivery
			}
		}
	}
	return sum
}

// branch decides on one supplier more: nothing from it, a delivery that is paid for, one that is free.
func (s *searcher) branch(n *node, undecided uint64) {
	for _, j := range s.order {
		bit := uint64(1) << j
		if undecided&bit == 0 {
			continue
		}
		s.push(&node{open: n.open, shut: n.shut | bit, free: n.free})
		t := s.terms[j]
		canBeFree := t.freeFrom > 0 && t.delivery > 0
		if !canBeFree || t.freeFrom > t.minOrder {
			s.push(&node{open: n.open | bit, shut: n.shut, free: n.free})
		}
		if canBeFree {
			s.push(&node{open: n.open | bit, shut: n.shut, free: n.free | bit})
		}
		return
	}
}

// goal is the order value that supplier j has to reach.
func (s *searcher) goal(n *node, j int) int64 {
	t := s.terms[j]
	if n.free>>j&1 == 1 {
		return max(t.minOrder, t.freeFrom)
	}
	return t.minOrder
}

// leaf looks for the best purchase when it is decided whom to order from and who delivers free.
func (s *searcher) leaf(n *node) {
	picks, _, proven, _ := s.plains(n.open)
	goods := s.goods(countsOf(picks))
	var short []int
	for j := range s.terms {
		if n.open>>j&1 == 1 && goods[j] < s.goal(n, j) {
			short = append(short, j)
		}
	}
	if len(short) == 0 && proven {
		return // push has tried it
	}
	if n.prices == nil {
		d := s.dual(n)
		n.prices = &d
		s.keep(n)
		return
	}
	if n.tries == 0 && s.found() {
		d := s.refine(n, *n.prices)
		n.prices = &d
	}
	if !s.beaten(n.bound) {
		s.mix(n, *n.prices)
	}
}

// try keeps a purchase if it is allowed and better; orders that are too small for delivery to be free, or at all, are filled up.
func (s *searcher) try(counts [][]int64) {
	s.consider(counts)
	if filled := s.fillUp(counts); filled != nil {
		s.consider(filled)
	}
}

func (s *searcher) consider(counts [][]int64) {
	if r, ok := s.rank(counts); ok && (!s.found() || r.compare(s.best) < 0) {
		s.best, s.bestCounts = r, counts
	}
}
