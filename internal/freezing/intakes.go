package freezing

import "math"

// intakes remembers what freezers take of kinds in a day.
type intakes struct {
	packs map[pairing]float64
	found *[]found
}

func newIntakes() intakes { return intakes{map[pairing]float64{}, &[]found{}} }

type pairing struct {
	freezer Freezer // without number and room
	pack    Pack
	placing Placing
	limits  Limits
}

type found struct {
	pairing
	heatJ, packs float64
}

func (known intakes) find(f Freezer, k Kind, lim Limits) (float64, error) {
	f.RoomKg, f.Count = 0, 1
	pair := pairing{f, k.Pack, k.Placing, lim}
	if n, have := known.packs[pair]; have {
		return n, nil
	}
	s, err := newSearch(f, k.Pack, k.Placing, lim)
	if err != nil {
		return 0, err
	}
	s.guess = known.guess(pair, s.heatJ)
	n, err := s.real()
	if err != nil {
		return 0, err
	}
	known.packs[pair] = n
	if n > 0 {
		*known.found = append(*known.found, found{pair, s.heatJ, n})
	}
	return n, nil
}

// guess is where to begin to look. What is known of the same freezer says the most: it takes about the same heat of every kind of about that
// thickness. If another freezer is known with both kinds, then it takes them in about the same proportion. 0 if nothing is known.
func (known intakes) guess(pair pairing, heatJ float64) float64 {
	best, least := 0.0, math.Inf(1)
	for _, x := range *known.found {
		if x.freezer != pair.freezer || x.limits != pair.limits {
			continue
		}
		n, far := x.packs*x.heatJ/heatJ, math.Abs(math.Log(x.pack.ThicknessM/pair.pack.ThicknessM))
		if m, have := known.proportion(pair, x); have {
			n, far = m, far/4
		}
		if far < least {
			best, least = n, far
		}
	}
	return best
}

func (known intakes) proportion(pair pairing, x found) (float64, bool) {
	for _, y := range *known.found {
		if y.pack != pair.pack || y.placing != pair.placing || y.limits != pair.limits {
			continue
		}
		other := pair
		other.freezer, other.pack, other.placing = y.freezer, x.pack, x.placing
		if n := known.packs[other]; n > 0 {
			return y.packs * x.packs / n, true
		}
	}
	return 0, false
}
