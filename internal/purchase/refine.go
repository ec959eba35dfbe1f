package purchase

const (
	refinements = 150 // looks at other prices
	patience    = 6   // looks without a better bound before steps are halved
)

// refine raises the bound further than prices moved one by one can: all prices move at once along the slopes, by steps that would
// reach the best purchase known if the bound were a plane (Polyak's subgradient step), and shorter ones when that does not help.
// Prices are guesses, in floating point; the bound they give is whole numbers all the same.
func (s *searcher) refine(n *node, d dual) dual {
	at, best := d, d
	m := mender{searcher: s, goal: d.goal, pool: make([][]way, len(s.wants))}
	m.remember(d.picks)
	share, idle := 1.0, 0
	for round := range refinements {
		if round%10 == 9 {
			m.mend()
		}
		gap := float64(s.best.cost-s.fixed(n))*float64(s.scale) - float64(best.least.cost)
		price, moved := s.moved(at, share*gap)
		if !moved || s.steps > s.most {
			break
		}
		at = s.pricedAll(n, d.goal, price)
		m.remember(at.picks)
		if idle++; at.least.cost > best.least.cost {
			best, idle = at, 0
			s.raise(n, best)
			if s.beaten(n.bound) {
				break
			}
		}
		if idle > patience {
			at, share, idle = best, share/2, 0
		}
	}
	if !s.beaten(n.bound) {
		m.remember(best.picks)
		m.mend()
	}
	return best
}

// moved are prices moved along the slopes of d so far that a plane with these slopes rises by rise, or false if none moves.
func (s *searcher) moved(d dual, rise float64) ([]int64, bool) {
	square := 0.0
	slopes := make([]float64, len(d.price))
	for j, goal := range d.goal {
		if goal == 0 || d.price[j] == 0 && d.goods[j] >= goal {
			continue
		}
		slopes[j] = float64(goal - d.goods[j])
		square += float64(slopes[j] * slopes[j])
	}
	if square == 0 || rise <= 0 {
		return nil, false
	}
	price, moved := make([]int64, len(d.price)), false
	for j, p := range d.price {
		price[j] = min(max(0, p+int64(rise*slopes[j]/square)), s.scale-1)
		moved = moved || price[j] != p
	}
	return price, moved
}
