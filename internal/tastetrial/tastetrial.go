// Package tastetrial lays out trials in which variants are stored, opened week by week, measured and tasted blind, and says what can be
// told from them.
//
// Beside every p stands the effect with its interval, and a verdict that is read from the interval and the smallest difference that
// matters: where the interval holds both nothing and a difference that matters, the verdict is that one cannot tell. When several pairs are
// compared, p is adjusted by Holm and the intervals hold all together (Bonferroni).
//
// Rules that are chosen, and could be chosen otherwise:
//   - equal values share the mean of their ranks, and every p of a rank test is from the permutations of those very ranks;
//   - a pair without a difference says nothing of a direction and is left out of the signed-rank test (Wilcoxon); in the estimate and its
//     interval it stays in;
//   - a taster who tastes in several weeks is one taster: what is tasted of a pair in several weeks is averaged first;
//   - nothing is said of a week after the last one opened.
//
// Masses, scores and shares are plain numbers in whatever unit they came.
package tastetrial

import (
	"fmt"
	"math"
)

// Interval holds the true value in Level of all trials, as far as the assumptions of its test go.
type Interval struct {
	Low, High float64
	Level     float64 // what it attains: of so few values that the level asked for cannot be had, less
}

// Verdict is what an interval says of a difference, given the smallest that matters.
type Verdict int

const (
	CannotTell  Verdict = iota + 1 // the interval holds 0 and a difference that matters, or attains too little
	TooSmall                       // whatever the difference is, it is smaller than what matters
	Some                           // there is a difference; whether it is one that matters cannot be told
	MattersMore                    // the first is higher, by what matters or more
	MattersLess                    // the first is lower, by what matters or more
)

var verdictNames = [...]string{
	CannotTell: "cannot tell", TooSmall: "no difference that matters", Some: "a difference; whether it matters cannot be told",
	MattersMore: "higher by a difference that matters", MattersLess: "lower by a difference that matters",
}

// String is the verdict in words.
func (v Verdict) String() string {
	if v < CannotTell || v > MattersLess {
		return fmt.Sprintf("verdict(%d)", int(v))
	}
	return verdictNames[v]
}

// Judge reads a verdict from an interval of a difference and the smallest one that matters, above 0. Level is what was asked for: an
// interval that attains less tells nothing.
func Judge(i Interval, matters, level float64) Verdict {
	switch {
	case i.Level < level-1e-9:
		return CannotTell
	case i.Low >= matters:
		return MattersMore
	case i.High <= -matters:
		return MattersLess
	case i.Low > -matters && i.High < matters:
		return TooSmall
	case i.Low > 0 || i.High < 0:
		return Some
	}
	return CannotTell
}

// InputError says which input makes no sense, and what would do.
type InputError struct {
	Field  string
	Reason string
	Fix    string
}

// Error is one line.
func (e *InputError) Error() string {
	return fmt.Sprintf("tastetrial: %s %s; %s", e.Field, e.Reason, e.Fix)
}

func checkLevel(level float64) error {
	if !(level > 0.5 && level < 1) {
		return &InputError{"the level", fmt.Sprintf("is %g", level), "take one between 0.5 and 1, such as 0.95"}
	}
	return nil
}

// checkValues finds values that are no numbers.
func checkValues(field string, values []float64) error {
	for i, x := range values {
		if math.IsNaN(x) || math.Abs(x) > 1e100 {
			return &InputError{field, fmt.Sprintf("hold %g as number %d", x, i+1), "correct it or leave it out"}
		}
	}
	return nil
}

// moments are the mean and the standard deviation with n-1, in two passes; the second takes off what the first lost in rounding.
func moments(values []float64) (mean, sd float64) {
	n := float64(len(values))
	for _, x := range values {
		mean += x / n
	}
	squares, left := 0.0, 0.0
	for _, x := range values {
		d := x - mean
		squares, left = squares+d*d, left+d
	}
	if n > 1 {
		sd = math.Sqrt(max(0, squares-left*left/n) / (n - 1))
	}
	return mean + left/n, sd
}
