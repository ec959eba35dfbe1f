package timetable

import "slices"

// cause says what last raised a start: the lag from task from, or nothing (-1); held, when at least 0, is the resource whose
// calendar then pushed it on.
type cause struct{ from, lag, held int }

// longest are the least starts from the given ones on under the lags alone (Bellman and Ford, with a queue). If the lags have a
// positive circle it is returned instead, in its order.
func (m *model) longest(from []int) (start []int, why []cause, circle []int) {
	n := len(m.dur)
	start = slices.Clone(from)
	why = noCauses(n)
	q := newQueue(n)
	raised := 0
	for i, ok := q.pop(); ok; i, ok = q.pop() {
		for _, a := range m.out[i] {
			if start[i]+a.min <= start[a.task] {
				continue
			}
			start[a.task], why[a.task] = start[i]+a.min, cause{i, a.lag, -1}
			q.push(a.task)
			// A circle of causes is a positive circle, and one must appear if there is one; a look every n raises is cheap enough.
			if raised++; raised%n == 0 || a.task == i {
				if circle = circleOf(why); circle != nil {
					return nil, nil, circle
				}
			}
		}
	}
	return start, why, nil
}

func noCauses(n int) []cause {
	why := make([]cause, n)
	for i := range why {
		why[i] = cause{-1, -1, -1}
	}
	return why
}

// circleOf finds a circle among the causes, as lags in order, or nil.
func circleOf(why []cause) []int {
	mark := make([]int, len(why))
	for i := range why {
		v := i
		for v >= 0 && mark[v] == 0 {
			mark[v] = i + 1
			v = why[v].from
		}
		if v < 0 || mark[v] != i+1 {
			continue
		}
		lags := []int{why[v].lag}
		for w := why[v].from; w != v; w = why[w].from {
			lags = append(lags, why[w].lag)
		}
		slices.Reverse(lags)
		return lags
	}
	return nil
}

// queue is a first-in first-out list in which each task waits at most once.
type queue struct {
	ring    []int
	waiting []bool
	head, n int
}

func newQueue(n int) *queue {
	q := &queue{ring: make([]int, n), waiting: make([]bool, n), n: n}
	for i := range n {
		q.ring[i], q.waiting[i] = i, true
	}
	return q
}

func (q *queue) push(i int) {
	if !q.waiting[i] {
		q.waiting[i] = true
		q.ring[(q.head+q.n)%len(q.ring)] = i
		q.n++
	}
}

func (q *queue) pop() (int, bool) {
	if q.n == 0 {
		return 0, false
	}
	i := q.ring[q.head]
	q.head = (q.head + 1) % len(q.ring)
	q.n--
	q.waiting[i] = false
	return i, true
}

// earliest are the least starts under lags, given first starts and calendars, other tasks' demand aside. It
// returns a task that this pushes past its last start, or -1.
func (m *model) earliest(start []int, why []cause) (late int) {
	q := newQueue(len(m.dur))
	for i, ok := q.pop(); ok; i, ok = q.pop() {
		if t := m.fit(m.caps, i, start[i]); t > start[i] {
			why[i].held = m.heldBy(i, start[i])
			if t == never {
				return i
			}
			start[i] = t
		}
		if start[i] > m.due[i] {
			return i
		}
		for _, a := range m.out[i] {
			if start[i]+a.min > start[a.task] {
				start[a.task], why[a.task] = start[i]+a.min, cause{i, a.lag, -1}
				q.push(a.task)
			}
		}
	}
	return -1
}

// heldBy is a resource whose calendar does not take task i at minute t.
func (m *model) heldBy(i, t int) int {
	for _, s := range m.segs[i] {
		if m.caps[s.res].fit(t+s.from, s.to-s.from, s.amount) > t+s.from {
			return s.res
		}
	}
	return -1
}

// chain follows the causes back from task i: tasks and lags in the order of time.
func chain(why []cause, i int) (tasks, lags []int) {
	seen := map[int]bool{}
	for i >= 0 && !seen[i] {
		seen[i] = true
		tasks = append(tasks, i)
		if why[i].lag >= 0 {
			lags = append(lags, why[i].lag)
		}
		i = why[i].from
	}
	slices.Reverse(tasks)
	slices.Reverse(lags)
	return tasks, lags
}

// root is what is known before any schedule: both directions of the problem with tightened windows, and tails.
type root struct {
	fwd, back *model
	tail      []int // minutes from a task's start to the end of the last task, at least
	why       []cause
	lags      int     // how many
	given     Problem // with its choices
}

// newRoot tightens the windows, or returns what clashes.
func newRoot(p Problem) (root, Core) {
	m := compile(p.relaxed())
	w := m.mirror()
	start, why, circle := m.longest(m.rel)
	if circle != nil {
		return root{}, Core{Kind: LagCycle, Tasks: p.ends(circle), Lags: circle}
	}
	for i := range m.dur {
		if r := m.neverHolds(i); r >= 0 {
			return root{}, Core{Kind: NoRoom, Tasks: []int{i}, Resource: r, From: m.rel[i], To: m.due[i]}
		}
	}
	if late := m.earliest(start, why); late >= 0 {
		return root{}, lateCore(why, late, nil)
	}
	back, backWhy, _ := w.longest(w.rel)
	if late := w.earliest(back, backWhy); late >= 0 {
		return root{}, lateCore(noCauses(len(m.dur)), late, backWhy)
	}
	r := root{fwd: m, back: w, why: why, lags: len(p.Lags), given: p}
	m.lo, w.lo = start, back
	m.hi, w.hi = make([]int, len(start)), make([]int, len(start))
	for i := range start {
		m.hi[i], w.hi[i] = m.flip(i, back[i]), m.flip(i, start[i])
		if m.hi[i] < m.lo[i] {
			return root{}, lateCore(why, i, backWhy)
		}
	}
	r.tail, _, _ = w.longest(make([]int, len(start)))
	for i := range r.tail {
		r.tail[i] += m.dur[i]
	}
	return r, Core{}
}

// neverHolds is a resource that keeps task i from every start of its own window, or -1.
func (m *model) neverHolds(i int) int {
	if m.rel[i] > m.due[i] || m.fit(m.caps, i, m.rel[i]) <= m.due[i] {
		return -1
	}
	return m.heldBy(i, m.rel[i])
}

// lateCore joins the chain that pushes task i late and the chain that wants it early.
func lateCore(why []cause, i int, backWhy []cause) Core {
	tasks, lags := chain(why, i)
	late := len(tasks) - 1
	if backWhy != nil {
		after, afterLags := chain(backWhy, i)
		slices.Reverse(after)
		slices.Reverse(afterLags)
		tasks, lags = append(tasks, after[1:]...), append(lags, afterLags...)
	}
	return Core{Kind: ChainTooLate, Tasks: tasks, Lags: lags, Late: late}
}
