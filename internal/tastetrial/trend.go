package tastetrial

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// Trend is a straight line through values over weeks, by least squares.
type Trend struct {
	Values                int
	First, Last           float64 // weeks with values: nothing is said beyond
	Slope, AtZero         float64 // per week; at week 0
	SlopeError, AtZeroErr float64 // standard errors
	SD                    float64 // of values about the line, Values-2 degrees of freedom
	P                     float64 // of the slope, two-sided
	SlopeInterval         Interval
	// PLine is how likely weeks lie as far off the line as they do, against what scatters within weeks, if the line is straight (the F test of
	// lack of fit). It is 1 if it cannot be tested: two weeks, or no week with two values that differ.
	PLine                  float64
	middle, spread, within float64 // mean week, its sum of squares, quantile of t
	level                  float64
}

// FitTrend puts a line through values. It takes three and two different weeks. Values must be independent of each other: of tasters who come again
// give the mean of a week, of packs each. Errors are *InputError.
func FitTrend(weeks, values []float64, level float64) (Trend, error) {
	if err := checkLevel(level); err != nil {
		return Trend{}, err
	}
	n := len(values)
	if n != len(weeks) || n < 3 {
		return Trend{}, &InputError{"the trend", fmt.Sprintf("has %d values in %d weeks", n, len(weeks)), "give three values or more, each with its week"}
	}
	if err := checkValues("the weeks", weeks); err != nil {
		return Trend{}, err
	}
	if err := checkValues("the values", values); err != nil {
		return Trend{}, err
	}
	t := Trend{Values: n, First: slices.Min(weeks), Last: slices.Max(weeks), level: level}
	if t.First == t.Last {
		return Trend{}, &InputError{"the trend", "is of one week", "open packs in two weeks or more"}
	}
	t.middle, _ = moments(weeks)
	meanValue, _ := moments(values)
	products := 0.0
	for i, x := range weeks {
		t.spread += (x - t.middle) * (x - t.middle)
		products += (x - t.middle) * (values[i] - meanValue)
	}
	t.Slope = products / t.spread
	t.AtZero = meanValue - t.Slope*t.middle
	squares := 0.0
	for i, x := range weeks {
		off := values[i] - meanValue - t.Slope*(x-t.middle)
		squares += off * off
	}
	t.SD = math.Sqrt(squares / float64(n-2))
	t.PLine = lackOfFit(weeks, values, squares)
	t.SlopeError = t.SD / math.Sqrt(t.spread)
	t.AtZeroErr = t.SD * math.Sqrt(1/float64(n)+t.middle*t.middle/t.spread)
	dist := student(n - 2)
	t.within = dist.Quantile((1 + level) / 2)
	t.SlopeInterval = Interval{t.Slope - t.within*t.SlopeError, t.Slope + t.within*t.SlopeError, level}
	t.P = 1
	if t.SlopeError > 0 {
		t.P = min(1, 2*dist.Survival(math.Abs(t.Slope/t.SlopeError)))
	} else if t.Slope != 0 {
		t.P = 0 // all values on the line
	}
	return t, nil
}

// BeyondError says that a trend was asked about a week in which nothing was opened yet.
type BeyondError struct{ Week, First, Last float64 }

// Error is one line.
func (e *BeyondError) Error() string {
	return fmt.Sprintf("tastetrial: week %g is outside the weeks opened, %g to %g; open a pack then, or ask about a week between", e.Week, e.First, e.Last)
}

// At is the mean in a week, with its interval. Errors are *BeyondError.
func (t Trend) At(week float64) (mean float64, i Interval, err error) {
	if !(week >= t.First && week <= t.Last) {
		return 0, Interval{}, &BeyondError{week, t.First, t.Last}
	}
	mean = t.AtZero + t.Slope*week
	half := t.within * t.errorAt(week)
	return mean, Interval{mean - half, mean + half, t.level}, nil
}

// errorAt is the standard error of the mean in a week.
func (t Trend) errorAt(week float64) float64 {
	off := week - t.middle
	return t.SD * math.Sqrt(1/float64(t.Values)+off*off/t.spread)
}

// lackOfFit tests the squares about the line, less those within weeks, against those within weeks.
func lackOfFit(weeks, values []float64, squares float64) float64 {
	byWeek := groupWeeks(weeks, values)
	within, df := 0.0, 0
	for _, v := range byWeek {
		_, sd := moments(v)
		within += sd * sd * float64(len(v)-1)
		df += len(v) - 1
	}
	between := len(byWeek) - 2
	if between < 1 || df < 1 || within <= 1e-12*squares {
		return 1
	}
	f := max(0, squares-within) / float64(between) / (within / float64(df))
	return distuv.F{D1: float64(between), D2: float64(df)}.Survival(f)
}

// groupWeeks are the values of each week, in the order of weeks.
func groupWeeks(weeks, values []float64) [][]float64 {
	var groups [][]float64
	for _, week := range slices.Compact(slices.Sorted(slices.Values(weeks))) {
		var group []float64
		for i, w := range weeks {
			if w == week {
				group = append(group, values[i])
			}
		}
		groups = append(groups, group)
	}
	return groups
}
