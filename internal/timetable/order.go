package timetable

import (
	"math"
	"slices"
)

// order is what a schedule settles: of each two stays on a resource that do not overlap, which comes first. Every choice of starts that
// keeps the lags, the windows and this order keeps the capacities too: stays that may overlap then are those that overlap now, each with
// each, so that they share a minute (Helly's theorem on a line), and there they fit.
type order struct {
	out, in [][]arc
	lo, hi  []int
}

// placedStay is a stay on a resource: from a minute of one task until a minute of another, and when that is in the schedule.
type placedStay struct{ a, from, b, to, begin, end, family, owner int }

// orderOf reads the order out of a schedule whose last task is to end by minute most.
func (m *model) orderOf(start []int, most int) order {
	n := len(m.dur)
	o := order{out: make([][]arc, n), in: make([][]arc, n), lo: slices.Clone(m.rel), hi: make([]int, n)}
	for i := range n {
		o.hi[i] = min(m.due[i], most-m.dur[i])
		for _, a := range m.out[i] {
			o.add(i, a.task, a.min)
		}
	}
	for _, holds := range m.opens {
		for _, h := range holds {
			if start[h.a]+h.from >= start[h.b]+h.to { // nothing is held, and that stays so
				o.add(h.b, h.a, h.to-h.from)
			}
		}
	}
	for res := range m.caps {
		stays := m.staysOn(res, start)
		for k, u := range stays {
			o.after(u, stays[k+1:], m.change[res])
			o.aroundAbsence(u, m.caps[res], m.peak[res], m.horizon)
		}
	}
	return o
}

func (o *order) add(from, to, least int) {
	if from != to {
		o.out[from] = append(o.out[from], arc{task: to, min: least})
		o.in[to] = append(o.in[to], arc{task: from, min: least})
	}
}

// staysOn lists the stays on a resource by their begin.
func (m *model) staysOn(res int, start []int) []placedStay {
	var stays []placedStay
	add := func(a, from, b, to, owner int) {
		if s := (placedStay{a, from, b, to, start[a] + from, start[b] + to, m.family[owner], owner}); s.begin < s.end {
			stays = append(stays, s)
		}
	}
	for i, segs := range m.segs {
		for _, s := range segs {
			if s.res == res {
				add(i, s.from, i, s.to, i)
			}
		}
		for _, h := range m.opens[i] {
			if h.res == res {
				add(h.a, h.from, h.b, h.to, h.owner)
			}
		}
	}
	slices.SortStableFunc(stays, func(u, v placedStay) int { return u.begin - v.begin })
	return stays
}

// after keeps stay u before those that begin after its end. One that has another, of fixed length, between follows from that one.
func (o *order) after(u placedStay, later []placedStay, change [][]int) {
	passed := math.MaxInt
	for _, v := range later {
		if v.begin >= passed {
			return
		}
		if v.begin < u.end {
			continue
		}
		gap := 0
		if change != nil && u.owner != v.owner {
			gap = change[u.family][v.family]
		} else if change == nil && v.a == v.b {
			passed = min(passed, v.end)
		}
		o.add(u.b, v.a, u.to-v.from+gap)
	}
}

// aroundAbsence keeps a stay before or after each stretch at which units are away, unless it lies over it.
func (o *order) aroundAbsence(u placedStay, c profile, peak, horizon int) {
	for _, away := range c.taken(peak, horizon) {
		if u.end <= away.From {
			o.hi[u.b] = min(o.hi[u.b], away.From-u.to)
		}
		if u.begin >= away.To {
			o.lo[u.a] = max(o.lo[u.a], away.To-u.from)
		}
	}
}

// latest is how late each task can start in this order.
func (o order) latest() []int {
	late := slices.Clone(o.hi)
	q := newQueue(len(late))
	for i, ok := q.pop(); ok; i, ok = q.pop() {
		for _, a := range o.in[i] {
			if late[i]-a.min < late[a.task] {
				late[a.task] = late[i] - a.min
				q.push(a.task)
			}
		}
	}
	return late
}

// Slack is by how many minutes each task of a schedule can start later, others making way in the same order, without the last task
// ending later. A task without slack is critical. Of a problem with choices the ways must be taken.
func Slack(p Problem, start []int) []int {
	m := compile(p)
	slack := m.orderOf(start, m.endOf(start)).latest()
	for i := range slack {
		slack[i] -= start[i]
	}
	return slack
}

// moved are the starts after task i has been moved by so many minutes and others as far as they must make way; nil when that is
// impossible.
func (o order) moved(start []int, i, by int) []int {
	to := slices.Clone(start)
	to[i] += by
	arcs, sign := o.out, 1
	if by < 0 {
		arcs, sign = o.in, -1
	}
	todo := []int{i}
	for k := 0; k < len(todo); k++ {
		j := todo[k]
		if to[j] < o.lo[j] || to[j] > o.hi[j] || to[i] != start[i]+by {
			return nil
		}
		for _, a := range arcs[j] {
			if need := to[j] + sign*a.min; sign*(need-to[a.task]) > 0 {
				to[a.task] = need
				todo = append(todo, a.task)
			}
		}
	}
	return to
}
