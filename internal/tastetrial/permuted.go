package tastetrial

import (
	"maps"
	"math"
	"math/rand/v2"
	"slices"
)

const (
	mostVariants = 8
	mostWork     = 1_000_000 // additions of a permutation to a state, beyond which permutations are drawn
	draws        = 50_000
)

// sums are doubled rank sums of the variants, in order.
type sums [mostVariants]int16

// permuted is how likely rank sums as far apart as these are, if every order of the ranks within each block is as likely.
func permuted(ranks [][]int, seed uint64) (p float64, m Method, errorOfP float64) {
	seen := make([]int, len(ranks[0]))
	for _, block := range ranks {
		for v, r := range block {
			seen[v] += r
		}
	}
	if p, ok := exactly(ranks, squaresOf(seen)); ok {
		return p, Exact, 0
	}
	p = drawn(ranks, squaresOf(seen), seed)
	return p, Drawn, math.Sqrt(p * (1 - p) / draws)
}

// squaresOf rises with Friedman's statistic, for the same blocks.
func squaresOf(s []int) int {
	total := 0
	for _, x := range s {
		total += x * x
	}
	return total
}

// exactly goes through all permutations block by block. Variants are alike where nothing differs, so that states are kept in order.
func exactly(ranks [][]int, from int) (float64, bool) {
	k := len(ranks[0])
	states := map[sums]float64{{}: 1}
	work := 0
	for _, block := range ranks {
		orders := permutations(block)
		if work += len(states) * len(orders); work > mostWork {
			return 0, false
		}
		next := make(map[sums]float64, 2*len(states))
		for _, s := range inOrder(states) {
			chance := states[s]
			for _, o := range orders {
				t := s
				for v := range k {
					t[v] += o[v]
				}
				slices.Sort(t[:k])
				next[t] += chance / float64(len(orders))
			}
		}
		states = next
	}
	p := 0.0
	for _, s := range inOrder(states) {
		total := 0
		for _, x := range s[:k] {
			total += int(x) * int(x)
		}
		if total >= from {
			p += states[s]
		}
	}
	return min(1, p), true
}

// inOrder has one order, so that sums are the same to the last digit every time.
func inOrder(states map[sums]float64) []sums {
	return slices.SortedFunc(maps.Keys(states), func(a, b sums) int { return slices.Compare(a[:], b[:]) })
}

// permutations are the different orders of a block's ranks; of equal ranks each is as likely as any other.
func permutations(block []int) []sums {
	sorted := slices.Sorted(slices.Values(block))
	used := make([]bool, len(sorted))
	var all []sums
	var one sums
	var place func(at int)
	place = func(at int) {
		if at == len(sorted) {
			all = append(all, one)
			return
		}
		last := -1
		for i, r := range sorted {
			if used[i] || r == last {
				continue
			}
			last, used[i], one[at] = r, true, int16(r)
			place(at + 1)
			used[i] = false
		}
	}
	place(0)
	return all
}

// drawn counts the order that was seen as one more, so that no p is 0.
func drawn(ranks [][]int, from int, seed uint64) float64 {
	source := rand.New(rand.NewPCG(seed, 0))
	shuffled := make([][]int, len(ranks))
	for b := range ranks {
		shuffled[b] = slices.Clone(ranks[b])
	}
	total := make([]int, len(ranks[0]))
	beyond := 1
	for range draws {
		clear(total)
		for _, block := range shuffled {
			source.Shuffle(len(block), func(i, j int) { block[i], block[j] = block[j], block[i] })
			for v, r := range block {
				total[v] += r
			}
		}
		if squaresOf(total) >= from {
			beyond++
		}
	}
	return float64(beyond) / (draws + 1)
}

// rankDifferences is how likely each difference of two variants' doubled rank sums is; the middle one is 0.
func rankDifferences(ranks [][]int) []float64 {
	chance := []float64{1}
	for _, block := range ranks {
		k := len(block)
		reach := slices.Max(block) - slices.Min(block)
		each := make([]float64, 2*reach+1)
		for i, a := range block {
			for j, b := range block {
				if i != j {
					each[a-b+reach] += 1 / float64(k*(k-1))
				}
			}
		}
		next := make([]float64, len(chance)+2*reach)
		for d, p := range chance {
			for e, q := range each {
				next[d+e] += p * q
			}
		}
		chance = next
	}
	return chance
}
