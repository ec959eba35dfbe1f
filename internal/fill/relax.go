package fill

import (
	"math"
	"math/big"
)

// relaxation is the linear relaxation of one node: counts may be fractions. Because everything a pack takes is >= 0, the lower
// limits are a feasible corner to start from, and the simplex needs no first phase.
//
// The tableau is condensed: one column for each nonbasic variable. Variables 0..n-1 are the groups' counts above their lower
// limits, n..n+m-1 what is left of each output, n+m.. what is left up to the upper limits.
type relaxation struct {
	t          *table
	n, m       int
	tab        [][]float64 // rows: outputs, then upper limits, then the objective; the last column is the right-hand side
	basic, non []int
	scale      []float64
	x          []float64 // the corner found, counts above the lower limits
	price      []float64 // multiplier of each output at that corner, >= 0

	// for the exact bound
	mult                 []big.Int
	sum, term, part, num big.Int
}

func newRelaxation(t *table) *relaxation {
	n, m := len(t.groups), len(t.stock)
	r := &relaxation{t: t, n: n, m: m, basic: make([]int, m+n), non: make([]int, n), scale: make([]float64, m),
		x: make([]float64, n), price: make([]float64, m), mult: make([]big.Int, m), tab: make([][]float64, m+n+1)}
	for i := range r.tab {
		r.tab[i] = make([]float64, n+1)
	}
	for j := range r.scale {
		for g := range t.take {
			r.scale[j] = max(r.scale[j], float64(t.take[g][j]))
		}
		r.scale[j] = max(r.scale[j], 1)
	}
	return r
}

// solve maximises obj over the box lo..hi and the stock that the lower limits leave, filling x and price. A corner that is not
// quite the best only makes the bound looser.
func (r *relaxation) solve(obj []int64, lo, hi, left []int64) {
	n, m := r.n, r.m
	z := r.tab[m+n]
	for g := range n {
		for j := range m {
			r.tab[j][g] = float64(r.t.take[g][j]) / r.scale[j]
			r.tab[j][n] = float64(left[j]) / r.scale[j]
		}
		row := r.tab[m+g]
		clear(row)
		row[g], row[n] = 1, float64(hi[g]-lo[g])
		z[g] = float64(obj[g])
		r.non[g] = g
	}
	z[n] = 0
	for i := range r.basic {
		r.basic[i] = n + i
	}
	const mostPivots = 200 // a dozen is usual
	for k := range mostPivots {
		c := r.entering(z, k > mostPivots/2)
		if c < 0 {
			break
		}
		row := r.leaving(c)
		if row < 0 {
			break // can't be: every variable has an upper limit
		}
		r.pivot(row, c)
	}
	clear(r.x)
	clear(r.price)
	for i, v := range r.basic {
		if v < n {
			r.x[v] = r.tab[i][n]
		}
	}
	for c, v := range r.non {
		if v >= n && v < n+m {
			r.price[v-n] = max(0, -z[c]) / r.scale[v-n]
		}
	}
}

// entering is the column that promises the most, or, against going round in circles, the first that promises anything (Bland).
func (r *relaxation) entering(z []float64, first bool) int {
	best, most := -1, 1e-9
	for c := range r.n {
		if z[c] > most {
			best, most = c, z[c]
			if first {
				break
			}
		}
	}
	return best
}

func (r *relaxation) leaving(c int) int {
	row, least := -1, math.Inf(1)
	for i := range r.basic {
		if a := r.tab[i][c]; a > 1e-11 {
			if q := r.tab[i][r.n] / a; q < least {
				row, least = i, q
			}
		}
	}
	return row
}

func (r *relaxation) pivot(row, c int) {
	pr := r.tab[row]
	inv := 1 / pr[c]
	for k := range pr {
		pr[k] *= inv
	}
	pr[c] = inv
	for i, ir := range r.tab {
		f := ir[c]
		if i == row || f == 0 {
			continue
		}
		for k := range ir {
			ir[k] -= f * pr[k]
		}
		ir[c] = -f * inv
	}
	r.basic[row], r.non[c] = r.non[c], r.basic[row]
}

// fraction is the number of binary places of the multipliers in the exact bound: fine enough that rounding them, times the
// largest stock (2^61 ng), is far below one unit of value.
const fraction = 90

// bound is the most that obj can add up to in the box, in whole numbers and for certain: with multipliers p >= 0,
//
//	sum obj x  <=  sum obj lo + sum p left + sum over groups of max(0, obj - p take) (hi - lo)
//
// (weak Lagrangian duality), rounded down because the left side is whole.
func (r *relaxation) bound(obj []int64, lo, hi, left []int64) int64 {
	r.sum.SetInt64(0)
	for j := range r.m {
		fixed(&r.mult[j], r.price[j])
		r.sum.Add(&r.sum, r.term.Mul(&r.mult[j], r.num.SetInt64(left[j])))
	}
	var base int64
	for g := range r.n {
		base += obj[g] * lo[g]
		if hi[g] == lo[g] {
			continue
		}
		r.term.Lsh(r.term.SetInt64(obj[g]), fraction)
		for j, a := range r.t.take[g] {
			if a != 0 && r.price[j] != 0 {
				r.term.Sub(&r.term, r.part.Mul(&r.mult[j], r.num.SetInt64(a)))
			}
		}
		if r.term.Sign() > 0 {
			r.sum.Add(&r.sum, r.part.Mul(&r.term, r.num.SetInt64(hi[g]-lo[g])))
		}
	}
	r.sum.Rsh(&r.sum, fraction)
	if !r.sum.IsInt64() || r.sum.Int64() > 2*limit {
		return base + 2*limit
	}
	return base + r.sum.Int64()
}

// fixed is f as a binary fixed-point number, rounded down.
func fixed(z *big.Int, f float64) {
	if f <= 0 || math.IsInf(f, 0) || math.IsNaN(f) {
		z.SetInt64(0)
		return
	}
	frac, exp := math.Frexp(f)
	z.SetInt64(int64(frac * (1 << 53)))
	if shift := exp - 53 + fraction; shift >= 0 {
		z.Lsh(z, uint(shift))
	} else {
		z.Rsh(z, uint(-shift))
	}
}
