package trace

import (
	"cmp"
	"slices"
)

// makeRoom moves lots so that a new flow goes onward, or says what loop it would close. Only lots between its two ends are looked at
// (Pearce and Kelly, A dynamic topological sort algorithm for directed acyclic graphs, 2006); when lots come before what is made of
// them, as they do in a kitchen, there is nothing to move.
func (g *Graph) makeRoom(f Flow) error {
	low, high := g.place[f.To], g.place[f.From]
	if high < low {
		return nil
	}
	ahead, by := g.between(f.To, low, high, true)
	if by[high-low] != 0 {
		loop := []int{f.To}
		for _, flow := range g.readBack(f.To, f.From, by, low) {
			loop = append(loop, g.flows[flow].To)
		}
		return &LoopError{f, loop}
	}
	behind, _ := g.between(f.From, low, high, false)
	byPlace := func(a, b int32) int { return cmp.Compare(g.place[a], g.place[b]) }
	slices.SortFunc(ahead, byPlace)
	slices.SortFunc(behind, byPlace)
	lots := slices.Concat(behind, ahead)
	places := make([]int32, len(lots))
	for i, l := range lots {
		places[i] = g.place[l]
	}
	slices.Sort(places)
	for i, l := range lots {
		g.place[l], g.at[places[i]] = places[i], l
	}
	return nil
}

// between is the lots that can be reached from one without leaving the places low to high, and for each of those places one more than
// the flow by which it was reached.
func (g *Graph) between(start int, low, high int32, onward bool) (lots, by []int32) {
	by = make([]int32, high-low+1)
	l := &g.in
	if onward {
		l = &g.out
	}
	lots = []int32{int32(start)}
	for i := 0; i < len(lots); i++ {
		for f := l.first[lots[i]]; f != 0; f = l.next[f-1] {
			to := g.flows[f-1].From
			if onward {
				to = g.flows[f-1].To
			}
			if p := g.place[to]; p >= low && p <= high && by[p-low] == 0 {
				by[p-low] = f
				lots = append(lots, int32(to))
			}
		}
	}
	return lots, by
}
