package allocation

// network is a flow network; flows are grown along shortest augmenting paths.
type network struct {
	arcs  []arc
	out   [][]int // of each node, its arcs; arc i^1 is the way back of arc i
	scans int     // arcs looked at so far
}

type arc struct{ to, room int }

func newNetwork(nodes int) *network { return &network{out: make([][]int, nodes)} }

// join adds an arc and returns its index.
func (n *network) join(from, to, room int) int {
	n.arcs = append(n.arcs, arc{to, room}, arc{from, 0})
	n.out[from] = append(n.out[from], len(n.arcs)-2)
	n.out[to] = append(n.out[to], len(n.arcs)-1)
	return len(n.arcs) - 2
}

// flow is what goes through an arc that join returned.
func (n *network) flow(arc int) int { return n.arcs[arc^1].room }

// grow sends as much more as there is room for, and returns how much. What goes into the sink through an arc never gets less.
func (n *network) grow(from, to int) int {
	total := 0
	for {
		by := n.path(from, to)
		if by == nil {
			return total
		}
		most := int(^uint(0) >> 1)
		for v := to; v != from; v = n.arcs[by[v]^1].to {
			most = min(most, n.arcs[by[v]].room)
		}
		for v := to; v != from; v = n.arcs[by[v]^1].to {
			n.arcs[by[v]].room -= most
			n.arcs[by[v]^1].room += most
		}
		total += most
	}
}

// path is, of each node, the arc by which a shortest path reaches it; nil if there is none to the sink.
func (n *network) path(from, to int) []int {
	by := make([]int, len(n.out))
	for i := range by {
		by[i] = -1
	}
	queue := []int{from}
	for len(queue) > 0 {
		v := queue[0]
		queue = queue[1:]
		n.scans += len(n.out[v])
		for _, i := range n.out[v] {
			a := n.arcs[i]
			if a.room == 0 || a.to == from || by[a.to] >= 0 {
				continue
			}
			by[a.to] = i
			if a.to == to {
				return by
			}
			queue = append(queue, a.to)
		}
	}
	return nil
}
