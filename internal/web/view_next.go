package web

import (
	"strings"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/roster"
)

// mostNext is how many turns to come are shown of each person.
const mostNext = 4

// refreshS is after how many seconds a page that follows the clock is asked for again.
const refreshS = 60

// nextView is what everybody does at a moment, and next.
type nextView struct {
	At     string
	Again  string // the address that shows it anew, when it follows the clock
	People []outlookView
}

// dayLinks lead to the day's own pages and files.
func dayLinks(path, rest string) []link {
	return []link{{"The day on paper", path + "/day/sheet" + rest}, {"The day as a drawing", path + "/day.svg" + rest},
		{"The day for a calendar", path + "/day.ics" + rest}, {"The day as JSON", path + "/day.json" + rest}}
}

// outlookView is that of one person.
type outlookView struct {
	Name  string
	Free  string // when nothing is to be done
	Turns []aheadView
	More  string
}

// aheadView is a turn that is on or to come.
type aheadView struct {
	From, To string
	Code     string
	Label    string
	Load     string
	Place    string
	With     string
	Critical bool
	Away     bool
	On       bool // at the moment
}

// viewNext is empty when there is no moment to look at.
func viewNext(d runDay, path, rest string) nextView {
	if d.now == nil {
		return nextView{}
	}
	v := nextView{At: d.now.String()}
	if d.ticking {
		v.Again = path + "/next" + rest
	}
	codes := draw.NewCodes(d.plan.Dishes)
	for _, o := range roster.Next(d.plan.Timetable, *d.now, mostNext) {
		v.People = append(v.People, viewOutlook(d.plan.Timetable, codes, o))
	}
	return v
}

func viewOutlook(t plan.Timetable, codes draw.Codes, o roster.Outlook) outlookView {
	v := outlookView{Name: o.Person, Turns: append(viewAhead(t, codes, o.Now, true), viewAhead(t, codes, o.Then, false)...)}
	switch {
	case len(o.Now) > 0:
	case len(o.Then) == 0:
		v.Free = "Nothing more to do."
	default:
		v.Free = "Free until " + o.Then[0].From.String() + "."
	}
	if o.More > 0 {
		v.More = "And " + times(o.More, "turn", "turns") + " after that."
	}
	return v
}

func viewAhead(t plan.Timetable, codes draw.Codes, turns []roster.Turn, on bool) []aheadView {
	var all []aheadView
	for _, r := range turns {
		v := aheadView{From: r.From.String(), To: r.To.String(), Away: r.Away(), On: on, Label: "away", With: strings.Join(r.With, ", ")}
		if !r.Away() {
			task := t.Tasks[r.Task]
			v.Code, v.Label, v.Load, v.Place = codes.Task(task), draw.Brief(task), loadOf(task), strings.Join(task.On, ", ")
			v.Critical = roster.Critical(task)
		}
		all = append(all, v)
	}
	return all
}

// moveView is a task that starts at another time than planned.
type moveView struct {
	Was, Now, By string
	Code, Label  string
	Load         string
	Who          string
	Why          string
}

func viewMoves(p plan.Plan, rd reader) []moveView {
	var moves []moveView
	codes := draw.NewCodes(p.Dishes)
	for _, m := range roster.Moved(p.Timetable) {
		k := p.Timetable.Tasks[m.Task]
		moves = append(moves, moveView{Was: m.Was.String(), Now: k.Start.String(), By: roster.ShiftWords(roster.Shift(p.Timetable, m), rd.units),
			Code: codes.Task(k), Label: draw.Brief(k), Load: loadOf(k), Who: strings.Join(k.People, ", "), Why: m.Why})
	}
	return moves
}
