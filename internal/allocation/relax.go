package allocation

import (
	"math"
	"slices"
)

// relax leaves open how many lots a line takes. It says how much more the one line can get then, what those that want few take of
// which lot, and whether all can have what they were granted.
func (h *hunt) relax(marks [][]int8) (more int, used [][]int, ok bool) {
	lots, days := len(h.shelf.lots), len(h.dates)
	source, sink := 0, 1+lots+days+len(h.few)
	n := newNetwork(sink + 1)
	for k, packs := range h.avail {
		n.join(source, 1+k, packs)
		n.join(1+k, 1+lots+h.day[k], packs)
	}
	for d := 1; d < days; d++ { // whoever may have day d-1 may have day d
		n.join(1+lots+d, lots+d, math.MaxInt)
	}
	granted, top := 0, -1
	links := make([][]int, len(h.few))
	for i, l := range h.few {
		reach := h.reach(marks, i) - l.unnamed()
		if reach < 0 {
			return 0, nil, false
		}
		links[i] = h.link(n, marks[i], 1+lots+days+i)
		end := n.join(1+lots+days+i, sink, l.unnamed())
		granted += l.unnamed()
		if l == h.one {
			top, more = end, min(h.want, reach)
		}
	}
	for d, packs := range h.plain() {
		granted += packs
		end := n.join(1+lots+d, sink, packs)
		if top < 0 && h.one != nil && h.one.from == d {
			top, more = end, h.want
		}
	}
	defer func() { h.scans -= n.scans }()
	if n.grow(source, sink) < granted {
		return 0, nil, false
	}
	if h.one != nil {
		n.arcs[top].room += more
		more = n.grow(source, sink)
	}
	used = make([][]int, len(h.few))
	for i := range h.few {
		used[i] = make([]int, lots)
		for k, arc := range links[i] {
			if arc >= 0 {
				used[i][k] = n.flow(arc)
			}
		}
	}
	return more, used, true
}

// link joins the lots that a line may have to its node.
func (h *hunt) link(n *network, marks []int8, node int) []int {
	arcs := make([]int, len(marks))
	for k, m := range marks {
		arcs[k] = -1
		if m != never {
			arcs[k] = n.join(1+k, node, h.avail[k])
		}
	}
	return arcs
}

// plain is, of each best-before day, what lines that take any number of lots were granted from that day on.
func (h *hunt) plain() []int {
	packs := make([]int, len(h.dates))
	for _, l := range h.lines {
		if l.mostLots == 0 && l.from < len(packs) {
			packs[l.from] += l.unnamed()
		}
	}
	return packs
}

// reach is the most a line can get from as many lots as it may have.
func (h *hunt) reach(marks [][]int8, i int) int {
	total := 0
	var others []int
	for k, m := range marks[i] {
		switch {
		case m == never:
		case m == must || h.few[i].named[k] > 0:
			total += h.avail[k]
		default:
			others = append(others, h.avail[k])
		}
	}
	slices.Sort(others)
	slices.Reverse(others)
	for _, n := range others[:min(len(others), h.picks(marks, i))] {
		total += n
	}
	return total
}
