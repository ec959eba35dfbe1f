package purchase

import (
	"cmp"
	"slices"
)

// lookAhead adds up, from the last stage back, what the stages after each can still do.
func (x *mixer) lookAhead() {
	rest := int64(0)
	reach, sure := make([]int64, len(x.dims)), make([]int64, len(x.dims))
	for k := len(x.stages) - 1; k >= 0; k-- {
		st := &x.stages[k]
		st.rest, st.reach, st.sure = rest, slices.Clone(reach), slices.Clone(sure)
		rest += x.dual.picks[st.need].least.cost
		for d := range x.dims {
			most, least := int64(0), int64(never)
			for _, w := range st.ways {
				most, least = max(most, w.goods[d]), min(least, w.goods[d])
			}
			reach[d] += most
			sure[d] += least
		}
	}
}

// extend is every part before with every way of stage k that may still become the best.
func (x *mixer) extend(k int, before []part) []part {
	st := &x.stages[k]
	var parts []part
	for b := range before {
		for w := range st.ways {
			x.steps++
			if p, ok := x.joined(st, &before[b], &st.ways[w]); ok {
				p.before, p.way = int32(b), int32(w)
				parts = append(parts, p)
			}
		}
		if len(parts) > 64*x.width {
			parts = x.narrow(parts, 16*x.width)
		}
	}

	parts = x.narrow(parts, 16*x.width)
	slices.SortFunc(parts, func(a, b part) int { return cmp.Or(a.score.compare(b.score), a.compare(b)) })
	parts = front(parts, func(p part) []int64 { return p.goods }, &x.steps)
	return x.narrow(parts, x.width)
}

// joined is a part with a way added, or false if it cannot become a purchase within the limit: what is still to be decided costs,
// weighted, its least; and whatever it adds to the orders, at least what is missing in them, costs its price on top.
func (x *mixer) joined(st *stage, p *part, w *way) (part, bool) {
	next := part{score: p.score.plus(w.score), goods: x.room()}
	next.bound = next.score.cost*x.scale + st.rest
	for d, j := range x.dims {
		goal := x.dual.goal[j]
		g := p.goods[d] + w.goods[d]
		if g+st.reach[d] < goal {
			return part{}, false
		}
		next.goods[d] = min(g, goal-st.sure[d])
		next.bound += x.dual.price[j] * (goal - next.goods[d])
	}
	if next.bound > x.limit*x.scale {
		return part{}, false
	}
	x.spare = x.spare[len(x.dims):]
	return next, true
}

// room is where the goods of a part may be written; it is given away again unless the part is kept.
func (x *mixer) room() []int64 {
	d := len(x.dims)
	if len(x.spare) < d {
		x.spare = make([]int64, 4096*d)
	}
	return x.spare[:d:d]
}

// narrow keeps the parts that promise most, if there are too many.
func (x *mixer) narrow(parts []part, width int) []part {
	if len(parts) <= width {
		return parts
	}
	x.whole = false
	slices.SortFunc(parts, func(a, b part) int { return cmp.Or(cmp.Compare(a.bound, b.bound), a.compare(b)) })
	return parts[:width]
}

// compare is the order in which parts are made.
func (p part) compare(q part) int {
	return cmp.Or(cmp.Compare(p.before, q.before), cmp.Compare(p.way, q.way))
}

// trace is the purchase that ends in part p of the last stage.
func (x *mixer) trace(p int) [][]int64 {
	counts := make([][]int64, len(x.wants))
	for k := len(x.stages) - 1; k >= 0; k-- {
		st := &x.stages[k]
		e := st.parts[p]
		counts[st.need] = st.ways[e.way].counts
		p = int(e.before)
	}
	return counts
}
