package app

import (
	"fmt"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// Keys are the keys of a plan's tasks.
func Keys(p plan.Plan) []string {
	var keys []string
	for _, t := range p.Timetable.Tasks {
		keys = append(keys, t.Key)
	}
	return keys
}

// Moment reads a time of a run: 11:20, or 01:10+1 on its second day.
func Moment(text string) (m unit.Moment, err error) {
	err = m.UnmarshalText([]byte(strings.TrimSpace(text)))
	return m, err
}

// Told is what has changed, in words, each change a sentence without its full stop.
func Told(book kitchen.Book, tasks []plan.Task, c kitchen.Changes) []string {
	var lines []string
	for _, l := range c.Late {
		lines = append(lines, called(tasks, l)+" is "+delay(l.By))
	}
	for _, g := range c.Gone {
		lines = append(lines, book.People[g.Person].Name+" is not here "+stretch(g.From, g.Until))
	}
	for _, o := range c.Out {
		lines = append(lines, fmt.Sprintf("%d × %s cannot be used %s", o.Count, book.Equipment[o.Equipment].Name, stretch(o.From, o.Until)))
	}
	return lines
}

// called is what a late task does, and its key; of several, the key alone.
func called(tasks []plan.Task, l kitchen.Late) string {
	for _, t := range tasks {
		if t.Key == l.Task {
			return fmt.Sprintf("“%s” (%s)", strings.TrimRight(t.Label, ". "), t.Key)
		}
	}
	return l.Task
}

func delay(by unit.Span) string {
	if by < 0 {
		return (-by).String() + " early"
	}
	return by.String() + " late"
}

func stretch(from, until unit.Moment) string {
	if until == 0 {
		return "from " + from.String() + " on"
	}
	return "from " + from.String() + " to " + until.String()
}
