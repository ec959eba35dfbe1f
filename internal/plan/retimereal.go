package plan

import (
	"math"
	"slices"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/timetable"
	"kettlefrost/internal/unit"
)

// asTold puts the day into the state that was told: what has begun has its real times, what nobody began begins now at the earliest.
func (p *planner) asTold() {
	real := map[string]kitchen.Real{}
	for _, r := range p.changes.Real {
		real[r.Task] = r
	}
	p.was = slices.Clone(p.aimed)
	late, now := p.lateBy(), int(p.changes.Now)
	for i := range p.day.tasks {
		t := &p.day.tasks[i]
		r, told := real[t.key]
		switch {
		case told && (r.Over || r.Skipped):
			p.isOver(i, r)
		case told:
			p.goesOn(i, min(int(r.Begin), now), late[i])
		case t.kind == Visit && p.was[i]+late[i] < now:
			p.came(i, p.was[i]+late[i])
		case t.kind == Visit:
			t.earliest, t.latest = t.earliest+max(0, late[i]), max(t.latest, t.latest+late[i])
		default:
			t.earliest = max(t.earliest, now)
			if late[i] > 0 {
				t.earliest = max(t.earliest, p.was[i]+late[i])
			}
		}
	}
	p.waitOnTheWay()
}

// begun fixes a task at its real begin.
func (p *planner) begun(i, begin int, state TaskState) {
	t := &p.day.tasks[i]
	p.was[i], t.fixed, t.state, t.earliest, t.latest = begin, true, state, begin, begin
}

// isOver has a task end when it did: its minutes are drawn out or together. What was skipped took nobody and nothing.
func (p *planner) isOver(i int, r kitchen.Real) {
	now := int(p.changes.Now)
	begin := min(int(r.Begin), now)
	took, planned := min(max(int(r.End), begin), now)-begin, p.day.tasks[i].length
	p.begun(i, begin, Done)
	p.day.shift(i, func(minute int) int {
		if minute >= planned || planned == 0 {
			return took
		}
		return int(math.Round(float64(minute) * float64(took) / float64(planned)))
	})
	if t := &p.day.tasks[i]; r.Skipped {
		t.hands, t.holds, t.chills = nil, nil, ""
		p.day.filled = slices.DeleteFunc(p.day.filled, func(f filled) bool { return f.task == i })
	}
}

// goesOn has a task that has begun take as long as planned and by so much longer, though it ends after now: nobody has said that it is over.
func (p *planner) goesOn(i, begin, longer int) {
	p.begun(i, begin, Begun)
	now, length := int(p.changes.Now), p.day.tasks[i].length
	from := min(now-begin+1, length)
	if longer = max(longer, now+1-begin-length); longer == 0 {
		return
	}
	p.day.shift(i, func(minute int) int {
		if minute < from {
			return minute
		}
		return max(from, minute+longer)
	})
}

// came has an appointment be kept at a time before now.
func (p *planner) came(i, begin int) {
	if end := begin + p.day.tasks[i].length; end <= int(p.changes.Now) {
		p.isOver(i, kitchen.Real{Begin: unit.Moment(begin), End: unit.Moment(end)})
		return
	}
	p.goesOn(i, begin, 0)
}

// waitOnTheWay makes what is under way wait for what it needs on the way: it does not go on before that is there.
func (p *planner) waitOnTheWay() {
	for range len(p.day.tasks) + 1 { // each round but the last settles at least one task
		changed := false
		for k := range p.day.links {
			l := p.day.links[k]
			if p.day.tasks[l.task].state != Begun || l.most >= 0 || l.minute <= 0 {
				continue
			}
			if wait := p.soonest(l.after) - p.was[l.task] - l.minute; wait > 0 {
				p.day.shift(l.task, func(minute int) int {
					if minute < l.minute {
						return minute
					}
					return minute + wait
				})
				changed = true
			}
		}
		if !changed {
			return
		}
	}
}

// soonest is when a moment of a task was or will be, at the earliest.
func (p *planner) soonest(e ending) int {
	if t := p.day.tasks[e.task]; !t.fixed {
		return t.earliest + e.minute
	}
	return p.was[e.task] + e.minute
}

// isPast tells that a link cannot be kept or broken any more: both of its moments have been settled, or what has begun did not wait for it.
func (p *planner) isPast(l link) bool {
	if !p.changes.Told || !p.day.tasks[l.task].fixed {
		return false
	}
	return p.day.tasks[l.after.task].fixed || p.was[l.task]+l.minute <= int(p.changes.Now)
}

// isEmpty tells that a vessel was emptied, or when it will be is settled, on a day that was told.
func (p *planner) isEmpty(f filled) bool {
	return p.changes.Told && p.day.tasks[f.task].fixed && !slices.ContainsFunc(f.emptied, func(e ending) bool { return !p.day.tasks[e.task].fixed })
}

// stillEmptied is what will empty a vessel: what has begun without waiting for it, on a day that was told, will not.
func (p *planner) stillEmptied(f filled) []ending {
	if !p.changes.Told || p.day.tasks[f.task].fixed {
		return f.emptied
	}
	return slices.DeleteFunc(slices.Clone(f.emptied), func(e ending) bool {
		return p.day.tasks[e.task].fixed && p.was[e.task]+e.minute <= int(p.changes.Now)
	})
}

// lastOf is the last of moments that are settled.
func (p *planner) lastOf(moments []ending) ending {
	return slices.MaxFunc(moments, func(a, b ending) int { return p.was[a.task] + a.minute - p.was[b.task] - b.minute })
}

// fromNow is the problem of what is still to do. What happened before now is not judged: people do two things at once, and put three pots on
// two burners. What has begun keeps what it has; from now on that much less is there for the others.
func (p *planner) fromNow(q timetable.Problem) timetable.Problem {
	settled := func(task int) bool { return task < len(p.day.tasks) && p.day.tasks[task].fixed }
	q.Tasks, q.Resources = slices.Clone(q.Tasks), slices.Clone(q.Resources)
	taken, open := make([][]stint, len(q.Resources)), make([]int, len(q.Resources))
	for i := range p.day.tasks {
		if !settled(i) {
			continue
		}
		for _, u := range q.Tasks[i].Uses {
			taken[u.Resource] = append(taken[u.Resource], stint{u.Amount, p.was[i] + u.From, p.was[i] + u.To})
		}
		q.Tasks[i].Uses = nil
	}
	var holds []timetable.Hold
	for _, h := range q.Holds {
		if settled(h.From.Task) && settled(h.To.Task) {
			taken[h.Resource] = append(taken[h.Resource], stint{h.Amount, p.was[h.From.Task] + h.From.Minute, p.was[h.To.Task] + h.To.Minute})
			continue
		}
		holds = append(holds, h)
		if settled(h.From.Task) {
			open[h.Resource] += h.Amount
		}
	}
	q.Holds = holds
	for k := range q.Resources {
		r := &q.Resources[k]
		r.Capacity = leftOf(r.Capacity, taken[k], open[k], int(p.changes.Now))
		if open[k] > 1 {
			r.Changeover = nil // more than one piece is in use, of which the book knows one
		}
	}
	return q
}

// leftOf is what is left of a capacity by what is taken from now on, though never less than what is held for an open time.
func leftOf(steps []timetable.Step, taken []stint, open, now int) []timetable.Step {
	marks := []int{0, now}
	for _, s := range steps {
		marks = append(marks, s.From)
	}
	for _, u := range taken {
		marks = append(marks, max(u.from, now), max(u.to, now))
	}
	slices.Sort(marks)
	var left []timetable.Step
	for _, m := range slices.Compact(marks) {
		n := amountAt(steps, m)
		for _, u := range taken {
			if m >= now && u.from <= m && m < u.to {
				n -= u.amount
			}
		}
		if n = max(0, n, open); len(left) == 0 || left[len(left)-1].Amount != n {
			left = append(left, timetable.Step{From: m, Amount: n})
		}
	}
	return left
}

// stint is a time for which something that has begun has so much of a resource.
type stint struct{ amount, from, to int }

// timedTold times what is still to do of a day that was told. Limits give way when they must, then food goes into tubs and everybody stays on:
// the day goes on in any case.
func (p *planner) timedTold() ([]member, dayProblem, timetable.Result, error) {
	crew := p.crew(false)
	try := func(until int) (dayProblem, timetable.Result, bool, error) {
		problem, result, err := p.timed(crew, until)
		return problem, result, err != nil || result.Start != nil, err
	}
	p.yields = p.limitMissed()
	problem, result, done, err := try(p.deadline())
	for round := 0; round < mostWaits && !done && p.letWait(); round++ {
		problem, result, done, err = try(p.deadline())
	}
	if !done && !p.yields {
		p.yields = true
		problem, result, done, err = try(p.deadline())
	}
	if !done {
		p.tubs, p.yields, crew = true, true, p.crew(true)
		problem, result, _, err = try(p.horizon())
	}
	return crew, problem, result, err
}

// limitMissed tells whether something still to do can no longer begin in time.
func (p *planner) limitMissed() bool {
	return slices.ContainsFunc(p.day.links, func(l link) bool {
		from, to := p.day.tasks[l.after.task], p.day.tasks[l.task]
		return l.most >= 0 && from.fixed && !to.fixed && to.earliest+l.minute > p.was[l.after.task]+l.after.minute+l.most
	}) || slices.ContainsFunc(p.day.tasks, func(t task) bool { return !t.fixed && t.latest >= 0 && t.earliest > t.latest })
}
