package purchase

import (
	"cmp"
	"math"
	"math/bits"
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

// crowd is how many times as many parts as are kept are compared with each other.
const crowd = 4

// extend is every part before with every way of a stage that may still become the best.
func (x *mixer) extend(st *stage, before []part) []part {
	byWeight := make([]int32, len(st.ways))
	for w := range byWeight {
		byWeight[w] = int32(w)
	}
	slices.SortStableFunc(byWeight, func(a, b int32) int { return cmp.Compare(st.ways[a].weighted, st.ways[b].weighted) })
	var parts []part
	for b := range before {
		room := x.limit*x.scale - before[b].bound + x.dual.picks[st.need].least.cost
		for _, w := range byWeight {
			if x.steps++; st.ways[w].weighted > room {
				break // and all that weigh more
			}
			if p, ok := x.joined(st, &before[b], &st.ways[w]); ok {
				p.before, p.way = int32(b), w
				parts = append(parts, p)
			}
		}
		if len(parts) > 4*crowd*x.width {
			parts = x.narrow(parts, crowd*x.width)
		}
		if x.steps >= x.most {
			x.whole = false
			return nil
		}
	}
	parts = x.narrow(parts, crowd*x.width)
	x.sort(parts, part.byScore)
	parts = front(parts, func(p part) []int64 { return p.goods }, &x.steps)
	return x.narrow(parts, x.width)
}

// finish finds the part and the way of the last stage that are the best purchase together; way is -1 if none is within the limit.
// Ways are sorted by score: for each part the first that brings every order to its value is the best.
func (x *mixer) finish(st *stage, before []part) (part, way int) {
	points := make([][]int64, len(st.ways))
	for w := range st.ways {
		points[w] = st.ways[w].goods
	}
	f := newForest(points)
	for w := range points {
		f.plant(0, 0, len(points), w)
	}
	best := score{x.limit, math.MaxInt64, math.MaxInt64}
	missing := make([]int64, len(x.dims))
	way = -1
	for b := range before {
		for d, j := range x.dims {
			missing[d] = x.dual.goal[j] - before[b].goods[d]
		}
		w := f.first(0, 0, len(points), missing, len(points))
		if w == len(points) {
			continue
		}
		if sc := before[b].score.plus(st.ways[w].score); sc.compare(best) < 0 {
			best, part, way = sc, b, w
		}
	}
	x.steps += f.looked / 4
	return part, way
}

// joined is a part with a way added, or false if it cannot become a purchase within the limit: what is still to be decided costs,
// weighted, its least; and whatever it adds to the orders, at least what is missing in them, costs its price on top.
func (x *mixer) joined(st *stage, p *part, w *way) (part, bool) {
	next := part{score: p.score.plus(w.score), goods: x.space()}
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

// space is where the goods of a part may be written; it is given away again unless the part is kept.
func (x *mixer) space() []int64 {
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
	x.sort(parts, part.byBound)
	return parts[:width]
}

// sort puts parts in an order. It counts as the comparisons that sorting takes, four to a step.
func (x *mixer) sort(parts []part, order func(p, q part) int) {
	slices.SortFunc(parts, order)
	n := len(parts)
	x.steps += int64(n * bits.Len(uint(n)) / 4)
}

// byScore is the best first, of equal ones the one made first.
func (p part) byScore(q part) int {
	if c := p.score.compare(q.score); c != 0 {
		return c
	}
	return p.compare(q)
}

// byBound is the most promising first, of equal ones the one made first.
func (p part) byBound(q part) int {
	if c := cmp.Compare(p.bound, q.bound); c != 0 {
		return c
	}
	return p.compare(q)
}

// compare is the order in which parts are made.
func (p part) compare(q part) int {
	if c := cmp.Compare(p.before, q.before); c != 0 {
		return c
	}
	return cmp.Compare(p.way, q.way)
}

// trace is the purchase that is part p of the stage before the last and way w of the last.
func (x *mixer) trace(p, w int) [][]int64 {
	counts := make([][]int64, len(x.wants))
	for k := len(x.stages) - 1; ; k-- {
		st := &x.stages[k]
		counts[st.need] = st.ways[w].counts
		if k == 0 {
			return counts
		}
		e := x.stages[k-1].parts[p]
		p, w = int(e.before), int(e.way)
	}
}
