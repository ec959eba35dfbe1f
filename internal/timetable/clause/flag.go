package clause

// A flag is a variable from 0 to 1. What hangs on it counts when it is 1, and where that cannot be, the flag is put to 0.

// gap is an Arc that hangs on a flag.
type gap struct{ from, to, min, flag int32 }

func gapsOf(p Problem) []gap {
	var gaps []gap
	for _, a := range p.Arcs {
		if a.If > 0 {
			gaps = append(gaps, gap{int32(a.From), int32(a.To), int32(a.Min), int32(a.If - 1)})
		}
	}
	return gaps
}

// flagged keeps a gap whose flag is 1, or takes away the flag of one that cannot be kept.
func (s *Search) flagged(g gap) bool {
	if s.may(g.flag) && s.at[2*g.from]+g.min > s.highest(g.to) {
		from := int32(len(s.why))
		s.why = s.because(s.because(s.why, 2*g.from, s.highest(g.to)+1-g.min), 2*g.to+1, -s.highest(g.to))
		if !s.conclude(2*g.flag+1, 0, byReasons, from, int32(len(s.why))-from) {
			return false
		}
	}
	return !s.has(g.flag) || s.carry(g, 2*g.from, 2*g.to) && s.carry(g, 2*g.to+1, 2*g.from+1)
}

// carry raises one side by the gap from another.
func (s *Search) carry(g gap, here, there int32) bool {
	if s.at[here]+g.min <= s.at[there] {
		return true
	}
	from := int32(len(s.why))
	s.why = s.because(s.because(s.why, here, s.at[here]), 2*g.flag, 1)
	return s.conclude(there, s.at[here]+g.min, byReasons, from, int32(len(s.why))-from)
}

// has tells whether a flag is 1; flag -1 always is.
func (s *Search) has(flag int32) bool { return flag < 0 || s.at[2*flag] >= 1 }

// may tells whether a flag may be 1.
func (s *Search) may(flag int32) bool { return flag < 0 || s.at[2*flag+1] < 0 }

// becauseOf adds that a flag is 1.
func (s *Search) becauseOf(to []lit, flag int32) []lit {
	if flag < 0 {
		return to
	}
	return s.because(to, 2*flag, 1)
}

// drop takes away the flag of a use that finds no room where it would surely be held.
func (s *Search) drop(r *resource, n int) bool {
	u := &r.uses[n]
	begin, end := u.from-s.at[2*u.x+1], s.at[2*u.y]+u.to // held from begin to end if at all
	if begin >= end {
		return true
	}
	for k := r.plateauAt(begin); k < len(r.profile) && r.profile[k].from < end; k++ {
		if k+1 < len(r.profile) && r.profile[k+1].from <= begin || !r.over(k, u) {
			continue
		}
		p := max(begin, r.profile[k].from)
		from := int32(len(s.why))
		s.why = s.because(s.because(s.why, 2*u.y, p-u.to+1), 2*u.x+1, u.from-p)
		s.why = s.holders(s.why, r, p, n, r.capacity-u.amount)
		return s.conclude(2*u.flag+1, 0, byReasons, from, int32(len(s.why))-from)
	}
	return true
}
