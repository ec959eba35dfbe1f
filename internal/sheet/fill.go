package sheet

import (
	"fmt"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

func (w *writer) fill() {
	w.heading("fill", "")
	if len(w.plan.Fill) == 0 {
		w.para(0, "No packs.")
		return
	}
	w.para(0, "Counts are what is expected; eight in ten draws of how the pots may turn out lie in the range. Weigh what there is before sealing.")
	w.gap()
	t := table{columns: []column{
		{head: "pack", wraps: true}, {head: "net", right: true}, {head: "count", right: true}, {head: "range", right: true}, {head: "asked for", right: true}, {head: "time", right: true},
	}}
	const indent = 2
	for i, f := range w.plan.Fill {
		if i > 0 {
			t.title("")
		}
		t.add(f.Name, f.Net.Show(w.units), fmt.Sprint(f.Count), countRange(f), count(f.Wanted), w.span(f.Time))
		t.under(indent, "in this order: "+w.lines(f.Each))
		t.under(indent, scaleShows(f.Net+f.Over, f.Over))
		t.under(indent, list("; ", f.Bag, "count is "+f.Proof))
	}
	w.table(t)
}

// scaleShows is what to fill to beyond the label, in grams: nothing where nobody has weighed packs yet.
func scaleShows(net, over unit.Mass) string {
	if over == 0 {
		return ""
	}
	return fmt.Sprintf("on average %s net: %s over the label, by its check-weights", net.Fine(), over.Fine())
}

func countRange(f plan.PackFill) string {
	if f.Low == f.High {
		return ""
	}
	return fmt.Sprintf("%d-%d", f.Low, f.High)
}
