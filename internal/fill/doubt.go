package fill

import (
	"cmp"
	"math"
	"math/bits"
	"slices"

	"kettlefrost/internal/unit"
)

// Severity is how far a weight is from what was expected.
type Severity int

const (
	Ordinary   Severity = iota // within 2 spreads
	Unusual                    // beyond 2, as one weighing in about 20 is by chance
	Doubtful                   // beyond 3, as about one in 370 is by chance
	Impossible                 // below nothing
)

// The lines beyond which a weight is looked at: 2 and 3 standard deviations, the warning and the action lines of a control chart
// (common practice; the chances are those of a normal distribution, from memory).
const (
	warningSpreads = 2
	actionSpreads  = 3
)

// Cause is a slip that explains a wrong weight.
type Cause int

const (
	TenTimes          Cause = iota + 1 // a point or a nought slipped: ten times too much was written
	TenthPart                          // a tenth was written
	HundredTimes                       // a hundred times too much
	HundredthPart                      // a hundredth
	PoundsForKilos                     // kilograms were read and pounds written
	KilosForPounds                     // pounds were read and kilograms written
	OuncesForPounds                    // pounds were read and ounces written
	PoundsForOunces                    // ounces were read and pounds written
	GramsForKilos                      // kilograms were read and grams written
	KilosForGrams                      // grams were read and kilograms written
	GramsForOunces                     // ounces were read and grams written
	OuncesForGrams                     // grams were read and ounces written
	TareNotTakenOff                    // the vessel was weighed with it
	TareTakenOffTwice                  // the vessel was taken off twice
)

// slips are what should have been written for what was, as a fraction.
var slips = []struct {
	cause    Cause
	num, den unit.Mass
}{
	{TenTimes, 1, 10},
	{TenthPart, 10, 1},
	{HundredTimes, 1, 100},
	{HundredthPart, 100, 1},
	{PoundsForKilos, unit.Kilogram, unit.Pound},
	{KilosForPounds, unit.Pound, unit.Kilogram},
	{OuncesForPounds, unit.Pound, unit.Ounce},
	{PoundsForOunces, unit.Ounce, unit.Pound},
	{GramsForKilos, unit.Kilogram, unit.Gram},
	{KilosForGrams, unit.Gram, unit.Kilogram},
	{GramsForOunces, unit.Ounce, unit.Gram},
	{OuncesForGrams, unit.Gram, unit.Ounce},
}

// Question is what there is to ask about a weight.
type Question struct {
	Severity Severity
	Expected unit.Mass
	Weighed  unit.Mass
	Off      unit.Mass     // weighed less expected
	Spreads  float64       // the same in spreads
	Slips    []Explanation // that would bring it within 3 spreads, the nearest first; none for an ordinary weight
}

// Explanation is one slip and what was then meant.
type Explanation struct {
	Cause   Cause
	Meant   unit.Mass
	Spreads float64   // how far that is from what was expected
	Tare    unit.Mass // of the vessel, for the two causes that need one
}

// SpreadError says that a weight can't be judged.
type SpreadError struct {
	Expected, Spread unit.Mass
}

func (e *SpreadError) Error() string {
	return "fill: a weight can only be judged by an expected mass and a spread above 0; give both"
}

// Doubt compares a weight with what was expected, spread being one standard deviation of what such weights have differed by, and
// tares the vessels that may have stood on the scale. It returns *SpreadError when the expected mass or the spread is not above 0.
func Doubt(expected, weighed, spread unit.Mass, tares ...unit.Mass) (Question, error) {
	if expected <= 0 || spread <= 0 {
		return Question{}, &SpreadError{expected, spread}
	}
	far := func(m unit.Mass) float64 { return (float64(m) - float64(expected)) / float64(spread) }
	q := Question{Expected: expected, Weighed: weighed, Off: weighed - expected, Spreads: far(weighed)}
	switch away := math.Abs(q.Spreads); {
	case weighed < 0:
		q.Severity = Impossible
	case away > actionSpreads:
		q.Severity = Doubtful
	case away > warningSpreads:
		q.Severity = Unusual
	default:
		return q, nil
	}
	add := func(c Cause, meant, tare unit.Mass) {
		if f := far(meant); math.Abs(f) <= actionSpreads && math.Abs(f) < math.Abs(q.Spreads) {
			q.Slips = append(q.Slips, Explanation{c, meant, f, tare})
		}
	}
	for _, s := range slips {
		if meant, ok := rescaled(weighed, s.num, s.den); ok {
			add(s.cause, meant, 0)
		}
	}
	for _, tare := range tares {
		add(TareNotTakenOff, weighed-tare, tare)
		add(TareTakenOffTwice, weighed+tare, tare)
	}
	slices.SortStableFunc(q.Slips, func(a, b Explanation) int {
		return cmp.Compare(math.Abs(a.Spreads), math.Abs(b.Spreads))
	})
	return q, nil
}

// rescaled is m times num over den to the nearest ng; not ok below nothing or out of range.
func rescaled(m, num, den unit.Mass) (unit.Mass, bool) {
	if m < 0 {
		return 0, false
	}
	hi, lo := bits.Mul64(uint64(m), uint64(num))
	lo, carry := bits.Add64(lo, uint64(den/2), 0)
	if hi += carry; hi >= uint64(den) {
		return 0, false
	}
	quo, _ := bits.Div64(hi, lo, uint64(den))
	return unit.Mass(quo), quo <= math.MaxInt64
}
