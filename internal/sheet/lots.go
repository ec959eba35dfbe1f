package sheet

import (
	"cmp"
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

// StockText is everything on hand, the oldest first.
func StockText(s *lots.State, found finding.List, units unit.System) string {
	w := listWriter("On hand, the oldest first", found, units)
	t := table{columns: []column{{head: "lot"}, {head: "what", wraps: true}, {head: "where", wraps: true}, {head: "how much", right: true}, {head: "good until"}, {wraps: true}}}
	for _, x := range s.Stock() {
		held := ""
		switch {
		case !x.Held.Empty():
			held = "held: packs " + x.Held.String()
		case x.Numbers.Empty() && x.Lot.Held():
			held = "held"
		}
		t.add(string(x.Lot.ID), x.Lot.What, cmp.Or(string(x.Place), "nobody said"), w.amountOf(x.Amount), string(x.Lot.Last()), held)
		if !x.Numbers.Empty() {
			t.under(2, "packs "+x.Numbers.String())
		}
	}
	w.table(t)
	if len(t.rows) == 0 {
		w.para(0, "The records tell of nothing on hand.")
	}
	return w.String()
}

func (w *writer) amountOf(a lots.Amount) string {
	if a.Numbers.Empty() {
		return a.Mass.Show(w.units)
	}
	return fmt.Sprintf("%d packs", a.Numbers.Count())
}
