// Package scatter draws what may turn out otherwise than planned, and orders what follows from it.
//
// Everything is whole numbers, so that a seed gives the same draws on every machine: floating point may be fused differently from one
// processor to the next. A normal deviate is the sum of twelve uniform ones less six (Irwin and Hall), which has mean 0 and variance 1 and
// never lies beyond 6; at 2 it is off the normal distribution by less than 0.001 in probability, which is far less than anybody knows of
// a kitchen's spread.
package scatter

import (
	"math/bits"
	"math/rand/v2"
	"slices"

	"kettlefrost/internal/unit"
)

// Source gives draws, one after another.
type Source struct{ pcg *rand.PCG }

// New begins with a seed. Sources of one seed and different streams have nothing to do with each other.
func New(seed, stream uint64) *Source { return &Source{rand.NewPCG(seed, stream)} }

// one is a deviate of one standard deviation.
const one = 1 << 32

// deviate is a standard normal deviate, in parts of one.
func (s *Source) deviate() int64 {
	sum := int64(-6 * one)
	for range 6 {
		pair := s.pcg.Uint64()
		sum += int64(pair>>32) + int64(pair&(one-1))
	}
	return sum
}

// Factor is a quantity's factor.
type Factor struct{ parts int64 } // of whole

const whole = 1 << 40

// Sure is the factor of what does not scatter.
var Sure = Factor{whole}

// least is the smallest factor: however wide a spread, nothing becomes nothing or less.
const least = whole / 100

// Factor draws 1 and a normal deviate with a standard deviation of spread. Below a hundredth it is that.
func (s *Source) Factor(spread unit.Share) Factor {
	d := s.deviate()
	return Factor{max(least, whole+times(d*(whole/one), int64(spread), int64(unit.Whole)))}
}

// times is a*b/c towards nothing, b and c above 0.
func times(a, b, c int64) int64 {
	sign := int64(1)
	if a < 0 {
		a, sign = -a, -1
	}
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	if hi >= uint64(c) {
		panic("scatter: a spread too large to multiply") // spreads are shares, far below this
	}
	q, _ := bits.Div64(hi, lo, uint64(c))
	return sign * int64(q)
}

// Mass is a mass times the factor.
func (f Factor) Mass(m unit.Mass) unit.Mass { return unit.Mass(times(int64(m), f.parts, whole)) }

// Money is an amount of money times the factor.
func (f Factor) Money(m unit.Money) unit.Money { return unit.Money(times(int64(m), f.parts, whole)) }

// Less is an amount of money over the factor: what each has to bear of it when there are so many more.
func (f Factor) Less(m unit.Money) unit.Money { return unit.Money(times(int64(m), whole, f.parts)) }

// F is the factor as a number.
func (f Factor) F() float64 { return float64(f.parts) / whole }

// Range is what many draws come to.
type Range struct {
	Low, Middle, High int64 // a tenth of the draws lie below Low, half below Middle, a tenth above High
	Least, Most       int64
	Mean              int64
}

// RangeOf orders draws. A quantile is the draw of that rank, rounded up (nearest rank), so that it is one that was drawn. Of no draws it is
// the zero Range.
func RangeOf(draws []int64) Range {
	n := len(draws)
	if n == 0 {
		return Range{}
	}
	sorted := slices.Sorted(slices.Values(draws))
	rank := func(tenths int) int64 { return sorted[max(0, (n*tenths+9)/10-1)] }
	sum, left := int64(0), int64(0)
	for _, d := range sorted { // added up in two parts: so many large amounts would run over
		sum += d / int64(n)
		left += d % int64(n)
	}
	return Range{Low: rank(1), Middle: rank(5), High: rank(9), Least: sorted[0], Most: sorted[n-1], Mean: sum + left/int64(n)}
}
