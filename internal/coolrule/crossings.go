package coolrule

import (
	"cmp"
	"errors"
	"math"
	"slices"

	"kettlefrost/internal/heat"
)

// Mark is one predicted point: the food passes TempC at TimeS.
type Mark struct{ TempC, TimeS float64 }

// FromMarks answers from predicted points, between them by a straight line. What is warmer than the first mark counts as
// passed at the very beginning. Below the last one nothing is known but that the food is warmer until then. Errors: *CurveError if
// there is no mark or if they do not fall in time order.
func FromMarks(marks ...Mark) (Crossings, error) {
	if len(marks) == 0 {
		return nil, &CurveError{}
	}
	for i, m := range marks {
		falls := i == 0 || m.TempC < marks[i-1].TempC && m.TimeS >= marks[i-1].TimeS
		if !falls || !(m.TimeS >= 0) || math.IsInf(m.TimeS, 0) || math.IsInf(m.TempC, 0) || math.IsNaN(m.TempC) {
			return nil, &CurveError{TempC: m.TempC, Crossing: Crossing{Reached: true, TimeS: m.TimeS}}
		}
	}
	marks = slices.Clone(marks)
	return func(tempC float64) (Crossing, error) {
		i, _ := slices.BinarySearchFunc(marks, tempC+sameC, func(m Mark, t float64) int { return cmp.Compare(t, m.TempC) })
		switch {
		case i == len(marks):
			return Crossing{TimeS: marks[i-1].TimeS}, nil
		case i == 0 && tempC > marks[0].TempC+sameC:
			return Crossing{Reached: true}, nil
		case i == 0:
			return Crossing{Reached: true, TimeS: marks[0].TimeS}, nil
		}
		above, below := marks[i-1], marks[i]
		along := min(1, max(0, (above.TempC-tempC)/(above.TempC-below.TempC)))
		return Crossing{Reached: true, TimeS: above.TimeS + along*(below.TimeS-above.TimeS)}, nil
	}, nil
}

// sameC forgives the rounding of a conversion from Fahrenheit.
const sameC = 1e-9

// FromCurve answers from a cooling curve that never rises, followed to untilS (0 to 1e9): each crossing is found by halving. Errors:
// those of the curve, *CurveError for an untilS out of range.
func FromCurve(tempAtC func(timeS float64) (float64, error), untilS float64) Crossings {
	return func(tempC float64) (Crossing, error) {
		if !(untilS >= 0 && untilS <= 1e9) {
			return Crossing{}, &CurveError{TempC: tempC, Crossing: Crossing{TimeS: untilS}}
		}
		passed := func(timeS float64) (bool, error) {
			t, err := tempAtC(timeS)
			return t <= tempC+sameC, err
		}
		switch atOnce, err := passed(0); {
		case err != nil:
			return Crossing{}, err
		case atOnce:
			return Crossing{Reached: true}, nil
		}
		if atEnd, err := passed(untilS); err != nil || !atEnd {
			return Crossing{TimeS: untilS}, err
		}
		early, late := 0.0, untilS
		for range halvings {
			middle := (early + late) / 2
			yes, err := passed(middle)
			if err != nil {
				return Crossing{}, err
			}
			if yes {
				late = middle
			} else {
				early = middle
			}
		}
		return Crossing{Reached: true, TimeS: late}, nil
	}
}

// halvings bring a day down to a microsecond.
const halvings = 40

// FromTimes answers from a formula for the time to a temperature, such as series.Sheet's CoreTimeS with start and medium filled in, for
// a food that starts at startC. Temperatures above startC count as passed at once. A *heat.NeverError becomes Never.
func FromTimes(startC float64, timeToS func(targetC float64) (float64, error)) Crossings {
	return func(tempC float64) (Crossing, error) {
		if tempC >= startC {
			return Crossing{Reached: true}, nil
		}
		timeS, err := timeToS(tempC)
		var never *heat.NeverError
		if errors.As(err, &never) {
			return Crossing{Never: true}, nil
		}
		return Crossing{Reached: err == nil, TimeS: timeS}, err
	}
}
