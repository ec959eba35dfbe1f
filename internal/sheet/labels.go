package sheet

import (
	"fmt"
	"strings"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

func (w *writer) labels() {
	w.heading("labels", "")
	if len(w.plan.Labels) == 0 {
		w.para(0, "No packs.")
	}
	for _, l := range w.plan.Labels {
		w.label(l)
	}
}

func (w *writer) label(l plan.Label) {
	w.sub(l.Name)
	if l.Withheld {
		w.para(2, "WITHHELD, do not print: "+strings.Join(l.Missing, "; "))
	}
	w.hang(2, "net: ", fmt.Sprintf("%s (%s)", l.Net.Show(unit.US), l.Net.Show(unit.Metric)))
	w.para(2, l.Statement)
	w.para(2, l.Contains)
	w.hang(2, "order could turn: ", strings.Join(l.NearTies, "; "))
	w.para(2, strings.Join(l.Cautions, " "))
}
