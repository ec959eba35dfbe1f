package purchase

import (
	"cmp"
	"math"
	"math/bits"
	"slices"

	"kettlefrost/internal/unit"
)

// mostSteps is where the search stops and says that the choice is not proven. Kitchens with a dozen offers stay far below it.
const mostSteps = 2_000_000

// search walks through the offers in the order of their price per mass. Slices with one member more than there are offers hold
// what is true of offer k and all after it.
type search struct {
	need    int64
	order   []int // offers, the cheapest per mass first
	offers  []Offer
	most    []int64 // the most packs of each that can make sense
	reach   []int64 // mass of all packs of the offers still open
	unit    []int64 // greatest common divisor of the packs still open
	biggest []int64 // largest pack still open
	money   []int64 // greatest common divisor of the prices still open

	counts, best []int64
	bestScore    score
	found        bool
	steps        int
}

// score is what choices are compared by, before the order of the offers.
type score struct{ cost, over, packs int64 }

func (a score) compare(b score) int {
	return cmp.Or(cmp.Compare(a.cost, b.cost), cmp.Compare(a.over, b.over), cmp.Compare(a.packs, b.packs))
}

// mostPacks is the most packs of an offer that can make sense: enough to cover the need alone, or the fewest that are sold.
func mostPacks(need unit.Mass, o Offer) int64 {
	most := max(ceilDiv(int64(need), int64(o.Pack)), int64(o.Min))
	if o.Max >= 0 {
		most = min(most, int64(o.Max))
	}
	return most
}

// tooLarge reports whether the cost or mass of the most packs, times the number of offers, leaves half of int64.
func tooLarge(need unit.Mass, o Offer, offers int) bool {
	limit := uint64(math.MaxInt64/2) / uint64(offers+1)
	most := uint64(mostPacks(need, o))
	for _, each := range []uint64{uint64(o.Pack), uint64(o.Price)} {
		if over, low := bits.Mul64(most, each); over != 0 || low > limit {
			return true
		}
	}
	return false
}

func newSearch(need unit.Mass, offers []Offer) *search {
	n := len(offers)
	s := &search{need: int64(need), offers: offers, order: make([]int, n), most: make([]int64, n), reach: make([]int64, n+1),
		unit: make([]int64, n+1), biggest: make([]int64, n+1), money: make([]int64, n+1), counts: make([]int64, n), best: make([]int64, n)}
	for k := range s.order {
		s.order[k] = k
	}
	slices.SortStableFunc(s.order, func(a, b int) int { return perMass(offers[a], offers[b]) })
	for k := n - 1; k >= 0; k-- {
		o := offers[s.order[k]]
		s.most[k] = mostPacks(need, o)
		s.reach[k] = s.reach[k+1] + s.most[k]*int64(o.Pack)
		s.unit[k] = gcd(int64(o.Pack), s.unit[k+1])
		s.biggest[k] = max(int64(o.Pack), s.biggest[k+1])
		s.money[k] = gcd(int64(o.Price), s.money[k+1])
	}
	return s
}

// perMass compares price per mass exactly; of equals the larger pack comes first.
func perMass(a, b Offer) int {
	ah, al := bits.Mul64(uint64(a.Price), uint64(b.Pack))
	bh, bl := bits.Mul64(uint64(b.Price), uint64(a.Pack))
	return cmp.Or(cmp.Compare(ah, bh), cmp.Compare(al, bl), cmp.Compare(b.Pack, a.Pack))
}

func (s *search) solve() Choice {
	least := s.bound(0, s.need, score{}).cost
	s.visit(0, s.need, score{})
	c := Choice{Counts: make([]int, len(s.offers)), Packs: int(s.bestScore.packs), Total: unit.Money(s.bestScore.cost),
		Over: unit.Mass(s.bestScore.over), Bought: unit.Mass(s.need + s.bestScore.over), Optimal: s.steps < mostSteps}
	c.AtLeast = unit.Money(least)
	if c.Optimal {
		c.AtLeast = c.Total
	}
	for k, i := range s.order {
		c.Counts[i] = int(s.best[k])
	}
	return c
}

// visit decides on offer k: rest is what is not covered yet (negative when more than covered), so far is what was chosen.
func (s *search) visit(k int, rest int64, far score) {
	if rest <= 0 {
		far.over = -rest
		clear(s.counts[k:])
		s.offer(far)
		return
	}
	if k == len(s.order) || s.reach[k] < rest {
		return
	}
	o := s.offers[s.order[k]]
	for c := min(s.most[k], max(ceilDiv(rest, int64(o.Pack)), int64(o.Min))); c >= 0; c-- {
		if c > 0 && c < int64(o.Min) {
			c = 0
		}
		if s.steps++; s.steps >= mostSteps && s.found {
			return
		}
		next := score{cost: far.cost + c*int64(o.Price), packs: far.packs + c}
		left := rest - c*int64(o.Pack)
		if s.found && left >= 0 && next.cost+s.restCost(k+1, left) > s.bestScore.cost {
			return // with nothing bought too much yet, fewer of this offer only make the rest dearer
		}
		if s.found && s.bound(k+1, left, next).compare(s.bestScore) >= 0 {
			continue
		}
		s.counts[k] = c
		s.visit(k+1, left, next)
	}
}

// never is the cost of what can't be had; adding a cost to it stays inside int64.
const never = math.MaxInt64 / 2

// restCost is the least that rest could cost from offer k on, if packs could be cut.
func (s *search) restCost(k int, rest int64) int64 {
	if rest <= 0 {
		return 0
	}
	if s.reach[k] < rest {
		return never
	}
	o := s.offers[s.order[k]]
	return ceilMulDiv(rest, int64(o.Price), int64(o.Pack))
}

// bound is a score that no choice beats which covers rest from offer k on.
func (s *search) bound(k int, rest int64, far score) score {
	if rest <= 0 {
		far.over = -rest
		return far
	}
	cost := s.restCost(k, rest)
	if cost >= never {
		return score{cost: never}
	}
	if g := s.money[k]; g > 0 {
		cost = ceilDiv(cost, g) * g
	}
	far.cost += cost
	far.over = ceilDiv(rest, s.unit[k])*s.unit[k] - rest
	far.packs += ceilDiv(rest, s.biggest[k])
	return far
}

// offer keeps a choice that is better. Of equals the first one met stays: it has more of the offers that come first.
func (s *search) offer(sc score) {
	if s.found && sc.compare(s.bestScore) >= 0 {
		return
	}
	s.found, s.bestScore = true, sc
	copy(s.best, s.counts)
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

func ceilDiv(a, b int64) int64 {
	q := a / b
	if a%b > 0 {
		q++
	}
	return q
}

// ceilMulDiv is a*b/c rounded up, held at the end of the range; a, b >= 0 and c > 0.
func ceilMulDiv(a, b, c int64) int64 {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	if hi >= uint64(c) {
		return never
	}
	q, r := bits.Div64(hi, lo, uint64(c))
	if r > 0 {
		q++
	}
	return int64(min(q, never))
}
