package kitchen

import (
	"cmp"
	"fmt"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/spelling"
	"kettlefrost/internal/unit"
)

// CheckChanges reports everything in changes that does not fit the book, or the plan whose tasks have these keys. Paths are those of the
// changes, as in late[0].task.
func CheckChanges(book Book, changes Changes, tasks []string) finding.List {
	c := &checker{book: book}
	at := spot{where: "what has changed"}
	c.moment(at, "now", changes.Now, lastMoment)
	for i, l := range changes.Late {
		c.late(at.item("late", i, l.Task), l, tasks)
	}
	for i, r := range changes.Real {
		c.real(at.item("real", i, r.Task), r, changes.Now, tasks)
	}
	for i, g := range changes.Gone {
		at := at.item("gone", i, string(g.Person))
		c.refers(at.key("person"), "person", string(g.Person), names(book.People))
		c.away(at, changes.Now, g.From, g.Until)
	}
	for i, o := range changes.Out {
		at := at.item("out", i, string(o.Equipment))
		c.refers(at.key("equipment"), "equipment", string(o.Equipment), names(book.Equipment))
		if e, there := book.Equipment[o.Equipment]; there {
			c.within(at, "count", float64(cmp.Or(o.Count, 1)), limits{low: 1, high: float64(max(1, e.Count))})
		}
		c.away(at, changes.Now, o.From, o.Until)
	}
	return c.found
}

// late checks one late task.
func (c *checker) late(at spot, l Late, tasks []string) {
	if len(TasksOf(l.Task, tasks)) == 0 {
		c.stop(UnknownReference, at.key("task"), fmt.Sprintf("the plan has no task %s", orNothing(l.Task)), nearestTask(l.Task, tasks))
	}
	c.within(at, "by", inHours(l.By), lateBy)
	if -unit.Minute < l.By && l.By < unit.Minute {
		c.stop(OutOfRange, at.key("by"), fmt.Sprintf("by is %s, less than a minute", l.By), "write by how much it is late, such as 25 min, or take it out")
	}
}

// real checks the times of a task that has begun.
func (c *checker) real(at spot, r Real, now unit.Moment, tasks []string) {
	if !slices.Contains(tasks, r.Task) {
		c.stop(UnknownReference, at.key("task"), fmt.Sprintf("the plan has no task %s", orNothing(r.Task)), nearestTask(r.Task, tasks))
	}
	c.moment(at, "begin", r.Begin, now)
	if r.Over {
		c.moment(at, "end", r.End, now)
	}
	if r.Over && r.End < r.Begin {
		c.stop(ShiftBackwards, at.key("end"), fmt.Sprintf("it ends at %s, before its begin at %s", r.End, r.Begin), "correct begin or end")
	}
}

// nearestTask says which task may have been meant: one, or all that begin alike.
func nearestTask(name string, tasks []string) string {
	var known []string
	for _, key := range tasks {
		for i, r := range key {
			if r == '/' {
				known = append(known, key[:i])
			}
		}
		known = append(known, key)
	}
	if near := spelling.Nearest(name, known); near != "" {
		return fmt.Sprintf("did you mean %s?", near)
	}
	if len(tasks) == 0 {
		return "it has none that could be late: take this out"
	}
	return fmt.Sprintf("name one of its tasks, such as %s", slices.Min(tasks))
}

// away checks from when until when something is not there; from 0 is from now.
func (c *checker) away(at spot, now, from, until unit.Moment) {
	c.moment(at, "from", from, lastMoment)
	c.moment(at, "until", until, lastMoment)
	if from = cmp.Or(from, now); until != 0 && until <= from {
		c.stop(ShiftBackwards, at.key("until"), fmt.Sprintf("it ends at %s, not after its start at %s", until, from), "correct from or until, or leave until out when it goes on to the end of the run")
	}
}
