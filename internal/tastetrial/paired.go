package tastetrial

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Effect is a difference, how sure it is, and how likely one so large is where there is none.
type Effect struct {
	Estimate float64
	Interval Interval
	P        float64 // two-sided
}

// String is the estimate with its interval, and p.
func (e Effect) String() string {
	return fmt.Sprintf("%.3g (%.3g to %.3g, %.1f %%), p %.2g", e.Estimate, e.Interval.Low, e.Interval.High, 100*e.Interval.Level, e.P)
}

// PairedT is Student's test of paired values: the mean difference, if differences are about normal.
type PairedT struct {
	Effect
	Pairs int
	SD    float64 // of the differences
	T     float64 // with Pairs-1 degrees of freedom
}

// PairedTest tests first less second, pair by pair. Differences that are all alike have no spread to be judged by and are refused. Errors
// are *InputError.
func PairedTest(first, second []float64, level float64) (PairedT, error) {
	d, err := differences(first, second, level)
	if err != nil {
		return PairedT{}, err
	}
	n := len(d)
	if n < 2 {
		return PairedT{}, &InputError{"the pairs", fmt.Sprintf("are %d", n), "taste or measure two or more"}
	}
	r := PairedT{Pairs: n}
	r.Estimate, r.SD = moments(d)
	if r.SD <= 1e-12*largest(d) {
		return PairedT{}, &InputError{"the differences", "are all alike", "use the signed ranks, or a finer scale"}
	}
	se := r.SD / math.Sqrt(float64(n))
	r.T = r.Estimate / se
	dist := student(n - 1)
	r.P = min(1, 2*dist.Survival(math.Abs(r.T)))
	half := dist.Quantile((1+level)/2) * se
	r.Interval = Interval{r.Estimate - half, r.Estimate + half, level}
	return r, nil
}

func student(df int) distuv.StudentsT { return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: float64(df)} }

// differences are first less second.
func differences(first, second []float64, level float64) ([]float64, error) {
	if err := checkLevel(level); err != nil {
		return nil, err
	}
	if len(first) != len(second) {
		return nil, &InputError{"the pairs", fmt.Sprintf("have %d first and %d second values", len(first), len(second)), "give both of every pair"}
	}
	for _, values := range [][]float64{first, second} {
		if err := checkValues("the values", values); err != nil {
			return nil, err
		}
	}
	d := make([]float64, len(first))
	for i := range first {
		d[i] = first[i] - second[i]
		if math.Abs(d[i]) <= sameShare*max(math.Abs(first[i]), math.Abs(second[i])) {
			d[i] = 0
		}
	}
	return d, nil
}

func largest(values []float64) float64 {
	most := 0.0
	for _, x := range values {
		most = max(most, math.Abs(x))
	}
	return most
}
