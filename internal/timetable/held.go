package timetable

import "slices"

// Holds and changeovers while a schedule is built. What is held until a task that is not placed yet counts as held to the horizon:
// nothing else can come between. When that task is placed the rest is given back.

// stay is a time for which a task has the one unit of a resource.
type stay struct{ task, from, to int }

// extent is from when to when hold h is held as things stand; nothing when its first task is not placed.
func (d *decoder) extent(h hold) (from, to int) {
	if !d.placed[h.a] {
		return 0, 0
	}
	from, to = d.start[h.a]+h.from, d.m.horizon
	if d.placed[h.b] {
		to = d.start[h.b] + h.to
	}
	return max(0, from), to
}

// take counts hold h as held (sign 1) or not (-1).
func (d *decoder) take(h hold, sign int) {
	if from, to := d.extent(h); from < to {
		d.free[h.res].take(from, to, sign*h.amount)
		if sign > 0 {
			d.note(h.res, stay{h.owner, from, to})
		} else {
			d.forget(h.res, stay{h.owner, from, to})
		}
	}
}

// holds adds what is held from or until task i, which has just been placed. Where that is more than there is, the task is lifted again
// and false returned.
func (d *decoder) holds(i int) bool {
	opens, closes := d.m.opens[i], d.m.closes[i]
	if len(opens)+len(closes) == 0 {
		return true
	}
	ended := false
	for _, h := range closes {
		if h.a != i && d.placed[h.a] {
			d.placed[i] = false
			d.take(h, -1)
			d.placed[i] = true
			d.take(h, 1)
			d.open--
			ended = true
		}
	}
	for _, h := range opens {
		d.take(h, 1)
		if !d.placed[h.b] {
			d.open++
		}
	}
	if d.roomFor(opens) && d.roomFor(closes) && d.apart(i) {
		d.closed = d.closed || ended
		return true
	}
	d.lift(i)
	return false
}

// dropHolds takes off what is held from or until task i, which is about to be lifted.
func (d *decoder) dropHolds(i int) {
	for _, h := range d.m.opens[i] {
		d.take(h, -1)
		if !d.placed[h.b] {
			d.open--
		}
	}
	for _, h := range d.m.closes[i] {
		if h.a != i && d.placed[h.a] {
			d.take(h, -1)
			d.placed[i] = false
			d.take(h, 1)
			d.placed[i] = true
			d.open++
		}
	}
}

func (d *decoder) roomFor(holds []hold) bool {
	for _, h := range holds {
		if from, to := d.extent(h); from < to && d.free[h.res].fit(from, to-from, 0) != from {
			return false
		}
	}
	return true
}

// apart tells whether what task i, just placed, uses, holds and ends the holding of keeps its changeovers.
func (d *decoder) apart(i int) bool {
	if !d.m.changes {
		return true
	}
	return !slices.ContainsFunc(d.m.segs[i], func(s seg) bool {
		from := d.start[i] + s.from
		return d.clearOf(i, s.res, from, d.start[i]+s.to) > from
	}) && d.holdsApart(d.m.opens[i]) && d.holdsApart(d.m.closes[i])
}

func (d *decoder) holdsApart(holds []hold) bool {
	return !slices.ContainsFunc(holds, func(h hold) bool {
		from, to := d.extent(h)
		return from < to && d.clearOf(h.owner, h.res, from, to) > from
	})
}

// fit is the first start of task i from t on with room for its uses, for what it holds, and for changeovers; or never.
func (d *decoder) fit(i, t int) int {
	if len(d.m.opens[i])+len(d.m.closes[i]) == 0 && !d.m.changes {
		return d.m.fit(d.free, i, t)
	}
	d.until(i, -1)
	for {
		at := d.m.fit(d.free, i, t)
		if at != never {
			at = d.afterChangeovers(i, d.holdable(i, at))
		}
		if at == never || at == t {
			t = at
			break
		}
		t = at
	}
	d.until(i, 1)
	return t
}

// until gives back, or takes again, what is held until task i: its own uses may follow there.
func (d *decoder) until(i, sign int) {
	for _, h := range d.m.closes[i] {
		if h.a != i {
			d.take(h, sign)
		}
	}
}

// holdable is the first start of task i from t on at which all that it holds is free until it is emptied, or never.
func (d *decoder) holdable(i, t int) int {
	for _, h := range d.m.opens[i] {
		to := d.m.horizon
		if d.placed[h.b] {
			to = d.start[h.b] + h.to
		}
		at := d.free[h.res].freeUntil(max(0, t+h.from), to, h.amount)
		if at >= to && !d.placed[h.b] {
			return never
		}
		t = max(t, at-h.from)
	}
	return t
}

// freeUntil is the first minute from t on from which need units stay free up to minute to, at the latest to itself.
func (p *profile) freeUntil(t, to, need int) int {
	if t >= to {
		return t
	}
	for k := p.index(to - 1); k >= 0; k-- {
		if p.free[k] < need {
			if k+1 < len(p.at) {
				return max(t, min(to, p.at[k+1]))
			}
			return to
		}
		if p.at[k] <= t {
			break
		}
	}
	return t
}

// note remembers a stay on a resource with changeovers.
func (d *decoder) note(res int, s stay) {
	if d.m.change[res] != nil && s.from < s.to {
		d.stays[res] = append(d.stays[res], s)
	}
}

func (d *decoder) forget(res int, s stay) {
	if k := slices.Index(d.stays[res], s); k >= 0 {
		d.stays[res] = slices.Delete(d.stays[res], k, k+1)
	}
}

// afterChangeovers is the first start of task i from t on that leaves time for the changeovers to and from what is placed.
func (d *decoder) afterChangeovers(i, t int) int {
	if !d.m.changes || t == never {
		return t
	}
	for moved := true; moved; {
		moved = false
		for _, s := range d.m.segs[i] {
			if at := d.clearOf(i, s.res, t+s.from, t+s.to); at > t+s.from {
				t, moved = at-s.from, true
			}
		}
		for _, h := range d.m.opens[i] {
			to := d.m.horizon
			if d.placed[h.b] {
				to = d.start[h.b] + h.to
			}
			if at := d.clearOf(h.owner, h.res, t+h.from, to); t+h.from < to && at > t+h.from {
				t, moved = at-h.from, true
			}
		}
		if t >= d.m.horizon {
			return never
		}
	}
	return t
}

// clearOf is the first minute from which on a stay of task i on a resource from minute from to minute to keeps its changeovers, as
// far as one look at what is placed tells; from itself when it keeps them all.
func (d *decoder) clearOf(i, res, from, to int) int {
	change := d.m.change[res]
	if change == nil {
		return from
	}
	at := from
	for _, s := range d.stays[res] {
		before, after := change[d.m.family[s.task]][d.m.family[i]], change[d.m.family[i]][d.m.family[s.task]]
		if s.task != i && at < s.to+before && s.from < to+(at-from)+after {
			at = s.to + before
		}
	}
	return at
}
