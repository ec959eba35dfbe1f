package clause

import "slices"

// Clauses lie one after another in one arena: length, levels (how many decisions it spans), then its literals, of which the first
// two are watched.
const head = 2

// watch waits for a literal of a clause to become false; other is a literal of it that may spare the look.
type watch struct {
	clause int32
	other  lit
}

type clauses struct {
	arena   []int32
	learnt  []int32   // places
	watches [][]watch // of each literal: clauses to look at when it becomes true
}

func (c *clauses) lits(at int32) []lit { return c.arena[at+head : at+head+c.arena[at]] }

func (c *clauses) add(b *bounds, lits []lit, levels int32) int32 {
	at := c.write(lits, levels)
	c.learnt = append(c.learnt, at)
	c.attach(b, at)
	return at
}

func (c *clauses) write(lits []lit, levels int32) int32 {
	at := int32(len(c.arena))
	c.arena = append(append(c.arena, int32(len(lits)), levels), lits...)
	return at
}

func (c *clauses) attach(b *bounds, at int32) {
	l := c.lits(at)
	c.watches[b.not(l[0])] = append(c.watches[b.not(l[0])], watch{at, l[1]})
	c.watches[b.not(l[1])] = append(c.watches[b.not(l[1])], watch{at, l[0]})
}

// forget drops clauses that hold at the root and about half of those that span many decisions, older ones first. Only at level 0.
func (c *clauses) forget(b *bounds) {
	var spans []int32
	for _, at := range c.learnt {
		spans = append(spans, c.arena[at+1])
	}
	slices.Sort(spans)
	limit := max(3, spans[len(spans)/2])
	old := clauses{arena: c.arena, learnt: c.learnt}
	c.arena, c.learnt = make([]int32, 0, len(old.arena)), nil
	for k := range c.watches {
		c.watches[k] = c.watches[k][:0]
	}
	young := len(old.learnt) * 9 / 10
	for k, at := range old.learnt {
		lits := old.lits(at)
		if slices.ContainsFunc(lits, b.isTrue) || old.arena[at+1] >= limit && limit > 3 && k < young {
			continue
		}
		c.add(b, lits, old.arena[at+1])
	}
}

// wake looks at the clauses that wait for literal l, which has become true. It returns a clause that is false, or -1.
func (s *Search) wake(l lit) int32 {
	list := s.watches[l]
	kept := list[:0]
	gone := s.not(l)
	for k, w := range list {
		if s.isTrue(w.other) {
			kept = append(kept, w)
			continue
		}
		lits := s.lits(w.clause)
		if lits[0] == gone {
			lits[0], lits[1] = lits[1], gone
		}
		if lits[0] != w.other && s.isTrue(lits[0]) {
			kept = append(kept, watch{w.clause, lits[0]})
			continue
		}
		if s.rewatch(lits, w.clause) {
			continue
		}
		kept = append(kept, watch{w.clause, lits[0]})
		if s.isFalse(lits[0]) {
			kept = append(kept, list[k+1:]...)
			s.watches[l] = kept
			return w.clause
		}
		side, v := s.value(lits[0])
		s.raise(side, v, byClause, w.clause, 0)
	}
	s.watches[l] = kept
	return -1
}

// rewatch finds another literal to watch instead of the second.
func (s *Search) rewatch(lits []lit, at int32) bool {
	for k := 2; k < len(lits); k++ {
		if !s.isFalse(lits[k]) {
			lits[1], lits[k] = lits[k], lits[1]
			n := s.not(lits[1])
			s.watches[n] = append(s.watches[n], watch{at, lits[0]})
			return true
		}
	}
	return false
}
