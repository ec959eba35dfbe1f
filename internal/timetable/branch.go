package timetable

import (
	"context"
	"slices"
)

// MaxSearchTasks is up to how many tasks the complete search is tried.
const MaxSearchTasks = 64

// maxDepth bounds the memory of the complete search.
const maxDepth = 400

// none is "no path" among distances.
const none = -never

// branch is a depth-first search that is complete. At each node all tasks stand at their earliest starts; without an overload
// that is the best schedule of the node. Otherwise a smallest set of tasks is taken that together overload a resource. If they
// never fit together, one of them must end its use before another begins (De Reyck and Herroelen 1998, with the alternatives
// made to exclude each other). If only the calendar is too low just then, one of them must begin after the overlap, because no
// task of the node can move earlier. No dominance rule is used: most are false with maximum lags and calendars.
type branch struct {
	ctx    context.Context
	m      *model
	n      int
	limit  int // minute by which everything must end
	budget int
	nodes  int
	cut    bool       // budget, depth or context ended the search
	uses   [][]demand // of each resource
	frames []*frame
	found  func(start []int, end int)
}

// frame is a node: all-pairs longest paths and the windows that go with them.
type frame struct{ dist, lo, hi []int }

// demand is one use of an overload set.
type demand struct {
	task int
	seg
}

func newBranch(ctx context.Context, r root, budget int) *branch {
	n := len(r.fwd.dur)
	b := &branch{ctx: ctx, m: r.fwd, n: n, limit: r.fwd.horizon, budget: budget, uses: r.fwd.usesOf()}
	f := b.frame(0)
	copy(f.lo, r.fwd.lo)
	copy(f.hi, r.fwd.hi)
	for k := range f.dist {
		f.dist[k] = none
	}
	for i := range n {
		f.dist[i*n+i] = 0
	}
	for i, arcs := range r.fwd.out {
		for _, a := range arcs {
			b.tie(f, i, a.task, a.min)
		}
	}
	return b
}

func (b *branch) frame(depth int) *frame {
	if depth == len(b.frames) {
		b.frames = append(b.frames, &frame{make([]int, b.n*b.n), make([]int, b.n), make([]int, b.n)})
	}
	return b.frames[depth]
}

// run searches everything that ends by the limit; false when it was cut short.
func (b *branch) run() (done bool) {
	b.visit(0)
	return !b.cut
}

func (b *branch) visit(depth int) {
	if b.nodes++; b.nodes > b.budget || depth >= maxDepth || b.nodes%64 == 0 && b.ctx.Err() != nil {
		b.cut = true
		return
	}
	f := b.frame(depth)
	if !b.tighten(f) {
		return
	}
	set, clear := b.overload(f)
	if set == nil {
		end := b.m.endOf(f.lo)
		b.limit = end - 1
		b.found(f.lo, end)
		return
	}
	need := 0
	for _, d := range set {
		need += d.amount
	}
	if need > b.m.peak[set[0].res] {
		b.order(depth, set)
	} else {
		b.delay(depth, set, clear)
	}
}

// order branches on which use of the set ends before which other begins.
func (b *branch) order(depth int, set []demand) {
	f := b.frame(depth)
	type pair struct{ first, then demand }
	var pairs []pair
	for _, u := range set {
		for _, v := range set {
			if u.task != v.task {
				pairs = append(pairs, pair{u, v})
			}
		}
	}
	pushed := func(p pair) int { return f.lo[p.first.task] + p.first.to - p.then.from - f.lo[p.then.task] }
	slices.SortStableFunc(pairs, func(p, q pair) int { return pushed(p) - pushed(q) })
	for k, p := range pairs {
		if b.cut {
			return
		}
		g := b.copied(f, depth+1)
		ok := b.tie(g, p.first.task, p.then.task, p.first.to-p.then.from)
		for _, q := range pairs[:k] { // the earlier branches have had these
			ok = ok && b.tie(g, q.then.task, q.first.task, q.then.from-q.first.to+1)
		}
		if ok {
			b.visit(depth + 1)
		}
	}
}

// delay branches on which use of the set begins at minute clear or later.
func (b *branch) delay(depth int, set []demand, clear int) {
	f := b.frame(depth)
	for k, u := range set {
		if b.cut {
			return
		}
		g := b.copied(f, depth+1)
		g.lo[u.task] = max(g.lo[u.task], clear-u.from)
		for _, v := range set[:k] {
			g.hi[v.task] = min(g.hi[v.task], clear-1-v.from)
		}
		b.visit(depth + 1)
	}
}

func (b *branch) copied(f *frame, depth int) *frame {
	g := b.frame(depth)
	copy(g.dist, f.dist)
	copy(g.lo, f.lo)
	copy(g.hi, f.hi)
	return g
}

// tie adds start[j] - start[i] >= gap; false when that contradicts.
func (b *branch) tie(f *frame, i, j, gap int) bool {
	n := b.n
	if f.dist[j*n+i] > none && f.dist[j*n+i]+gap > 0 {
		return false
	}
	if f.dist[i*n+j] >= gap {
		return true
	}
	for u := range n {
		if f.dist[u*n+i] == none {
			continue
		}
		to := f.dist[u*n+i] + gap
		for v := range n {
			if past := f.dist[j*n+v]; past > none && to+past > f.dist[u*n+v] {
				f.dist[u*n+v] = to + past
			}
		}
	}
	return true
}

// tighten carries windows along all paths and over the calendar; false when a task is left no start.
func (b *branch) tighten(f *frame) bool {
	n := b.n
	for i := range n {
		f.hi[i] = min(f.hi[i], b.limit-b.m.dur[i])
	}
	for moved := true; moved; {
		moved = false
		for i := range n {
			for j, d := range f.dist[i*n : i*n+n] {
				if d > none {
					f.lo[j] = max(f.lo[j], f.lo[i]+d)
					f.hi[i] = min(f.hi[i], f.hi[j]-d)
				}
			}
		}
		for i := range n {
			if f.lo[i] > f.hi[i] {
				return false
			}
			if t := b.m.fit(b.m.caps, i, f.lo[i]); t > f.lo[i] {
				f.lo[i], moved = t, true
			}
		}
	}
	return true
}

// overload finds the first minute at which tasks at their earliest starts need too much, a smallest set of uses that do, and the
// first minute after at which that set is apart or fits. Without an overload the set is nil.
func (b *branch) overload(f *frame) (set []demand, clear int) {
	first := never
	for r := range b.m.caps {
		uses := b.uses[r]
		for _, u := range uses {
			for _, t := range b.checkpoints(r, f.lo[u.task]+u.from, f.lo[u.task]+u.to) {
				if t < first {
					if over := tooMuch(f, uses, t, b.m.caps[r]); over != nil {
						first, set = t, over
					}
				}
			}
		}
	}
	if set == nil {
		return nil, 0
	}
	need, clear := 0, never
	for _, u := range set {
		need += u.amount
		clear = min(clear, f.lo[u.task]+u.to)
	}
	return set, min(clear, b.m.caps[set[0].res].fit(first, 1, need))
}

// usesOf lists the uses of each resource, greatest amount first.
func (m *model) usesOf() [][]demand {
	uses := make([][]demand, len(m.caps))
	for i, segs := range m.segs {
		for _, s := range segs {
			uses[s.res] = append(uses[s.res], demand{i, s})
		}
	}
	for _, list := range uses {
		slices.SortStableFunc(list, func(u, v demand) int { return v.amount - u.amount })
	}
	return uses
}

// checkpoints are the minutes from a up to b at which load may exceed capacity first: a itself and the calendar's steps.
func (b *branch) checkpoints(res, from, to int) []int {
	c := b.m.caps[res]
	points := []int{from}
	for k := c.index(from) + 1; k < len(c.at) && c.at[k] < to; k++ {
		points = append(points, c.at[k])
	}
	return points
}

// tooMuch is a smallest set of the uses, greatest first, that overloads the resource at minute t, or nil.
func tooMuch(f *frame, uses []demand, t int, c profile) []demand {
	var set []demand
	room := c.free[c.index(t)]
	for _, u := range uses {
		if at := f.lo[u.task]; at+u.from <= t && t < at+u.to {
			set = append(set, u)
			if room -= u.amount; room < 0 {
				return set
			}
		}
	}
	return nil
}
