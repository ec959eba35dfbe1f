package learning

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// belief is what is known of a mean and a spread: normal about mean with the spread's variance over worth, the variance inverse gamma with df
// degrees of freedom about squares/df.
type belief struct {
	mean, worth float64
	squares, df float64
}

// on is the prior on a scale. The spread of a ratio is taken for that of its logarithm.
func (p Prior) on(s Scale) belief {
	b := belief{mean: s.forth(p.Value), worth: p.Runs, df: p.SDRuns}
	if p.SDRuns > 0 {
		b.squares = p.SD * p.SD * p.SDRuns
	}
	return b
}

// with adds values.
func (b belief) with(values []float64) belief {
	n := float64(len(values))
	if n == 0 {
		return b
	}
	mean, squares := meanOf(values)
	after := belief{worth: b.worth + n}
	after.mean = (b.worth*b.mean + n*mean) / after.worth
	after.squares = b.squares + squares
	after.df = b.df + n - 1
	if b.worth > 0 { // how far runs and book differ says something of the spread too
		after.squares += b.worth * n / after.worth * (mean - b.mean) * (mean - b.mean)
		after.df = b.df + n
	}
	return after
}

// sd is the spread of single values; 0 if nothing is known of it.
func (b belief) sd() float64 {
	if b.df <= 0 {
		return 0
	}
	return math.Sqrt(b.squares / b.df)
}

func (b belief) quantile(p float64) float64 {
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: b.df}.Quantile(p)
}

// meanOf is the mean and the sum of squares about it, added up in order of size, so that the order of runs makes no difference to the last
// digit.
func meanOf(values []float64) (mean, squares float64) {
	sorted := slices.Sorted(slices.Values(values))
	n := float64(len(sorted))
	for _, x := range sorted {
		mean += x / n
	}
	mean = min(max(mean, sorted[0]), sorted[len(sorted)-1])
	for _, x := range sorted {
		squares += (x - mean) * (x - mean)
	}
	return mean, squares
}

func valuesOn(runs []Run, s Scale) []float64 {
	values := make([]float64, len(runs))
	for i, r := range runs {
		values[i] = s.forth(r.Value)
	}
	return values
}

func (s Scale) forth(x float64) float64 {
	if s == Ratio {
		return math.Log(x)
	}
	return x
}

func (s Scale) back(x float64) float64 {
	if s == Ratio {
		return math.Exp(x)
	}
	return x
}
