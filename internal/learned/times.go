package learned

import (
	"fmt"
	"slices"

	"kettlefrost/internal/board"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

const minuteMs = 60_000

// took is how long one task took, or why that cannot be told from what was entered.
type took struct {
	minutes float64
	people  int
	why     string
}

// day is the times of one run.
type day struct {
	made   Made
	tasks  map[string]*board.Task
	handed map[string]bool // tasks that somebody stands by for from beginning to end
	before map[string][]string
	closed record.Instant
}

func dayOf(m Made) *day {
	d := &day{made: m, tasks: board.Read(m.Run, plan.Plan{}, nil).Tasks, handed: map[string]bool{}, before: map[string][]string{}}
	if t, ok := m.Run.Closed(); ok {
		d.closed = t.Happened
	}
	for _, x := range m.Expected.Dishes {
		d.plan(x)
	}
	for _, p := range m.Expected.Packs {
		for _, key := range p.Tasks {
			d.handed[key] = true
		}
	}
	return d
}

// plan notes of a dish which tasks are all handwork, and what must be over before each begins.
func (d *day) plan(x plan.ExpectedDish) {
	length, hands := map[string]int{}, map[string]int{}
	gives := map[kitchen.OutputID]plan.ExpectedStep{}
	for _, s := range x.Steps {
		length[s.Head] += s.HeatMin + s.WorkMin
		hands[s.Head] += s.HandsMin
		for _, o := range s.Out {
			gives[o.ID] = s
		}
	}
	for _, s := range x.Steps {
		for j, key := range s.Tasks {
			d.handed[key] = length[s.Head] > 0 && hands[s.Head] == length[s.Head]
			if s.ID != s.Head {
				continue
			}
			for _, u := range s.In {
				if from, ok := gives[u.From]; ok && u.From != "" && from.Head != s.Head {
					n := ((j+1)*len(from.Tasks) + len(s.Tasks) - 1) / len(s.Tasks)
					d.before[key] = append(d.before[key], from.Tasks[:min(n, len(from.Tasks))]...)
				}
			}
		}
	}
}

// took is how long a task took. Planned is how long it should take, in minutes.
func (d *day) took(key string, planned float64) took {
	t := d.tasks[key]
	switch {
	case t == nil || t.Is == board.ToDo:
		return took{why: "nobody entered that it was begun or done"}
	case t.Is == board.Skipped:
		return took{why: "it was not done: " + t.Why}
	case t.Is == board.Begun:
		return took{why: "it was left open: nobody entered that it was done"}
	case t.Unmarked:
		return took{why: "nobody entered when it was begun"}
	}
	clock := d.made.Clock
	from, to := clock(t.Began), clock(t.Ended)
	minutes := float64(t.Ended-t.Began) / minuteMs
	switch {
	case from/unit.Moment(24*60) != to/unit.Moment(24*60):
		return took{why: "it was left open until another day"}
	case d.closed != 0 && t.Ended > d.closed:
		return took{why: "it was entered as done after the run was closed"}
	case minutes < 1 && planned >= 3:
		return took{why: "begun and done were entered within a minute: afterwards"}
	}
	for _, other := range []string{d.together(t), d.early(t), d.broken(t, from, to), d.twice(t)} {
		if other != "" {
			return took{why: other}
		}
	}
	return took{minutes: minutes, people: max(1, len(t.Who))}
}

// together is that somebody entered three tasks or more as done in one go.
func (d *day) together(t *board.Task) string {
	n := 0
	for _, o := range d.tasks {
		if o.Is == board.Done && o.EndedBy == t.EndedBy && max(o.Ended-t.Ended, t.Ended-o.Ended) < minuteMs {
			n++
		}
	}
	if n >= 3 {
		return fmt.Sprintf("%s entered %d tasks as done in one go", t.EndedBy, n)
	}
	return ""
}

// early is that it was begun before what it needs was there: it waited in between.
func (d *day) early(t *board.Task) string {
	for _, key := range d.before[t.Key] {
		if o := d.tasks[key]; o != nil && o.Is == board.Done && !o.Unmarked && o.Ended > t.Began+minuteMs {
			return "it was begun before " + key + " was done, and waited for it"
		}
	}
	return ""
}

// broken is that somebody who stands by it had a break meanwhile.
func (d *day) broken(t *board.Task, from, to unit.Moment) string {
	if !d.handed[t.Key] {
		return ""
	}
	for id, p := range d.made.Book.People {
		if !slices.Contains(t.Who, string(id)) && !slices.Contains(t.Who, p.Name) {
			continue
		}
		for _, b := range p.Shift.Breaks {
			begin, end := unit.Moment(b.From), unit.Moment(b.To)
			if day := from / unit.Moment(24*60) * unit.Moment(24*60); from < day+end && to > day+begin {
				return fmt.Sprintf("%s had a break in it, %s to %s", p.Name, b.From, b.To)
			}
		}
	}
	return ""
}

// twice is that the same hands had another such task meanwhile, for more than a tenth of the time.
func (d *day) twice(t *board.Task) string {
	if !d.handed[t.Key] {
		return ""
	}
	worst := ""
	for key, o := range d.tasks {
		if key == t.Key || !d.handed[key] || o.Is != board.Done || o.Unmarked || len(o.Who) == 0 || len(t.Who) == 0 {
			continue
		}
		both := min(o.Ended, t.Ended) - max(o.Began, t.Began)
		if slices.ContainsFunc(o.Who, func(w string) bool { return slices.Contains(t.Who, w) }) && both > 2*minuteMs && both*10 > t.Ended-t.Began {
			if worst == "" || key < worst {
				worst = key
			}
		}
	}
	if worst != "" {
		return "who did it had " + worst + " in hand at the same time"
	}
	return ""
}

// stretched is by how much the tasks of a chain took longer than planned, and why that is not known.
func (d *day) stretched(keys []string, planned float64) (factor float64, why string) {
	sum := 0.0
	for _, key := range keys {
		t := d.took(key, planned)
		if t.why != "" {
			return 1, t.why
		}
		sum += t.minutes
	}
	if planned <= 0 || len(keys) == 0 {
		return 1, "the plan gives it no time"
	}
	return sum / planned / float64(len(keys)), ""
}
