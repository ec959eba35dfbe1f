package sheet

import (
	"fmt"
	"strconv"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/roster"
	"kettlefrost/internal/unit"
)

// DayChoice is what a sheet of the day alone shows.
type DayChoice struct {
	Person  string       // only this one; everybody when ""
	Now     *unit.Moment // what everybody does at this moment and next stands first; not at all when nil
	Because []string     // what has changed, of a day that was timed again
}

// mostNext is how many turns to come are told.
const mostNext = 4

// DayText is the sheet of a plan's day alone: what moved, if it was timed again, what comes next, and the day.
func DayText(p plan.Plan, units unit.System, choice DayChoice) string {
	w := &writer{plan: p, units: units}
	w.head()
	if p.Timetable.Now != nil || choice.Because != nil {
		w.moved(p.Timetable, choice.Because)
	}
	if choice.Now != nil {
		w.next(p.Timetable, *choice.Now, choice.Person)
	}
	w.dayOf(choice.Person)
	return w.String()
}

// moved is what is otherwise than it was planned.
func (w *writer) moved(t plan.Timetable, because []string) {
	beside := ""
	if t.Now != nil {
		beside = "timed again at " + t.Now.String()
	}
	w.heading("moved", beside)
	for _, b := range because {
		w.hang(0, "because: ", b)
	}
	w.gap()
	if t.Now == nil {
		w.para(0, "The rest could not be timed again: this is the day as it was planned.")
		return
	}
	out := table{columns: []column{{head: "was"}, {head: "now"}, {}, {head: "who", wraps: true}, {head: "what", wraps: true}, {head: "load", right: true}, {head: "why", wraps: true}}}
	for _, m := range roster.Moved(t) {
		k := t.Tasks[m.Task]
		out.add(m.Was.String(), k.Start.String(), roster.ShiftWords(roster.Shift(t, m), w.units), list(", ", k.People...), what(k), load(k), m.Why)
	}
	if len(out.rows) == 0 {
		w.para(0, "Nothing starts at another time than planned.")
	}
	w.table(out)
}

// next is what everybody does at a moment and after it.
func (w *writer) next(t plan.Timetable, now unit.Moment, person string) {
	w.heading("next", "from "+now.String())
	for _, o := range roster.Next(t, now, mostNext) {
		if person == "" || o.Person == person {
			w.outlook(t, o)
		}
	}
}

func (w *writer) outlook(t plan.Timetable, o roster.Outlook) {
	w.sub(o.Person)
	out := table{indent: 2, columns: []column{{}, {}, {}, {wraps: true}, {right: true}}}
	for _, turn := range o.Now {
		w.ahead(&out, t, "now", "to "+turn.To.String(), turn)
	}
	if len(o.Now) == 0 {
		out.add("now", "", "", free(o))
	}
	for i, turn := range o.Then {
		w.ahead(&out, t, strconv.Itoa(i+1), turn.From.String()+" to "+turn.To.String(), turn)
	}
	w.table(out)
	if o.More > 0 {
		w.para(2, fmt.Sprintf("and %s after that", many(o.More, "turn", "turns")))
	}
}

func (w *writer) ahead(out *table, t plan.Timetable, lead, when string, turn roster.Turn) {
	if turn.Away() {
		out.add(lead, "", when, "(away)")
		return
	}
	k := t.Tasks[turn.Task]
	out.add(lead, mark(k), when, inFull(k, turn), load(k))
}

// free is what somebody does who has no turn.
func free(o roster.Outlook) string {
	if len(o.Then) == 0 {
		return "nothing more to do"
	}
	return "free until " + o.Then[0].From.String()
}
