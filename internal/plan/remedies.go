package plan

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/timetable"
	"kettlefrost/internal/unit"
)

// mostRemedies is how many ways out of an impossible day are told.
const mostRemedies = 4

// remedies are small changes each of which, alone, makes a day possible that is not: longer waits, one more of something, one more person.
// Each was tried on the whole day; that the day may go on longer is looked at elsewhere.
func (p *planner) remedies(q dayProblem) []string {
	if p.trial {
		return nil
	}
	q.Problem = p.toDo(q.Problem)
	var found []string
	if text := p.waitLonger(q); text != "" {
		found = append(found, text)
	}
	for res := range q.Resources {
		if len(found) < mostRemedies && p.wouldDo(oneMore(q.Problem, res)) {
			found = append(found, oneMoreOf(q.Resources[res].Name, res))
		}
	}
	return found
}

// oneMoreOf says it in words; people are resource 0.
func oneMoreOf(name string, res int) string {
	if res == 0 {
		return "one more person at work, whenever anybody is"
	}
	return "one more of “" + name + "”"
}

// tried is the budget of one try.
var tried = timetable.Options{Seed: seed, Tries: 60, Conflicts: 300}

func (p *planner) wouldDo(q timetable.Problem) bool {
	q.Goals = nil
	r, err := timetable.Solve(p.ctx, q, tried)
	return err == nil && r.Start != nil
}

// oneMore is the problem with one more of a resource whenever there is any. Groups of people by skill grow with the people.
func oneMore(q timetable.Problem, res int) timetable.Problem {
	q.Resources = slices.Clone(q.Resources)
	q.Resources[res].Capacity = slices.Clone(q.Resources[res].Capacity)
	q.Resources[res].Changeover = nil
	for k := range q.Resources[res].Capacity {
		if s := &q.Resources[res].Capacity[k]; s.Amount > 0 {
			s.Amount++
		}
	}
	return q
}

// waitLonger lets what the dishes limit wait as long as it takes, in all as little longer as can be found, and says where. How soon hot food
// is chilled is never loosened.
func (p *planner) waitLonger(q dayProblem) string {
	loose := q.Problem
	loose.Lags = nil
	var goal timetable.Goal
	for _, lag := range q.Lags {
		if lag.Min < 0 && lag.If.Way == 0 && slices.ContainsFunc(p.day.links, func(l link) bool { return l.most >= 0 && !l.safety && q.limits(p, l, lag) }) {
			goal.Terms = append(goal.Terms, timetable.Term{From: lag.To, To: lag.From, Min: -lag.Min, Weight: 1})
			continue
		}
		loose.Lags = append(loose.Lags, lag)
	}
	if len(goal.Terms) == 0 {
		return ""
	}
	loose.Goals = []timetable.Goal{goal}
	r, err := timetable.Solve(p.ctx, loose, tried)
	if err != nil || r.Start == nil {
		return ""
	}
	var waits []string
	for _, l := range p.day.links {
		after, then := q.moment(p, l.after), q.moment(p, ending{l.task, l.minute})
		if over := r.Start[then.Task] + then.Minute - r.Start[after.Task] - after.Minute - l.most; l.most >= 0 && over > 0 {
			waits = append(waits, fmt.Sprintf("“%s” may begin %s after what it needs is ready, not %s", p.taskName(l.task), minutesText(l.most+over), minutesText(l.most)))
		}
	}
	return strings.Join(waits, ", and ")
}

// limits tells whether a lag is the greatest gap of a link.
func (q *dayProblem) limits(p *planner, l link, lag timetable.Lag) bool {
	return q.moment(p, ending{l.task, l.minute}).Task == lag.From && q.moment(p, l.after).Task == lag.To
}

func minutesText(m int) string { return (unit.Span(m) * unit.Minute).Show(unit.Metric) }

// fixOf is what would help: the remedies found, or else something general.
func (p *planner) fixOf(general string) string {
	if len(p.wanting) == 0 {
		return general
	}
	return "any one of these would do: " + strings.Join(p.wanting, "; ")
}
