package controlchart

import (
	"math"
	"slices"
)

// points are what the two panels show of the groups.
func (s Standard) points(groups [][]float64) (location, spread []float64) {
	for i, g := range groups {
		location = append(location, mean(g))
		switch {
		case s.Kind == MeanRange:
			spread = append(spread, slices.Max(g)-slices.Min(g))
		case s.Kind == MeanDeviation:
			spread = append(spread, deviation(g))
		case i > 0:
			spread = append(spread, math.Abs(g[0]-groups[i-1][0]))
		}
	}
	return location, spread
}

// mean of no values is 0. The first value is taken out of the sum, so that large values of little scatter keep their digits.
func mean(values []float64) float64 {
	if len(values) == 0 {
		return 0
	}
	sum := 0.0
	for _, x := range values {
		sum += x - values[0]
	}
	return values[0] + sum/float64(len(values))
}

// deviation is the standard deviation of two values or more, with n-1.
func deviation(values []float64) float64 {
	m, squares := mean(values), 0.0
	for _, x := range values {
		squares += (x - m) * (x - m)
	}
	return math.Sqrt(squares / float64(len(values)-1))
}
