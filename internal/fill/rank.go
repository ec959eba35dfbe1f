package fill

import "slices"

// ranking compares plans of which all goals are the same: by evenness, then by the order of the list.
type ranking struct {
	t      *table
	a, b   []int64
	as, bs []int64 // the same, sorted
}

func newRanking(t *table) *ranking {
	n := len(t.packs)
	return &ranking{t: t, a: make([]int64, n), b: make([]int64, n), as: make([]int64, n), bs: make([]int64, n)}
}

// spread fills in the counts of all packs for two lists of group totals.
func (k *ranking) spread(x, y []int64) {
	for g := range k.t.groups {
		k.t.share(g, x[g], k.a)
		k.t.share(g, y[g], k.b)
	}
	copy(k.as, k.a)
	copy(k.bs, k.b)
	slices.Sort(k.as)
	slices.Sort(k.bs)
}

// compare reports which rule tells x from y and whether x is the better.
func (k *ranking) compare(x, y []int64) (Rule, int) {
	k.spread(x, y)
	if c := slices.Compare(k.as, k.bs); c != 0 {
		return ByEven, c
	}
	return ByList, slices.Compare(k.a, k.b)
}

// noneMoreEven reports whether no plan under the upper limits hi beats best by evenness or order: no sorted list of counts there can
// beat that of the upper limits.
func (k *ranking) noneMoreEven(hi, best []int64) bool {
	_, c := k.compare(hi, best)
	return c <= 0
}

// counts is what every pack gets under these group totals.
func (k *ranking) counts(total []int64) []int64 {
	count := make([]int64, len(k.t.packs))
	for g := range k.t.groups {
		k.t.share(g, total[g], count)
	}
	return count
}
