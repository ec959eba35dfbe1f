package unit

import (
	"cmp"
	"errors"
	"math"
	"math/bits"
	"slices"
)

// Split shares m out in proportion to parts, to the nanogram: the shares add up to m. What whole nanograms leave over goes, one
// each, to the largest remainders, of equal ones to the first. It is an error if a part is below zero or all are zero.
func (m Mass) Split(parts ...int64) ([]Mass, error) { return split(m, parts) }

// Split shares m out in proportion to parts, to the millionth: the shares add up to m. Errors as for Mass.Split.
func (m Money) Split(parts ...int64) ([]Money, error) { return split(m, parts) }

// split is the method of the largest remainder (Hamilton's).
func split[T ~int64](whole T, parts []int64) ([]T, error) {
	total, err := sumParts(parts)
	if err != nil {
		return nil, err
	}
	mag := magnitude(int64(whole))
	shares := make([]T, len(parts))
	left := mag
	type remainder struct {
		part int
		rest uint64
	}
	rests := make([]remainder, len(parts))
	sign := T(1)
	if whole < 0 {
		sign = -1
	}
	for i, p := range parts {
		quo, rest, _ := mulDiv(mag, uint64(p), total) // at most mag, since p <= total
		shares[i], rests[i] = sign*T(quo), remainder{i, rest}
		left -= quo
	}
	slices.SortStableFunc(rests, func(a, b remainder) int { return cmp.Compare(b.rest, a.rest) })
	for _, r := range rests[:left] { // fewer than the parts with a rest
		shares[r.part] += sign
	}
	return shares, nil
}

func sumParts(parts []int64) (uint64, error) {
	var total, carry uint64
	for _, p := range parts {
		if p < 0 {
			return 0, errors.New("split: a part is below zero")
		}
		if total, carry = bits.Add64(total, uint64(p), 0); carry != 0 {
			return 0, errors.New("split: the parts add up to more than this program counts")
		}
	}
	if total == 0 {
		return 0, errors.New("split: there is no part above zero")
	}
	return total, nil
}

// Times is m*num/den, rounded half away from zero to a millionth and held at the ends of the range; 0 if den is 0.
func (m Money) Times(num, den int64) Money { return Money(scale(int64(m), num, den)) }

// PriceOf is what need costs if pack costs price: price*need/pack, rounded half away from zero to a millionth and held at the
// ends of the range; 0 if pack is 0.
func PriceOf(price Money, pack, need Mass) Money {
	return Money(scale(int64(price), int64(need), int64(pack)))
}

// Of is the part of m that s stands for, rounded half away from zero to the nanogram and held at the ends of the range.
func (s Share) Of(m Mass) Mass { return Mass(scale(int64(m), int64(s), int64(Whole))) }

// Over is the volume that m fills at density d. Not exact. If d is not above zero the volume is 0.
func (m Mass) Over(d Density) Volume {
	if !(d > 0) || math.IsInf(float64(d), 0) {
		return 0
	}
	return VolumeL(m.Kg() / float64(d))
}

// Times is the mass of v at density d. Not exact; held at the ends of the range.
func (v Volume) Times(d Density) Mass { return MassKg(v.L() * float64(d)) }
