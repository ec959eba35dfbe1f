package board

import (
	"cmp"
	"slices"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
)

// State of a task, by what was entered.
const (
	ToDo    Progress = ""
	Begun   Progress = "begun"
	Done    Progress = "done"
	Skipped Progress = "skipped"
)

// Progress says how far a task is.
type Progress string

// Task is how one task really went.
type Task struct {
	Key      string
	Is       Progress
	Began    record.Instant // as told first; of what nobody began, when it was finished or skipped
	Ended    record.Instant // finished or skipped
	Who      []string       // who began it, in the order of time
	EndedBy  string
	Why      string // it was skipped
	Unmarked bool   // it was finished, and nobody said that it began

	starts, ends, skips []Told
}

// Last is the entry that brought the task to where it is; false when there is none.
func (t *Task) Last() (Told, bool) {
	all := slices.Concat(t.starts, t.ends, t.skips)
	if len(all) == 0 {
		return Told{}, false
	}
	return slices.MaxFunc(all, byTime), true
}

// gather sorts the entries of a run by the tasks that they are about.
func gather(r *Run) map[string]*Task {
	tasks := map[string]*Task{}
	of := func(key string) *Task {
		if tasks[key] == nil {
			tasks[key] = &Task{Key: key}
		}
		return tasks[key]
	}
	for _, x := range r.told {
		switch b := x.Says.(type) {
		case record.Started:
			of(b.Task).starts = append(of(b.Task).starts, x)
		case record.Finished:
			of(b.Task).ends = append(of(b.Task).ends, x)
		case record.Skipped:
			of(b.Task).skips = append(of(b.Task).skips, x)
		}
	}
	return tasks
}

// settle works out how far the task is. What was begun first and finished first counts; what is finished is not skipped.
func (t *Task) settle() {
	for _, x := range t.starts {
		if !slices.Contains(t.Who, x.Who) {
			t.Who = append(t.Who, x.Who)
		}
	}
	if len(t.starts) > 0 {
		t.Is, t.Began = Begun, t.starts[0].Happened
	}
	switch {
	case len(t.ends) > 0:
		x := t.ends[0]
		for _, e := range t.ends {
			if x.Happened < t.Began && e.Happened >= t.Began { // a clock went back: one that fits is believed
				x = e
			}
		}
		t.Is, t.EndedBy, t.Ended = Done, x.Who, max(x.Happened, t.Began)
	case len(t.skips) > 0:
		x := t.skips[0]
		t.Is, t.EndedBy, t.Ended, t.Why = Skipped, x.Who, max(x.Happened, t.Began), x.Says.(record.Skipped).Why
	}
	if t.Is != ToDo && len(t.starts) == 0 {
		t.Unmarked, t.Began = t.Is == Done, t.Ended
	}
}

// over says whether the task keeps nothing waiting.
func (t *Task) over() bool { return t != nil && (t.Is == Done || t.Is == Skipped) }

// waitsFor is what must come before a task can begin, and has not.
func waitsFor(needs []plan.Need, tasks map[string]*Task) []string {
	var keys []string
	for _, n := range needs {
		before := tasks[n.Task]
		there := before.over() || !n.Over && before != nil && before.Is == Begun
		if n.Begin && !there && !slices.Contains(keys, n.Task) {
			keys = append(keys, n.Task)
		}
	}
	slices.SortFunc(keys, cmp.Compare)
	return keys
}
