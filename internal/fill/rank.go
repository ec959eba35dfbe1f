package fill

import (
	"cmp"
	"slices"
)

// ranking compares plans of the same value and left-over: by evenness, then by the order of the list.
type ranking struct {
	t       *table
	byValue []int // groups, the highest value first
	a, b    []int64
	as, bs  []int64 // the same, sorted
}

func newRanking(t *table) *ranking {
	k := &ranking{t: t, a: make([]int64, len(t.packs)), b: make([]int64, len(t.packs)),
		as: make([]int64, len(t.packs)), bs: make([]int64, len(t.packs))}
	for g := range t.groups {
		k.byValue = append(k.byValue, g)
	}
	slices.SortStableFunc(k.byValue, func(x, y int) int {
		return cmp.Or(cmp.Compare(t.value[y], t.value[x]), cmp.Compare(t.mass[y], t.mass[x]))
	})
	return k
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
func (k *ranking) compare(x, y []int64) (Rule, bool) {
	k.spread(x, y)
	if c := slices.Compare(k.as, k.bs); c != 0 {
		return ByEven, c > 0
	}
	return ByOrder, slices.Compare(k.a, k.b) > 0
}

// noneMoreEven reports whether no plan in the box beats best by evenness or order. No sorted list of counts in the box can beat
// that of the upper limits, and no smallest count can beat the level to which all packs can rise together.
func (k *ranking) noneMoreEven(n node, best []int64) bool {
	k.spread(n.hi, best)
	if len(k.bs) > 0 && k.level(n, k.bs[0]) < k.bs[0] {
		return true
	}
	c := slices.Compare(k.as, k.bs)
	return c < 0 || (c == 0 && slices.Compare(k.a, k.b) <= 0)
}

// smallest is the smallest count of any pack under these group totals.
func (k *ranking) smallest(total []int64) int64 {
	if len(k.a) == 0 {
		return 0
	}
	for g := range k.t.groups {
		k.t.share(g, total[g], k.a)
	}
	return slices.Min(k.a)
}

// atLeast is the group totals that give every pack its minimum and at least level.
func (k *ranking) atLeast(level int64) []int64 {
	lo := make([]int64, len(k.t.groups))
	for g, packs := range k.t.groups {
		for _, i := range packs {
			lo[g] += max(level, int64(k.t.packs[i].Min))
		}
	}
	return lo
}

// level is the highest smallest count, up to enough, that the stock may allow in the box.
func (k *ranking) level(n node, enough int64) int64 {
	lo, hi := int64(0), enough
	for lo < hi {
		mid := lo + (hi-lo+1)/2
		if k.fits(n, mid) {
			lo = mid
		} else {
			hi = mid - 1
		}
	}
	return lo
}

func (k *ranking) fits(n node, level int64) bool {
	for g, packs := range k.t.groups {
		if level > n.hi[g]/int64(len(packs)) {
			return false
		}
		for _, i := range packs {
			if level > k.t.most(i) {
				return false
			}
		}
	}
	for j, left := range k.t.stock {
		for g, packs := range k.t.groups {
			a := k.t.take[g][j]
			count := max(n.lo[g], level*int64(len(packs)))
			if a > 0 && count > left/a {
				return false
			}
			left -= a * count
		}
	}
	return true
}
