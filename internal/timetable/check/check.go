// Package check re-reads a timetable with none of the code that made it: it knows only what a Problem says.
package check

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/timetable"
)

// Kind is the rule that a schedule breaks.
type Kind int

const (
	Shape    Kind = iota + 1 // not one start for each task
	Window                   // before the earliest or after the latest start
	Horizon                  // ends after the horizon
	Gap                      // a lag is not kept
	Overload                 // more of a resource is used than there is
)

// Violation is one broken rule.
type Violation struct {
	Kind     Kind
	Tasks    []int // the tasks concerned
	Lag      int   // of Gap: the index
	Resource int   // of Overload: the index
	Minute   int   // when it first shows
	Text     string
}

// Violations is every broken rule of one schedule.
type Violations []Violation

// Error lists the violations, one a line.
func (v Violations) Error() string {
	lines := make([]string, len(v))
	for i, one := range v {
		lines[i] = one.Text
	}
	return strings.Join(lines, "\n")
}

// Check returns nil when start, the minute each task starts, keeps every rule of p; otherwise Violations, all of them: windows,
// the horizon, every lag, and every stretch of minutes in which a resource is overloaded.
func Check(p timetable.Problem, start []int) error {
	if len(start) != len(p.Tasks) {
		return Violations{{Kind: Shape, Text: fmt.Sprintf("%d starts for %d tasks", len(start), len(p.Tasks))}}
	}
	found := windows(p, start)
	found = append(found, gaps(p, start)...)
	for r := range p.Resources {
		found = append(found, overloads(p, start, r)...)
	}
	if len(found) > 0 {
		return found
	}
	return nil
}

func windows(p timetable.Problem, start []int) Violations {
	var found Violations
	add := func(kind Kind, task int, format string, args ...any) {
		found = append(found, Violation{Kind: kind, Tasks: []int{task}, Minute: start[task],
			Text: fmt.Sprintf("%q starts at minute %d: ", p.Tasks[task].Name, start[task]) + fmt.Sprintf(format, args...)})
	}
	for i, t := range p.Tasks {
		if start[i] < t.Earliest || start[i] < 0 {
			add(Window, i, "not before minute %d", max(0, t.Earliest))
		}
		if t.Latest >= 0 && start[i] > t.Latest {
			add(Window, i, "not after minute %d", t.Latest)
		}
		if start[i] > p.Horizon-t.Duration {
			add(Horizon, i, "with its %d minutes it ends after the horizon, minute %d", t.Duration, p.Horizon)
		}
	}
	return found
}

func gaps(p timetable.Problem, start []int) Violations {
	var found Violations
	for l, lag := range p.Lags {
		if lag.From < 0 || lag.From >= len(start) || lag.To < 0 || lag.To >= len(start) {
			found = append(found, Violation{Kind: Shape, Lag: l, Text: fmt.Sprintf("lag %d names a task that is not there", l)})
			continue
		}
		if got := start[lag.To] - start[lag.From]; got < lag.Min {
			found = append(found, Violation{Kind: Gap, Tasks: []int{lag.From, lag.To}, Lag: l, Minute: start[lag.To],
				Text: fmt.Sprintf("%q starts at minute %d, %q at %d: a difference of %d, want at least %d",
					p.Tasks[lag.From].Name, start[lag.From], p.Tasks[lag.To].Name, start[lag.To], got, lag.Min)})
		}
	}
	return found
}

// overloads looks at every minute at which demand or capacity changes, and joins neighbours that are overloaded alike.
func overloads(p timetable.Problem, start []int, r int) Violations {
	var minutes []int
	for i, t := range p.Tasks {
		for _, u := range t.Uses {
			if u.Resource == r {
				minutes = append(minutes, start[i]+u.From, start[i]+u.To)
			}
		}
	}
	for _, s := range p.Resources[r].Capacity {
		minutes = append(minutes, s.From)
	}
	slices.Sort(minutes)
	var found Violations
	var last []int
	for _, minute := range slices.Compact(minutes) {
		users, need := demandAt(p, start, r, minute)
		have := capacityAt(p.Resources[r].Capacity, minute)
		if need <= have {
			last = nil
			continue
		}
		if slices.Equal(users, last) {
			continue
		}
		last = users
		found = append(found, Violation{Kind: Overload, Tasks: users, Resource: r, Minute: minute,
			Text: fmt.Sprintf("minute %d: %d of %q in use, %d there: %s", minute, need, p.Resources[r].Name, have, names(p, users))})
	}
	return found
}

func demandAt(p timetable.Problem, start []int, r, minute int) (users []int, need int) {
	for i, t := range p.Tasks {
		uses := 0
		for _, u := range t.Uses {
			if u.Resource == r && start[i]+u.From <= minute && minute < start[i]+u.To {
				uses += u.Amount
			}
		}
		if uses > 0 {
			users, need = append(users, i), need+uses
		}
	}
	return users, need
}

func capacityAt(steps []timetable.Step, minute int) int {
	amount := 0
	for _, s := range steps {
		if s.From <= minute {
			amount = s.Amount
		}
	}
	return amount
}

func names(p timetable.Problem, tasks []int) string {
	list := make([]string, len(tasks))
	for k, i := range tasks {
		list[k] = fmt.Sprintf("%q", p.Tasks[i].Name)
	}
	return strings.Join(list, ", ")
}
