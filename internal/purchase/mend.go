package purchase

import "slices"

// mender turns choices that do not reach the order values of a leaf into a purchase that does, and then betters it: by exchanging
// the choice of one need, or of two at once, for others that were the best at some prices. It proves nothing.
type mender struct {
	*searcher
	goal  []int64
	pool  [][]way // by need; goods by supplier
	at    []int   // by need, the choice in the pool
	goods []int64
}

const (
	poolSize   = 40 // choices of a need that are remembered
	mostPasses = 60 // exchanges in a row
)

// remember puts choices into the pool and is at them.
func (m *mender) remember(picks []pick) {
	m.at = make([]int, len(picks))
	for i, p := range picks {
		k := slices.IndexFunc(m.pool[i], func(w way) bool { return slices.Equal(w.counts, p.counts) })
		if k < 0 && len(m.pool[i]) < poolSize {
			k = len(m.pool[i])
			m.pool[i] = append(m.pool[i], m.wayOf(i, p.counts))
		}
		m.at[i] = max(k, 0)
	}
}

func (m *mender) wayOf(i int, counts []int64) way {
	n := &m.wants[i]
	w := way{counts: counts, goods: make([]int64, len(m.terms))}
	over := -n.need
	for k, c := range counts {
		p := &n.packs[k]
		cost := p.cost(c)
		w.score.cost += cost
		w.goods[p.supplier] += cost
		over += c * p.mass
	}
	w.score.cost -= worth(over, n.keep, n.perKg)
	return w
}

// mend exchanges for as long as that helps, and tries what comes of it.
func (m *mender) mend() {
	m.goods = make([]int64, len(m.terms))
	for i, k := range m.at {
		for j, g := range m.pool[i][k].goods {
			m.goods[j] += g
		}
	}
	for m.short(nil, nil) > 0 && m.reach() {
	}
	if m.short(nil, nil) == 0 {
		for range mostPasses {
			if !m.exchangeOne() && !m.exchangeTwo() {
				break
			}
		}
	}
	counts := make([][]int64, len(m.at))
	for i, k := range m.at {
		counts[i] = m.pool[i][k].counts
	}
	m.try(counts)
}

// short is what is missing in all orders together once the goods in less are exchanged for those in more.
func (m *mender) short(less, more []int64) int64 {
	sum := int64(0)
	for j, goal := range m.goal {
		g := m.goods[j]
		if less != nil {
			g += more[j] - less[j]
		}
		sum += max(0, goal-g)
	}
	m.steps++
	return sum
}

func (m *mender) exchange(i, k int) {
	for j := range m.goods {
		m.goods[j] += m.pool[i][k].goods[j] - m.pool[i][m.at[i]].goods[j]
	}
	m.at[i] = k
}

// reach makes the exchange that costs least for what it brings the orders closer to their values, or none.
func (m *mender) reach() bool {
	before := m.short(nil, nil)
	need, choice, best := -1, 0, 0.0
	for i := range m.pool {
		now := m.pool[i][m.at[i]]
		for k, w := range m.pool[i] {
			gain := before - m.short(now.goods, w.goods)
			if gain <= 0 {
				continue
			}
			if price := float64(w.score.cost-now.score.cost) / float64(gain); need < 0 || price < best {
				need, choice, best = i, k, price
			}
		}
	}
	if need >= 0 {
		m.exchange(need, choice)
	}
	return need >= 0
}

// exchangeOne makes the exchange that saves most and leaves every order as large as it has to be.
func (m *mender) exchangeOne() bool {
	need, choice, best := -1, 0, int64(0)
	for i := range m.pool {
		now := m.pool[i][m.at[i]]
		for k, w := range m.pool[i] {
			if saved := now.score.cost - w.score.cost; saved > best && m.short(now.goods, w.goods) == 0 {
				need, choice, best = i, k, saved
			}
		}
	}
	if need >= 0 {
		m.exchange(need, choice)
	}
	return need >= 0
}

// exchangeTwo makes the first two exchanges that save something together and leave every order as large as it has to be.
func (m *mender) exchangeTwo() bool {
	less, more := make([]int64, len(m.goods)), make([]int64, len(m.goods))
	for a := range m.pool {
		nowA := m.pool[a][m.at[a]]
		for k, wayA := range m.pool[a] {
			saved := nowA.score.cost - wayA.score.cost
			if k == m.at[a] || saved <= 0 {
				continue
			}
			for b := range m.pool {
				if b == a {
					continue
				}
				nowB := m.pool[b][m.at[b]]
				for l, wayB := range m.pool[b] {
					if saved+nowB.score.cost-wayB.score.cost <= 0 {
						continue
					}
					for j := range less {
						less[j], more[j] = nowA.goods[j]+nowB.goods[j], wayA.goods[j]+wayB.goods[j]
					}
					if m.short(less, more) == 0 {
						m.exchange(a, k)
						m.exchange(b, l)
						return true
					}
				}
			}
		}
	}
	return false
}
