package app

import (
	"fmt"
	"strconv"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/spelling"
	"kettlefrost/internal/unit"
)

// Task is what a text says is late: the key of a task of a plan, or what several begin with, such as all loads of a step. One that covers
// none is an error that says what is near.
func Task(keys []string, text string) (string, error) {
	text = strings.TrimSpace(text)
	if len(kitchen.TasksOf(text, keys)) > 0 {
		return text, nil
	}
	if near := spelling.Nearest(text, keys); near != "" {
		return "", fmt.Errorf("%q is no task of this run; did you mean %s?", cutShort(text), near)
	}
	return "", fmt.Errorf("%q is no task of this run; the day as JSON has the keys of its tasks", cutShort(text))
}

// Keys are the keys of a plan's tasks.
func Keys(p plan.Plan) []string {
	var keys []string
	for _, t := range p.Timetable.Tasks {
		keys = append(keys, t.Key)
	}
	return keys
}

// Delay reads how late something is; a bare number is minutes.
func Delay(text string) (unit.Span, error) {
	text = strings.TrimSpace(text)
	if _, err := strconv.Atoi(text); err == nil {
		text += " min"
	}
	d, err := unit.ParseSpan(text)
	if err == nil && (d < unit.Minute || d > unit.Day) {
		err = fmt.Errorf("%s is no delay that a day can be timed with; write 1 min to 24 h", d)
	}
	return d, err
}

// Moment reads a time of a run: 11:20, or 01:10+1 on its second day.
func Moment(text string) (m unit.Moment, err error) {
	err = m.UnmarshalText([]byte(strings.TrimSpace(text)))
	return m, err
}

// Pieces reads how many of most equal pieces there are.
func Pieces(text string, most int) (int, error) {
	n, err := strconv.Atoi(strings.TrimSpace(text))
	switch {
	case err != nil || n < 1:
		return 0, fmt.Errorf("%q is no number of pieces; write for example 1", cutShort(text))
	case n > most:
		return 0, fmt.Errorf("the book has only %d of it", most)
	}
	return n, nil
}

// cutShort keeps a message on its line, whatever was typed.
func cutShort(text string) string {
	if r := []rune(text); len(r) > 40 {
		return string(r[:39]) + "…"
	}
	return text
}

// Told is what has changed, in words, each change a sentence without its full stop.
func Told(book kitchen.Book, tasks []plan.Task, c kitchen.Changes) []string {
	var lines []string
	for _, l := range c.Late {
		lines = append(lines, fmt.Sprintf("%s is %s late", called(tasks, l), l.By))
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

func stretch(from, until unit.Moment) string {
	if until == 0 {
		return "from " + from.String() + " on"
	}
	return "from " + from.String() + " to " + until.String()
}
