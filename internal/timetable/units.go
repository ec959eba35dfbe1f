package timetable

import (
	"fmt"
	"math"
	"slices"
)

// Assignment names the units that one use of a task, or one hold, takes: burner 2, person 0. Units count from 0.
type Assignment struct {
	Task, Use int // Use indexes Tasks[Task].Uses; Task is -1 for a hold
	Hold      int // of a hold: its index in Holds
	Units     []int
}

// AssignUnits shares the units of one resource out over the uses of a schedule, in the order of their start.
//
// While the capacity is n, units 0 to n-1 are there: when it falls, the highest numbers leave. A use takes one unit all through.
// First choice is a unit that the same task has held before (the same person stays on a task), then the one that leaves
// soonest, so that those who stay are kept for longer work, then the lowest number. With a constant capacity this always works
// (the uses are intervals); with a changing one it can fail where another choice or a change of hands would do. Then the error
// names the use and the minute, and the assignments before it are returned.
func AssignUnits(p Problem, r Result, resource int) ([]Assignment, error) {
	if resource < 0 || resource >= len(p.Resources) {
		return nil, fmt.Errorf("there is no resource %d", resource)
	}
	if len(r.Start) != len(p.Tasks) {
		return nil, fmt.Errorf("%d starts for %d tasks", len(r.Start), len(p.Tasks))
	}
	stays := presence(p.Resources[resource].Capacity)
	var done []Assignment
	until := make([]int, len(stays)) // minute each unit is free again
	for _, s := range stints(p.Taking(r.Ways), r, resource) {
		order := s.choices(stays, until, held(done, p, s.owner))
		if len(order) < s.amount {
			return done, fmt.Errorf("%s, use %d: %d of %s needed from minute %d to %d, but only %d can stay for all of it",
				p.taskName(s.owner), s.use, s.amount, p.resourceName(resource), s.from, s.to, len(order))
		}
		units := slices.Clone(order[:s.amount])
		slices.Sort(units)
		for _, u := range units {
			until[u] = s.to
		}
		done = append(done, Assignment{Task: s.task, Use: s.use, Hold: s.hold, Units: units})
	}
	return done, nil
}

// stint is one use of the resource in time.
type stint struct{ task, use, hold, owner, amount, from, to int }

func stints(p Problem, r Result, resource int) []stint {
	var list []stint
	for i, t := range p.Tasks {
		for k, u := range t.Uses {
			if u.Resource == resource && u.Amount > 0 && u.From < u.To {
				list = append(list, stint{i, k, 0, i, u.Amount, r.Start[i] + u.From, r.Start[i] + u.To})
			}
		}
	}
	for k, h := range p.Holds {
		if s := (stint{-1, 0, k, h.From.Task, h.Amount, r.Start[h.From.Task] + h.From.Minute, r.Start[h.To.Task] + h.To.Minute}); h.Resource == resource && h.Amount > 0 && h.If != left && s.from < s.to {
			list = append(list, s)
		}
	}
	slices.SortStableFunc(list, func(a, b stint) int { return a.from - b.from })
	return list
}

// span is a stretch of presence.
type span struct{ from, to int }

// presence lists for each unit when it is there.
func presence(steps []Step) [][]span {
	most := 0
	for _, s := range steps {
		most = max(most, s.Amount)
	}
	stays := make([][]span, most)
	for k, s := range steps {
		to := math.MaxInt
		if k+1 < len(steps) {
			to = steps[k+1].From
		}
		for u := range s.Amount {
			if n := len(stays[u]); n > 0 && stays[u][n-1].to == s.From {
				stays[u][n-1].to = to
				continue
			}
			stays[u] = append(stays[u], span{s.From, to})
		}
	}
	return stays
}

// held are the units that earlier uses of the task took.
func held(done []Assignment, p Problem, task int) []int {
	var units []int
	for _, a := range done {
		if a.Task == task || a.Task < 0 && p.Holds[a.Hold].From.Task == task {
			units = append(units, a.Units...)
		}
	}
	return units
}

// choices are the units free for the whole stint, best first.
func (s stint) choices(stays [][]span, until, before []int) []int {
	type choice struct {
		unit, leaves int
		known        bool
	}
	var free []choice
	for u, spans := range stays {
		if until[u] > s.from {
			continue
		}
		for _, at := range spans {
			if at.from <= s.from && s.to <= at.to {
				free = append(free, choice{u, at.to, slices.Contains(before, u)})
			}
		}
	}
	slices.SortStableFunc(free, func(a, b choice) int {
		switch {
		case a.known != b.known && a.known:
			return -1
		case a.known != b.known:
			return 1
		case a.leaves < b.leaves:
			return -1
		case a.leaves > b.leaves:
			return 1
		}
		return a.unit - b.unit
	})
	units := make([]int, len(free))
	for k, c := range free {
		units[k] = c.unit
	}
	return units
}
