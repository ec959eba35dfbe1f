package papers

import (
	"fmt"

	"kettlefrost/internal/pdf"
	"kettlefrost/internal/plan"
)

// roomToWrite is how tall a row is that somebody writes into, in points.
const roomToWrite = 22

// weighUp is what each step takes of ingredients, for all loads and for one, with room for the lot and for who weighed it.
func (w *writer) weighUp() {
	for _, d := range w.plan.Dishes {
		w.add(pdf.Heading{Level: 1, Text: d.Name})
		for i, s := range d.Steps {
			if t, some := w.weighed(i+1, s); some {
				w.add(t)
			}
		}
	}
	w.quiet("Edible portion: peeled, trimmed, ready to use. Small amounts are in grams: weigh them on the fine scale.")
}

// weighed is the ingredients of one step; false if it takes none.
func (w *writer) weighed(n int, s plan.Step) (pdf.Table, bool) {
	t := pdf.Table{Name: fmt.Sprintf("%d. %s", n, s.Do), Ruled: true, Tall: roomToWrite, Columns: w.columns("what", "#in all", "#each load", "lot", "who")}
	t.Columns[3].Wide, t.Columns[4].Wide = 80, 50
	for _, l := range s.In {
		if l.Kind != plan.Fresh && l.Kind != plan.MadeUp {
			continue
		}
		each := ""
		if s.Loads.Count > 1 && l.Each > 0 {
			each = fmt.Sprintf("%d × %s", s.Loads.Count, w.fine(l.Each))
		}
		t.Rows = append(t.Rows, pdf.Row{Cells: []string{l.Name, w.fine(l.Mass), each, "", ""}})
	}
	return t, len(t.Rows) > 0
}
