package clause

// link carries a raise over: bound[side] >= bound[here] + min.
type link struct{ side, min int32 }

// linksOf turns each arc into a link between the first values and one between the last.
func linksOf(p Problem) [][]link {
	links := make([][]link, 2*len(p.Lo))
	for _, a := range p.Arcs {
		if a.If > 0 {
			continue
		}
		links[2*a.From] = append(links[2*a.From], link{int32(2 * a.To), int32(a.Min)})
		links[2*a.To+1] = append(links[2*a.To+1], link{int32(2*a.From + 1), int32(a.Min)})
	}
	return links
}

// propagate draws all conclusions; false leaves literals in s.clash that are true and cannot all be.
func (s *Search) propagate() bool {
	for {
		for s.done < len(s.trail) {
			e := s.trail[s.done]
			s.done++
			if !s.follow(e.side, e.old, e.new) {
				return false
			}
		}
		r := s.next()
		if r < 0 {
			return true
		}
		if !s.lookAt(int(r)) {
			return false
		}
	}
}

// lookAt draws the conclusions of a resource, a sum or a gap with a flag.
func (s *Search) lookAt(r int) bool {
	if r < len(s.resources) {
		return s.timetable(&s.resources[r])
	}
	if r -= len(s.resources); r < len(s.sums) {
		return s.weigh(&s.sums[r])
	}
	return s.flagged(s.gaps[r-len(s.sums)])
}

// follow draws the conclusions of one raise from gaps and clauses.
func (s *Search) follow(side, old, now int32) bool {
	for _, r := range s.touches[side/2] {
		s.call(r)
	}
	for _, l := range s.links[side] {
		if v := now + l.min; v > s.at[l.side] && !s.conclude(l.side, v, byArc, side, l.min) {
			return false
		}
	}
	from := s.first[side] - s.start[side]
	for l := from + old; l < from+now; l++ {
		if len(s.watches[l]) == 0 {
			continue
		}
		if at := s.wake(l); at >= 0 {
			s.clash = s.clash[:0]
			for _, other := range s.lits(at) {
				s.clash = append(s.clash, s.not(other))
			}
			return false
		}
	}
	return true
}

// conclude raises side to v, or says what clashes: the reasons for the least v that is too much, and the other side.
func (s *Search) conclude(side, v, kind, a, b int32) bool {
	most := -s.at[side^1]
	if v <= most {
		s.raise(side, v, kind, a, b)
		return true
	}
	s.clash = s.clash[:0]
	if kind == byArc {
		s.clash = s.because(s.clash, a, most+1-b)
	} else {
		s.clash = append(s.clash, s.why[a:a+b]...)
	}
	s.clash = s.because(s.clash, side^1, -most)
	return false
}

// because adds the literal (side, v) unless it holds at the root.
func (s *Search) because(to []lit, side, v int32) []lit {
	if v <= s.root[side] {
		return to
	}
	return append(to, s.lit(side, v))
}

// call has a resource, a sum or a gap looked at.
func (s *Search) call(r int32) {
	if !s.waiting[r] {
		s.waiting[r] = true
		s.queue = append(s.queue, r)
	}
}

func (s *Search) next() int32 {
	if len(s.queue) == 0 {
		return -1
	}
	r := s.queue[0]
	s.queue = s.queue[:copy(s.queue, s.queue[1:])]
	s.waiting[r] = false
	return r
}

func (s *Search) clearQueue() {
	for _, r := range s.queue {
		s.waiting[r] = false
	}
	s.queue, s.done = s.queue[:0], len(s.trail)
}
