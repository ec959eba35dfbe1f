package allocation

import (
	"cmp"
	"slices"
)

// Customers that want few lots make the question a packing problem, for which no quick exact way is known. It is searched: first
// as if nobody minded the number of lots (a flow), then, where the flow takes too many lots for a line, once with one of them
// taken for sure and once without it.

// hunt is one such search: can all lines have what they were granted, and how much more can one of them get?
type hunt struct {
	*shelf
	few   []*line // those with packs not named yet that want few lots
	one   *line   // the line that is to get more; nil: only whether all fit
	want  int
	best  int // -1: nothing found
	lots  map[*line][]int
	steps int             // left
	out   bool            // of steps
	only  map[*line][]int // lots these lines are held to; empty: any
}

const (
	maybe = iota
	must
	never
)

// grow is how much more of n packs l can get, and whether that is proved to be all.
func (sh *shelf) grow(l *line, n int) (int, bool) {
	// first with the others' lots as they were: mostly that will do
	quick := sh.hunt(l, n, sh.found)
	if quick.best == n {
		sh.found = quick.lots
		return n, true
	}
	full := sh.hunt(l, n, nil)
	if quick.best > full.best {
		full.best, full.lots = quick.best, quick.lots
	}
	if full.best < 0 { // out of steps; what was found before still stands
		return 0, false
	}
	sh.found = full.lots
	return full.best, !full.out || full.best == n
}

// fits names n packs of the lot at place k for l if everybody can still have what they were granted.
func (sh *shelf) fits(l *line, k, n int) bool {
	sh.name(l, k, n)
	h := sh.hunt(nil, 0, nil)
	if h.best < 0 {
		sh.name(l, k, -n)
		return false
	}
	sh.found = h.lots
	return true
}

func (sh *shelf) hunt(one *line, want int, only map[*line][]int) *hunt {
	h := &hunt{shelf: sh, one: one, want: want, best: -1, steps: sh.steps, only: only}
	for _, l := range sh.lines {
		if l.mostLots > 0 && (l.unnamed() > 0 || l == one) {
			h.few = append(h.few, l)
		}
	}
	marks := make([][]int8, len(h.few))
	for i, l := range h.few {
		marks[i] = make([]int8, len(sh.lots))
		for k := range sh.lots {
			held := l != one && only[l] != nil && only[l][k] == 0 && l.named[k] == 0
			if sh.day[k] < l.from || sh.avail[k] == 0 || held || l.mostLots == len(l.named) && l.named[k] == 0 {
				marks[i][k] = never
			}
		}
	}
	h.branch(marks)
	return h
}

// branch settles one lot of one line after the other.
func (h *hunt) branch(marks [][]int8) {
	if h.best == h.want && h.best >= 0 || h.out {
		return
	}
	if h.steps--; h.steps < 0 {
		h.out = true
		return
	}
	got, used, ok := h.relax(marks)
	if !ok || got <= h.best {
		return
	}
	i, k := h.tooMany(marks, used)
	if i < 0 {
		h.best, h.lots = got, map[*line][]int{}
		for i, l := range h.few {
			h.lots[l] = used[i]
		}
		return
	}
	h.branch(h.with(marks, i, k, must))
	h.branch(h.with(marks, i, k, never))
}

// with marks a lot of a line; when the line has all its lots, the others are out.
func (h *hunt) with(marks [][]int8, i, k int, mark int8) [][]int8 {
	next := slices.Clone(marks)
	next[i] = slices.Clone(marks[i])
	next[i][k] = mark
	if mark == must && h.picks(next, i) == 0 {
		for k, m := range next[i] {
			if m == maybe && h.few[i].named[k] == 0 {
				next[i][k] = never
			}
		}
	}
	return next
}

// picks is how many lots a line may still open, beside those it must.
func (h *hunt) picks(marks [][]int8, i int) int {
	l := h.few[i]
	n := l.mostLots - len(l.named)
	for k, m := range marks[i] {
		if m == must && l.named[k] == 0 {
			n--
		}
	}
	return n
}

// tooMany finds a line that the flow gives too many lots, and the one of them it gets most of; -1 if there is none.
func (h *hunt) tooMany(marks [][]int8, used [][]int) (line, lot int) {
	for i, l := range h.few {
		opened, most := 0, -1
		for k, n := range used[i] {
			if n == 0 || l.named[k] > 0 {
				continue
			}
			opened++
			if marks[i][k] == maybe && (most < 0 || n > used[i][most]) {
				most = k
			}
		}
		if opened > l.mostLots-len(l.named) {
			return i, most
		}
	}
	return -1, -1
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
