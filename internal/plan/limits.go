package plan

import (
	"cmp"
	"fmt"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/timetable"
	"kettlefrost/internal/unit"
)

// limitsFirst is the goal that comes before all aims when a day under way can no longer keep its limits.
const limitsFirst = "limits"

// safetyWeight is how much worse a minute is by which hot food is chilled too late than one of any other limit.
const safetyWeight = 5

// mostWaits is how often tasks that have begun are made to wait longer: when they wait, the hands they need come later too, and may then be
// missing where what they wait for needs them.
const mostWaits = 4

// isInput tells that a link is from something to do to something that has begun and needs it on the way.
func (p *planner) isInput(l link) bool {
	return l.most < 0 && p.day.tasks[l.task].fixed && !p.day.tasks[l.after.task].fixed && !p.isPast(l)
}

// letWait finds out which tasks that have begun must wait on the way for what is still to do, and makes them longer by it. It tells whether
// there are any.
func (p *planner) letWait() bool {
	p.elastic, p.yields = true, true
	_, r, err := p.timed(p.crew(true), p.horizon())
	p.elastic, p.yields = false, false
	if err != nil || r.Start == nil {
		return false
	}
	links := slices.DeleteFunc(slices.Clone(p.day.links), func(l link) bool { return !p.isInput(l) })
	slices.SortStableFunc(links, func(a, b link) int { return cmp.Compare(a.minute, b.minute) })
	waited := map[int]int{} // minutes, by task
	for _, l := range links {
		more := r.Start[l.after.task] + l.after.minute - p.was[l.task] - l.minute - waited[l.task]
		if more <= 0 {
			continue
		}
		from := l.minute + waited[l.task]
		p.day.shift(l.task, func(minute int) int {
			if minute < from {
				return minute
			}
			return minute + more
		})
		waited[l.task] += more
	}
	return len(waited) > 0
}

// excess are the minutes by which greatest gaps and appointments are exceeded, and what has begun waits on the way.
func (p *planner) excess() (terms []timetable.Term) {
	for _, l := range p.day.links {
		weight := 1
		if l.safety {
			weight = safetyWeight
		}
		if p.elastic && p.isInput(l) {
			terms = append(terms, timetable.Term{From: l.task, To: l.after.task, Min: l.minute - l.after.minute, Weight: safetyWeight})
		}
		if l.most >= 0 {
			terms = append(terms, timetable.Term{From: l.after.task, To: l.task, Min: l.after.minute + l.most - l.minute, Weight: weight})
		}
	}
	for i, t := range p.day.tasks {
		if t.latest >= 0 && !t.fixed {
			terms = append(terms, timetable.Term{From: -1, To: i, Min: t.latest, Weight: 1})
		}
	}
	return terms
}

// judgeLimits finds what begins later than a limit allows.
func (p *planner) judgeLimits() {
	for _, l := range p.day.links {
		due := p.starts[l.after.task] + l.after.minute + l.most
		if at := p.starts[l.task] + l.minute; l.most >= 0 && at > due {
			p.findMissed(l, due, at)
		}
	}
	for i, t := range p.day.tasks {
		if late := p.starts[i] - t.latest; t.latest >= 0 && !t.fixed && late > 0 {
			text := minutesText(late)
			p.find(finding.Finding{Code: CodeAppointmentLate, Severity: finding.Stop, Where: "the day", Message: fmt.Sprintf("“%s” comes %s too late for its appointment", p.taskName(i), text),
				Figures: []finding.Figure{{Name: "too late by", Value: float64(late), Unit: "min", Text: text}}, Fix: "tell them, or let somebody leave what they are at"})
		}
	}
}

// findMissed says that a task begins later than it should after another.
func (p *planner) findMissed(l link, due, at int) {
	f := finding.Finding{Code: CodeLimitMissed, Severity: finding.Caution, Where: "the day", Message: fmt.Sprintf("“%s” should begin by %s and begins at %s at the earliest", p.taskName(l.task), unit.Moment(due), unit.Moment(at)),
		Figures: []finding.Figure{{Name: "by", Value: float64(due), Unit: "min", Text: unit.Moment(due).String()}, {Name: "begins", Value: float64(at), Unit: "min", Text: unit.Moment(at).String()}},
		Fix:     "do it sooner if you can"}
	if l.safety {
		f.Severity, f.Fix = finding.Stop, "chill it sooner if you can; until then keep it at 135 °F or above, measure it, and let its temperature and your local code decide what becomes of it"
		f.Source = "FDA Food Code 3-501.14 and 3-501.16, as adopted by states: cooling counts from 135 °F; your local code decides"
	}
	p.find(f)
}
