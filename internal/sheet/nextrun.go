package sheet

import (
	"cmp"
	"fmt"

	"kettlefrost/internal/nextrun"
	"kettlefrost/internal/unit"
)

// NextRunText is what to make next, and why.
func NextRunText(p nextrun.Proposal) string {
	w := listWriter(fmt.Sprintf("What to make on %s, to last until %s (%s from today, %s)", p.Day, p.Until, times(int64(p.Weeks), "week"), p.Today), p.Findings, unit.Metric)
	t := table{columns: []column{{head: "pack", wraps: true}, {head: "expected", right: true}, {head: "ordered", right: true}, {head: "to remain", right: true}, {head: "on hand", right: true}, {head: "planned", right: true}, {head: "needed", right: true}, {head: "make", right: true}}}
	for _, r := range p.Rows {
		expected := "?"
		if r.Forecast != nil {
			expected = fmt.Sprint(r.Expected)
		}
		t.add(cmp.Or(r.Name, string(r.Pack)), expected, fmt.Sprint(r.Ordered), fmt.Sprint(r.Keep), fmt.Sprint(r.OnHand), fmt.Sprint(r.Planned), fmt.Sprint(max(0, r.Need)), fmt.Sprint(r.Make))
		if said := r.Error(); said != "" {
			t.under(2, r.Range())
			t.under(2, said)
		}
	}
	w.table(t)
	w.gap()
	w.para(0, "Expected is what will be sold until then, orders included; ? is too short a history to say. Counted is what left the house: where a pack was sold out, more was wanted than was sold.")
	for _, c := range p.Runs {
		said := fmt.Sprintf("run %s on %s: %s counted as planned", c.Run, c.Day, times(c.Packs, "pack"))
		if c.Not != "" {
			said += "; not counted: " + c.Not
		}
		w.para(0, said)
	}
	return w.String()
}
