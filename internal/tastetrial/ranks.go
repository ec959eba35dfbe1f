package tastetrial

import (
	"cmp"
	"math"
	"slices"
)

// sameShare is how near two values are to be equal: 5.60 - 5.50 and 5.40 - 5.30 are the same difference, though not to a computer.
const sameShare = 1e-9

// doubledRanks are twice the ranks of values, from the smallest up, so that the mean rank of equal values is whole; and how many values
// share each run of equal ones.
func doubledRanks(values []float64) (ranks, runs []int) {
	order := make([]int, len(values))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(values[a], values[b]) })
	room := sameShare * largest(values)
	ranks = make([]int, len(values))
	for from := 0; from < len(order); {
		to := from + 1
		for to < len(order) && values[order[to]]-values[order[from]] <= room {
			to++
		}
		for _, i := range order[from:to] {
			ranks[i] = from + 1 + to // ranks from+1 to to: their mean, doubled
		}
		runs = append(runs, to-from)
		from = to
	}
	return ranks, runs
}

// tied is how many values share their rank with another.
func tied(runs []int) int {
	n := 0
	for _, r := range runs {
		if r > 1 {
			n += r
		}
	}
	return n
}

// signedSums is how likely each sum of ranks is, if each rank is in it or not by the toss of a coin.
func signedSums(ranks []int) []float64 {
	total := 0
	for _, r := range ranks {
		total += r
	}
	chance := make([]float64, total+1)
	chance[0] = 1
	reached := 0
	for _, r := range ranks {
		reached += r
		for sum := reached; sum >= 0; sum-- { // from above, so that each is still without r
			without := 0.0
			if sum >= r {
				without = chance[sum-r]
			}
			chance[sum] = (chance[sum] + without) / 2
		}
	}
	return chance
}

// tail is the chance of a sum of at least from.
func tail(chance []float64, from int) float64 {
	p := 0.0
	for sum := len(chance) - 1; sum >= max(0, from); sum-- {
		p += chance[sum]
	}
	return min(1, p)
}

// whole are the ranks 1 to n.
func whole(n int) []int {
	ranks := make([]int, n)
	for i := range ranks {
		ranks[i] = i + 1
	}
	return ranks
}

func absolute(values []float64) []float64 {
	abs := make([]float64, len(values))
	for i, x := range values {
		abs[i] = math.Abs(x)
	}
	return abs
}
