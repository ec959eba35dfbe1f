package purchase

import "math/bits"

// mostForOne is the most steps for one need. A search that ends early still has a bound.
const mostForOne = 100_000

// pick is the best choice for one need from some suppliers, money of each supplier weighted.
type pick struct {
	counts []int64 // by offer as listed
	score  score   // cost weighted
	least  score   // nothing scores less; the same as score if the search came to its end
}

// weights are what a unit of money of each supplier counts for, out of scale. A supplier whose order value has to be reached counts
// for less: what is bought of it also pays for reaching it.
type weights []int64

// flat counts all money as it is.
func (m *model) flat() weights {
	w := make(weights, len(m.terms))
	for j := range w {
		w[j] = 1
	}
	return w
}

// shelf is what the suppliers in open have for need i.
func (m *model) shelf(i int, open uint64, scale int64, w weights) *shelf {
	n := &m.wants[i]
	packs := make([]pack, 0, len(n.packs))
	for _, p := range n.packs {
		if open>>p.supplier&1 == 1 && p.most > 0 {
			p.weight = w[p.supplier]
			packs = append(packs, p)
		}
	}
	return newShelf(n.need, n.keep, n.perKg, scale, packs)
}

// pick reports false if the suppliers in open do not have enough.
func (s *searcher) pick(i int, open uint64, scale int64, w weights) (pick, bool) {
	sh := s.shelf(i, open, scale, w)
	if sh.reach[0] < sh.need {
		return pick{}, false
	}
	least := sh.cheapest(mostForOne)
	s.steps += sh.steps
	return pick{counts: sh.listed(sh.best, len(s.wants[i].packs)), score: sh.bestScore, least: least}, true
}

// listed puts counts into the order of the caller's offers.
func (s *shelf) listed(counts []int64, offers int) []int64 {
	by := make([]int64, offers)
	for k, p := range s.packs {
		by[p.listed] = counts[k]
	}
	return by
}

// plain is the best choice for need i when every supplier in open delivers, and order values are no matter. It is kept.
func (s *searcher) plain(i int, open uint64) (pick, bool) {
	key := plainKey{i, open & s.wants[i].sellers}
	if p, known := s.known[key]; known {
		return p, p.counts != nil
	}
	p, ok := s.pick(i, open, 1, s.ones)
	s.known[key] = p
	return p, ok
}

type plainKey struct {
	need int
	open uint64
}

// plains are the best choices for all needs, what they cost at least, and whether each of them is proven.
func (s *searcher) plains(open uint64) (picks []pick, least score, proven, ok bool) {
	picks, proven = make([]pick, len(s.wants)), true
	for i := range s.wants {
		if picks[i], ok = s.plain(i, open); !ok {
			return nil, score{}, false, false
		}
		least = least.plus(picks[i].least)
		proven = proven && picks[i].least == picks[i].score
	}
	return picks, least, proven, true
}

func countsOf(picks []pick) [][]int64 {
	counts := make([][]int64, len(picks))
	for i, p := range picks {
		counts[i] = p.counts
	}
	return counts
}

// goods is the order value of each supplier.
func (m *model) goods(counts [][]int64) []int64 {
	goods := make([]int64, len(m.terms))
	for i, w := range m.wants {
		for k, c := range counts[i] {
			if c > 0 {
				goods[w.packs[k].supplier] += w.packs[k].cost(c)
			}
		}
	}
	return goods
}

// rank is what purchases are compared by.
type rank struct{ cost, suppliers, over, packs int64 }

// rank is that of a whole purchase, or false if an order is too small or too many suppliers are ordered from.
func (m *model) rank(counts [][]int64) (rank, bool) {
	var r rank
	var used uint64
	for i, w := range m.wants {
		got := int64(0)
		for k, c := range counts[i] {
			if c > 0 {
				p := &w.packs[k]
				got += c * p.mass
				used |= 1 << p.supplier
				r.packs += c
			}
		}
		r.over += got - w.need
		r.cost -= worth(got-w.need, w.keep, w.perKg)
	}
	goods := m.goods(counts)
	r.suppliers = int64(bits.OnesCount64(used))
	for j, t := range m.terms {
		if used>>j&1 == 0 {
			continue
		}
		if goods[j] < t.minOrder {
			return rank{}, false
		}
		r.cost += goods[j] + t.handling
		if t.freeFrom == 0 || goods[j] < t.freeFrom {
			r.cost += t.delivery
		}
	}
	return r, r.suppliers <= int64(m.atMost)
}
