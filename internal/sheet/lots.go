package sheet

import (
	"cmp"
	"fmt"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/trace"
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

// TraceText is where a lot came from and where it went, in tables: its balance, what went into it and what contains any of it.
func TraceText(l *lots.Lot, back, forward []lots.Reached, b trace.Balance, units unit.System) string {
	w := listWriter(fmt.Sprintf("Lot %s: %s", l.ID, list(", ", string(l.Sort), l.What, l.Supplier, supplierLot(l))), nil, units)
	w.heading("balance", "")
	t := table{columns: []column{{}, {right: true}, {wraps: true}}}
	t.add("came", b.Came.Show(units), "")
	t.add("used", b.Used.Show(units), "into other lots")
	t.add("on hand", b.OnHand.Show(units), "")
	t.add("written off", b.Waste.Show(units), "")
	t.add("handed over", b.Dispatched.Show(units), "")
	t.add("unaccounted", b.Unaccounted.Show(units), fmt.Sprintf("%.2f %% of what came", 100*b.UnaccountedShare))
	w.table(t)
	w.reached("what went into it", back)
	w.reached("what contains any of it", forward)
	return w.String()
}

func supplierLot(l *lots.Lot) string {
	if l.SupplierLot == "" {
		return ""
	}
	return "their lot " + l.SupplierLot
}

func (w *writer) reached(title string, reach []lots.Reached) {
	w.heading(title, "if everything was mixed evenly, and the least and the most if it was not")
	t := table{columns: []column{{head: "lot"}, {head: "what", wraps: true}, {head: "steps", right: true}, {head: "expected", right: true}, {head: "least", right: true}, {head: "most", right: true}}}
	for _, x := range reach {
		if !x.Asked {
			t.add(string(x.ID), strings.TrimSpace(x.What+" "+x.Run), fmt.Sprint(x.Layer), x.Content.Expected.Show(w.units), x.Content.Least.Show(w.units), x.Content.Most.Show(w.units))
		}
	}
	w.table(t)
	if len(t.rows) == 0 {
		w.para(0, "Nothing, by the records.")
	}
}

// RecallText is what has to be fetched back, from where, and how much of it is accounted for.
func RecallText(r lots.Recall, found finding.List, units unit.System) string {
	var names []string
	for _, x := range r.Lots {
		if x.Asked {
			names = append(names, string(x.ID))
		}
	}
	w := listWriter("Recall of everything that contains "+strings.Join(names, ", "), found, units)
	w.heading("accounted for", fmt.Sprintf("%d of %d packs, %.2f %%", r.Found.Count, r.Made.Count, 100*r.Ratio()))
	for _, p := range r.Packs {
		if !p.Missing.Empty() {
			w.para(2, fmt.Sprintf("Lot %s: no place is known of no. %s.", p.Lot.ID, p.Missing))
		}
		if !p.Twice.Empty() {
			w.para(2, fmt.Sprintf("Lot %s: two places are told of no. %s.", p.Lot.ID, p.Twice))
		}
	}
	w.heading("where the packs are", "")
	t := table{columns: []column{{head: "packs of"}, {head: "numbers", wraps: true}, {head: "count", right: true}, {head: "mass", right: true}, {head: "are", wraps: true}}}
	for _, l := range r.Lines {
		t.add(string(l.Lot.ID), l.Packs.String(), fmt.Sprint(l.Packs.Count()), l.Mass.Show(units), list(", ", strings.TrimSpace(l.State.String()+" "+l.Where), l.Tell))
	}
	w.table(t)
	w.heading("in bulk", "")
	o := table{columns: []column{{head: "lot"}, {head: "what", wraps: true}, {head: "came", right: true}, {head: "on hand", right: true}, {head: "used", right: true}, {head: "written off", right: true}, {head: "unaccounted", right: true}}}
	for _, b := range r.Bulk {
		o.add(string(b.Lot.ID), b.Lot.What, b.Came.Show(units), b.OnHand.Show(units), b.Used.Show(units), b.Waste.Show(units), b.Unaccounted.Show(units))
	}
	w.table(o)
	w.para(0, "A trace is as good as the entries: it cannot find what nobody wrote down. Your authority decides what has to be fetched back.")
	return w.String()
}
