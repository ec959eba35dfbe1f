package unit

import (
	"math"
	"math/big"
	"math/bits"
	"strconv"
)

// mulDiv is a*b/c as quotient and remainder, with 128 bits in between; not ok if the quotient has more than 64 or c is 0.
func mulDiv(a, b, c uint64) (quo, rem uint64, ok bool) {
	hi, lo := bits.Mul64(a, b)
	if hi >= c {
		return 0, 0, false
	}
	quo, rem = bits.Div64(hi, lo, c)
	return quo, rem, true
}

// mulDivRound is a*b/c rounded half up.
func mulDivRound(a, b, c uint64) (uint64, bool) {
	quo, rem, ok := mulDiv(a, b, c)
	up := halfUp(rem, c)
	return quo + up, ok && quo+up >= quo
}

// halfUp is 1 if rem/of is a half or more, else 0.
func halfUp(rem, of uint64) uint64 {
	if rem != 0 && rem >= of-rem {
		return 1
	}
	return 0
}

// scale is v*num/den rounded half away from zero and held at the ends of the range; 0 if den is 0.
func scale(v, num, den int64) int64 {
	if den == 0 {
		return 0
	}
	negative := (v < 0) != (num < 0) != (den < 0)
	mag, ok := mulDivRound(magnitude(v), magnitude(num), magnitude(den))
	switch {
	case negative && (!ok || mag > 1<<63):
		return math.MinInt64
	case negative:
		return int64(-mag)
	case !ok || mag > math.MaxInt64:
		return math.MaxInt64
	}
	return int64(mag)
}

// magnitude is v without its sign; it holds for the lowest int64 too.
func magnitude(v int64) uint64 {
	if v < 0 {
		return -uint64(v)
	}
	return uint64(v)
}

// roundRat is x rounded half away from zero.
func roundRat(x *big.Rat) *big.Int {
	num := new(big.Int).Lsh(new(big.Int).Abs(x.Num()), 1)
	num.Add(num, x.Denom())
	num.Quo(num, new(big.Int).Lsh(x.Denom(), 1))
	if x.Sign() < 0 {
		num.Neg(num)
	}
	return num
}

var powersOfTen = func() (p [20]uint64) {
	p[0] = 1
	for i := 1; i < len(p); i++ {
		p[i] = 10 * p[i-1]
	}
	return p
}()

// appendDecimal appends n/10^places without trailing zeros, but with at least least decimals.
func appendDecimal(dst []byte, n uint64, places, least int) []byte {
	for places > least && n%10 == 0 {
		n /= 10
		places--
	}
	dst = strconv.AppendUint(dst, n/powersOfTen[places], 10)
	if places == 0 {
		return dst
	}
	dst = append(dst, '.')
	part := n % powersOfTen[places]
	for p := places - 1; p >= 0; p-- {
		dst = append(dst, byte('0'+part/powersOfTen[p]%10))
	}
	return dst
}

// appendFraction appends n/den the way a kitchen writes it: 2, 1/2, 2 1/2.
func appendFraction(dst []byte, n, den uint64) []byte {
	whole, part := n/den, n%den
	if whole > 0 || part == 0 {
		dst = strconv.AppendUint(dst, whole, 10)
		if part == 0 {
			return dst
		}
		dst = append(dst, ' ')
	}
	dst = strconv.AppendUint(dst, part, 10)
	dst = append(dst, '/')
	return strconv.AppendUint(dst, den, 10)
}
