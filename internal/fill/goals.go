package fill

import (
	"math"
	"math/bits"
	"slices"
)

// goal is one sum over the groups that is to be as high as possible: every group adds w for each pack up to cap. What has a finite
// cap has w >= 0, so that a goal never gains more from the next pack than from the one before.
type goal struct {
	rule   Rule
	w, cap []int64
	unit   int64 // by which w was divided
	whole  int64 // for goals that count shortfalls: what it is when nothing is short, in the divided unit
}

const noCap = math.MaxInt64

// of is what a plan comes to.
func (o *goal) of(total []int64) int64 {
	var sum int64
	for g, c := range total {
		sum += o.w[g] * min(c, o.cap[g])
	}
	return sum
}

// goals lists the goals that the caller wants and about which the problem says something, the most important first.
func (t *table) goals(p Problem) ([]goal, error) {
	rules := p.Goals
	if len(rules) == 0 {
		rules = []Rule{ByOrders, ByKeep, ByValue, ByLeft}
	}
	var goals []goal
	if t.soft {
		goals = append(goals, t.goal(ByMinimum))
	}
	for i, r := range rules {
		if r < ByOrders || r > ByLeft || slices.Contains(rules[:i], r) {
			return nil, &InputError{Pack: -1, Output: -1, Reason: "goals must be open orders, minimum stock, value and left-over, each at most once"}
		}
		goals = append(goals, t.goal(r))
	}
	kept := goals[:0]
	for _, o := range goals {
		if err := t.checkRange(&o); err != nil {
			return nil, err
		}
		o.divide()
		if slices.ContainsFunc(o.w, func(w int64) bool { return w != 0 }) {
			kept = append(kept, o)
		}
	}
	return kept, nil
}

// goal is the sum that a rule wants high. A group that counts by itself has one pack.
func (t *table) goal(r Rule) goal {
	n := len(t.groups)
	o := goal{rule: r, w: make([]int64, n), cap: make([]int64, n)}
	for g, packs := range t.groups {
		k := t.packs[packs[0]]
		switch r {
		case ByMinimum:
			o.w[g], o.cap[g] = 1, int64(k.Min)
		case ByOrders:
			o.w[g], o.cap[g] = max(1, k.Penalty), int64(k.Ordered)
		case ByKeep:
			o.w[g], o.cap[g] = 1, int64(k.Ordered)+int64(k.Keep)
		case ByValue:
			o.w[g], o.cap[g] = t.value[g], noCap
		case ByLeft:
			o.w[g], o.cap[g] = t.mass[g], noCap
		}
		if o.cap[g] == 0 {
			o.w[g] = 0
		}
	}
	return o
}

// checkRange refuses figures whose sums would leave int64. The mass of any plan is below that of the stock, which is in range.
func (t *table) checkRange(o *goal) error {
	if o.rule == ByLeft {
		return nil
	}
	var sum int64
	for g, w := range o.w {
		most := max(t.lo[g], t.hi[g])
		if o.cap[g] != noCap {
			most = o.cap[g] // so that what is short can be told too
		}
		over, low := bits.Mul64(magnitude(w), uint64(most))
		if over != 0 || low > uint64(limit-sum) {
			return &InputError{Pack: t.groups[g][0], Output: -1, Reason: "the " + o.rule.String() + " of all packs together is too large"}
		}
		sum += int64(low)
	}
	return nil
}

func magnitude(v int64) uint64 {
	if v < 0 {
		return -uint64(v)
	}
	return uint64(v)
}

// divide takes out the greatest common divisor, which makes bounds that are whole sharper.
func (o *goal) divide() {
	o.unit = 0
	for _, w := range o.w {
		o.unit = gcd(w, o.unit)
	}
	o.unit = max(o.unit, 1)
	for g := range o.w {
		o.w[g] /= o.unit
		if o.cap[g] != noCap {
			o.whole += o.w[g] * o.cap[g]
		}
	}
}

// step is one goal on the way to being as good as the best plan: a plan below target is worse, one at beat or above is better, and
// one between is told apart by the next step.
type step struct {
	*goal
	target, beat int64
}

// evenSteps are the steps by which a plan is as even as count, then as early in the list. Counts are the more even the fewer packs
// they lack, all together, up to each level, the lowest level at which they differ deciding; the levels just above each count are
// all that need asking, since between two counts the lower ones settle what is lacking.
func (t *table) evenSteps(total, count []int64) []step {
	var steps []step
	levels := slices.Compact(slices.Sorted(slices.Values(count)))
	for _, v := range levels {
		o := &goal{rule: ByEven, w: make([]int64, len(t.groups)), cap: make([]int64, len(t.groups)), unit: 1}
		for g, packs := range t.groups {
			o.w[g], o.cap[g] = 1, t.lo[g]
			for _, i := range packs {
				o.cap[g] += max(0, min(v+1, t.most(i))-t.least[i])
			}
		}
		at := o.of(total)
		steps = append(steps, step{o, at, at + 1})
	}
	return append(steps, t.listSteps(count)...)
}

// listSteps ask for as many of each pack, in the order of the list.
func (t *table) listSteps(count []int64) []step {
	var steps []step
	of := make([]int, len(t.packs))
	for g, packs := range t.groups {
		for _, i := range packs {
			of[i] = g
		}
	}
	for i := range t.packs {
		g := of[i]
		o := &goal{rule: ByList, w: make([]int64, len(t.groups)), cap: make([]int64, len(t.groups)), unit: 1}
		o.w[g], o.cap[g] = 1, noCap
		steps = append(steps, step{o, t.totalFor(g, i, count[i]), t.totalFor(g, i, count[i]+1)})
	}
	return steps
}

// totalFor is the smallest total of group g that gives pack i so many; more than the group can have when none does.
func (t *table) totalFor(g, i int, want int64) int64 {
	if len(t.groups[g]) == 1 {
		return want
	}
	lo, hi := t.lo[g], t.hi[g]+1
	count := make([]int64, len(t.packs))
	for lo < hi {
		mid := lo + (hi-lo)/2
		if t.share(g, mid, count); count[i] >= want {
			hi = mid
		} else {
			lo = mid + 1
		}
	}
	return lo
}
