package homemeasure

import (
	"cmp"
	"math/bits"

	"kettlefrost/internal/unit"
)

// largest is the most that is said in measures; it keeps eighths of teaspoons within an int64.
const largest = 100 * unit.Gallon

// Choose finds the measures for a volume: at most two different utensils, together within bound of it. Not ok if none are, or if the volume is
// not above 0.
func Choose(v unit.Volume, bound unit.Share, from []Utensil) (Measures, bool) {
	if v <= 0 || v > largest || bound < 0 {
		return nil, false
	}
	var best Measures
	try := func(m Measures) {
		if within(m.eighths(), v, bound) && (best == nil || m.before(best, v)) {
			best = m
		}
	}
	for i, u := range from {
		for times := 1; times <= u.Most; times++ {
			one := Measure{u, times}
			try(Measures{one})
			for _, larger := range from[i+1:] {
				for t := 1; t <= larger.Most; t++ {
					try(Measures{{larger, t}, one})
				}
			}
		}
	}
	return best, best != nil
}

// before says whether m is better for v than another.
func (m Measures) before(other Measures, v unit.Volume) bool {
	return cmp.Or(
		cmp.Compare(len(m), len(other)),
		cmp.Compare(off(m.eighths(), v), off(other.eighths(), v)),
		cmp.Compare(m.fillings(), other.fillings()),
		cmp.Compare(other.smallest(), m.smallest()),
	) < 0
}

func (m Measures) smallest() int64 {
	return m[len(m)-1].Utensil.eighths()
}

// off is how far so many eighths of a teaspoon are from a volume, in eighths of a femtolitre.
func off(eighths int64, v unit.Volume) int64 {
	d := eighths*int64(unit.Teaspoon) - 8*int64(v)
	return max(d, -d)
}

// within is exact: off / 8v <= bound.
func within(eighths int64, v unit.Volume, bound unit.Share) bool {
	hi, lo := bits.Mul64(uint64(off(eighths, v)), uint64(unit.Whole))
	limitHi, limitLo := bits.Mul64(8*uint64(v), uint64(bound))
	return hi < limitHi || hi == limitHi && lo <= limitLo
}
