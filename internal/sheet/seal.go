package sheet

import (
	"fmt"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// SealText is what to fill, as text for the sealing table.
func SealText(s plan.Sealing, units unit.System) string {
	w := &writer{plan: plan.Plan{Kitchen: s.Kitchen, Note: s.Note, Units: s.Units, Currency: s.Currency, Findings: s.Findings, Run: s.Run, Day: s.Day}, units: units}
	w.line(s.Kitchen)
	w.line(list(", ", "To seal: "+s.Run, s.Day))
	w.gap()
	w.para(0, s.Note)
	w.para(0, tally(s.Findings))
	w.findings()
	w.heading("fill", fmt.Sprintf("%s beyond bags and labels", w.money(s.Worth)))
	t := table{columns: []column{{head: "pack", wraps: true}, {head: "fill", right: true}, {head: "to", right: true}, {head: "planned", right: true}, {head: "ordered", right: true}, {head: "then in the freezer", right: true}}}
	for i, x := range s.Packs {
		if i > 0 {
			t.title("")
		}
		t.add(x.Name, fmt.Sprint(x.Count), x.Target.Show(units), count(x.Planned), count(x.Ordered), fmt.Sprint(x.After))
		t.under(2, w.partsOf(x))
		if x.Given > 0 {
			t.under(2, scaleShows(x.Target, x.Given)+fmt.Sprintf(", %s of food given away with each", w.money(x.GivenAt)))
		}
		for _, f := range x.Portions {
			t.under(2, w.portion(f))
		}
		t.under(2, list("; ", x.Bag, "one more: "+x.Stops))
	}
	w.table(t)
	w.para(0, "Chosen by "+list(", then ", s.Goals...)+"; "+s.Proof+".")
	for _, why := range s.Rejected {
		w.para(0, "Taken, "+why+".")
	}
	w.heading("what there is", "")
	o := table{columns: []column{{head: "output", wraps: true}, {head: "planned", right: true}, {head: "there", right: true}, {}, {head: "filled", right: true}, {head: "left", right: true}, {head: "for"}}}
	for _, x := range s.Outputs {
		by := "as planned"
		if x.Weighed {
			by = "weighed"
		}
		o.add(x.Name, x.Planned.Show(units), x.There.Show(units), by, x.Used.Show(units), w.mass(x.Left), x.Becomes)
	}
	w.table(o)
	if len(s.Uses) > 0 {
		w.heading("what could be done with what is left", "")
	}
	for _, u := range s.Uses {
		w.para(2, w.useOf(u))
	}
	return w.String()
}

// useOf is one use of what is left over, in a sentence.
func (w *writer) useOf(u plan.SealUse) string {
	first := u.Takes[0].Target.Show(w.units)
	switch u.Use {
	case plan.UseMore:
		text := fmt.Sprintf("%d more of %s, for %s", u.Count, u.Name, w.money(u.Brings))
		if len(u.Wants) > 0 {
			text += ", if these are found: " + list(", ", u.Wants...)
		}
		return text
	case plan.UseSmaller:
		if u.Takes[0].Pieces > 0 {
			first = fmt.Sprintf("%d pieces, %s", u.Takes[0].Pieces, first)
		}
		return fmt.Sprintf("one smaller pack of %s (%s), in the bag of %s, with its own weight on its label, for about %s", u.Takes[0].Name, first, u.Name, w.money(u.Brings))
	case plan.UseNextRun:
		return fmt.Sprintf("%s of %s for the next run: chilled, dated and used first", first, u.Name)
	case plan.UseCrew:
		return fmt.Sprintf("%s of %s for the crew", first, u.Name)
	}
	return fmt.Sprintf("%s of %s thrown away", first, u.Name)
}

func (w *writer) portion(f plan.SealPortion) string {
	solids := f.Solids.Show(w.units)
	if f.Pieces > 0 {
		solids = fmt.Sprintf("%d pieces, %s", f.Pieces, solids)
	}
	return fmt.Sprintf("%d with %s of solids and %s of sauce, %.2f to one", f.Count, solids, f.Sauce.Show(w.units), f.Sauce.Kg()/max(f.Solids.Kg(), 1e-9))
}

func (w *writer) partsOf(x plan.SealPack) string {
	var parts []string
	for _, e := range x.Each {
		text := e.Name + " " + e.Target.Show(w.units)
		if e.Target > e.Label {
			text = e.Name + " " + e.Target.Fine()
		}
		if e.Pieces > 0 {
			text = fmt.Sprintf("%s %d pieces (%s)", e.Name, e.Pieces, e.Target.Show(w.units))
		}
		parts = append(parts, text)
	}
	return "in this order: " + list("; ", parts...)
}
