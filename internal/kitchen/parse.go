package kitchen

import (
	"fmt"
	"strconv"
	"strings"

	"kettlefrost/internal/unit"
)

// ParseLate reads which task is late and by how much: "bean-pot/simmer=25 min". A bare number is minutes, and a minus says that it is
// early. Whether there is such a task is for CheckChanges.
func ParseLate(text string) (Late, error) {
	task, by, _ := cut(text, "=")
	if task == "" || by == "" || by == "-" {
		return Late{}, fmt.Errorf("%.40q does not say what is late by how much: write a task, = and a time, such as bean-pot/simmer=25 min", text)
	}
	span, err := ParseDelay(by)
	if err != nil {
		return Late{}, fmt.Errorf("%w: write a task, = and a time, such as bean-pot/simmer=25 min", err)
	}
	return Late{Task: task, By: span}, nil
}

// ParseDelay reads by how much something is late: "25 min". A bare number is minutes, and a minus says that it is early.
func ParseDelay(text string) (unit.Span, error) {
	late, early := strings.CutPrefix(strings.TrimSpace(text), "-")
	if late != "" && strings.Trim(late, "0123456789") == "" {
		late += " min"
	}
	span, err := unit.ParseSpan(late)
	if early {
		span = -span
	}
	return span, err
}

// ParseGone reads who is not here and when: "sam" from now on, "sam=11:00" from then on, "sam=11:00-13:00" between two times. From now
// on is a From of 0.
func ParseGone(text string) (Gone, error) {
	who, times, timed := cut(text, "=")
	from, until, err := between(times, timed)
	switch {
	case who == "":
		return Gone{}, fmt.Errorf("%.40q does not say who is not here: write sam, sam=11:00 or sam=11:00-13:00", text)
	case err != nil:
		return Gone{}, fmt.Errorf("%w: write sam, sam=11:00 or sam=11:00-13:00", err)
	}
	return Gone{Person: PersonID(who), From: from, Until: until}, nil
}

// ParseOutage reads what cannot be used, how much of it and when: "burner" is one from now on, "burner=2" two, "burner=2@11:00" from
// then on, "burner=2@11:00-13:00" between two times. From now on is a From of 0.
func ParseOutage(text string) (Outage, error) {
	const write = "write burner, burner=2 or burner=2@11:00-13:00"
	what, times, timed := cut(text, "@")
	id, number, counted := cut(what, "=")
	from, until, err := between(times, timed)
	out := Outage{Equipment: EquipmentID(id), Count: 1, From: from, Until: until}
	if counted && err == nil {
		out.Count, err = ParsePieces(number)
	}
	switch {
	case id == "":
		return Outage{}, fmt.Errorf("%.40q does not say what cannot be used: %s", text, write)
	case err != nil:
		return Outage{}, fmt.Errorf("%w: %s", err, write)
	}
	return out, nil
}

// ParsePieces reads how many pieces of something there are, 1 or more.
func ParsePieces(text string) (int, error) {
	n, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil || n < 1 {
		return 0, fmt.Errorf("%.40q is no number of pieces", text)
	}
	return n, nil
}

// between reads a moment, or two with a dash between them; nothing is read when none is given.
func between(text string, given bool) (from, until unit.Moment, err error) {
	if !given {
		return 0, 0, nil
	}
	first, second, ends := cut(text, "-")
	if err = from.UnmarshalText([]byte(first)); err != nil || !ends {
		return from, 0, err
	}
	if err = until.UnmarshalText([]byte(second)); err == nil && until <= from {
		err = fmt.Errorf("%s is not after %s", until, from)
	}
	return from, until, err
}

// cut parts a text at the first sep, without the spaces around the parts.
func cut(text, sep string) (before, after string, found bool) {
	before, after, found = strings.Cut(text, sep)
	return strings.TrimSpace(before), strings.TrimSpace(after), found
}
