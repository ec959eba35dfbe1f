package plan

import (
	"iter"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/timetable"
	"kettlefrost/internal/unit"
)

// wantedAims are the aims of a run, most important first.
func (p *planner) wantedAims() []kitchen.Aim {
	switch {
	case len(p.req.Aims) > 0:
		return p.req.Aims
	case p.was != nil:
		return []kitchen.Aim{kitchen.LeastChange, kitchen.Finish}
	}
	return []kitchen.Aim{kitchen.Finish}
}

// aims adds what the day should be good at as goals, with tasks without length for the first and the last hands.
func (p *planner) aims(q *dayProblem) {
	var goals []timetable.Goal
	if p.yields {
		goals = append(goals, timetable.Goal{Name: limitsFirst, Terms: p.excess()})
	}
	for _, a := range p.wantedAims() {
		g := timetable.Goal{Name: string(a)}
		switch a {
		case kitchen.LateStart:
			g.Terms = []timetable.Term{{From: p.firstHands(q), To: -1, Min: -q.Horizon, Weight: 1}}
		case kitchen.ShortDay:
			g.Terms = []timetable.Term{{From: p.firstHands(q), To: p.lastHands(q), Weight: 1}}
		case kitchen.LeastWaiting:
			g.Terms = p.waits(q)
		case kitchen.LeastChange:
			g.Terms = p.moveCosts()
		}
		if a == kitchen.Finish || len(g.Terms) > 0 {
			goals = append(goals, g)
		}
	}
	q.Goals = goals
}

// firstHands is a task at or before the first hands of what is still to do.
func (p *planner) firstHands(q *dayProblem) int {
	first := len(q.Tasks)
	for i, t := range p.day.tasks {
		if len(t.hands) == 0 || t.fixed {
			continue
		}
		for way, hands := range q.handsOf(p, i) {
			q.Lags = append(q.Lags, timetable.Lag{From: first, To: i, Min: -hands[0].from, If: way})
		}
	}
	q.Tasks = append(q.Tasks, timetable.Task{Name: "the first hands", Latest: -1})
	return first
}

// lastHands is a task at or after the last hands.
func (p *planner) lastHands(q *dayProblem) int {
	last := len(q.Tasks)
	for i, t := range p.day.tasks {
		if len(t.hands) == 0 {
			continue
		}
		for way, hands := range q.handsOf(p, i) {
			q.Lags = append(q.Lags, timetable.Lag{From: i, To: last, Min: hands[len(hands)-1].to, If: way})
		}
	}
	q.Tasks = append(q.Tasks, timetable.Task{Name: "the last hands", Latest: -1})
	return last
}

// handsOf are the hands of a task in each way it may be done.
func (q *dayProblem) handsOf(p *planner, i int) iter.Seq2[timetable.If, []piece] {
	return func(yield func(timetable.If, []piece) bool) {
		ways := p.ways(i)
		if ways == nil {
			yield(timetable.If{}, p.day.tasks[i].hands)
			return
		}
		for k, w := range ways {
			if !yield(timetable.If{Choice: q.choice[i], Way: 1 + k}, w.hands) {
				return
			}
		}
	}
}

// waits are the minutes that cooked food stands between a step and the next.
func (p *planner) waits(q *dayProblem) (terms []timetable.Term) {
	for _, w := range p.day.waits {
		after, then := q.moment(p, w.after), q.moment(p, ending{w.task, w.minute})
		terms = append(terms, timetable.Term{From: after.Task, To: then.Task, Min: after.Minute - then.Minute, Weight: 1})
	}
	return terms
}

// moveCosts are the minutes by which what is to do starts later or earlier than it was planned.
func (p *planner) moveCosts() (terms []timetable.Term) {
	for i, t := range p.day.tasks {
		if i < len(p.was) && !t.fixed {
			terms = append(terms, timetable.Term{From: -1, To: i, Min: p.was[i], Weight: 1}, timetable.Term{From: i, To: -1, Min: -p.was[i], Weight: 1})
		}
	}
	return terms
}

// showAims says how well the timetable does.
func (p *planner) showAims(q dayProblem, r timetable.Result, opens int) {
	p.out.Timetable.Aims = []AimResult{}
	for k, g := range r.Goals {
		if q.Goals[k].Name == limitsFirst {
			continue
		}
		a := AimResult{Aim: kitchen.Aim(q.Goals[k].Name), Status: timetable.Feasible.String()}
		value, bound := g.Value, g.Bound
		switch a.Aim {
		case kitchen.Finish:
			value, bound = value-opens, max(0, bound-opens)
		case kitchen.LateStart:
			value, bound = q.Horizon-value-opens, q.Horizon-bound-opens
		}
		a.Value, a.Bound = unit.Span(value)*unit.Minute, unit.Span(bound)*unit.Minute
		if g.Optimal() {
			a.Status = timetable.Optimal.String()
		}
		p.out.Timetable.Aims = append(p.out.Timetable.Aims, a)
	}
}
