package sheet

import (
	"fmt"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// WeekText is what a week is best spent on, as text.
func WeekText(x plan.Week, units unit.System) string {
	w := &writer{plan: plan.Plan{Kitchen: x.Kitchen, Note: x.Note, Units: x.Units, Currency: x.Currency, Findings: x.Findings}, units: units}
	w.line(x.Kitchen)
	w.line("What a week is best spent on")
	w.gap()
	w.para(0, x.Note)
	w.para(0, tally(x.Findings))
	w.findings()
	sure := "proved: no mix leaves more"
	if x.Gap > 0 {
		sure = "a better mix could leave at most " + w.money(x.Gap) + " more"
	}
	w.heading("the week", fmt.Sprintf("%s before overhead and fixed costs; %s", w.money(x.Contribution), sure))
	t := table{columns: []column{{head: "pack", wraps: true}, {head: "batches", right: true}, {head: "packs", right: true}, {head: "a batch leaves", right: true}}}
	for _, r := range x.Resources {
		t.columns = append(t.columns, column{head: "for 1 " + r.Unit + " of " + r.Name, right: true, wraps: true})
	}
	for _, p := range x.Packs {
		cells := []string{p.Name, fmt.Sprintf("%d of %d", p.Batches, p.Batch), fmt.Sprint(p.Count), w.money(p.Contribution)}
		for _, per := range p.Per {
			text := "–"
			if per != 0 {
				text = w.money(per)
			}
			cells = append(cells, text)
		}
		t.add(cells...)
		t.under(2, "one batch more: "+p.Stops)
	}
	w.table(t)
	w.heading("what is short", "")
	s := table{columns: []column{{wraps: true}, {head: "used", right: true}, {head: "there", right: true}, {head: "one more earns", right: true}, {head: "one less costs", right: true}, {head: "pays from", wraps: true}}}
	for _, r := range x.Resources {
		pays := "nothing up to 8 more"
		if r.Pays > 0 {
			pays = fmt.Sprintf("%d %s more: %s", r.Pays, r.Unit, w.money(r.Earn))
		}
		s.add(r.Name, fmt.Sprintf("%.1f %s", r.Used, r.Unit), fmt.Sprintf("%.1f %s", r.Have, r.Unit), w.money(r.More), w.money(r.Less), pays)
	}
	w.table(s)
	w.para(0, "Each batch is planned alone; hands are those of the timetable, the vessel's hours those it is cooked in, and a litre of freezer stores 0.6 kg of flat bags (common practice). Batches are whole, so that one more hour may earn nothing where three earn a batch.")
	return w.String()
}
