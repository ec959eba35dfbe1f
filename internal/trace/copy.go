package trace

import "slices"

// Copy is the graph as it is now. What is added to one of the two does not change the other.
func (g *Graph) Copy() Graph {
	return Graph{
		lots: slices.Clone(g.lots), flows: slices.Clip(g.flows), // a flow is never changed
		in: g.in.copy(), out: g.out.copy(),
		into: slices.Clone(g.into), from: slices.Clone(g.from),
		place: slices.Clone(g.place), at: slices.Clone(g.at),
	}
}

func (l links) copy() links {
	return links{slices.Clone(l.first), slices.Clone(l.last), slices.Clone(l.next)}
}
