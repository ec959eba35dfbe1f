package timetable

import (
	"math/bits"
	"slices"

	"kettlefrost/internal/timetable/clause"
)

// slice is how many conflicts the shortest turn of the complete search has; turns are as long as Luby's row says, times this.
const slice = 128

// prove goes on with the complete search of what is left open; done tells that nothing is.
func (s *search) prove(p Problem) (done bool) {
	conflicts := s.conflictsATurn
	if s.res.Start == nil { // an answer at all is worth more than a better one
		conflicts *= noAnswerYet
	}
	if conflicts == 0 {
		return false
	}
	if !s.learn(p.Horizon, conflicts) {
		return false
	}
	if s.res.Start != nil {
		s.res.Status, s.res.Bound, s.res.BoundWhy = Optimal, s.res.End, BoundWhy{Kind: SearchBound}
		return true
	}
	core, more := shrink(s.ctx, p, conflicts)
	s.res = Result{Status: Infeasible, Core: core, Effort: s.res.Effort}
	s.res.Effort.Conflicts += more
	return true
}

// belowEvery: of so many turns of the learner one asks for the least end that is not excluded and raises the bound; the others ask
// for any better end, whose refutation is the proof. Mostly from above needs about half the conflicts of turn and turn about.
const belowEvery = 8

// learn searches until nothing better is left (done) or the conflicts are used up.
func (s *search) learn(horizon, conflicts int) (done bool) {
	most := horizon
	if s.res.Start != nil {
		most = s.res.End - 1
	}
	if s.learner == nil {
		q, open := s.root.open(s.res.Bound, most)
		if !open || q.Size() > clause.MaxMinutesOpen {
			return !open
		}
		s.learner = clause.New(q)
	}
	l := s.learner
	if s.res.Start != nil {
		l.Cut(most)
		l.Near(append(s.values(), s.res.End))
	}
	before := l.Conflicts
	for last := before + conflicts; !l.Done() && l.Conflicts < last && s.ctx.Err() == nil; {
		s.slices++
		if most = horizon; s.slices%belowEvery == 1 && s.res.Start != nil {
			most = l.Bound()
		}
		values := l.Run(s.ctx, most, min(slice*luby(s.slices), last-l.Conflicts))
		if b := l.Bound(); b > s.res.Bound && (s.res.Start == nil || b <= s.res.End) {
			s.res.Bound, s.res.BoundWhy = b, BoundWhy{Kind: SearchBound}
		}
		if values != nil {
			start, ways := s.root.read(values)
			s.keep(start, ways, values[len(values)-1])
			s.plans = append(s.plans, plan{order: inOrderOf(start), ways: ways, end: values[len(values)-1]})
		}
	}
	s.res.Effort.Conflicts += l.Conflicts - before
	return l.Done()
}

// luby is the row 1 1 2 1 1 2 4 ... (Luby, Sinclair and Zuckerman 1993), from k = 1.
func luby(k uint) int {
	for {
		n := bits.Len(k)
		if k == 1<<n-1 {
			return 1 << (n - 1)
		}
		k -= 1<<(n-1) - 1
	}
}

// usesOf lists the uses and holds of each resource, greatest amount first; with those of given that hang on a way.
func (m *model) usesOf(given []Hold, flags [][]int) [][]clause.Use {
	uses := make([][]clause.Use, len(m.caps))
	for i, segs := range m.segs {
		for _, s := range segs {
			uses[s.res] = append(uses[s.res], clause.Use{Var: i, Until: i, From: s.from, To: s.to, Amount: s.amount, Family: m.family[i], Owner: i})
		}
		for _, h := range m.opens[i] {
			uses[h.res] = append(uses[h.res], clause.Use{Var: h.a, Until: h.b, From: h.from, To: h.to, Amount: h.amount, Family: m.family[h.owner], Owner: h.owner})
		}
	}
	for _, h := range given {
		if h.If.Way > 0 && h.Amount > 0 {
			owner := h.From.Task
			uses[h.Resource] = append(uses[h.Resource], clause.Use{Var: owner, Until: h.To.Task, From: h.From.Minute, To: h.To.Minute, Amount: h.Amount,
				Family: m.family[owner], Owner: owner, If: 1 + flags[h.If.Choice][h.If.Way-1]})
		}
	}
	for _, list := range uses {
		slices.SortStableFunc(list, func(u, v clause.Use) int { return v.Amount - u.Amount })
	}
	return uses
}

// open is the problem for the complete search, for schedules that end from minute bound up to minute most; false when a window
// is empty, so that there is none. The variables are the starts, the flags of the ways, and the end.
func (r root) open(bound, most int) (clause.Problem, bool) {
	p, open := r.openTasks(most)
	end := len(p.Lo)
	for i, d := range r.fwd.dur {
		p.Arcs = append(p.Arcs, clause.Arc{From: i, To: end, Min: d})
	}
	p.Lo, p.Hi, p.End = append(p.Lo, bound), append(p.Hi, most), end
	return p, open && bound <= most
}

// openTasks is the problem without what is to be made small, for schedules that end by minute most.
func (r root) openTasks(most int) (clause.Problem, bool) {
	m := r.fwd
	n := len(m.dur)
	p := clause.Problem{Lo: make([]int, n), Hi: make([]int, n)}
	for i := range n {
		p.Lo[i], p.Hi[i] = m.lo[i], min(m.hi[i], most-r.tail[i])
		if p.Lo[i] > p.Hi[i] {
			return p, false
		}
		for _, a := range m.out[i] {
			p.Arcs = append(p.Arcs, clause.Arc{From: i, To: a.task, Min: a.min})
		}
	}
	flags := r.flags(&p)
	for res, uses := range m.usesOf(r.given.Holds, flags) {
		p.Resources = append(p.Resources, clause.Resource{Capacity: m.peak[res], Taken: m.caps[res].taken(m.peak[res], m.horizon), Uses: uses, Changeover: m.change[res]})
	}
	return p, true
}

// flags adds a variable for each way of each choice, and the gaps that hang on them. It returns the variables.
func (r root) flags(p *clause.Problem) [][]int {
	for _, ways := range r.given.Choices {
		var list []int
		for range ways {
			list = append(list, len(p.Lo))
			p.Lo, p.Hi = append(p.Lo, 0), append(p.Hi, 1)
		}
		p.Choices = append(p.Choices, list)
	}
	for _, l := range r.given.Lags {
		if l.If.Way > 0 {
			p.Arcs = append(p.Arcs, clause.Arc{From: l.From, To: l.To, Min: l.Min, If: 1 + p.Choices[l.If.Choice][l.If.Way-1]})
		}
	}
	for _, h := range r.given.Holds {
		if h.If.Way > 0 && h.Amount > 0 { // the hold ends by the horizon: so much after its flag, which is then 1
			flag := p.Choices[h.If.Choice][h.If.Way-1]
			p.Arcs = append(p.Arcs, clause.Arc{From: h.To.Task, To: flag, Min: 1 + h.To.Minute - r.fwd.horizon, If: 1 + flag})
		}
	}
	return p.Choices
}

// read takes starts and ways out of the values of the complete search. Of ways that would all do the first is taken.
func (r root) read(values []int) (start, ways []int) {
	at := len(r.fwd.dur)
	for _, n := range r.given.Choices {
		ways = append(ways, 1+slices.Index(values[at:at+n], 1))
		at += n
	}
	return values[:len(r.fwd.dur)], ways
}

// values are the starts of the best schedule, and its ways as flags.
func (s *search) values() []int {
	values := slices.Clone(s.res.Start)
	for k, n := range s.root.given.Choices {
		for w := range n {
			flag := 0
			if s.res.Ways[k] == w+1 {
				flag = 1
			}
			values = append(values, flag)
		}
	}
	return values
}

// taken are the stretches up to the horizon at which less than peak is there.
func (c profile) taken(peak, horizon int) []clause.Taken {
	var taken []clause.Taken
	add := func(from, to, free int) {
		if from < to && free < peak {
			taken = append(taken, clause.Taken{From: from, To: to, Amount: peak - free})
		}
	}
	for k, at := range c.at {
		to := horizon
		if k+1 < len(c.at) {
			to = min(horizon, c.at[k+1])
		}
		add(max(0, at), to, c.free[k])
	}
	return taken
}
