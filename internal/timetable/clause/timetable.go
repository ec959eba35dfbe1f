package clause

import "slices"

// resource is a Resource with room for its profile: how much is surely held at each minute.
type resource struct {
	capacity int32
	taken    []Taken
	uses     []use
	change   [][]int
	events   []int64   // minute<<32 | change
	profile  []plateau // by minute
}

// use is a Use, and from when to when it is surely held as things stand. It begins from minutes after x and ends to minutes after y, if
// flag, from 0, is 1; flag -1 stands for always.
type use struct {
	x, y, from, to, amount, sureFrom, sureTo, flag int32
	family, owner                                  int
}

// plateau is a stretch from minute from on, up to the next one.
type plateau struct{ from, height int32 }

func newResource(r Resource) resource {
	res := resource{capacity: int32(r.Capacity), taken: r.Taken, change: r.Changeover}
	for _, u := range r.Uses {
		res.uses = append(res.uses, use{x: int32(u.Var), y: int32(u.Until), from: int32(u.From), to: int32(u.To), amount: int32(u.Amount),
			flag: int32(u.If - 1), family: u.Family, owner: u.Owner})
	}
	return res
}

// timetable builds the profile and pushes uses off the stretches where they find no room.
func (s *Search) timetable(r *resource) bool {
	s.build(r)
	most := int32(0)
	for _, p := range r.profile {
		if most = max(most, p.height); p.height > r.capacity {
			s.clash = s.holders(s.clash[:0], r, p.from, -1, r.capacity)
			return false
		}
	}
	for k := range r.uses {
		u := &r.uses[k]
		if u.amount+most <= r.capacity {
			break // the rest ask for no more
		}
		if !s.has(u.flag) {
			if s.may(u.flag) && !s.drop(r, k) {
				return false
			}
			continue
		}
		if s.at[2*u.x] == -s.at[2*u.x+1] && s.at[2*u.y] == -s.at[2*u.y+1] {
			continue
		}
		if !s.pushLater(r, k) || !s.pushEarlier(r, k) {
			return false
		}
	}
	return r.change == nil || s.changeovers(r)
}

func (s *Search) build(r *resource) {
	r.events = r.events[:0]
	add := func(from, to, amount int32) {
		r.events = append(r.events, int64(from)<<32+int64(amount), int64(to)<<32-int64(amount))
	}
	for _, t := range r.taken {
		add(int32(t.From), int32(t.To), int32(t.Amount))
	}
	for k := range r.uses {
		u := &r.uses[k]
		if u.sureFrom, u.sureTo = s.sure(u); u.sureFrom < u.sureTo {
			add(u.sureFrom, u.sureTo, u.amount)
		}
	}
	slices.Sort(r.events)
	r.profile = r.profile[:0]
	height := int32(0)
	for _, e := range r.events {
		change := int32(e) // the low half, with its sign
		at := int32((e - int64(change)) >> 32)
		height += change
		if n := len(r.profile); n > 0 && r.profile[n-1].from == at {
			r.profile[n-1].height = height
		} else {
			r.profile = append(r.profile, plateau{at, height})
		}
	}
}

// sure is from when to when a use is surely held; nothing, as long as it need not be.
func (s *Search) sure(u *use) (from, to int32) {
	if !s.has(u.flag) {
		return 0, 0
	}
	return u.from - s.at[2*u.x+1], s.at[2*u.y] + u.to
}

// over is how high the profile stands on plateau k without use u.
func (r *resource) over(k int, u *use) bool {
	p := r.profile[k]
	if u.sureFrom <= p.from && p.from < u.sureTo {
		return p.height > r.capacity
	}
	return p.height+u.amount > r.capacity
}

// plateauAt is the last plateau that begins at or before minute t, or 0.
func (r *resource) plateauAt(t int32) int {
	lo, hi := 0, len(r.profile)
	for hi-lo > 1 {
		if mid := int(uint(lo+hi) >> 1); r.profile[mid].from <= t {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

func (s *Search) pushLater(r *resource, n int) bool {
	u := &r.uses[n]
	side, end := 2*u.x, 2*u.y
	for k := r.plateauAt(s.at[side] + u.from); k+1 < len(r.profile) && r.profile[k].from < s.at[end]+u.to; k++ {
		for r.profile[k+1].from > s.at[side]+u.from && r.profile[k].from < s.at[end]+u.to && r.over(k, u) {
			p := min(r.profile[k+1].from, s.at[end]+u.to) - 1
			if p < s.at[side]+u.from {
				break
			}
			from := int32(len(s.why))
			s.why = s.becauseOf(s.because(s.why, end, p-u.to+1), u.flag)
			s.why = s.holders(s.why, r, p, n, r.capacity-u.amount)
			if !s.conclude(side, p-u.from+1, byReasons, from, int32(len(s.why))-from) {
				return false
			}
		}
	}
	return true
}

func (s *Search) pushEarlier(r *resource, n int) bool {
	u := &r.uses[n]
	side, begin := 2*u.y+1, 2*u.x+1
	for k := r.plateauAt(u.to - s.at[side] - 1); k >= 0 && k+1 < len(r.profile) && r.profile[k+1].from > u.from-s.at[begin]; k-- {
		for r.profile[k].from < u.to-s.at[side] && r.profile[k+1].from > u.from-s.at[begin] && r.over(k, u) {
			p := max(r.profile[k].from, u.from-s.at[begin])
			if p >= u.to-s.at[side] {
				break
			}
			from := int32(len(s.why))
			s.why = s.becauseOf(s.because(s.why, begin, u.from-p), u.flag)
			s.why = s.holders(s.why, r, p, n, r.capacity-u.amount)
			if !s.conclude(side, u.to-p, byReasons, from, int32(len(s.why))-from) {
				return false
			}
		}
	}
	return true
}

// holders adds why more than room units are held at minute p without use skip: of each holder, that it has begun and not ended.
// Holders that are not needed for it are left out, the last ones to come first.
func (s *Search) holders(to []lit, r *resource, p int32, skip int, room int32) []lit {
	for _, t := range r.taken {
		if int32(t.From) <= p && p < int32(t.To) {
			room -= int32(t.Amount)
		}
	}
	for k := range r.uses {
		if room < 0 {
			break
		}
		if u := &r.uses[k]; k != skip && u.sureFrom <= p && p < u.sureTo {
			to = s.becauseOf(s.because(s.because(to, 2*u.y, p-u.to+1), 2*u.x+1, u.from-p), u.flag)
			room -= u.amount
		}
	}
	return to
}
