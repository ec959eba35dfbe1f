package timetable

import "fmt"

// malformed lists numbers and indexes that make no sense.
func (p Problem) malformed() Faults {
	var faults Faults
	bad := func(tasks, lags []int, format string, args ...any) {
		faults = append(faults, Fault{Kind: OutOfRange, Tasks: tasks, Lags: lags, Text: fmt.Sprintf(format, args...)})
	}
	if p.Horizon < 0 || p.Horizon > MaxMinutes {
		bad(nil, nil, "horizon of %d minutes: want 0 to %d", p.Horizon, MaxMinutes)
	}
	for r, res := range p.Resources {
		for k, s := range res.Capacity {
			if s.From < 0 || s.From > MaxMinutes || s.Amount < 0 || s.Amount > MaxAmount {
				bad(nil, nil, "%s: step %d is %d units from minute %d: want 0 to %d units, minute 0 to %d",
					p.resourceName(r), k, s.Amount, s.From, MaxAmount, MaxMinutes)
			}
			if k > 0 && s.From <= res.Capacity[k-1].From {
				bad(nil, nil, "%s: step %d at minute %d is not after the step before it", p.resourceName(r), k, s.From)
			}
		}
		p.malformedChangeover(r, bad)
	}
	for i, t := range p.Tasks {
		at := []int{i}
		if t.Duration < 0 || t.Duration > MaxMinutes {
			bad(at, nil, "%s lasts %d minutes: want 0 to %d", p.taskName(i), t.Duration, MaxMinutes)
		}
		if t.Earliest < 0 || t.Earliest > MaxMinutes || t.Latest > MaxMinutes {
			bad(at, nil, "%s may start from %d to %d: want minutes up to %d", p.taskName(i), t.Earliest, t.Latest, MaxMinutes)
		}
		p.malformedUses(i, t.Duration, t.Uses, bad)
	}
	for l, lag := range p.Lags {
		if lag.From < 0 || lag.From >= len(p.Tasks) || lag.To < 0 || lag.To >= len(p.Tasks) {
			bad(nil, []int{l}, "lag %d goes from task %d to task %d, but there are %d tasks", l, lag.From, lag.To, len(p.Tasks))
		}
		if lag.Min < -MaxMinutes || lag.Min > MaxMinutes {
			bad(nil, []int{l}, "lag %d is %d minutes: want at most %d either way", l, lag.Min, MaxMinutes)
		}
		if !p.has(lag.If) {
			bad(nil, []int{l}, "lag %d hangs on way %d of choice %d, which is not there", l, lag.If.Way, lag.If.Choice)
		}
	}
	for k, n := range p.Choices {
		if n < 1 || n > MaxWays {
			bad(nil, nil, "choice %d is between %d ways: want 1 to %d", k, n, MaxWays)
		}
	}
	p.malformedHolds(bad)
	p.malformedGoals(bad)
	return faults
}

// has tells whether a condition is one of this problem.
func (p Problem) has(c If) bool {
	return c == If{} || c == left || c.Choice >= 0 && c.Choice < len(p.Choices) && c.Way >= 0 && c.Way <= p.Choices[c.Choice]
}

// complain writes down something that makes no sense.
type complain func(tasks, lags []int, format string, args ...any)

func (p Problem) malformedUses(task, duration int, uses []Use, bad complain) {
	at := []int{task}
	for k, u := range uses {
		if u.Resource < 0 || u.Resource >= len(p.Resources) {
			bad(at, nil, "%s, use %d: there is no resource %d", p.taskName(task), k, u.Resource)
		}
		if u.Amount < 0 || u.Amount > MaxAmount {
			bad(at, nil, "%s, use %d: amount %d: want 0 to %d", p.taskName(task), k, u.Amount, MaxAmount)
		}
		if u.From < 0 || u.To < u.From || u.To > duration {
			bad(at, nil, "%s, use %d: from minute %d to %d of a task that lasts %d", p.taskName(task), k, u.From, u.To, duration)
		}
	}
}

func (p Problem) malformedChangeover(r int, bad complain) {
	res := p.Resources[r]
	if res.Changeover == nil {
		return
	}
	for _, s := range res.Capacity {
		if s.Amount > 1 {
			bad(nil, nil, "%s has changeovers and %d units from minute %d: want one at most", p.resourceName(r), s.Amount, s.From)
		}
	}
	n := len(res.Changeover)
	for f, row := range res.Changeover {
		if len(row) != n {
			bad(nil, nil, "%s: changeovers from family %d are %d, want one for each of %d families", p.resourceName(r), f, len(row), n)
		}
		for g, m := range row {
			if m < 0 || m > MaxMinutes {
				bad(nil, nil, "%s: changeover from family %d to %d of %d minutes: want 0 to %d", p.resourceName(r), f, g, m, MaxMinutes)
			}
		}
	}
	for i, t := range p.Tasks {
		if t.Family < 0 || t.Family >= n {
			bad([]int{i}, nil, "%s is of family %d, but %s has changeovers for %d families", p.taskName(i), t.Family, p.resourceName(r), n)
		}
	}
}

func (p Problem) malformedHolds(bad complain) {
	for h, hold := range p.Holds {
		if hold.Resource < 0 || hold.Resource >= len(p.Resources) {
			bad(nil, nil, "hold %d: there is no resource %d", h, hold.Resource)
		}
		if hold.Amount < 0 || hold.Amount > MaxAmount {
			bad(nil, nil, "hold %d: amount %d: want 0 to %d", h, hold.Amount, MaxAmount)
		}
		if !p.has(hold.If) {
			bad(nil, nil, "hold %d hangs on way %d of choice %d, which is not there", h, hold.If.Way, hold.If.Choice)
		}
		for _, m := range []Moment{hold.From, hold.To} {
			if m.Task < 0 || m.Task >= len(p.Tasks) {
				bad(nil, nil, "hold %d names task %d, but there are %d tasks", h, m.Task, len(p.Tasks))
			} else if m.Minute < 0 || m.Minute > MaxMinutes {
				bad([]int{m.Task}, nil, "hold %d reaches from or to minute %d of %s: want 0 to %d", h, m.Minute, p.taskName(m.Task), MaxMinutes)
			}
		}
	}
}

func (p Problem) malformedGoals(bad complain) {
	for k, g := range p.Goals {
		if g.Give < 0 || g.Give > MaxMinutes {
			bad(nil, nil, "goal %d gives %d: want 0 to %d", k, g.Give, MaxMinutes)
		}
		for _, t := range g.Terms {
			if max(t.From, t.To) >= len(p.Tasks) || t.Weight < 0 || t.Weight > MaxAmount || t.Min < -MaxMinutes || t.Min > MaxMinutes {
				bad(nil, nil, "goal %d: %d for each minute that task %d comes more than %d after task %d: want weights of 0 to %d and tasks that are there",
					k, t.Weight, t.To, t.Min, t.From, MaxAmount)
			}
		}
	}
}
