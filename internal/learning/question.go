package learning

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// Why is the reason of a question.
type Why int

const (
	FarFromRuns Why = iota + 1 // farther from the mean of the runs than the farthest of so many should be (Grubbs 1969)
	FarFromMost                // far from the median by the median distance from it (Iglewicz and Hoaglin 1993): several such hide each other from Grubbs
	FarFromBook                // farther from the book than a single run should be, by the spread the book gives
)

var whyNames = [...]string{FarFromRuns: "far from the other runs", FarFromMost: "far from most runs", FarFromBook: "far from the book"}

// String is the reason in words.
func (w Why) String() string {
	if w < FarFromRuns || w > FarFromBook {
		return fmt.Sprintf("why(%d)", int(w))
	}
	return whyNames[w]
}

// Question is a run that should be looked at. It is counted until somebody leaves it out with a reason.
type Question struct {
	Run          Run
	Why          Why
	Is, Limit    float64 // the statistic, and what it may be
	AfterWithout float64 // what would be proposed without the run
}

// robustLimit is the published bound of the modified z (Iglewicz and Hoaglin 1993, recommended in NIST/SEMATECH e-Handbook 1.3.5.17; from
// memory), and toNormal makes a median distance comparable with a standard deviation.
const (
	robustLimit = 3.5
	toNormal    = 0.6745
)

// fewRobust is how many runs the modified z takes before it is asked: of fewer, half alike make everything else far.
const fewRobust = 5

func questions(b belief, runs []Run, opt Options) []Question {
	values := valuesOn(runs, opt.Scale)
	var all []Question
	ask := func(i int, why Why, is, limit float64) {
		without := append(append([]float64(nil), values[:i]...), values[i+1:]...)
		all = append(all, Question{runs[i], why, is, limit, opt.Scale.back(b.with(without).mean)})
	}
	i, g, limit := farthest(values, opt.Doubtful)
	if i >= 0 && g > limit {
		ask(i, FarFromRuns, g, limit)
	}
	for j, z := range modified(values) {
		if z > robustLimit && !(j == i && g > limit) {
			ask(j, FarFromMost, z, robustLimit)
		}
	}
	if b.df > 0 && b.worth > 0 {
		limit := b.quantile(1 - opt.Doubtful/2/float64(max(1, len(values)))) // one of so many
		for j, x := range values {
			if t := math.Abs(x-b.mean) / (b.sd() * math.Sqrt(1+1/b.worth)); t > limit {
				ask(j, FarFromBook, t, limit)
			}
		}
	}
	return all
}

// farthest is the value farthest from the mean, in standard deviations, and Grubbs' critical value; -1 of fewer than three or if all are
// alike.
func farthest(values []float64, doubtful float64) (i int, g, limit float64) {
	n := len(values)
	if n < 3 {
		return -1, 0, 0
	}
	mean, squares := meanOf(values)
	sd := math.Sqrt(squares / float64(n-1))
	if sd <= 1e-12*math.Abs(mean) {
		return -1, 0, 0
	}
	i = -1
	for j, x := range values {
		if d := math.Abs(x-mean) / sd; i < 0 || d > g {
			i, g = j, d
		}
	}
	return i, g, Grubbs(n, doubtful)
}

// Grubbs is the critical value of the largest distance from the mean among n normal values, in standard deviations, on both sides (Grubbs
// 1969): (n-1)/sqrt(n) sqrt(t²/(n-2+t²)), t that of n-2 degrees of freedom at doubtful/2n. For n below 3 it is 0.
func Grubbs(n int, doubtful float64) float64 {
	if n < 3 {
		return 0
	}
	N := float64(n)
	t := distuv.StudentsT{Mu: 0, Sigma: 1, Nu: N - 2}.Quantile(1 - doubtful/(2*N))
	return (N - 1) / math.Sqrt(N) * math.Sqrt(t*t/(N-2+t*t))
}

// modified are the distances from the median, in median distances made comparable with standard deviations; none of fewer than fewRobust or
// if half of all are alike.
func modified(values []float64) []float64 {
	if len(values) < fewRobust {
		return nil
	}
	m := median(values)
	distances := make([]float64, len(values))
	for i, x := range values {
		distances[i] = math.Abs(x - m)
	}
	mad := median(distances)
	if mad <= 1e-12*math.Abs(m) {
		return nil
	}
	for i := range distances {
		distances[i] *= toNormal / mad
	}
	return distances
}

func median(values []float64) float64 {
	sorted := slices.Sorted(slices.Values(values))
	n := len(sorted)
	return (sorted[(n-1)/2] + sorted[n/2]) / 2
}
