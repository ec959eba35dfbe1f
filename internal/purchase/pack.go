package purchase

import (
	"cmp"
	"math"
	"math/bits"
	"slices"
)

// pack is one offer as the search sees it.
type pack struct {
	mass     int64
	min      int64  // fewest if any are bought, at least 1
	most     int64  // the most that can make sense
	tiers    []tier // by count; the first from 0
	low      int64  // the lowest price that most packs can reach
	supplier int
	weight   int64 // what a unit of its money counts for
	listed   int   // place among the offers of the caller
}

// tier is the price of every pack from a number of packs on.
type tier struct{ from, price int64 }

// cost is what count packs cost, not weighted: all at the price of the last tier that is reached.
func (p *pack) cost(count int64) int64 {
	k := len(p.tiers) - 1
	for k > 0 && p.tiers[k].from > count {
		k--
	}
	return count * p.tiers[k].price
}

// lowest is the lowest price that most packs can reach.
func lowest(tiers []tier, most int64) int64 {
	low := tiers[0].price
	for _, t := range tiers[1:] {
		if t.from <= most {
			low = t.price
		}
	}
	return low
}

// top is the count to begin with when cover packs cover all that is still worth covering: a tier or the fewest that are sold may
// make more than that sensible.
func (p *pack) top(cover int64) int64 {
	if cover <= 0 {
		return 0
	}
	return min(p.most, max(cover, p.min, p.tiers[len(p.tiers)-1].from))
}

// lower is the next count below count that makes sense: more packs than cover are worth buying only for a tier, or because fewer
// are not sold.
func (p *pack) lower(count, cover int64) int64 {
	count--
	if count > cover {
		next := cover
		for _, t := range p.tiers {
			if t.from <= count {
				next = max(next, t.from)
			}
		}
		if p.min <= count {
			next = max(next, p.min)
		}
		count = next
	}
	if count < p.min {
		return 0
	}
	return count
}

// rate compares weighted price per mass exactly; of equals the larger pack comes first.
func rate(a, b pack) int {
	ah, al := bits.Mul64(uint64(a.low*a.weight), uint64(b.mass))
	bh, bl := bits.Mul64(uint64(b.low*b.weight), uint64(a.mass))
	return cmp.Or(cmp.Compare(ah, bh), cmp.Compare(al, bl), cmp.Compare(b.mass, a.mass))
}

// sortByRate puts the cheapest per mass first; of equals the one listed earlier.
func sortByRate(packs []pack) { slices.SortStableFunc(packs, rate) }

// never is the cost of what can't be had; adding a cost to it stays inside int64.
const never = math.MaxInt64 / 2

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// ceilDiv is a/b rounded up, for b > 0.
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

// floorMulDiv is a*b/c rounded down, held at the end of the range; a, b >= 0 and c > 0.
func floorMulDiv(a, b, c int64) int64 {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	if hi >= uint64(c) {
		return never
	}
	q, _ := bits.Div64(hi, lo, uint64(c))
	return int64(min(q, never))
}
