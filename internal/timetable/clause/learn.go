package clause

import "slices"

// study finds, for literals that are true and clash, the clause to learn (first unique implication point: Marques-Silva and
// Sakallah 1999; Moskewicz and others 2001) and the level to go back to. The first literal of the clause is the one that follows there.
func (s *Search) study(clash []lit) (learnt []lit, to int32) {
	s.lower = s.lower[:0]
	open := s.meet(clash)
	k := len(s.trail) - 1
	for ; ; k-- {
		e := &s.trail[k]
		if !e.seen {
			continue
		}
		if open == 1 {
			break
		}
		e.seen = false
		open += s.meet(s.reason(e, e.need)) - 1
	}
	uip := &s.trail[k]
	// First what follows from the others, then what is weaker than another of its side: the other way round the two could lean on
	// each other and both be left out.
	s.lower = slices.DeleteFunc(s.lower, func(k int32) bool { return s.implied(&s.trail[k]) })
	s.lower = s.strongest(s.lower, uip.side)
	s.learnt = append(s.learnt[:0], s.lit(uip.side^1, 1-uip.need))
	deepest := 0
	for _, k := range s.lower {
		e := &s.trail[k]
		s.learnt = append(s.learnt, s.lit(e.side^1, 1-e.need))
		if e.level > to {
			to, deepest = e.level, len(s.learnt)-1
		}
	}
	if deepest > 0 {
		s.learnt[1], s.learnt[deepest] = s.learnt[deepest], s.learnt[1]
	}
	uip.seen = false
	for _, k := range s.met {
		s.trail[k].seen = false
	}
	s.met = s.met[:0]
	return s.learnt, to
}

// meet marks the steps behind the literals and returns how many new ones are of this level.
func (s *Search) meet(lits []lit) (open int) {
	for _, l := range lits {
		side, v := s.value(l)
		if v <= s.root[side] {
			continue
		}
		k := s.stepOf(side, v)
		e := &s.trail[k]
		s.rank.bump(s.question(l))
		if e.seen {
			e.need = max(e.need, v)
			continue
		}
		e.seen, e.need = true, v
		if e.level == s.level() {
			open++
		} else {
			s.lower, s.met = append(s.lower, k), append(s.met, k)
		}
	}
	return open
}

// reason is why step e came at least as far as v.
func (s *Search) reason(e *step, v int32) []lit {
	s.reasons = s.reasons[:0]
	switch e.kind {
	case byClause:
		for _, l := range s.lits(e.a)[1:] {
			s.reasons = append(s.reasons, s.not(l))
		}
	case byArc:
		s.reasons = s.because(s.reasons, e.a, v-e.b)
	case byReasons:
		s.reasons = append(s.reasons, s.why[e.a:e.a+e.b]...)
	}
	return s.reasons
}

// strongest keeps of the steps of one side the last, which implies the others; all of side aside are implied by something later.
func (s *Search) strongest(steps []int32, aside int32) []int32 {
	slices.Sort(steps)
	for _, k := range steps {
		s.top[s.trail[k].side] = k
	}
	s.top[aside] = -1
	return slices.DeleteFunc(steps, func(k int32) bool { return s.top[s.trail[k].side] != k })
}

// implied tells that the reasons of a step are all among what was met, so that it need not be in the clause.
func (s *Search) implied(e *step) bool {
	if e.kind == decided {
		return false
	}
	for _, l := range s.reason(e, e.need) {
		side, v := s.value(l)
		if v <= s.root[side] {
			continue
		}
		if f := &s.trail[s.stepOf(side, v)]; !f.seen || f.need < v {
			return false
		}
	}
	return true
}

// span is how many levels the clause spans, before going back.
func (s *Search) span(learnt []lit) int32 {
	s.stamp++
	n := int32(0)
	for _, l := range learnt {
		side, v := s.value(s.not(l))
		if at := s.trail[s.stepOf(side, v)].level; s.stamps[at] != s.stamp {
			s.stamps[at] = s.stamp
			n++
		}
	}
	return n
}
