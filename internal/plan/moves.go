package plan

import (
	"cmp"
	"slices"

	"kettlefrost/internal/unit"
)

// showMoves lists what is to do and starts at another time than planned.
func (p *planner) showMoves(shown []int) {
	if p.was == nil {
		return
	}
	now := p.changes.Now
	p.out.Timetable.Now = &now
	late := p.lateBy()
	for i := range p.day.tasks {
		if i >= len(p.was) || p.starts[i] == p.was[i] {
			continue
		}
		p.out.Timetable.Moves = append(p.out.Timetable.Moves, Move{Task: shown[i], Was: unit.Moment(p.was[i]), Why: p.whyMoved(i, late)})
	}
	slices.SortStableFunc(p.out.Timetable.Moves, func(a, b Move) int { return cmp.Compare(a.Task, b.Task) })
}

// whyMoved is the first reason that explains a move. People or equipment are named only when nothing else has changed.
func (p *planner) whyMoved(i int, late []int) string {
	switch {
	case late[i] != 0:
		return "late itself"
	case p.changes.Told && p.was[i] < int(p.changes.Now):
		return "not begun yet"
	}
	for _, l := range p.day.links {
		a := l.after.task
		if l.task == i && l.most < 0 && a < len(p.was) && (p.starts[a] != p.aimed[a] || late[a] != 0 || p.tookOther(a)) && p.starts[i]+l.minute-p.starts[a]-l.after.minute <= closeBehind {
			return "follows " + p.taskName(a)
		}
	}
	switch c := p.changes; {
	case len(c.Gone) > 0 && len(c.Late)+len(c.Out) == 0:
		return "fewer people"
	case len(c.Out) > 0 && len(c.Late)+len(c.Gone) == 0:
		return "equipment is short"
	}
	return "makes way"
}

// closeBehind is how close a task must follow another to be said to follow it.
const closeBehind = 30

// tookOther tells whether a task that was told took another time than planned.
func (p *planner) tookOther(i int) bool {
	return p.changes.Told && p.day.tasks[i].length != p.planned.tasks[i].length
}
