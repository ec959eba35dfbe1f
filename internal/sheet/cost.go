package sheet

import (
	"slices"
	"strings"

	"kettlefrost/internal/plan"
)

func (w *writer) cost() {
	w.heading("cost", "")
	if len(w.plan.Cost) == 0 {
		w.para(0, "No packs.")
		return
	}
	w.para(0, "Of one pack: "+w.counted()+".")
	t := table{columns: []column{
		{head: "pack", wraps: true}, {head: "food", right: true}, {head: "packaging", right: true}, {head: "labour", right: true}, {head: "energy", right: true}, {head: "other", right: true}, {head: "total", right: true},
		{head: "price", right: true}, {head: "food of price", right: true}, {head: "not counted", wraps: true},
	}}
	for _, c := range w.plan.Cost {
		price, share, labour := "", "", w.money(c.Labour)
		if len(w.plan.Timetable.Tasks) == 0 {
			labour = "not known"
		}
		if c.Price > 0 {
			price, share = w.money(c.Price), c.FoodShare.Show(w.units)
		}
		t.add(c.Name, w.money(c.Food), w.money(c.Packaging), labour, w.small(c.Energy), w.small(c.Cleaning+c.Overhead+c.Waste), w.money(c.Total), price, share, strings.Join(c.Missing, ", "))
	}
	if slices.ContainsFunc(w.plan.Cost, func(c plan.PackCost) bool { return len(c.Missing) > 0 }) {
		w.para(0, "Where something is not counted, the cost is at least what stands there.")
	}
	w.others()
	w.gap()
	w.table(t)
	w.prices()
	w.ranges()
	for _, c := range w.plan.Cost {
		w.sub(c.Name + ": ingredients, dearest first")
		w.ingredients(c)
	}
	w.buildup()
}

// others says what stands in the column of other cost.
func (w *writer) others() {
	base := w.plan.Cost[0].OverheadBase
	if base == "" {
		base = "none in the book"
	}
	w.para(0, "Other is cleaning between dishes, overhead ("+base+") and what each pack bears of those that are never sold.")
}

func (w *writer) ingredients(c plan.PackCost) {
	t := table{indent: 2, columns: []column{{wraps: true}, {right: true}, {right: true}}}
	for _, l := range c.Ingredients {
		t.add(l.Name, l.Mass.Show(w.units), w.small(l.Cost))
	}
	w.table(t)
}
