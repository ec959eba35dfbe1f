package plan

import (
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
func (p *planner) aims(q *timetable.Problem) {
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
			g.Terms = p.waits()
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
func (p *planner) firstHands(q *timetable.Problem) int {
	first := len(q.Tasks)
	for i, t := range p.day.tasks {
		if len(t.hands) > 0 && !t.fixed {
			q.Lags = append(q.Lags, timetable.Lag{From: first, To: i, Min: -t.hands[0].from})
		}
	}
	q.Tasks = append(q.Tasks, timetable.Task{Name: "the first hands", Latest: -1})
	return first
}

// lastHands is a task at or after the last hands.
func (p *planner) lastHands(q *timetable.Problem) int {
	last := len(q.Tasks)
	for i, t := range p.day.tasks {
		if n := len(t.hands); n > 0 {
			q.Lags = append(q.Lags, timetable.Lag{From: i, To: last, Min: t.hands[n-1].to})
		}
	}
	q.Tasks = append(q.Tasks, timetable.Task{Name: "the last hands", Latest: -1})
	return last
}

// waits are the minutes that cooked food stands between a step and the next.
func (p *planner) waits() (terms []timetable.Term) {
	for _, w := range p.day.waits {
		terms = append(terms, timetable.Term{From: w.after.task, To: w.task, Min: w.after.minute - w.minute, Weight: 1})
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
func (p *planner) showAims(q timetable.Problem, r timetable.Result, opens int) {
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
