package sheet

import (
	"fmt"
	"slices"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

func (w *writer) freeze() {
	f := w.plan.Freeze
	w.heading("freeze", "")
	if len(f.Packs) == 0 && len(f.Freezers) == 0 {
		w.para(0, "Nothing to freeze, or no freezer in the book.")
		return
	}
	w.packFreeze(f)
	w.gap()
	w.intake(f)
	w.gap()
	text := fmt.Sprintf("This run brings %s.", f.Load.Show(w.units))
	if f.PerDay > 0 {
		text += fmt.Sprintf(" The freezers take %s in a day by heat; by the household rule %s to %s.", f.PerDay.Show(w.units), f.RuleLow.Show(w.units), f.RuleHigh.Show(w.units))
	}
	if f.Days > 0 {
		text += fmt.Sprintf(" That is %s days of freezing. There is room to store %s.", number(f.Days), f.Room.Show(w.units))
	}
	w.para(0, text)
	w.hang(0, "source: ", f.Source)
}

func (w *writer) packFreeze(f plan.Freeze) {
	if len(f.Packs) == 0 {
		return
	}
	t := table{columns: []column{
		{head: "freezer", wraps: true}, {head: "from", right: true}, {head: "to core", right: true}, {head: "time", right: true}, {head: "latent heat only", right: true},
	}}
	w.para(0, "One pack, lying flat and free by itself:")
	w.gap()
	var formulas []string
	pack := ""
	for _, p := range f.Packs {
		if title := fmt.Sprintf("%s: %s thick, begins to freeze at %s", p.Name, p.Thickness.Show(w.units), w.tenths(p.Begins)); title != pack {
			pack = title
			t.title(title)
		}
		t.add(p.Freezer, p.From.Show(w.units), p.To.Show(w.units), w.span(p.Time), w.span(p.Plank))
		if !slices.Contains(formulas, p.Formula) {
			formulas = append(formulas, p.Formula)
		}
	}
	w.table(t)
	w.gap()
	for _, formula := range formulas {
		w.hang(0, "time by: ", formula)
	}
}

// tenths is a temperature to a tenth of a degree, which is what tells one freezing point from another.
func (w *writer) tenths(t unit.Temp) string {
	if w.units == unit.US {
		return fmt.Sprintf("%.1f °F", t.F())
	}
	return fmt.Sprintf("%.1f °C", t.C())
}

func (w *writer) intake(f plan.Freeze) {
	t := table{columns: []column{
		{head: "takes in a day", wraps: true}, {head: "by heat", right: true}, {head: "by the household rule", right: true}, {head: "room to store", right: true},
	}}
	for _, i := range f.Freezers {
		t.add(i.Name, i.ByHeat.Show(w.units), i.RuleLow.Show(w.units)+" to "+i.RuleHigh.Show(w.units), i.Room.Show(w.units))
	}
	w.table(t)
}
