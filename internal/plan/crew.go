package plan

import (
	"maps"
	"math"
	"slices"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/timetable"
	"kettlefrost/internal/unit"
)

// stretch is a time of the run, in minutes.
type stretch struct{ from, to int }

// member is one of the crew on the run's days.
type member struct {
	id      kitchen.PersonID
	name    string
	can     []kitchen.Skill
	present []stretch // in order
}

// crew is the people of the book, in the order of their ids, on each day of the run. With overtime nobody goes home on the last day.
// Who has gone is away.
func (p *planner) crew(overtime bool) []member {
	var crew []member
	for _, id := range slices.Sorted(maps.Keys(p.book.People)) {
		who := p.book.People[id]
		m := member{id: id, name: who.Name, can: who.Can}
		for day := range p.days() {
			at := day * dayMinutes
			shift := stretch{at + int(who.Shift.From), at + int(who.Shift.To)}
			if overtime && day == p.days()-1 {
				shift.to = p.horizon()
			}
			m.present = append(m.present, shift)
			for _, b := range who.Shift.Breaks {
				m.leave(at+int(b.From), at+int(b.To))
			}
		}
		for _, g := range p.changes.Gone {
			if g.Person == id {
				m.leave(int(g.From), p.until(g.Until))
			}
		}
		crew = append(crew, m)
	}
	return crew
}

const dayMinutes = 24 * 60

// days is over how many days the run goes.
func (p *planner) days() int { return max(1, p.req.Days) }

// horizon is how far a run may reach, in minutes: a day longer than asked for.
func (p *planner) horizon() int { return (p.days() + 1) * dayMinutes }

// until is the end of an absence; 0 is the end of the run.
func (p *planner) until(m unit.Moment) int {
	if m == 0 {
		return p.horizon()
	}
	return int(m)
}

// leave takes a stretch out of a member's presence.
func (m *member) leave(from, to int) {
	var left []stretch
	for _, s := range m.present {
		for _, part := range []stretch{{s.from, min(s.to, from)}, {max(s.from, to), s.to}} {
			if part.from < part.to {
				left = append(left, part)
			}
		}
	}
	m.present = left
}

func (m member) works(minute int) bool {
	return slices.ContainsFunc(m.present, func(s stretch) bool { return s.from <= minute && minute < s.to })
}

// has tells whether a member may do what asks for a skill; nothing asked for, everybody may.
func (m member) has(skill kitchen.Skill) bool { return skill == "" || slices.Contains(m.can, skill) }

// opens is the first minute at which anybody works, closes the last.
func opens(crew []member) int {
	first := math.MaxInt
	for _, m := range crew {
		if len(m.present) > 0 {
			first = min(first, m.present[0].from)
		}
	}
	return first
}

func closes(crew []member) int {
	last := 0
	for _, m := range crew {
		if n := len(m.present); n > 0 {
			last = max(last, m.present[n-1].to)
		}
	}
	return last
}

// capacity is how many of the crew work, as it changes over the day.
func capacity(crew []member) []timetable.Step {
	var marks []int
	for _, m := range crew {
		for _, s := range m.present {
			marks = append(marks, s.from, s.to)
		}
	}
	slices.Sort(marks)
	var steps []timetable.Step
	for _, at := range slices.Compact(marks) {
		n := 0
		for _, m := range crew {
			if m.works(at) {
				n++
			}
		}
		if len(steps) == 0 || steps[len(steps)-1].Amount != n {
			steps = append(steps, timetable.Step{From: at, Amount: n})
		}
	}
	return steps
}

// duty is a person at a task for some minutes.
type duty struct{ member, task, from, to int }
