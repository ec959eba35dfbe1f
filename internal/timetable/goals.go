package timetable

import "kettlefrost/internal/timetable/clause"

// GoalResult is how well a schedule does by one goal.
type GoalResult struct {
	Value int
	Bound int // no schedule that is as good by the goals before comes lower
}

// Optimal tells that nothing better exists.
func (g GoalResult) Optimal() bool { return g.Value == g.Bound }

// cost is what a goal with terms comes to.
func (g Goal) cost(start []int) int {
	cost := 0
	for _, t := range g.Terms {
		cost += t.Weight * max(0, at(start, t.To)-at(start, t.From)-t.Min)
	}
	return cost
}

func at(start []int, i int) int {
	if i < 0 {
		return 0
	}
	return start[i]
}

// within is what the goals before leave: an end by minute most, and sums.
type within struct {
	most  int
	goals []Goal
	value []int // that each of goals may have
}

func (w within) allows(start []int) bool {
	for k, g := range w.goals {
		if g.cost(start) > w.value[k] {
			return false
		}
	}
	return true
}

func (w within) sums() (sums []clause.Sum) {
	for k, g := range w.goals {
		sums = append(sums, g.sum(-1, w.value[k]))
	}
	return sums
}

func (g Goal) sum(total, most int) clause.Sum {
	s := clause.Sum{Total: total, Most: most}
	for _, t := range g.Terms {
		s.Terms = append(s.Terms, clause.Term{From: max(-1, t.From), To: max(-1, t.To), Min: t.Min, Weight: t.Weight})
	}
	return s
}

// pursue makes one goal after another small, the ones before kept within what they reached and give.
func (s *search) pursue(goals []Goal) {
	if len(goals) == 0 {
		return
	}
	w := within{most: s.root.fwd.horizon}
	s.res.Status = Optimal
	for k, g := range goals {
		got := GoalResult{s.res.End, s.res.Bound}
		if k > 0 || len(g.Terms) > 0 {
			got = s.improve(g, w)
		}
		if s.res.Goals = append(s.res.Goals, got); !got.Optimal() {
			s.res.Status = Feasible
		}
		if len(g.Terms) == 0 {
			w.most = min(w.most, got.Value+g.Give)
			continue
		}
		w.goals, w.value = append(w.goals, g), append(w.value, got.Value+g.Give)
	}
}

// repair sets out from a schedule that is near to one that is not allowed any more; false when it finds none.
func (s *search) repair(near []int) bool {
	if len(near) != len(s.floor) || !s.ready() {
		return false
	}
	v := s.variant
	d, floor := v.forms[0].fwd, make([]int, len(near))
	for i, t := range near {
		floor[i] = max(t, v.root.fwd.lo[i])
	}
	for _, from := range [][]int{floor, v.root.fwd.lo} {
		s.res.Effort.Schedules++
		if d.run(ranks(near), from, false) < 0 {
			s.keep(d.start, v.ways, d.end())
			return true
		}
		s.res.Effort.Missed++
	}
	return false
}

// mostSearched is up to which value a goal is searched: the search counts in 32 bits.
const mostSearched = 1 << 30

// improve makes one goal small: by moving tasks within the order of the schedule, then by the complete search.
func (s *search) improve(g Goal, w within) GoalResult {
	s.polish(g, w)
	best := GoalResult{s.measure(g), s.least(g, w)}
	if best.Optimal() || s.conflictsATurn == 0 || best.Value > mostSearched {
		return best
	}
	q, open := s.openGoal(g, w, best)
	if !open {
		best.Bound = best.Value
		return best
	}
	if q.Size() > clause.MaxMinutesOpen {
		return best
	}
	l := clause.New(q)
	for k, last := uint(1), s.turns*s.conflictsATurn; !l.Done() && l.Conflicts < last && s.ctx.Err() == nil; k++ {
		l.Near(append(s.values(), s.measure(g)))
		target := [...]int{best.Value - 1, (l.Bound() + best.Value) / 2, best.Value - 1, l.Bound()}[k%4]
		if values := l.Run(s.ctx, min(target, best.Value-1), min(slice*luby(k), last-l.Conflicts)); values != nil {
			s.res.Start, s.res.Ways = s.root.read(values)
			s.res.End = s.root.fwd.endOf(s.res.Start)
			s.polish(g, w)
			best.Value = s.measure(g)
			l.Cut(best.Value - 1)
		}
		best.Bound = min(best.Value, max(best.Bound, l.Bound()))
	}
	s.res.Effort.Conflicts += l.Conflicts
	if l.Done() {
		best.Bound = best.Value
	}
	return best
}

// measure is what the schedule comes to by a goal.
func (s *search) measure(g Goal) int {
	if len(g.Terms) == 0 {
		return s.res.End
	}
	return g.cost(s.res.Start)
}

// least is a bound on a goal from the windows alone.
func (s *search) least(g Goal, w within) int {
	if len(g.Terms) == 0 {
		return s.res.Bound
	}
	m, least := s.root.fwd, 0
	for _, t := range g.Terms {
		last := 0
		if t.From >= 0 {
			last = min(m.hi[t.From], w.most-s.root.tail[t.From])
		}
		least += t.Weight * max(0, at(m.lo, t.To)-last-t.Min)
	}
	return least
}

// openGoal is the problem of finding a schedule that is better by a goal than the best so far; false when there is none.
func (s *search) openGoal(g Goal, w within, best GoalResult) (q clause.Problem, open bool) {
	if len(g.Terms) == 0 {
		q, open = s.root.open(best.Bound, min(w.most, best.Value-1))
	} else {
		q, open = s.root.openTasks(w.most)
		q.End = len(q.Lo)
		q.Lo, q.Hi = append(q.Lo, best.Bound), append(q.Hi, best.Value-1)
		q.Sums = append(q.Sums, g.sum(q.End, 0))
	}
	q.Sums = append(q.Sums, w.sums()...)
	return q, open
}

// mostPolished is up to how many tasks a schedule is polished: the work grows with the cube.
const mostPolished = 400

// polish moves tasks of the best schedule, in its order, as long as that makes the goal smaller.
func (s *search) polish(g Goal, w within) {
	if len(s.res.Start) > mostPolished || len(g.Terms) == 0 || !s.take(s.res.Ways) {
		return
	}
	m := s.variant.root.fwd
	o := m.orderOf(s.res.Start, w.most)
	near := make([][]Term, len(m.dur)) // the terms of each task
	for _, t := range g.Terms {
		for _, i := range []int{t.From, t.To} {
			if i >= 0 {
				near[i] = append(near[i], t)
			}
		}
	}
	for better := true; better && s.ctx.Err() == nil; {
		better = false
		for i := range near {
			for _, t := range near[i] {
				better = s.closeUp(g, w, o, i, t) || better
			}
		}
	}
	s.res.End = m.endOf(s.res.Start)
}

// closeUp moves task i so far that a term of it costs nothing, or half as far, or a minute, if that helps.
func (s *search) closeUp(g Goal, w within, o order, i int, t Term) bool {
	start := s.res.Start
	over := at(start, t.To) - at(start, t.From) - t.Min
	if over <= 0 {
		return false
	}
	if i == t.To {
		over = -over
	}
	cost := g.cost(start)
	for _, by := range []int{over, over / 2, over / 4, sign(over)} {
		if by == 0 {
			continue
		}
		if to := o.moved(start, i, by); to != nil && g.cost(to) < cost && w.allows(to) {
			s.res.Start = to
			return true
		}
	}
	return false
}

func sign(v int) int {
	if v < 0 {
		return -1
	}
	return 1
}
