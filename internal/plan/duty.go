package plan

import (
	"slices"

	"kettlefrost/internal/kitchen"
)

// job is hands-on work with its times.
type job struct {
	task, from, to, people int
	skill                  kitchen.Skill
}

// shared is how the work of a day is being shared out, minute by minute.
type shared struct {
	crew   []member
	duties []duty
	open   []int // index of each member's present duty, -1 when free
	worked []int // minutes of each member
	jobs   map[int]job
}

// assign names the people for every piece of hands-on work, minute by minute: who is at it stays, and hands over when they go on a
// break or home, or when only they can do something else. As at no minute more are needed than can do it, there is always somebody; of
// those who can, the one who has worked least so far is taken, so that the load is shared.
func assign(crew []member, tasks []task, start []int) []duty {
	var jobs []job
	last := 0
	for i, t := range tasks {
		for _, h := range t.hands {
			jobs = append(jobs, job{i, start[i] + h.from, start[i] + h.to, h.people, t.skill})
			last = max(last, start[i]+h.to)
		}
	}
	slices.SortStableFunc(jobs, func(a, b job) int { return a.from - b.from })
	s := shared{crew: crew, open: make([]int, len(crew)), worked: make([]int, len(crew))}
	for m := range s.open {
		s.open[m] = -1
	}
	var active []job
	for minute, next := 0, 0; minute < last; minute++ {
		for ; next < len(jobs) && jobs[next].from <= minute; next++ {
			active = append(active, jobs[next])
		}
		active = slices.DeleteFunc(active, func(j job) bool { return j.to <= minute })
		s.minute(minute, active)
	}
	return slices.DeleteFunc(s.duties, func(d duty) bool { return d.from == d.to })
}

// minute sees to it that each active job has its people.
func (s *shared) minute(minute int, active []job) {
	s.jobs = map[int]job{}
	for _, j := range active {
		s.jobs[j.task] = j
	}
	here := map[int]int{} // people at each task
	for m, o := range s.open {
		if o < 0 {
			continue
		}
		j, goesOn := s.jobs[s.duties[o].task]
		if !goesOn || !s.crew[m].works(minute) || here[j.task] == j.people {
			s.open[m] = -1
			continue
		}
		here[j.task]++
	}
	for _, j := range active {
		for ; here[j.task] < j.people; here[j.task]++ {
			if !s.take(j, minute, make([]bool, len(s.crew))) {
				break // the checker of the timetable would have found this
			}
		}
	}
	for m, o := range s.open {
		if o >= 0 {
			s.duties[o].to = minute + 1
			s.worked[m]++
		}
	}
}

// take gives a job one more person: a free one, or one whose present work another can take over (augmenting paths: Kuhn 1955).
func (s *shared) take(j job, minute int, asked []bool) bool {
	best := -1
	for m := range s.crew {
		if s.open[m] < 0 && s.fits(m, j, minute) && (best < 0 || s.worked[m] < s.worked[best]) {
			best = m
		}
	}
	if best >= 0 {
		s.begin(best, j, minute)
		return true
	}
	for m := range s.crew {
		if asked[m] || s.open[m] < 0 || !s.fits(m, j, minute) {
			continue
		}
		asked[m] = true
		if other := s.jobs[s.duties[s.open[m]].task]; other.task != j.task && s.take(other, minute, asked) {
			s.begin(m, j, minute)
			return true
		}
	}
	return false
}

func (s *shared) fits(m int, j job, minute int) bool {
	return s.crew[m].works(minute) && s.crew[m].has(j.skill)
}

func (s *shared) begin(m int, j job, minute int) {
	s.open[m] = len(s.duties)
	s.duties = append(s.duties, duty{m, j.task, minute, minute})
}
