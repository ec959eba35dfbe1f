package papers

import (
	"strings"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/pdf"
	"kettlefrost/internal/plan"
)

// timetable is the day as a list, each task with a box to tick, then drawn.
func (w *writer) timetable() {
	tt := w.plan.Timetable
	if len(tt.Tasks) == 0 {
		w.loud("There is no timetable for this run.")
		return
	}
	w.add(pdf.Facts{{Name: w.In.Say("start"), Is: tt.Start.String()}, {Name: w.In.Say("end"), Is: tt.End.String()}})
	w.doc.Wide = true
	codes := draw.NewCodes(w.plan.Dishes)
	for _, d := range w.plan.Dishes {
		w.add(pdf.Paragraph{Text: codes.Dish(d.ID) + " = " + d.Name})
	}
	t := pdf.Table{Columns: w.columns("✓", "from", "to", "", "what", "who", "on")}
	for _, k := range tt.Tasks {
		label := k.Label
		if k.Loads > 1 {
			label += " (" + w.In.Say("load %s of %s", w.count(k.Load), w.count(k.Loads)) + ")"
		}
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{"", k.Start.String(), k.End.String(), codes.Task(k), label, strings.Join(k.People, ", "), strings.Join(k.On, ", ")}})
	}
	w.add(t)
	for _, p := range draw.DayPages(w.plan) {
		w.add(pdf.Figure{Picture: p})
	}
	w.quietTimes(tt)
}

// quietTimes says what the times are.
func (w *writer) quietTimes(tt plan.Timetable) {
	if tt.Status != "optimal" {
		w.quiet("A shorter day than this one is not ruled out.")
	}
	w.quiet("Times are planned. What really happens decides, a thermometer above all.")
}
