package purchase

import "slices"

// dual prices the orders: a unit of money in an order that has to reach a value counts for less than one, by the price of reaching
// it. Whatever the prices are, picks at these weights, plus the prices times the values to be reached, cost no more than any
// purchase of the node (weak duality); everything is whole numbers of 1/scale of a unit of money.
type dual struct {
	price []int64 // by supplier, out of scale; 0 where nothing has to be reached
	goal  []int64 // by supplier
	picks []pick
	goods []int64
	least score // sum of all picks' least, and of prices times goals
}

// dual raises the bound of a leaf as far as a few rounds over the suppliers bring it.
func (s *searcher) dual(n *node) dual {
	goal := make([]int64, len(s.terms))
	for j := range s.terms {
		if n.open>>j&1 == 1 {
			goal[j] = s.goal(n, j)
		}
	}
	d := s.pricedAll(n, goal, make([]int64, len(s.terms)))
	for range dualRounds {
		before := d.least.cost
		for j := range s.terms {
			if d.goal[j] > 0 && (d.goods[j] < d.goal[j] || d.price[j] > 0) {
				d = s.climb(n, d, j)
				s.raise(n, d)
			}
		}
		if d.least.cost == before || s.beaten(n.bound) {
			break
		}
	}
	return d
}

const dualRounds = 3

// raise lifts the bound of a node to that of its prices.
func (s *searcher) raise(n *node, d dual) {
	cost := s.fixed(n) + ceilDiv(d.least.cost, s.scale)
	bound := rank{s.up(cost), n.bound.suppliers, 0, 0}
	if bound.cost == s.fixed(n)+d.least.cost/s.scale && d.least.cost%s.scale == 0 {
		bound.over, bound.packs = d.least.over, d.least.packs
	}
	if bound.compare(n.bound) > 0 {
		n.bound = bound
	}
}

// priced is d with the price of supplier j changed; only needs that j has something of are looked at again.
func (s *searcher) priced(n *node, d dual, j int, price int64) dual {
	next := dual{price: slices.Clone(d.price), goal: d.goal, picks: slices.Clone(d.picks)}
	next.price[j] = price
	return s.picked(n, next, 1<<j)
}

// pricedAll is the bound at these prices.
func (s *searcher) pricedAll(n *node, goal, price []int64) dual {
	return s.picked(n, dual{price: price, goal: goal, picks: make([]pick, len(s.wants))}, ^uint64(0))
}

// picked looks for the best choices at the prices of d, for the needs that one of the suppliers in changed has something of.
func (s *searcher) picked(n *node, d dual, changed uint64) dual {
	w := make(weights, len(s.terms))
	d.least = score{}
	for k := range w {
		w[k] = s.scale - d.price[k]
		d.least.cost += d.price[k] * d.goal[k]
	}
	for i := range s.wants {
		if s.wants[i].sellers&changed != 0 || d.picks[i].counts == nil {
			d.picks[i], _ = s.pick(i, n.open, s.scale, w)
		}
		d.least = d.least.plus(d.picks[i].least)
	}
	counts := countsOf(d.picks)
	d.goods = s.goods(counts)
	s.try(counts)
	return d
}

// climb finds the best price of supplier j, the others as they are. The bound is concave in it, a chain of straight lines each with
// the slope goal - goods: where the lines at two prices on either side of the top cross is the next price to look at.
func (s *searcher) climb(n *node, d dual, j int) dual {
	best := d
	lo, hi := d, d
	slope := func(d dual) int64 { return d.goal[j] - d.goods[j] }
	if slope(d) > 0 {
		hi = s.priced(n, d, j, s.scale-1)
	} else {
		lo = s.priced(n, d, j, 0)
	}
	for {
		for _, e := range []dual{lo, hi} {
			if e.least.cost > best.least.cost {
				best = e
			}
		}
		width := hi.price[j] - lo.price[j]
		if slope(lo) <= 0 || slope(hi) >= 0 || width <= 1 {
			return best
		}
		step := (hi.least.cost - lo.least.cost - slope(hi)*width) / (slope(lo) - slope(hi))
		next := s.priced(n, d, j, lo.price[j]+min(max(step, 1), width-1))
		onLine := slope(next) == slope(lo) || slope(next) == slope(hi)
		if slope(next) > 0 {
			lo = next
		} else {
			hi = next
		}
		if onLine { // no line lies lower where these two cross: it is the top
			if next.least.cost > best.least.cost {
				best = next
			}
			return best
		}
	}
}
