package tastetrial

import (
	"fmt"
	"math"
	"slices"
)

// SignedRank is Wilcoxon's test of paired values: a shift, if differences are about symmetric, whatever their distribution. The estimate is
// Hodges and Lehmann's: the median of the means of all pairs of differences.
type SignedRank struct {
	Effect
	Pairs       int
	Zeros       int // pairs without a difference: left out of the ranks
	Tied        int // differences as large as another
	Plus, Minus float64
	LeastP      float64 // the smallest p that so many differences can give
}

// mostPairs bounds the work; every p is exact up to it.
const mostPairs = 200

// SignedRankTest tests first less second, pair by pair. P is exact: of all ways to give the ranks their signs. The interval is that of the
// ranks without ties, which holds somewhat more often than it says where there are ties. Errors are *InputError.
func SignedRankTest(first, second []float64, level float64) (SignedRank, error) {
	d, err := differences(first, second, level)
	if err != nil {
		return SignedRank{}, err
	}
	return signedRank(d, level)
}

func signedRank(d []float64, level float64) (SignedRank, error) {
	if len(d) == 0 || len(d) > mostPairs {
		return SignedRank{}, &InputError{"the pairs", fmt.Sprintf("are %d", len(d)), fmt.Sprintf("give 1 to %d", mostPairs)}
	}
	ranks, runs, plus, minus := signedRanks(d)
	r := SignedRank{Pairs: len(d), Zeros: len(d) - len(ranks), Tied: tied(runs), Plus: float64(plus) / 2, Minus: float64(minus) / 2}
	r.P = twoSided(ranks, plus, minus)
	r.LeastP = min(1, math.Ldexp(2, -len(ranks)))
	r.shift(d, level)
	return r, nil
}

// signedRanks are the doubled ranks of differences other than 0, and their sums by sign.
func signedRanks(d []float64) (ranks, runs []int, plus, minus int) {
	moved := slices.DeleteFunc(slices.Clone(d), func(x float64) bool { return x == 0 })
	ranks, runs = doubledRanks(absolute(moved))
	for i, x := range moved {
		if x > 0 {
			plus += ranks[i]
		} else {
			minus += ranks[i]
		}
	}
	return ranks, runs, plus, minus
}

func twoSided(ranks []int, plus, minus int) float64 {
	return min(1, 2*tail(signedSums(ranks), max(plus, minus)))
}

// shift is the estimate and its interval, from the Walsh averages in order (Hollander and Wolfe).
func (r *SignedRank) shift(d []float64, level float64) {
	var walsh []float64
	for i := range d {
		for j := i; j < len(d); j++ {
			walsh = append(walsh, (d[i]+d[j])/2)
		}
	}
	slices.Sort(walsh)
	m := len(walsh)
	r.Estimate = (walsh[(m-1)/2] + walsh[m/2]) / 2
	chance := signedSums(whole(len(d)))
	cut, outside := 0, chance[0] // how many averages lie outside on each side, and the chance of so few
	for cut+1 < (m+1)/2 && 2*(outside+chance[cut+1]) <= 1-level {
		cut++
		outside += chance[cut]
	}
	r.Interval = Interval{walsh[cut], walsh[m-1-cut], max(0, 1-2*outside)}
}

// Holm adjusts p of tests made together, so that at 5 % the chance of one or more false differences among them all is at most 5 % (Holm
// 1979). The order stays.
func Holm(p []float64) []float64 {
	order := make([]int, len(p))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case p[a] < p[b]:
			return -1
		case p[a] > p[b]:
			return 1
		}
		return 0
	})
	adjusted, last := make([]float64, len(p)), 0.0
	for k, i := range order {
		last = max(last, min(1, float64(len(p)-k)*p[i]))
		adjusted[i] = last
	}
	return adjusted
}
