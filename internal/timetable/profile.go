package timetable

import (
	"math"
	"slices"
)

// never is a minute after everything.
const never = math.MaxInt / 4

// profile is what is free of one resource: free[k] from at[k] up to at[k+1]. at[0] is 0, so minutes before 0 do not exist.
type profile struct{ at, free []int }

func newProfile(steps []Step) profile {
	var p profile
	if len(steps) == 0 || steps[0].From > 0 {
		p.at, p.free = append(p.at, 0), append(p.free, 0)
	}
	for _, s := range steps {
		p.at, p.free = append(p.at, s.From), append(p.free, s.Amount)
	}
	return p
}

// mirrored turns time round at the horizon: minute t becomes horizon-1-t. Outside 0 to horizon nothing is free.
func (p profile) mirrored(horizon int) profile {
	var q profile
	for k := len(p.at) - 1; k >= 0; k-- {
		if p.at[k] >= horizon {
			continue
		}
		from := 0
		if k+1 < len(p.at) {
			from = max(0, horizon-p.at[k+1])
		}
		q.at, q.free = append(q.at, from), append(q.free, p.free[k])
	}
	q.at, q.free = append(q.at, horizon), append(q.free, 0)
	return q
}

// set makes p a copy of q without new memory where it can.
func (p *profile) set(q profile) {
	p.at = append(p.at[:0], q.at...)
	p.free = append(p.free[:0], q.free...)
}

// index is the step that minute t, at least 0, lies in.
func (p *profile) index(t int) int {
	lo, hi := 0, len(p.at)
	for hi-lo > 1 {
		mid := int(uint(lo+hi) >> 1)
		if p.at[mid] <= t {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// fit is the first minute from t on from which need units stay free for length minutes, or never.
func (p *profile) fit(t, length, need int) int {
	for k := p.index(t); k < len(p.at) && p.at[k] < t+length; k++ {
		if p.free[k] >= need {
			continue
		}
		for k < len(p.at) && p.free[k] < need {
			k++
		}
		if k == len(p.at) {
			return never
		}
		t = p.at[k]
	}
	return t
}

// split makes t the start of a step and returns its place.
func (p *profile) split(t int) int {
	k := p.index(t)
	if p.at[k] == t {
		return k
	}
	p.at = slices.Insert(p.at, k+1, t)
	p.free = slices.Insert(p.free, k+1, p.free[k])
	return k + 1
}

// take lowers what is free from minute a up to b; a negative amount gives it back.
func (p *profile) take(a, b, amount int) {
	from := p.split(a)
	to := p.split(b)
	for k := from; k < to; k++ {
		p.free[k] -= amount
	}
}

// done is the minute by which work unit-minutes are through when all units work on nothing else from minute t on, or never.
func (p *profile) done(t, work int) int {
	for k := p.index(t); k < len(p.at); k++ {
		t = max(t, p.at[k])
		if work <= 0 {
			return t
		}
		free := p.free[k]
		if k+1 == len(p.at) {
			if free == 0 {
				return never
			}
			return t + (work+free-1)/free
		}
		if room := (p.at[k+1] - t) * free; room >= work {
			return t + (work+free-1)/free
		} else {
			work -= room
		}
	}
	return never
}
