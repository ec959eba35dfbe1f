package fill

import "math"

// share shares a group's total out among its packs as evenly as their limits allow, the remainder to those listed first, into
// count. It is the plan that the rules prefer among all that give the group this total.
func (t *table) share(g int, total int64, count []int64) {
	rest := total
	for _, i := range t.groups[g] {
		count[i] = t.least[i]
		rest -= count[i]
	}
	for rest > 0 {
		level, next, low := int64(math.MaxInt64), int64(math.MaxInt64), int64(0)
		for _, i := range t.groups[g] { // the lowest level that can rise, how many stand on it, and the next one above
			c := count[i]
			if most := t.most(i); c >= most {
				continue
			} else if c < level {
				level, next, low = c, min(level, most), 1
			} else if c == level {
				next, low = min(next, most), low+1
			} else {
				next = min(next, c)
			}
		}
		if low == 0 {
			return // full: the caller asked for more than the group can have
		}
		rise := min(next-level, rest/low)
		extra := rest % low
		for _, i := range t.groups[g] {
			if count[i] != level || count[i] >= t.most(i) {
				continue
			}
			switch {
			case rise > 0:
				count[i] += rise
				rest -= rise
			case extra > 0:
				count[i]++
				extra--
				rest--
			}
		}
	}
}

// most is the most of pack i alone.
func (t *table) most(i int) int64 {
	if m := t.packs[i].Max; m >= 0 {
		return int64(m)
	}
	return math.MaxInt64
}
