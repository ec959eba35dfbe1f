package draw

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"kettlefrost/internal/unit"
)

// heap is lots that are drawn as one.
type heap struct {
	TraceLot
	lots int
}

func (h heap) says() string {
	if h.lots > 1 {
		return fmt.Sprintf("%d lots", h.lots)
	}
	return h.ID
}

// folding is a graph with few enough heaps to be read.
type folding struct {
	heaps []heap
	flows []TraceFlow
	units unit.System
}

// folded puts lots together, column by column: those of a kind and name where there are too many, and the lightest of them if there still are.
// What is farther away than so many steps stands in the last column.
func (g TraceGraph) folded() folding {
	columns := map[int][]int{}
	for i, l := range g.Lots {
		step := max(-mostSteps, min(mostSteps, l.Step))
		columns[step] = append(columns[step], i)
	}
	f := folding{units: g.Units}
	of := make([]int, len(g.Lots)) // the heap of a lot
	for _, step := range slices.Sorted(maps.Keys(columns)) {
		for _, lots := range g.heapsOf(columns[step]) {
			h := heap{TraceLot: TraceLot{Step: step, Kind: g.Lots[lots[0]].Kind, What: g.Lots[lots[0]].What, ID: g.Lots[lots[0]].ID}}
			for _, i := range lots {
				of[i] = len(f.heaps)
				h.add(g.Lots[i])
			}
			f.heaps = append(f.heaps, h)
		}
	}
	f.addFlows(g.Flows, of)
	return f
}

func (h *heap) add(l TraceLot) {
	h.lots++
	h.Mass += l.Mass
	h.Asked = h.Asked || l.Asked
	if l.What != h.What {
		h.What = "of several kinds"
	}
	if l.Kind != h.Kind {
		h.Kind = TraceUnknown
	}
}

// heapsOf divides the lots of a column, each heap with its lots.
func (g TraceGraph) heapsOf(column []int) [][]int {
	heaps := group(column, func(i int) string { return g.Lots[i].ID })
	if len(heaps) > mostRows {
		heaps = group(column, func(i int) string { return fmt.Sprint(g.Lots[i].Asked, g.Lots[i].Kind, g.Lots[i].What) })
	}
	if len(heaps) > mostRows {
		mass := func(heap []int) (sum unit.Mass) {
			for _, i := range heap {
				sum += g.Lots[i].Mass
			}
			return sum
		}
		slices.SortStableFunc(heaps, func(a, b []int) int { return cmp.Compare(mass(b), mass(a)) })
		heaps = append(heaps[:mostRows-1], slices.Concat(heaps[mostRows-1:]...))
	}
	return heaps
}

// group divides numbers by a key, in the order in which the keys come.
func group(all []int, key func(int) string) [][]int {
	at := map[string]int{}
	var groups [][]int
	for _, i := range all {
		k := key(i)
		n, there := at[k]
		if !there {
			n = len(groups)
			at[k] = n
			groups = append(groups, nil)
		}
		groups[n] = append(groups[n], i)
	}
	return groups
}

// addFlows puts flows between the same two heaps together. What flows within a heap is not drawn.
func (f *folding) addFlows(flows []TraceFlow, of []int) {
	sum := map[TraceFlow]unit.Mass{}
	for _, x := range flows {
		if from, to := of[x.From], of[x.To]; f.heaps[from].Step != f.heaps[to].Step {
			sum[TraceFlow{From: from, To: to, Rework: x.Rework}] += x.Mass
		}
	}
	for x, mass := range sum {
		x.Mass = mass
		f.flows = append(f.flows, x)
	}
	slices.SortFunc(f.flows, func(a, b TraceFlow) int {
		again := func(x TraceFlow) int {
			if x.Rework {
				return 1
			}
			return 0
		}
		return cmp.Or(cmp.Compare(a.From, b.From), cmp.Compare(a.To, b.To), again(a)-again(b))
	})
}
