package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/plan"
)

func (w *writer) day() {
	t := w.plan.Timetable
	beside := ""
	if len(t.Tasks) > 0 {
		beside = t.Start.String() + " to " + t.End.String()
	}
	w.heading("day", beside)
	w.para(0, w.proof(t))
	for _, c := range t.Clash {
		w.hang(0, "clash: ", c)
	}
	if len(t.Tasks) == 0 {
		return
	}
	w.byTime(t)
	for _, r := range t.Rows {
		if r.Person {
			w.person(t, r)
		}
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
	out := table{columns: []column{{head: "from"}, {head: "to"}, {head: "who", wraps: true}, {head: "what", wraps: true}, {head: "load", right: true}}}
	for _, k := range t.Tasks {
		out.add(k.Start.String(), k.End.String(), strings.Join(k.People, ", "), what(k), load(k))
		if len(k.On) > 0 {
			out.add("", "", "", "on "+strings.Join(k.On, ", "))
		}
	}
	w.table(out)
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
	bars := stays(t, r)
	if len(bars) == 0 {
		w.sub(r.Name + ": nothing to do")
		return
	}
	w.sub(fmt.Sprintf("%s, %s to %s", r.Name, bars[0].From, bars[len(bars)-1].To))
	out := table{columns: []column{{head: "from"}, {head: "to"}, {head: "next", wraps: true}, {head: "load", right: true}}}
	told := map[string]bool{}
	for _, b := range bars {
		if b.Task < 0 {
			out.add(b.From.String(), b.To.String(), "(away)")
			continue
		}
		k := t.Tasks[b.Task]
		full := what(k)
		next := list("; ", full, strings.Join(k.On, ", "))
		if told[full] {
			next = again(k)
		}
		told[full] = true
		out.add(b.From.String(), b.To.String(), next, load(k))
	}
	w.table(out)
}

// stays are a person's bars by time, with the times away that lie between them.
func stays(t plan.Timetable, r plan.Row) []plan.Bar {
	var bars []plan.Bar
	for _, b := range r.Bars {
		if b.Task >= 0 && b.Task < len(t.Tasks) {
			bars = append(bars, b)
		}
	}
	byStart := func(a, b plan.Bar) int { return cmp.Compare(a.From, b.From) }
	slices.SortStableFunc(bars, byStart)
	for _, b := range r.Away {
		if len(bars) > 0 && bars[0].From < b.From && b.To < bars[len(bars)-1].To {
			bars = append(bars, plan.Bar{Task: -1, From: b.From, To: b.To})
		}
	}
	slices.SortStableFunc(bars, byStart)
	return bars
}
