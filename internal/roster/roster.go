// Package roster reads a plan's timetable as people work by it: each person's turns in order, what everybody does at a moment and next,
// what nothing may delay, and what moved when the day was timed again. It is also a day alone, as a value for programs.
package roster

import (
	"cmp"
	"slices"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// Schema names the shape of a day's JSON; its number goes up when a reader of the old one could be misled.
const Schema = "kettlefrost.day/1"

// Day is the day of a run without the rest of its plan.
type Day struct {
	Schema    string         `json:"schema"`
	Kitchen   string         `json:"kitchen"`
	Run       string         `json:"run"`
	Date      string         `json:"day,omitempty"` // on which it starts
	Timetable plan.Timetable `json:"timetable"`
}

// DayOf is the day of a plan.
func DayOf(p plan.Plan) Day {
	return Day{Schema: Schema, Kitchen: p.Kitchen, Run: p.Run, Date: p.Day, Timetable: p.Timetable}
}

// Turn is one stay of a person at a task.
type Turn struct {
	Task     int // index into Timetable.Tasks; -1 is a time away
	From, To unit.Moment
	With     []string // who else is on the task, though not always at the same minutes
	Nth      int      // from 1: how often the person has come to this task by then
}

// Away says that the person is not there.
func (t Turn) Away() bool { return t.Task < 0 }

// Turns are a person's turns by time: those of one task that follow each other without a gap are one, and the times away that lie
// between the first and the last stand among them.
func Turns(t plan.Timetable, row plan.Row) []Turn {
	var turns []Turn
	count := map[int]int{}
	for _, b := range byStart(t, row) {
		if n := len(turns) - 1; n >= 0 && turns[n].Task == b.Task && b.From <= turns[n].To {
			turns[n].To = max(turns[n].To, b.To)
			continue
		}
		count[b.Task]++
		turn := Turn{Task: b.Task, From: b.From, To: b.To, Nth: count[b.Task]}
		if b.Task >= 0 {
			turn.With = others(t.Tasks[b.Task], row.Name)
		}
		turns = append(turns, turn)
	}
	return turns
}

func byStart(t plan.Timetable, row plan.Row) []plan.Bar {
	var bars []plan.Bar
	first, last := unit.Moment(0), unit.Moment(0)
	for _, b := range row.Bars {
		if b.Task < 0 || b.Task >= len(t.Tasks) {
			continue
		}
		if len(bars) == 0 {
			first, last = b.From, b.To
		}
		first, last = min(first, b.From), max(last, b.To)
		bars = append(bars, b)
	}
	for _, b := range row.Away {
		if len(bars) > 0 && first < b.From && b.To < last {
			bars = append(bars, plan.Bar{Task: -1, From: b.From, To: b.To})
		}
	}
	slices.SortStableFunc(bars, func(a, b plan.Bar) int { return cmp.Compare(a.From, b.From) })
	return bars
}

func others(task plan.Task, name string) []string {
	var names []string
	for _, n := range task.People {
		if n != name {
			names = append(names, n)
		}
	}
	return names
}

// Critical says that the day ends later if the task does.
func Critical(t plan.Task) bool { return t.Slack == 0 && t.State != plan.Done }

// People are the rows of the people with a name, of all people when it is "".
func People(t plan.Timetable, name string) []plan.Row {
	var rows []plan.Row
	for _, r := range t.Rows {
		if r.Person && (name == "" || r.Name == name) {
			rows = append(rows, r)
		}
	}
	return rows
}

// Names are the people of a timetable, in its order.
func Names(t plan.Timetable) []string {
	var names []string
	for _, r := range People(t, "") {
		names = append(names, r.Name)
	}
	return names
}

// Shift is how much later than planned a moved task starts; below 0 it starts earlier.
func Shift(t plan.Timetable, m plan.Move) unit.Span {
	return unit.Span(t.Tasks[m.Task].Start-m.Was) * unit.Minute
}

// Moved are the moves of a timetable that point at one of its tasks.
func Moved(t plan.Timetable) []plan.Move {
	var moves []plan.Move
	for _, m := range t.Moves {
		if m.Task >= 0 && m.Task < len(t.Tasks) {
			moves = append(moves, m)
		}
	}
	return moves
}
