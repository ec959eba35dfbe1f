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
	m := compile(p.relaxed())
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
