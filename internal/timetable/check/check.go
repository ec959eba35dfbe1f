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
	TooSoon                  // no time for a changeover
)

// Violation is one broken rule.
type Violation struct {
	Kind     Kind
	Tasks    []int // the tasks concerned
	Lag      int   // of Gap: the index
	Resource int   // of Overload and TooSoon: the index
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

// Check returns nil when the timetable, the minute each task starts and the way taken of each choice (nil when there is none to take),
// keeps every rule of p; otherwise Violations, all of them: windows, the horizon, every lag, every stretch of minutes in which a resource
// is overloaded, every changeover that is cut short.
func Check(p timetable.Problem, start, ways []int) error {
	if len(start) != len(p.Tasks) {
		return Violations{{Kind: Shape, Text: fmt.Sprintf("%d starts for %d tasks", len(start), len(p.Tasks))}}
	}
	if len(ways) != len(p.Choices) {
		return Violations{{Kind: Shape, Text: fmt.Sprintf("%d ways for %d choices", len(ways), len(p.Choices))}}
	}
	for k, way := range ways {
		if way < 1 || way > p.Choices[k] {
			return Violations{{Kind: Shape, Text: fmt.Sprintf("way %d of choice %d, which has %d", way, k, p.Choices[k])}}
		}
	}
	t := table{p, start, ways}
	found := t.windows()
	found = append(found, t.gaps()...)
	stints := t.stints()
	for r := range p.Resources {
		found = append(found, t.overloads(r, stints)...)
		found = append(found, t.changeovers(r, stints)...)
	}
	if len(found) > 0 {
		return found
	}
	return nil
}

// table is a timetable beside its problem.
type table struct {
	p     timetable.Problem
	start []int
	ways  []int
}

// counts tells whether something that may hang on a way is asked for.
func (t table) counts(c timetable.If) bool {
	return c.Way == 0 || c.Way > 0 && t.ways[c.Choice] == c.Way
}

func (t table) windows() Violations {
	var found Violations
	for i, task := range t.p.Tasks {
		add := func(kind Kind, format string, args ...any) {
			found = append(found, Violation{Kind: kind, Tasks: []int{i}, Minute: t.start[i],
				Text: fmt.Sprintf("%q starts at minute %d: ", task.Name, t.start[i]) + fmt.Sprintf(format, args...)})
		}
		if t.start[i] < task.Earliest || t.start[i] < 0 {
			add(Window, "not before minute %d", max(0, task.Earliest))
		}
		if task.Latest >= 0 && t.start[i] > task.Latest {
			add(Window, "not after minute %d", task.Latest)
		}
		if t.start[i] > t.p.Horizon-task.Duration {
			add(Horizon, "with its %d minutes it ends after the horizon, minute %d", task.Duration, t.p.Horizon)
		}
	}
	for h, hold := range t.p.Holds {
		if t.counts(hold.If) && hold.Amount > 0 && t.start[hold.To.Task]+hold.To.Minute > t.p.Horizon {
			found = append(found, Violation{Kind: Horizon, Tasks: []int{hold.To.Task}, Minute: t.p.Horizon,
				Text: fmt.Sprintf("hold %d lasts until minute %d, after the horizon, minute %d", h, t.start[hold.To.Task]+hold.To.Minute, t.p.Horizon)})
		}
	}
	return found
}

func (t table) gaps() Violations {
	var found Violations
	for l, lag := range t.p.Lags {
		if !t.counts(lag.If) {
			continue
		}
		if lag.From < 0 || lag.From >= len(t.start) || lag.To < 0 || lag.To >= len(t.start) {
			found = append(found, Violation{Kind: Shape, Lag: l, Text: fmt.Sprintf("lag %d names a task that is not there", l)})
			continue
		}
		if got := t.start[lag.To] - t.start[lag.From]; got < lag.Min {
			found = append(found, Violation{Kind: Gap, Tasks: []int{lag.From, lag.To}, Lag: l, Minute: t.start[lag.To],
				Text: fmt.Sprintf("%q starts at minute %d, %q at %d: a difference of %d, want at least %d",
					t.p.Tasks[lag.From].Name, t.start[lag.From], t.p.Tasks[lag.To].Name, t.start[lag.To], got, lag.Min)})
		}
	}
	return found
}

// stint is a time, in minutes, during which a task has some of a resource.
type stint struct{ task, resource, from, to, amount int }

// stints are all uses and all holds that last.
func (t table) stints() []stint {
	var all []stint
	for i, task := range t.p.Tasks {
		for _, u := range task.Uses {
			all = append(all, stint{i, u.Resource, t.start[i] + u.From, t.start[i] + u.To, u.Amount})
		}
	}
	for _, h := range t.p.Holds {
		if !t.counts(h.If) {
			continue
		}
		all = append(all, stint{h.From.Task, h.Resource, t.start[h.From.Task] + h.From.Minute, t.start[h.To.Task] + h.To.Minute, h.Amount})
	}
	return slices.DeleteFunc(all, func(s stint) bool { return s.from >= s.to || s.amount == 0 })
}

// overloads looks at every minute at which demand or capacity changes, and joins neighbours that are overloaded alike.
func (t table) overloads(r int, stints []stint) Violations {
	var minutes []int
	for _, s := range stints {
		if s.resource == r {
			minutes = append(minutes, s.from, s.to)
		}
	}
	for _, s := range t.p.Resources[r].Capacity {
		minutes = append(minutes, s.From)
	}
	slices.Sort(minutes)
	var found Violations
	var last []int
	for _, minute := range slices.Compact(minutes) {
		users, need := demandAt(stints, r, minute)
		have := capacityAt(t.p.Resources[r].Capacity, minute)
		if need <= have {
			last = nil
			continue
		}
		if slices.Equal(users, last) {
			continue
		}
		last = users
		found = append(found, Violation{Kind: Overload, Tasks: users, Resource: r, Minute: minute,
			Text: fmt.Sprintf("minute %d: %d of %q in use, %d there: %s", minute, need, t.p.Resources[r].Name, have, names(t.p, users))})
	}
	return found
}

// changeovers looks at each two stints of a resource: between them there must be as much time as from the earlier family to the later.
func (t table) changeovers(r int, stints []stint) Violations {
	minutes := t.p.Resources[r].Changeover
	if minutes == nil {
		return nil
	}
	var found Violations
	for _, a := range stints {
		for _, b := range stints {
			if a.resource != r || b.resource != r || a.task == b.task || a.from > b.from {
				continue
			}
			if want := minutes[t.p.Tasks[a.task].Family][t.p.Tasks[b.task].Family]; b.from-a.to < want && b.from >= a.to {
				found = append(found, Violation{Kind: TooSoon, Tasks: []int{a.task, b.task}, Resource: r, Minute: b.from,
					Text: fmt.Sprintf("%q has %q from minute %d, %d after %q: want %d for the changeover", t.p.Tasks[b.task].Name, t.p.Resources[r].Name, b.from,
						b.from-a.to, t.p.Tasks[a.task].Name, want)})
			}
		}
	}
	return found
}

func demandAt(stints []stint, r, minute int) (users []int, need int) {
	for _, s := range stints {
		if s.resource == r && s.from <= minute && minute < s.to {
			users, need = append(users, s.task), need+s.amount
		}
	}
	slices.Sort(users)
	return slices.Compact(users), need
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
