package freezing

import "math"

// worths are what a whole day of one cabinet of each freezer is worth, such that all cabinets together are worth 1.
//
// Whatever they are, no way of dividing packs among cabinets, none given more than a whole day's share, needs fewer days than the sum over all packs of the cheapest place for each:
// its share of a day times the worth of that. (Every pack pays at least that, and a day of everything earns 1: the dual of the linear
// program of dividing packs that may be cut.) The worths that make the sum largest also say which freezer suits which kind: the cheapest.
type worths []float64

const (
	worthRounds = 300
	// suitable is how much dearer than the cheapest a place may be and still suit: the worths are found to a few hundredths.
	suitable = 1.1
)

// days is the bound for these counts of packs: 0 if nothing is to be placed, infinite if a kind finds no place. load is how many days of
// each freezer the cheapest places take.
func (y worths) days(shares [][]float64, counts []int, load []float64) float64 {
	clear(load)
	sum := 0.0
	for k, n := range counts {
		if n == 0 {
			continue
		}
		f, cost := y.cheapest(shares, k)
		if f < 0 {
			return math.Inf(1)
		}
		load[f] += float64(n) * shares[f][k]
		sum += float64(n) * cost
	}
	return sum
}

func (y worths) cheapest(shares [][]float64, k int) (freezer int, cost float64) {
	freezer, cost = -1, math.Inf(1)
	for f := range shares {
		if c := shares[f][k] * y[f]; c < cost {
			freezer, cost = f, c
		}
	}
	return freezer, cost
}

// worth looks for the worths with the largest bound: what is in demand becomes dearer.
func (p *planner) worth(counts []int) (best worths, days float64) {
	y := p.firstWorths()
	best, days = append(worths(nil), y...), 0
	load := make([]float64, len(y))
	for round := 1; round <= worthRounds; round++ {
		d := y.days(p.shares, counts, load)
		if d > days {
			days, best = d, append(best[:0], y...)
		}
		if math.IsInf(d, 1) || d == 0 {
			break
		}
		for f := range y {
			demand := load[f]/float64(p.want.Freezers[f].Count)/d - 1
			y[f] *= math.Exp(min(demand, 1) / (4 + float64(round)))
		}
		p.normal(y)
	}
	return best, days
}

// firstWorths are right at once where the freezers differ by a factor that is the same for all kinds.
func (p *planner) firstWorths() worths {
	y := make(worths, len(p.shares))
	for f := range p.shares {
		kinds := 0
		for k, share := range p.shares[f] {
			if least := p.smallest(k); !math.IsInf(share, 1) {
				y[f] += least / share
				kinds++
			}
		}
		y[f] = max(y[f]/max(1, float64(kinds)), 1e-3)
	}
	p.normal(y)
	return y
}

func (p *planner) normal(y worths) {
	sum := 0.0
	for f := range y {
		sum += y[f] * float64(p.want.Freezers[f].Count)
	}
	for f := range y {
		y[f] /= sum
	}
}

// suit is which freezers suit which kinds.
func (p *planner) suit() [][]bool {
	counts := make([]int, len(p.want.Kinds))
	for k, kind := range p.want.Kinds {
		if p.takers(k) > 0 {
			counts[k] = kind.Count
		}
	}
	y, _ := p.worth(counts)
	out := make([][]bool, len(p.shares))
	for f := range p.shares {
		out[f] = make([]bool, len(p.want.Kinds))
		for k := range p.want.Kinds {
			_, least := y.cheapest(p.shares, k)
			out[f][k] = p.shares[f][k]*y[f] <= suitable*least
		}
	}
	return out
}

// leastDays is a lower bound on the loadings, measured by the daily intakes of each kind alone: for all kinds together at mostShare a day,
// and for each kind at mostOfOne. Of kinds that are ready later, the days before do not count. 0 if a kind finds no place.
func (p *planner) leastDays() int {
	bound := 0
	for first := range p.want.Days {
		counts := make([]int, len(p.want.Kinds))
		any := false
		for k, kind := range p.want.Kinds {
			if kind.ReadyS >= float64(first)*daySeconds && kind.Count > 0 {
				counts[k], any = kind.Count, true
			}
		}
		if !any {
			break
		}
		_, days := p.worth(counts)
		if math.IsInf(days, 1) {
			return 0
		}
		days /= mostShare
		for k, n := range counts {
			days = max(days, float64(n)/p.dayOfOne(k)/mostOfOne)
		}
		bound = max(bound, first+int(math.Ceil(days-1e-6)))
	}
	return bound
}

// dayOfOne is how many packs of a kind all cabinets together take in a day.
func (p *planner) dayOfOne(k int) float64 {
	sum := 0.0
	for _, at := range p.places {
		sum += 1 / p.shares[at.Freezer][k]
	}
	return sum
}
