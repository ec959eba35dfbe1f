package purchase

import "slices"

// fillUp is counts with every order that is too small filled up with the offer that costs least to do so, or nil if that is not
// needed or not possible. An order that may be small is filled up if that costs less than its delivery.
func (m *model) fillUp(counts [][]int64) [][]int64 {
	var filled [][]int64
	goods := m.goods(counts)
	for j, t := range m.terms {
		goal := t.minOrder
		if goods[j] >= goal && t.delivery > 0 && goods[j] < t.freeFrom {
			goal = t.freeFrom
		}
		if goods[j] == 0 || goods[j] >= goal {
			continue
		}
		if filled == nil {
			filled = slices.Clone(counts)
		}
		i, k, more, cost := m.leastMore(filled, j, goal-goods[j])
		if more > 0 && (goal == t.minOrder || cost < t.delivery) {
			filled[i] = slices.Clone(filled[i])
			filled[i][k] += more
		}
	}
	return filled
}

// leastMore is the offer of supplier j, and how many packs more of it, that raise the order value by at least short at the least
// cost. More is 0 if there is none.
func (m *model) leastMore(counts [][]int64, j int, short int64) (need, offer int, more, least int64) {
	least = never
	for i, w := range m.wants {
		over := -w.need
		for k, c := range counts[i] {
			over += c * w.packs[k].mass
		}
		for k := range w.packs {
			p := &w.packs[k]
			if p.supplier != j || p.low == 0 {
				continue
			}
			had := counts[i][k]
			c := max(p.min, had+ceilDiv(short, p.low))
			if c > p.most {
				continue
			}
			raise := p.cost(c) - p.cost(had)
			cost := raise - worth(over+(c-had)*p.mass, w.keep, w.perKg) + worth(over, w.keep, w.perKg)
			if raise >= short && cost < least {
				need, offer, more, least = i, k, c-had, cost
			}
		}
	}
	return need, offer, more, least
}
