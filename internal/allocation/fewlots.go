package allocation

import (
	"cmp"
	"slices"
)

// Customers that want few lots make the question a packing problem, for which no quick exact way is known. First the others keep the
// lots that were found for them. Where that falls short it is searched: first as if nobody minded the number of lots (a flow); then,
// where the flow takes too many lots for a line, once with one of them taken for sure and once without it.

// grow is how much more of n packs l can get, and whether that is proved to be all.
func (sh *shelf) grow(l *line, n int) (int, bool) {
	quick, lots, ok := sh.quick(l, n)
	if ok && l.mostLots > 0 {
		sh.found[l] = lots
	}
	if quick == n {
		return n, true
	}
	h := sh.hunt(l, n, quick)
	if h.lots != nil {
		sh.found = h.lots
	}
	return h.best, !h.out || h.best == n
}

// fits names n packs of the lot at place k for l if everybody can still have what they were granted.
func (sh *shelf) fits(l *line, k, n int) bool {
	sh.name(l, k, n)
	if _, lots, ok := sh.quick(l, 0); ok {
		sh.found[l] = lots
		return true
	}
	h := sh.hunt(nil, 0, -1)
	if h.best < 0 {
		sh.name(l, k, -n)
		return false
	}
	sh.found = h.lots
	return true
}

// quick leaves the others that want few lots what was found for them. It says how much more of n packs l can get then, and of which
// lots if it wants few; not ok: it cannot even have what it was granted.
func (sh *shelf) quick(l *line, n int) (more int, lots []int, ok bool) {
	t := &shelf{day: sh.day, dates: sh.dates, avail: slices.Clone(sh.avail), slack: slices.Clone(sh.slack)}
	for other, lots := range sh.found {
		for k, packs := range lots {
			if other != l {
				t.pin(other, k, packs)
			}
		}
	}
	if least(t.slack, 0, len(t.slack)-1) < 0 || slices.ContainsFunc(t.avail, func(n int) bool { return n < 0 }) {
		return 0, nil, false
	}
	more = min(n, t.room(l))
	if l.mostLots == 0 {
		return more, nil, true
	}
	t.promise(l, more)
	left := l.unnamed() + more
	lots = make([]int, len(sh.lots))
	picks := l.mostLots - len(l.named)
	for left > 0 {
		k, packs := t.biggest(l, left, picks)
		if packs == 0 {
			break
		}
		if l.named[k] == 0 && lots[k] == 0 {
			picks--
		}
		t.pin(l, k, packs)
		lots[k] += packs
		left -= packs
	}
	return max(0, more-left), lots, left <= more
}

// biggest is the lot that l can have most of, up to n; of equal ones the oldest. Lots that are named for it come first.
func (sh *shelf) biggest(l *line, n, picks int) (lot, packs int) {
	rank := 0
	for k, left := range sh.avail {
		if sh.day[k] < l.from || l.named[k] == 0 && picks == 0 {
			continue
		}
		can := max(0, min(n, left, sh.nameable(l, sh.day[k])))
		r := 2 * can
		if l.named[k] > 0 && can > 0 {
			r += 2 * n
		}
		if r > rank {
			rank, lot, packs = r, k, can
		}
	}
	return lot, packs
}

// choose names the lots of a line that wants few: the oldest one that will do, as much of it as may be had, then the next.
func (sh *shelf) choose(l *line) {
	for _, k := range sh.choices(l) {
		left := l.unnamed()
		picks := l.mostLots - len(l.named)
		n := min(left, sh.avail[k], sh.nameable(l, sh.day[k]))
		if n > 0 && (l.named[k] > 0 || picks > 1 || picks == 1 && n == left) {
			sh.fits(l, k, n)
		}
	}
	for k, n := range sh.found[l] { // if no such way was found: the way that is known
		sh.name(l, k, min(n, l.unnamed()))
	}
	delete(sh.found, l)
}

// choices are the lots a line may have, the oldest first; of the same day the smallest that is enough, then the biggest.
func (sh *shelf) choices(l *line) []int {
	var all []int
	for k, d := range sh.day {
		if d >= l.from && sh.avail[k] > 0 {
			all = append(all, k)
		}
	}
	need := l.unnamed()
	slices.SortStableFunc(all, func(a, b int) int {
		if c := cmp.Compare(sh.day[a], sh.day[b]); c != 0 {
			return c
		}
		if x, y := sh.avail[a], sh.avail[b]; x >= need && y >= need {
			return cmp.Compare(x, y)
		} else {
			return cmp.Compare(y, x)
		}
	})
	return all
}
