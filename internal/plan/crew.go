package plan

import (
	"maps"
	"slices"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/timetable"
)

// away is a time of the day, in minutes, at which somebody does not work.
type away struct{ from, to int }

// member is one of the crew on the run's day.
type member struct {
	id   kitchen.PersonID
	name string
	from int
	to   int
	away []away // breaks
}

// crew is the people of the book, in the order of their ids. With overtime nobody goes home.
func (p *planner) crew(overtime bool) []member {
	var crew []member
	for _, id := range slices.Sorted(maps.Keys(p.book.People)) {
		who := p.book.People[id]
		m := member{id: id, name: who.Name, from: int(who.Shift.From), to: int(who.Shift.To)}
		if overtime {
			m.to = horizon
		}
		for _, b := range who.Shift.Breaks {
			m.away = append(m.away, away{int(b.From), int(b.To)})
		}
		crew = append(crew, m)
	}
	return crew
}

// horizon is how far a run may reach: two days, in minutes.
const horizon = 2 * 24 * 60

func (m member) works(minute int) bool {
	if minute < m.from || minute >= m.to {
		return false
	}
	return !slices.ContainsFunc(m.away, func(a away) bool { return minute >= a.from && minute < a.to })
}

// capacity is how many of the crew work, as it changes over the day.
func capacity(crew []member) []timetable.Step {
	var marks []int
	for _, m := range crew {
		marks = append(marks, m.from, m.to)
		for _, a := range m.away {
			marks = append(marks, a.from, a.to)
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

// assign names the people for every piece of hands-on work, minute by minute: who is at it stays, and hands over when they go on a
// break or home. As never more are needed than work at any minute, there is always somebody; the one who has worked least so far is
// taken, so that the load is shared.
func assign(crew []member, tasks []task, start []int) []duty {
	type job struct{ task, from, to, people int }
	var jobs []job
	first, last := horizon, 0
	for i, t := range tasks {
		for _, h := range t.hands {
			jobs = append(jobs, job{i, start[i] + h.from, start[i] + h.to, h.people})
			first, last = min(first, start[i]+h.from), max(last, start[i]+h.to)
		}
	}
	slices.SortStableFunc(jobs, func(a, b job) int { return a.from - b.from })
	var duties []duty
	open := make([]int, len(crew)) // index of each member's present duty, -1 when free
	worked := make([]int, len(crew))
	for m := range open {
		open[m] = -1
	}
	next, active := 0, []job{}
	for minute := first; minute < last; minute++ {
		for ; next < len(jobs) && jobs[next].from <= minute; next++ {
			active = append(active, jobs[next])
		}
		active = slices.DeleteFunc(active, func(j job) bool { return j.to <= minute })
		for m := range crew {
			if o := open[m]; o >= 0 && (!crew[m].works(minute) || !slices.ContainsFunc(active, func(j job) bool { return j.task == duties[o].task })) {
				open[m] = -1
			}
		}
		for _, j := range active {
			have := 0
			for m := range crew {
				if o := open[m]; o >= 0 && duties[o].task == j.task {
					have++
					if have > j.people {
						open[m] = -1
					}
				}
			}
			for ; have < j.people; have++ {
				m := freest(crew, open, worked, minute)
				if m < 0 {
					break // the checker of the timetable would have found this
				}
				open[m] = len(duties)
				duties = append(duties, duty{m, j.task, minute, minute})
			}
		}
		for m, o := range open {
			if o >= 0 {
				duties[o].to = minute + 1
				worked[m]++
			}
		}
	}
	return duties
}

func freest(crew []member, open, worked []int, minute int) int {
	best := -1
	for m := range crew {
		if open[m] < 0 && crew[m].works(minute) && (best < 0 || worked[m] < worked[best]) {
			best = m
		}
	}
	return best
}
