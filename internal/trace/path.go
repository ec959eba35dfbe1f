package trace

import "slices"

// Path is the flows by which one lot got into another in the fewest steps, in their order; nil if it did not. Errors are *InputError.
func (g *Graph) Path(from, to int) ([]int, error) {
	if err := g.checkLots(from, to); err != nil {
		return nil, err
	}
	low, high := g.place[from], g.place[to]
	if high <= low {
		return nil, nil
	}
	_, by := g.between(from, low, high, true)
	if by[high-low] == 0 {
		return nil, nil
	}
	return g.readBack(from, to, by, low), nil
}

// readBack is the flows from one lot to another by what between found onward from the first.
func (g *Graph) readBack(from, to int, by []int32, low int32) []int {
	var flows []int
	for l := to; l != from; {
		f := int(by[g.place[l]-low] - 1)
		flows = append(flows, f)
		l = g.flows[f].From
	}
	slices.Reverse(flows)
	return flows
}
