package sheet

import (
	"fmt"
	"strings"

	"kettlefrost/internal/lots"
	"kettlefrost/internal/unit"
)

// TraceText is a lot from its beginning to now: its balance, what was told of it, what went into it and what contains any of it.
func TraceText(y lots.Story, units unit.System, clock Clock) string {
	w := listWriter(fmt.Sprintf("Lot %s: %s", y.Lot, list(", ", string(y.Sort), y.What, y.Supplier, lead("their lot ", y.SupplierLot))), nil, units)
	for _, h := range y.Holds {
		w.para(0, "HELD: "+list(", ", lead("no. ", h.Numbers), h.Why, h.Who, lead("decided: ", string(h.Decided))))
	}
	w.balanceOf(y.Balance)
	w.heading("what was told of it", "")
	t := table{columns: []column{{head: "when"}, {head: "who"}, {head: "what", wraps: true}}}
	for _, e := range y.Events {
		t.add(clock(e.At), e.Who, EntryText(e.Says, units))
	}
	w.table(t)
	w.reached("what went into it", y.Back)
	w.reached("what contains any of it", y.Forward)
	return w.String()
}

func (w *writer) balanceOf(b lots.BalanceRow) {
	w.heading("balance", "")
	t := table{columns: []column{{}, {right: true}, {wraps: true}}}
	t.add("came", b.Came.Show(w.units), "")
	t.add("used", b.Used.Show(w.units), "into other lots")
	t.add("on hand", b.OnHand.Show(w.units), "")
	t.add("written off", b.Waste.Show(w.units), "")
	t.add("handed over", b.Dispatched.Show(w.units), "")
	t.add("unaccounted", b.Unaccounted.Show(w.units), fmt.Sprintf("%.2f %% of what came", 100*b.UnaccountedShare))
	w.table(t)
}

func (w *writer) reached(title string, reach []lots.ReportLot) {
	w.heading(title, "if everything was mixed evenly, and the least and the most if it was not")
	t := table{columns: []column{{head: "lot"}, {head: "what", wraps: true}, {head: "steps", right: true}, {head: "expected", right: true}, {head: "least", right: true}, {head: "most", right: true}}}
	for _, x := range reach {
		t.add(string(x.Lot), strings.TrimSpace(x.What+" "+x.Run), fmt.Sprint(x.Steps), x.Expected.Show(w.units), x.Least.Show(w.units), x.Most.Show(w.units))
	}
	w.table(t)
	if len(t.rows) == 0 {
		w.para(0, "Nothing, by the records.")
	}
}
