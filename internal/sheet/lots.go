package sheet

import (
	"fmt"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// listWriter begins a sheet about records: a heading and what was found.
func listWriter(title string, found finding.List, units unit.System) *writer {
	w := &writer{plan: plan.Plan{Units: units, Findings: found}, units: units}
	w.line(title)
	w.gap()
	if len(found) > 0 {
		w.para(0, tally(found))
		w.findings()
	}
	return w
}

func (w *writer) amountOf(a lots.Amount) string {
	if a.Numbers.Empty() {
		return a.Mass.Show(w.units)
	}
	return fmt.Sprintf("%d packs", a.Numbers.Count())
}
