package learning

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// Weighed is the spread within one run, such as that of its pack weights.
type Weighed struct {
	ID      string
	Count   int     // packs weighed, 2 or more
	SD      float64 // with Count-1
	LeftOut string
}

// Spread is a spread proposed, in the caller's unit.
type Spread struct {
	Ending  Ending
	Before  float64
	After   float64
	Runs    int
	Weighed int      // packs in them
	Worth   float64  // of the book, in packs weighed
	Weight  float64  // of the runs in the variance: their degrees of freedom over all
	SDRuns  float64  // of the runs alone, pooled; Before if there are none
	True    Interval // where the spread truly is
	Cover   float64
	Asked   []SpreadQuestion
	LeftOut []Weighed
}

// SpreadQuestion is a run that scattered more than the others together let expect: Cochran's test, as an F test of its variance against that
// of all the others at Doubtful over the number of runs ('t Lam 2010). A run without others is not asked.
type SpreadQuestion struct {
	Run          Weighed
	Ratio, Limit float64 // of variances
	AfterWithout float64
}

// UpdateSpread learns a spread from those of runs. The variance has an inverse gamma prior: the book's, worth so many packs. After is the
// root of the mean of all variances by their degrees of freedom, the book's worth among them. Errors are *InputError.
func UpdateSpread(book float64, worth float64, runs []Weighed, opt Options) (Spread, error) {
	opt = opt.filled()
	if err := check(Prior{Value: 1, SD: book, SDRuns: worth}, nil, opt); err != nil {
		return Spread{}, err
	}
	s := Spread{Before: book, Worth: worth, Cover: opt.Cover}
	var counted []Weighed
	for i, r := range runs {
		switch {
		case r.Count < 2 || r.Count > 1_000_000 || !(r.SD >= 0 && r.SD < most):
			return Spread{}, &InputError{fmt.Sprintf("run %d %s", i+1, r.ID), fmt.Sprintf("has a spread of %g from %d", r.SD, r.Count), "give 2 or more packs and a spread of 0 or more"}
		case r.LeftOut != "":
			s.LeftOut = append(s.LeftOut, r)
		default:
			counted = append(counted, r)
		}
	}
	squares, df := pooled(counted)
	s.Runs, s.SDRuns = len(counted), book
	for _, r := range counted {
		s.Weighed += r.Count
	}
	if df > 0 {
		s.SDRuns, s.Weight = math.Sqrt(squares/df), df/(worth+df)
	}
	s.tell(worth*book*book+squares, worth+df, opt)
	s.ask(worth*book*book, worth, counted, opt)
	return s, nil
}

func (s *Spread) tell(squares, df float64, opt Options) {
	s.After = s.Before
	if df > 0 {
		s.After = math.Sqrt(squares / df)
	}
	s.True = Interval{s.After, s.After}
	switch {
	case s.Runs == 0 || s.After == 0:
		s.Ending = TooFew
		return
	case math.Abs(s.After-s.Before) < opt.Least*s.Before:
		s.Ending = TooSmall
	default:
		s.Ending = Proposed
	}
	chi := distuv.ChiSquared{K: df}
	s.True = Interval{math.Sqrt(squares / chi.Quantile((1+opt.Cover)/2)), math.Sqrt(squares / chi.Quantile((1-opt.Cover)/2))}
}

func (s *Spread) ask(bookSquares, worth float64, runs []Weighed, opt Options) {
	if len(runs) < 2 {
		return
	}
	for i, r := range runs {
		others := append(slices.Clone(runs[:i]), runs[i+1:]...)
		squares, df := pooled(others)
		own := float64(r.Count - 1)
		if squares == 0 {
			continue // the others did not scatter at all: nothing to hold it against
		}
		ratio := r.SD * r.SD / (squares / df)
		limit := distuv.F{D1: own, D2: df}.Quantile(1 - opt.Doubtful/float64(len(runs)))
		if ratio > limit {
			s.Asked = append(s.Asked, SpreadQuestion{r, ratio, limit, math.Sqrt((bookSquares + squares) / (worth + df))})
		}
	}
}

// pooled are the squares of runs and their degrees of freedom, added up in order of size.
func pooled(runs []Weighed) (squares, df float64) {
	var each []float64
	for _, r := range runs {
		each = append(each, float64(r.Count-1)*r.SD*r.SD)
		df += float64(r.Count - 1)
	}
	for _, x := range slices.Sorted(slices.Values(each)) {
		squares += x
	}
	return squares, df
}
