package tastetrial

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

func sortedWeeks[T any](weeks map[int]T) []int { return slices.Sorted(maps.Keys(weeks)) }

// Next is how large a next trial must be. All of it assumes that differences scatter normally as they did, and that blocks are independent.
type Next struct {
	Aim     Aim
	SD      float64 // of the differences within blocks, as seen
	Blocks  int     // fewest, if that is what it truly is
	SDHigh  float64 // what it is below in four trials of five: few blocks often show too little of it
	Plenty  int     // fewest, if it is that
	ByRanks bool    // sizes are for the signed ranks, simulated
	Seen    []Simulated
}

// highSD is how sure the high standard deviation is (Browne 1995 recommends 0.8 for sizing a trial by a pilot; from memory).
const highSD = 0.8

// simulations of one size; the standard error of a power near 0.8 is then 0.009.
const simulations = 2000

// PlanNext sizes the next trial by the widest scatter of this one's pairs, for a chance of power to find a difference that matters in any one
// pair, with all pairs tested together. Scores are simulated by steps of their scale, with the seed. Errors are *InputError.
func (c Comparison) PlanNext(power, step float64, seed uint64) (Next, error) {
	n := Next{Aim: Aim{c.Matters, power, c.Each}, ByRanks: c.Ranked}
	df := 0
	for _, p := range c.Pairs {
		if p.T != nil && p.T.SD > n.SD {
			n.SD, df = p.T.SD, p.T.Pairs-1
		}
	}
	if df == 0 {
		return Next{}, &InputError{"the trial", "has no pair with differences that scatter", "give a standard deviation of your own to PairsNeeded"}
	}
	n.SDHigh = n.SD * math.Sqrt(float64(df)/distuv.ChiSquared{K: float64(df)}.Quantile(1-highSD))
	var err error
	if n.Blocks, err = n.needed(n.SD, step, seed); err != nil {
		return Next{}, err
	}
	n.Plenty, err = n.needed(n.SDHigh, step, seed)
	return n, err
}

func (n *Next) needed(sd, step float64, seed uint64) (int, error) {
	pairs, err := PairsNeeded(n.Aim, sd)
	if err != nil || !n.ByRanks {
		return pairs, err
	}
	for size := max(1, pairs*9/10); size <= mostPairs; size++ { // ranks need about as many: a twentieth more with normal scatter
		s, err := SimulateSignedRank(size, n.Aim.Matters, sd, step, n.Aim.Level, simulations, seed)
		if err != nil {
			return 0, err
		}
		if s.Power >= n.Aim.Power {
			n.Seen = append(n.Seen, s)
			return size, nil
		}
	}
	return 0, &InputError{"the aim", fmt.Sprintf("takes more than %d tasters", mostPairs), "take a larger difference, or less power"}
}

// Assumption is the sentence that must stand beside the sizes.
func (n Next) Assumption() string {
	s := fmt.Sprintf("assumes that differences between two variants scatter normally with a standard deviation of %.3g (%.3g to be safer), that blocks are independent, and a true difference of %.3g",
		n.SD, n.SDHigh, n.Aim.Matters)
	if len(n.Seen) > 0 {
		s += fmt.Sprintf("; sizes are simulated, %d draws each with seed %d", simulations, n.Seen[0].Seed)
	}
	return s
}

// Design is the next trial, of the size that is safer: for scores so many tasters as fill whole sets of orders in every week; for packs so many
// of each variant in each week that all weeks together have enough. Weeks are the caller's to choose.
func (n Next) Design(variants int, weeks []int, seed uint64) Design {
	d := Design{Variants: variants, Tasters: 1, Weeks: weeks, Packs: 1, Seed: seed}
	if n.ByRanks {
		rows := len(Williams(variants))
		d.Tasters = (n.Plenty + rows - 1) / rows * rows
	} else if len(weeks) > 0 {
		d.Packs = (n.Plenty + len(weeks) - 1) / len(weeks)
	}
	return d
}
