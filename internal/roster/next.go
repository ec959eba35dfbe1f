package roster

import (
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// Outlook is what a person does at a moment, and next.
type Outlook struct {
	Person string
	Now    []Turn // mostly one; none when nothing is to be done at the moment
	Then   []Turn // the next ones, by time
	More   int    // turns at tasks that follow after those
}

// Next is the outlook of everybody from a moment on, each with at most most turns to come.
func Next(t plan.Timetable, now unit.Moment, most int) []Outlook {
	var all []Outlook
	for _, row := range People(t, "") {
		all = append(all, outlook(row.Name, Turns(t, row), now, most))
	}
	return all
}

func outlook(name string, turns []Turn, now unit.Moment, most int) Outlook {
	o := Outlook{Person: name}
	for _, turn := range turns {
		switch {
		case turn.To <= now:
		case turn.From <= now:
			o.Now = append(o.Now, turn)
		case len(o.Then) < most:
			o.Then = append(o.Then, turn)
		case !turn.Away():
			o.More++
		}
	}
	return o
}
