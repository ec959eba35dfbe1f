package app

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/spelling"
	"kettlefrost/internal/unit"
)

// Task is the key of a task of a plan, from that key or, when the step has one load, from the key without the load. An unknown one is
// an error that says what is near.
func Task(keys []string, text string) (string, error) {
	text = strings.TrimSpace(text)
	if text != "" && slices.Contains(keys, text) {
		return text, nil
	}
	var loads []string
	for _, key := range keys {
		if rest, ok := strings.CutPrefix(key, text+"/"); ok && text != "" && !strings.Contains(rest, "/") {
			loads = append(loads, key)
		}
	}
	switch {
	case len(loads) == 1:
		return loads[0], nil
	case len(loads) > 1:
		return "", fmt.Errorf("%q has several loads; say which, such as %s", text, loads[0])
	}
	if near := spelling.Nearest(text, keys); near != "" {
		return "", fmt.Errorf("%q is no task of this run; did you mean %s?", cutShort(text), near)
	}
	return "", fmt.Errorf("%q is no task of this run; the day as JSON has the keys of its tasks", cutShort(text))
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
func Told(book kitchen.Book, c kitchen.Changes) []string {
	var lines []string
	for _, l := range c.Late {
		lines = append(lines, fmt.Sprintf("%s is %s late", l.Task, l.By))
	}
	for _, g := range c.Gone {
		lines = append(lines, book.People[g.Person].Name+" is not here "+stretch(g.From, g.Until))
	}
	for _, o := range c.Out {
		lines = append(lines, fmt.Sprintf("%d × %s cannot be used %s", o.Count, book.Equipment[o.Equipment].Name, stretch(o.From, o.Until)))
	}
	return lines
}

func stretch(from, until unit.Moment) string {
	if until == 0 {
		return "from " + from.String() + " on"
	}
	return "from " + from.String() + " to " + until.String()
}
