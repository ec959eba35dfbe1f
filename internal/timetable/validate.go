package timetable

import (
	"fmt"
	"strings"
)

// FaultKind says what is wrong with a problem.
type FaultKind int

const (
	OutOfRange   FaultKind = iota + 1 // a number or an index that makes no sense; Solve refuses it
	TooMuchAsked                      // a task needs more than the resource ever has; Solve answers Infeasible
	Circle                            // lags that push tasks later without end; Solve answers Infeasible
)

// Fault is one thing wrong.
type Fault struct {
	Kind  FaultKind
	Tasks []int // the tasks concerned; of a circle, in its order
	Lags  []int // the lags concerned
	Text  string
}

// Faults is everything wrong with one problem.
type Faults []Fault

// Error lists the faults, one a line.
func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i, one := range f {
		lines[i] = one.Text
	}
	return strings.Join(lines, "\n")
}

// Validate returns nil or Faults: everything wrong at once. A nil error does not promise that a schedule exists.
func (p Problem) Validate() error {
	faults := p.malformed()
	if len(faults) > 0 { // nothing more can be computed
		return faults
	}
	m := compile(p)
	for i := range p.Tasks {
		for _, s := range m.segs[i] {
			if s.amount > m.peak[s.res] {
				faults = append(faults, Fault{Kind: TooMuchAsked, Tasks: []int{i}, Text: fmt.Sprintf(
					"%s needs %d of %s at once, which never has more than %d",
					p.taskName(i), s.amount, p.resourceName(s.res), m.peak[s.res])})
				break
			}
		}
	}
	if _, _, circle := m.longest(m.rel); circle != nil {
		tasks := p.ends(circle)
		faults = append(faults, Fault{Kind: Circle, Tasks: tasks, Lags: circle, Text: fmt.Sprintf(
			"gaps contradict each other: %s: going round pushes every start %d minutes later",
			p.roundTrip(tasks), p.sumOf(circle))})
	}
	if len(faults) > 0 {
		return faults
	}
	return nil
}

func (p Problem) ends(lags []int) []int {
	tasks := make([]int, len(lags))
	for i, l := range lags {
		tasks[i] = p.Lags[l].From
	}
	return tasks
}

func (p Problem) sumOf(lags []int) int {
	sum := 0
	for _, l := range lags {
		sum += p.Lags[l].Min
	}
	return sum
}

func (p Problem) roundTrip(tasks []int) string {
	names := make([]string, 0, len(tasks)+1)
	for _, t := range tasks {
		names = append(names, p.taskName(t))
	}
	return strings.Join(append(names, p.taskName(tasks[0])), " -> ")
}

func (p Problem) taskName(i int) string {
	return fmt.Sprintf("task %d %q", i, p.Tasks[i].Name)
}

func (p Problem) resourceName(i int) string {
	return fmt.Sprintf("resource %d %q", i, p.Resources[i].Name)
}

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
	}
	for i, t := range p.Tasks {
		at := []int{i}
		if t.Duration < 0 || t.Duration > MaxMinutes {
			bad(at, nil, "%s lasts %d minutes: want 0 to %d", p.taskName(i), t.Duration, MaxMinutes)
		}
		if t.Earliest < 0 || t.Earliest > MaxMinutes || t.Latest > MaxMinutes {
			bad(at, nil, "%s may start from %d to %d: want minutes up to %d", p.taskName(i), t.Earliest, t.Latest, MaxMinutes)
		}
		for k, u := range t.Uses {
			p.malformedUse(i, k, u, bad)
		}
	}
	for l, lag := range p.Lags {
		if lag.From < 0 || lag.From >= len(p.Tasks) || lag.To < 0 || lag.To >= len(p.Tasks) {
			bad(nil, []int{l}, "lag %d goes from task %d to task %d, but there are %d tasks", l, lag.From, lag.To, len(p.Tasks))
		}
		if lag.Min < -MaxMinutes || lag.Min > MaxMinutes {
			bad(nil, []int{l}, "lag %d is %d minutes: want at most %d either way", l, lag.Min, MaxMinutes)
		}
	}
	return faults
}

func (p Problem) malformedUse(task, k int, u Use, bad func(tasks, lags []int, format string, args ...any)) {
	at := []int{task}
	if u.Resource < 0 || u.Resource >= len(p.Resources) {
		bad(at, nil, "%s, use %d: there is no resource %d", p.taskName(task), k, u.Resource)
	}
	if u.Amount < 0 || u.Amount > MaxAmount {
		bad(at, nil, "%s, use %d: amount %d: want 0 to %d", p.taskName(task), k, u.Amount, MaxAmount)
	}
	if d := p.Tasks[task].Duration; u.From < 0 || u.To < u.From || u.To > d {
		bad(at, nil, "%s, use %d: from minute %d to %d of a task that lasts %d", p.taskName(task), k, u.From, u.To, d)
	}
}
