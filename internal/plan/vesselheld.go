package plan

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/timetable"
)

// A vessel is held from its filling until it is emptied: until the step that takes what is in it begins, until it is spread out for
// chilling, or until it is cold when it chills in the pot. What has several takers is held until the last has begun. More loads than there
// are vessels, or than the next step has, are collected in tubs: then a vessel is free when it has done.

// filled is one filling of a vessel: the task, the place, and the moments after which it is empty.
type filled struct {
	task, place int
	emptied     []ending
}

// fillVessel adds one filling of a vessel.
func (p *planner) fillVessel(task, place int) {
	p.day.filled = append(p.day.filled, filled{task: task, place: place})
}

// takes says that what a load of a step gives leaves its vessel at a moment of another task.
func (p *planner) takes(load ending, at ending) {
	for i := range p.day.filled {
		f := &p.day.filled[i]
		if t := p.day.tasks[f.task]; f.task == load.task && t.loads <= p.day.places[f.place].count && !slices.Contains(f.emptied, at) {
			f.emptied = append(f.emptied, at)
		}
	}
}

// empty turns fillings into holds. Where there are several takers a task without length stands for the last.
func (p *planner) empty(q *dayProblem) {
	for _, f := range p.day.filled {
		f.emptied = p.stillEmptied(f)
		own := ending{f.task, p.day.tasks[f.task].length}
		until := q.moment(p, own)
		switch n := len(f.emptied); {
		case n == 0 || p.tubs:
		case p.isEmpty(f):
			until = q.moment(p, p.lastOf(append(slices.Clone(f.emptied), own)))
		case n == 1:
			until = q.moment(p, f.emptied[0])
		default:
			for _, e := range append(f.emptied, own) { // first, so that what stands for a moment comes before what stands for the last
				q.moment(p, e)
			}
			last := len(q.Tasks)
			q.Tasks = append(q.Tasks, timetable.Task{Name: q.Tasks[f.task].Name + ", emptied", Earliest: 0, Latest: -1})
			for _, e := range append(f.emptied, own) {
				at := q.moment(p, e)
				q.Lags = append(q.Lags, timetable.Lag{From: at.Task, To: last, Min: at.Minute})
			}
			until = timetable.Moment{Task: last}
		}
		hold := timetable.Hold{Resource: 1 + f.place, Amount: 1, From: timetable.Moment{Task: f.task}, To: until}
		ways := p.ways(f.task)
		if ways == nil {
			q.Holds = append(q.Holds, hold)
		}
		for k, w := range ways {
			hold.Resource, hold.If = w.fills, timetable.If{Choice: q.choice[f.task], Way: 1 + k}
			q.Holds = append(q.Holds, hold)
		}
	}
}

// chillsInPot tells whether a way of chilling leaves the food in the vessel that it was cooked in.
func (p *planner) chillsInPot(id kitchen.ChillingID, cookedIn kitchen.EquipmentID) bool {
	way := p.book.Chilling[id]
	return (way.Method == kitchen.StirredBath || way.Method == kitchen.PotInAir) && (way.Vessel == "" || way.Vessel == cookedIn)
}

// findTubs says that the day works only when food is put from its vessels into tubs until the next step takes it.
func (p *planner) findTubs(r timetable.Result) {
	var names []string
	for _, f := range p.day.filled {
		done := r.Start[f.task] + p.day.tasks[f.task].length
		if p.day.tasks[f.task].state != Done && slices.ContainsFunc(f.emptied, func(e ending) bool { return r.Start[e.task]+e.minute > done }) {
			names = append(names, p.taskName(f.task))
		}
	}
	if len(names) == 0 {
		return
	}
	p.find(finding.Finding{Code: CodeTubs, Severity: finding.Caution, Where: "the day",
		Message: fmt.Sprintf("there are not vessels enough to leave everything in them until it is used: what waits goes into tubs, %d times", len(names)),
		Figures: []finding.Figure{{Name: "tubs", Value: float64(len(names)), Text: strings.Join(names, "; ")}},
		Fix:     "have clean tubs ready, hot food in shallow ones, or cook less at once"})
}
