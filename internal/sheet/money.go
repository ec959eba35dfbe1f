package sheet

import (
	"fmt"
	"strings"

	"kettlefrost/internal/plan"
)

// ranges says how the run may turn out.
func (w *writer) ranges() {
	r := w.plan.Ranges
	if r == nil {
		return
	}
	w.sub("how it may turn out")
	w.para(2, fmt.Sprintf("%d draws of the run (seed %d) with standard deviations of %s of yields, %s of times and %s of prices. Eight in ten lie between low and high.",
		r.Draws, r.Seed, r.Yields.Show(w.units), r.Times.Show(w.units), r.Prices.Show(w.units)))
	t := table{indent: 2, columns: []column{{head: "pack", wraps: true}, {head: "packs: low", right: true}, {head: "middle", right: true}, {head: "high", right: true}, {head: "cost: low", right: true}, {head: "middle", right: true}, {head: "high", right: true}}}
	for i, x := range r.Packs {
		t.add(w.plan.Fill[i].Name, fmt.Sprint(x.Low), fmt.Sprint(x.Middle), fmt.Sprint(x.High), w.money(x.Cost.Low), w.money(x.Cost.Middle), w.money(x.Cost.High))
	}
	w.table(t)
	w.para(2, fmt.Sprintf("If every pack is sold, the run earns %s to %s beyond all that was spent on it; %s in the middle.", w.money(r.Earned.Low), w.money(r.Earned.High), w.money(r.Earned.Middle)))
}

// buildup says what each step adds, and what several outputs of a step bear.
func (w *writer) buildup() {
	m := w.plan.Money
	if len(m.Steps) == 0 {
		return
	}
	w.sub("what each step adds")
	w.para(2, "Spent in all: "+w.money(m.Spent)+". Where several things come of a step they share its cost "+m.Rule+".")
	t := table{indent: 2, columns: []column{{head: "step", wraps: true}, {head: "came in", right: true}, {head: "added", right: true}, {head: "passed on to", wraps: true}}}
	dish := ""
	for _, s := range m.Steps {
		if s.Dish != dish {
			dish = s.Dish
			t.title(w.dishName(dish))
		}
		t.add(s.Step, w.money(s.Carried), w.money(s.Own), w.passedOn(s))
	}
	w.table(t)
	if len(m.Left) == 0 {
		return
	}
	w.sub("what is left over bears " + w.money(m.LeftCost))
	left := table{indent: 2, columns: []column{{wraps: true}, {right: true}, {right: true}}}
	for _, l := range m.Left {
		left.add(l.Output, l.Mass.Show(w.units), w.small(l.Cost))
	}
	w.table(left)
}

func (w *writer) dishName(id string) string {
	for _, d := range w.plan.Dishes {
		if d.ID == id {
			return d.Name
		}
	}
	return id
}

// passedOn says where a step's cost goes; of one output only its name.
func (w *writer) passedOn(s plan.StepMoney) string {
	var parts []string
	for _, o := range s.Outputs {
		_, name, _ := strings.Cut(o.Output, "/") // it begins with its dish
		if len(s.Outputs) > 1 {
			name = fmt.Sprintf("%s %s (%s)", name, w.small(o.Cost), o.Share.Show(w.units))
		}
		parts = append(parts, name)
	}
	return list("; ", parts...)
}
