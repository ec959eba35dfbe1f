package allocation

import "slices"

// hunt is a search: can all lines have what they were granted, and how much more can one of them get?
type hunt struct {
	*shelf
	few   []*line // those with packs not named yet that want few lots
	one   *line   // the line that is to get more; nil: only whether all fit
	want  int
	best  int             // the most it can get more; -1: not even what all were granted
	lots  map[*line][]int // how; nil: no better way than before was found
	scans int             // arcs that may still be looked at
	out   bool            // there are none left
}

// hunt looks for more than what is known to be possible. Each search may use a share of what is left, so that no line goes without.
func (sh *shelf) hunt(one *line, want, known int) *hunt {
	h := &hunt{shelf: sh, one: one, want: want, best: known, scans: sh.scans / 8}
	sh.scans -= h.scans
	for _, l := range sh.lines {
		if l.mostLots > 0 && (l.unnamed() > 0 || l == one) {
			h.few = append(h.few, l)
		}
	}
	marks := make([][]int8, len(h.few))
	for i, l := range h.few {
		marks[i] = make([]int8, len(sh.lots))
		for k := range sh.lots {
			if sh.day[k] < l.from || sh.avail[k] == 0 || l.mostLots == len(l.named) && l.named[k] == 0 {
				marks[i][k] = never
			}
		}
	}
	h.branch(marks)
	sh.scans += h.scans // what was not used
	return h
}

const (
	maybe = iota
	must
	never
)

// branch settles one lot of one line after the other.
func (h *hunt) branch(marks [][]int8) {
	if h.best == h.want && h.best >= 0 || h.out {
		return
	}
	if h.scans <= 0 {
		h.scans, h.out = 0, true
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
