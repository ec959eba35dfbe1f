package sheet

import (
	"fmt"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/roster"
)

func (w *writer) day() { w.dayOf("") }

// dayOf is everybody's day, or that of one person.
func (w *writer) dayOf(person string) {
	t := w.plan.Timetable
	beside := ""
	if len(t.Tasks) > 0 {
		beside = t.Start.String() + " to " + t.End.String()
	}
	w.heading("day", beside)
	if len(t.Aims) == 0 || t.Aims[0].Aim == kitchen.Finish {
		w.para(0, w.proof(t))
	}
	for _, a := range roster.Aims(t) {
		w.hang(0, "aim: ", roster.AimWords(a, w.units))
	}
	for _, c := range t.Clash {
		w.hang(0, "clash: ", c)
	}
	for _, r := range t.Remedies {
		w.hang(0, "would do: ", r)
	}
	if len(t.Tasks) == 0 {
		return
	}
	w.para(0, "Slack is how much later a task may begin, others making way, and the day ends no later. A task marked ! has none: it is critical.")
	w.careful(t.Tasks, person)
	if person == "" {
		w.byTime(t)
	}
	for _, r := range roster.People(t, person) {
		w.person(t, r)
	}
}

// proof says how good the timetable is, and how that is known.
func (w *writer) proof(t plan.Timetable) string {
	length, bound := t.Length.Show(w.units), t.Bound.Show(w.units)
	switch t.Status {
	case "optimal":
		return fmt.Sprintf("%s from start to end. Proved: no timetable of these tasks is shorter.", length)
	case "feasible":
		return fmt.Sprintf("%s from start to end. No timetable can be shorter than %s (%s), so this one is at most %s longer than the best.",
			length, bound, t.BoundWhy, (t.Length - t.Bound).Show(w.units))
	case "infeasible":
		return "No timetable: the tasks contradict each other."
	case "empty":
		return "Nothing to do."
	default:
		return "No timetable was found."
	}
}

// byTime is everybody's day, by start.
func (w *writer) byTime(t plan.Timetable) {
	w.sub("by time")
	out := table{columns: []column{{}, {head: "from"}, {head: "to"}, {head: "who", wraps: true}, {head: "what", wraps: true}, {head: "load", right: true}, {head: "slack", right: true}, {}}}
	for _, k := range t.Tasks {
		out.add(mark(k), k.Start.String(), k.End.String(), strings.Join(k.People, ", "), what(k), load(k), roster.SlackWords(k, w.units), string(k.State))
		if len(k.On) > 0 {
			out.add("", "", "", "", "on "+strings.Join(k.On, ", "))
		}
	}
	w.table(out)
}

// mark is the sign of a critical task.
func mark(k plan.Task) string {
	if roster.Critical(k) {
		return "!"
	}
	return ""
}

// what is the task in words, with its dish.
func what(k plan.Task) string { return list(": ", k.Dish, strings.TrimRight(k.Label, ". ")) }

// again is a task whose step was told in full before: cooking has a name that stands with the step, the rest has none but its label.
func again(k plan.Task) string {
	if k.Kind != plan.Cook {
		return what(k)
	}
	return list(": ", k.Dish, k.Step)
}

func load(k plan.Task) string {
	if k.Loads < 2 {
		return ""
	}
	return fmt.Sprintf("%d of %d", k.Load, k.Loads)
}

// person writes what one person does next after what. A step is told in full the first time and by its name when the person comes
// back to it.
func (w *writer) person(t plan.Timetable, r plan.Row) {
	turns := roster.Turns(t, r)
	if len(turns) == 0 {
		w.sub(r.Name + ": nothing to do")
		return
	}
	w.sub(fmt.Sprintf("%s, %s to %s", r.Name, turns[0].From, turns[len(turns)-1].To))
	out := table{columns: []column{{}, {head: "from"}, {head: "to"}, {head: "next", wraps: true}, {head: "load", right: true}, {head: "slack", right: true}}}
	told := map[string]bool{}
	for _, turn := range turns {
		if turn.Away() {
			out.add("", turn.From.String(), turn.To.String(), "(away)")
			continue
		}
		k := t.Tasks[turn.Task]
		full := what(k)
		next := inFull(k, turn)
		if told[full] {
			next = again(k)
		}
		told[full] = true
		out.add(mark(k), turn.From.String(), turn.To.String(), next, load(k), roster.SlackWords(k, w.units))
	}
	w.table(out)
}

// inFull is all there is to say about a turn.
func inFull(k plan.Task, turn roster.Turn) string {
	with := ""
	if len(turn.With) > 0 {
		with = "with " + strings.Join(turn.With, ", ")
	}
	return list("; ", what(k), strings.Join(k.On, ", "), with)
}
