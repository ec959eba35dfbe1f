package fill

import (
	"math"
	"math/bits"
	"slices"
)

// dual is a bound in whole numbers: multipliers as fixed-point numbers with so many binary places, and what they prove.
type dual struct {
	places      int
	price, held []int64
	total       wide // of the goal above its base, with places
	goal        int
}

// multiplierBits is the size of the multipliers, less the bits of the number of groups and resources: a multiplier times a stock or
// times all that one group adds to a goal (2^61), summed over all of them, stays inside 128 bits.
const multiplierBits = 64

// bound is the most that goal k can come to in the box, in whole numbers and for certain: with multipliers p of resources and h of
// held goals, all >= 0, no plan that holds them has more than
//
//	sum p left - sum h (target - base) + sum over groups of the most that [goal + h held goals - p take] adds up to in its range
//
// above the base at the lower limits (weak Lagrangian duality), rounded down to what the groups that are free can add up to.
func (r *relaxation) bound(k int) int64 {
	d := &r.fix
	r.round(k)
	d.total = wide{}
	for j, p := range d.price {
		d.total = d.total.plus(product(p, r.left[j]))
	}
	for i := range k {
		d.total = d.total.minus(product(d.held[i], r.steps[i].target-r.base[i]))
	}
	var grain int64
	for g := range r.lo {
		if r.lo[g] >= r.hi[g] {
			continue
		}
		if r.lo[g] < r.steps[k].cap[g] {
			grain = gcd(r.steps[k].w[g], grain)
		}
		taken := r.taken(g)
		for at := r.lo[g]; at < r.hi[g]; {
			slope, next := r.slope(g, at, taken)
			if !slope.positive() {
				break // and no later one is
			}
			d.total = d.total.plus(slope.times(next - at))
			at = next
		}
	}
	above := d.total.over(d.places)
	if above > 2*limit {
		above = 2 * limit
	}
	if grain > 1 {
		above -= (above%grain + grain) % grain
	}
	return r.base[k] + above
}

// round turns the multipliers into fixed-point numbers.
func (r *relaxation) round(k int) {
	d := &r.fix
	most := 1.0
	for _, p := range r.price {
		most = max(most, p)
	}
	for _, h := range r.held[:k] {
		most = max(most, h)
	}
	_, exp := math.Frexp(most)
	size := min(58, multiplierBits-bits.Len(uint(len(r.lo)+len(r.left)+k)))
	d.goal, d.places = k, max(0, size-exp)
	most = math.Ldexp(1, size)
	d.price, d.held = fixed(d.price, r.price, d.places, most), fixed(d.held, r.held[:k], d.places, most)
}

func fixed(to []int64, from []float64, places int, most float64) []int64 {
	to = slices.Grow(to[:0], len(from))
	for _, f := range from {
		v := math.Ldexp(f, places)
		if !(v >= 0 && v < most) {
			v = 0
		}
		to = append(to, int64(v))
	}
	return to
}

// taken is what one pack of a group costs at the multipliers.
func (r *relaxation) taken(g int) wide {
	var sum wide
	for j, a := range r.t.take[g] {
		if a != 0 && r.fix.price[j] != 0 {
			sum = sum.plus(product(r.fix.price[j], a))
		}
	}
	return sum
}

// slope is what the next pack of a group is worth in the bound above its count at, and up to which count.
func (r *relaxation) slope(g int, at int64, taken wide) (wide, int64) {
	d := &r.fix
	slope := wide{}.minus(taken)
	next := r.hi[g]
	for i := range d.goal + 1 {
		o := r.steps[i]
		if o.w[g] == 0 || o.cap[g] <= at {
			continue
		}
		one := int64(1) << d.places
		if i < d.goal {
			one = d.held[i]
		}
		slope = slope.plus(product(one, o.w[g]))
		next = min(next, o.cap[g])
	}
	return slope, next
}

// narrow lowers hi and raises lo to the counts that can still come to need under the bound just worked out (reduced costs): a
// count that takes more off the bound than there is to spare is in no such plan.
func (r *relaxation) narrow(need int64, lo, hi []int64) {
	d := &r.fix
	spare := d.total.minus(product(1<<d.places, need-r.base[d.goal])).float()
	if spare < 0 {
		return // the box is hopeless; the caller has seen it
	}
	for g := range r.lo {
		if r.lo[g] >= r.hi[g] {
			continue
		}
		taken := r.taken(g)
		var up, down []stretch
		for at := r.lo[g]; at < r.hi[g]; {
			slope, next := r.slope(g, at, taken)
			if slope.positive() {
				down = append(down, stretch{slope.float(), next - at})
			} else {
				up = append(up, stretch{-slope.float(), next - at})
			}
			at = next
		}
		peak := r.lo[g]
		for _, s := range down {
			peak += s.length
		}
		slices.Reverse(down)
		hi[g] = min(hi[g], peak+within(up, spare))
		lo[g] = max(lo[g], peak-within(down, spare))
	}
}

type stretch struct {
	slope  float64
	length int64
}

// within is how many steps along the stretches, each costing its slope, spare pays for. It is rounded up where floats are in doubt.
func within(along []stretch, spare float64) int64 {
	var steps int64
	for _, s := range along {
		n := s.length
		if afford := spare/s.slope*(1+1e-9) + 1e-9; s.slope > 0 && afford < float64(n) {
			return steps + int64(afford)
		}
		steps += n
		spare -= s.slope * float64(n)
		spare = max(spare, 0) + math.Abs(spare)*1e-12
	}
	return steps
}
