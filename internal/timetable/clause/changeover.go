package clause

// changeovers keeps each two uses of a resource apart by the minutes between their families: when the one cannot come first, the other
// does.
func (s *Search) changeovers(r *resource) bool {
	for a := range r.uses {
		for b := range r.uses {
			if u, v := &r.uses[a], &r.uses[b]; u.owner != v.owner && s.has(u.flag) && s.has(v.flag) && !s.inOrder(r, u, v) {
				return false
			}
		}
	}
	return true
}

// inOrder: when u, with the changeover after it, surely ends too late for v, v comes first: u cannot begin before v has ended, nor v end
// after u has begun.
func (s *Search) inOrder(r *resource, u, v *use) bool {
	free := s.at[2*u.y] + u.to + int32(r.change[u.family][v.family]) // first minute for v after u
	if free <= v.from-s.at[2*v.x+1] || !s.lasts(u) || !s.lasts(v) {
		return true
	}
	before := int32(r.change[v.family][u.family])
	if least := s.at[2*v.y] + v.to + before - u.from; least > s.at[2*u.x] {
		from := s.outOfOrder(u, v, free)
		s.why = s.because(s.why, 2*v.y, s.at[2*v.y])
		if !s.conclude(2*u.x, least, byReasons, from, int32(len(s.why))-from) {
			return false
		}
	}
	if least := s.at[2*u.x+1] - u.from + before + v.to; least > s.at[2*v.y+1] {
		from := s.outOfOrder(u, v, free)
		s.why = s.because(s.why, 2*u.x+1, s.at[2*u.x+1])
		return s.conclude(2*v.y+1, least, byReasons, from, int32(len(s.why))-from)
	}
	return true
}

// lasts tells whether a use surely takes time.
func (s *Search) lasts(u *use) bool {
	if u.x == u.y {
		return u.from < u.to
	}
	return s.at[2*u.y]+u.to > u.from-s.at[2*u.x+1]
}

// outOfOrder writes down why u cannot come before v, which has to begin before minute free, and that both last. It returns where.
func (s *Search) outOfOrder(u, v *use, free int32) (from int32) {
	from = int32(len(s.why))
	s.why = s.because(s.why, 2*u.y, s.at[2*u.y])
	s.why = s.because(s.why, 2*v.x+1, v.from-free+1)
	for _, w := range []*use{u, v} {
		s.why = s.becauseOf(s.why, w.flag)
		if w.x != w.y {
			s.why = s.because(s.why, 2*w.y, s.at[2*w.y])
			s.why = s.because(s.why, 2*w.x+1, s.at[2*w.x+1])
		}
	}
	return from
}
