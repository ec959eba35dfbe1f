package board

import (
	"cmp"
	"slices"
	"strings"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/roster"
	"kettlefrost/internal/unit"
)

// Item is a task as it stands on the board.
type Item struct {
	Task   plan.Task // as timed now
	Went   *Task
	Due    record.Instant // when what is under way should be over; 0 otherwise
	Waits  []string       // labels of what must be done before it can begin
	Behind unit.Span      // by so much later than first planned it begins now
}

// Column is what there is to do for one person, or for anybody.
type Column struct {
	Person   string // "" is anybody: nobody's hands are needed for it
	UnderWay []Item // by when it should be over
	Now      []Item // can begin, and should have by now
	Next     []Item // can begin later
	Waiting  []Item // cannot begin yet
}

// Outlook is the board at a moment: people in the order of the timetable, and anybody last. First is the plan before it happened, timed the
// plan as it was timed again last, which may lag behind what was entered.
func (b Board) Outlook(first, timed plan.Plan, now unit.Moment) []Column {
	tasks := timed.Timetable.Tasks
	if len(tasks) == 0 {
		tasks = first.Timetable.Tasks
	}
	was := map[string]plan.Task{}
	for _, t := range first.Timetable.Tasks {
		was[t.Key] = t
	}
	var columns []Column
	for _, name := range append(roster.Names(first.Timetable), "") {
		c := Column{Person: name}
		for _, t := range tasks {
			if mine := slices.Contains(t.People, name) || name == "" && len(t.People) == 0 || slices.Contains(b.Tasks[t.Key].Who, name); mine {
				c.add(b.item(t, was, now), now)
			}
		}
		c.sort()
		columns = append(columns, c)
	}
	return columns
}

func (b Board) item(t plan.Task, was map[string]plan.Task, now unit.Moment) Item {
	x := Item{Task: t, Went: b.Tasks[t.Key]}
	first, planned := was[t.Key]
	if !planned {
		first = t
	}
	switch x.Went.Is {
	case ToDo:
		x.Behind = unit.Span(t.Start-first.Start) * unit.Minute
		for _, key := range waitsFor(b.needs[t.Key], b.Tasks) {
			x.Waits = append(x.Waits, cmp.Or(strings.TrimRight(was[key].Label, ". "), key))
		}
	case Begun:
		lasts := first.End - first.Start
		if t.State == plan.Begun && t.End > now+1 { // it may have to wait on the way; what is late ends a minute from now, again and again
			lasts = max(lasts, t.End-t.Start)
		}
		x.Due = x.Went.Began + record.Instant(lasts)*60_000
	}
	return x
}

// add puts an item where it belongs; what is over is not on the board.
func (c *Column) add(x Item, now unit.Moment) {
	switch {
	case x.Went.Is == Begun:
		c.UnderWay = append(c.UnderWay, x)
	case x.Went.Is != ToDo:
	case len(x.Waits) > 0:
		c.Waiting = append(c.Waiting, x)
	case x.Task.Start <= now+1: // what should begin now was timed a minute ago
		c.Now = append(c.Now, x)
	default:
		c.Next = append(c.Next, x)
	}
}

func (c *Column) sort() {
	byStart := func(x, y Item) int {
		return cmp.Or(cmp.Compare(x.Task.Start, y.Task.Start), cmp.Compare(x.Task.Slack, y.Task.Slack), cmp.Compare(x.Task.Key, y.Task.Key))
	}
	slices.SortFunc(c.UnderWay, func(x, y Item) int { return cmp.Or(cmp.Compare(x.Due, y.Due), cmp.Compare(x.Task.Key, y.Task.Key)) })
	slices.SortFunc(c.Now, byStart)
	slices.SortFunc(c.Next, byStart)
	slices.SortFunc(c.Waiting, byStart)
}

// Over are the tasks that are done or skipped, the last first.
func (b Board) Over() []*Task {
	var all []*Task
	for _, t := range b.Tasks {
		if t.over() {
			all = append(all, t)
		}
	}
	slices.SortFunc(all, func(x, y *Task) int { return cmp.Or(cmp.Compare(y.Ended, x.Ended), cmp.Compare(x.Key, y.Key)) })
	return all
}
