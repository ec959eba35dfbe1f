package netcontents

import (
	"fmt"
	"math"

	"kettlefrost/internal/unit"
)

// Prior is what is believed about the scatter of net weights before any pack was weighed.
type Prior struct {
	Share  unit.Share // standard deviation, of the label
	Packs  int        // how many weighed packs the belief is worth; 0: none, only what was weighed counts
	Source string
}

// ByHand is a starting point for a ladle or jug over a scale. Common practice, and no more than that: it is worth five packs.
var ByHand = Prior{Share: 15 * unit.PerCent / 10, Packs: 5, Source: "common practice: filled by hand over a scale"}

// Spread is the standard deviation of net weights within one filling.
type Spread struct {
	DeviationG float64    // best estimate
	UpperG     float64    // the true one is at most this, as sure as Confidence
	Confidence unit.Share // of UpperG
	Rests      int        // packs it rests on: those the prior is worth, and one less than were weighed of each filling
	Weighed    int        // packs weighed
	Prior      Prior
}

// Learn updates the prior by the packs weighed in one filling or more; each filling has a mean of its own, so gross weights do as well as
// net ones. The variance has a scaled inverse chi-square prior of so many degrees of freedom as it is worth packs, and the means a flat
// one: the best estimate pools the prior's variance with the sums of squares within fillings, and the upper value is its quantile
// (A. Gelman and others, Bayesian Data Analysis, the normal model with a conjugate prior). How far the means of fillings are off their
// target is not in it. Errors are *InputError.
func Learn(label unit.Mass, prior Prior, fillings [][]unit.Mass, confidence unit.Share) (Spread, error) {
	if err := checkPrior(label, prior, confidence); err != nil {
		return Spread{}, err
	}
	s := Spread{Confidence: confidence, Rests: prior.Packs, Prior: prior}
	believed := prior.Share.F() * grams(label)
	squares := float64(prior.Packs) * believed * believed
	for i, packs := range fillings {
		for _, p := range packs {
			if p <= 0 || p > heaviest {
				return Spread{}, &InputError{fmt.Sprintf("filling %d", i+1), "has a pack of " + p.String(), "weigh it again"}
			}
		}
		s.Weighed += len(packs)
		if len(packs) > 1 {
			_, d := moments(packs)
			squares += d * d * float64(len(packs)-1)
			s.Rests += len(packs) - 1
		}
	}
	if s.Rests == 0 {
		return Spread{}, &InputError{"the spread", "rests on nothing", "weigh two packs of one filling, or give a prior that is worth a pack"}
	}
	s.DeviationG = math.Sqrt(squares / float64(s.Rests))
	s.UpperG = math.Sqrt(squares / chiSquareQuantile(s.Rests, 1-confidence.F()))
	return s, nil
}

func checkPrior(label unit.Mass, prior Prior, confidence unit.Share) error {
	switch {
	case label <= 0:
		return noLabel()
	case prior.Packs < 0 || prior.Share < 0 || prior.Share > unit.Whole:
		return &InputError{"Prior", "is below 0 or over the whole label", "give a share of 0 to 100 % and a worth of 0 packs or more"}
	}
	return checkConfidence(confidence)
}

func checkConfidence(c unit.Share) error {
	if c <= 0 || c >= unit.Whole {
		return &InputError{"Confidence", "is " + c.String(), "give more than 0 % and less than 100 %: 95 % is usual"}
	}
	return nil
}
