package invoice

import (
	"cmp"
	"math/bits"
	"slices"

	"kettlefrost/internal/unit"
)

// part is v*num/den rounded to a whole number by the rule. num and den are 0 or above, den is not 0, and the result is in range.
func (r Rounding) part(v, num, den int64) int64 {
	floor, rest := divide(v, num, den)
	twice := cmp.Compare(rest, uint64(den)-rest)
	switch {
	case twice > 0, twice == 0 && r == HalfEven && floor%2 != 0, twice == 0 && r == HalfUp && v > 0:
		return floor + 1
	}
	return floor
}

// divide is v*num/den rounded down, and what is left over of den.
func divide(v, num, den int64) (floor int64, rest uint64) {
	mag := uint64(v)
	if v < 0 {
		mag = -mag
	}
	hi, lo := bits.Mul64(mag, uint64(num))
	quo, rest := bits.Div64(hi, lo, uint64(den))
	switch {
	case v >= 0:
		return int64(quo), rest
	case rest == 0:
		return -int64(quo), 0
	}
	return -int64(quo) - 1, uint64(den) - rest
}

// cents is v*num/den rounded to whole cents.
func (r Rounding) cents(v unit.Money, num, den int64) unit.Money {
	return unit.Money(r.part(int64(v), num, den*int64(unit.Cent))) * unit.Cent
}

// spread splits a total that was rounded from the sum of v*num/den back over the v: each rounded down, and a cent more for those that
// lost most by it. It holds for values of any sign.
func spread(total unit.Money, values []unit.Money, num, den int64) []unit.Money {
	shares := make([]unit.Money, len(values))
	rests := make([]uint64, len(values))
	order := make([]int, len(values))
	left := int64(total / unit.Cent)
	for i, v := range values {
		floor, rest := divide(int64(v), num, den*int64(unit.Cent))
		shares[i], rests[i], order[i] = unit.Money(floor)*unit.Cent, rest, i
		left -= floor
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(rests[b], rests[a]) })
	for _, i := range order[:left] {
		shares[i] += unit.Cent
	}
	return shares
}

// inProportion splits whole cents over parts that are 0 or above and not all 0, to the cent.
func inProportion(total unit.Money, parts []unit.Money) []unit.Money {
	weights := make([]int64, len(parts))
	for i, p := range parts {
		weights[i] = int64(p)
	}
	shares, err := (total / unit.Cent).Split(weights...) // counted in cents
	if err != nil {
		return make([]unit.Money, len(parts)) // all parts are zero: so is the total
	}
	for i := range shares {
		shares[i] *= unit.Cent
	}
	return shares
}

func sum(values []unit.Money) unit.Money {
	var total unit.Money
	for _, v := range values {
		total += v
	}
	return total
}
