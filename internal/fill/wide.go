package fill

import (
	"math"
	"math/bits"
)

// wide is a whole number of 128 bits, in two's complement.
type wide struct{ hi, lo uint64 }

func (w wide) negative() bool { return int64(w.hi) < 0 }

func (w wide) positive() bool { return !w.negative() && w.hi|w.lo != 0 }

func (w wide) plus(v wide) wide {
	lo, carry := bits.Add64(w.lo, v.lo, 0)
	hi, _ := bits.Add64(w.hi, v.hi, carry)
	return wide{hi, lo}
}

func (w wide) minus(v wide) wide {
	lo, borrow := bits.Sub64(w.lo, v.lo, 0)
	hi, _ := bits.Sub64(w.hi, v.hi, borrow)
	return wide{hi, lo}
}

// product is a times b.
func product(a, b int64) wide {
	hi, lo := bits.Mul64(magnitude(a), magnitude(b))
	if (a < 0) != (b < 0) {
		return wide{}.minus(wide{hi, lo})
	}
	return wide{hi, lo}
}

// times is w times n, which is 0 or more.
func (w wide) times(n int64) wide {
	hi, lo := bits.Mul64(w.lo, uint64(n))
	return wide{hi + w.hi*uint64(n), lo}
}

// over is w over 2 to the power of shift (0 to 63), rounded down, held at the ends of int64.
func (w wide) over(shift int) int64 {
	high := int64(w.hi<<1 | w.lo>>63) // what is beyond 63 bits
	if shift > 0 {
		high = int64(w.hi) >> (shift - 1)
	}
	switch {
	case high > 0:
		return math.MaxInt64
	case high < -1:
		return math.MinInt64
	}
	return int64(w.hi<<(64-shift) | w.lo>>shift)
}

// float is w, nearly.
func (w wide) float() float64 {
	if w.negative() {
		return -wide{}.minus(w).float()
	}
	return float64(w.hi)*(1<<32)*(1<<32) + float64(w.lo)
}
