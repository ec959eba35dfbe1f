package purchase

import (
	"cmp"
	"math"
	"math/bits"
	"slices"
)

// mostEnds is how many combinations of ways the last stages may have together.
const mostEnds = 10_000

// lastOnes is how many stages, from the last one back, are put together among themselves and then joined with all before them: one at
// least, and as long as there are few combinations.
func (x *mixer) lastOnes() int {
	n, ends := 1, len(x.stages[len(x.stages)-1].ways)
	for n < len(x.stages) && ends*len(x.stages[len(x.stages)-n-1].ways) <= mostEnds {
		n++
		ends *= len(x.stages[len(x.stages)-n].ways)
	}
	return n
}

// build is the partial purchases of some stages, nil if there are none or the steps are over.
func (x *mixer) build(stages []stage, least int64) []part {
	parts := []part{{bound: least, goods: make([]int64, len(x.dims))}}
	for k := range stages {
		parts = x.extend(&stages[k], parts)
		if len(parts) == 0 || x.steps >= x.most {
			return nil
		}
		stages[k].parts = parts
	}
	return parts
}

// lookAhead adds up, from the last stage back, what the stages after each and all others can still do.
func (x *mixer) lookAhead(stages, others []stage) {
	rest := x.fixed(x.node) * x.scale
	reach, sure := make([]int64, len(x.dims)), make([]int64, len(x.dims))
	add := func(st *stage) {
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
	for k := range others {
		add(&others[k])
	}
	for k := len(stages) - 1; k >= 0; k-- {
		st := &stages[k]
		st.rest, st.reach, st.sure = rest, slices.Clone(reach), slices.Clone(sure)
		add(st)
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

// join finds the start and the end that are the best purchase together; a is -1 if none is within the limit. Ends are sorted by
// score: for each start the first that brings every order to its value is the best.
func (x *mixer) join(starts, ends []part) (a, b int) {
	order := make([]int, len(ends))
	for k := range order {
		order[k] = k
	}
	slices.SortStableFunc(order, func(k, l int) int { return ends[k].score.compare(ends[l].score) })
	points, costs := make([][]int64, len(ends)), make([]int64, len(ends))
	for at, k := range order {
		points[at], costs[at] = ends[k].goods, ends[k].score.cost
	}
	f := newForest(points)
	for at := range points {
		f.plant(0, 0, len(points), at)
	}
	best := score{x.limit - x.fixed(x.node), math.MaxInt64, math.MaxInt64}
	missing := make([]int64, len(x.dims))
	a = -1
	for k := range starts {
		for d, j := range x.dims {
			missing[d] = x.dual.goal[j] - starts[k].goods[d]
		}
		dear, _ := slices.BinarySearch(costs, best.cost-starts[k].score.cost+1)
		at := f.first(0, 0, len(points), missing, dear)
		if at == dear {
			continue
		}
		if sc := starts[k].score.plus(ends[order[at]].score); sc.compare(best) < 0 {
			best, a, b = sc, k, order[at]
		}
	}
	x.steps += f.looked / 4
	return a, b
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

// trace writes down what part p of the last of some stages is made of.
func trace(stages []stage, p int, counts [][]int64) {
	for k := len(stages) - 1; k >= 0; k-- {
		e := stages[k].parts[p]
		counts[stages[k].need] = stages[k].ways[e.way].counts
		p = int(e.before)
	}
}
