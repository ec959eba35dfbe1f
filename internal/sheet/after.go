package sheet

import (
	"fmt"

	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// AfterText says why a run cost more or less than it should have.
func AfterText(a plan.After, units unit.System) string {
	w := &writer{plan: plan.Plan{Kitchen: a.Kitchen, Note: a.Note, Units: a.Units, Currency: a.Currency, Findings: a.Findings}, units: units}
	w.line(a.Kitchen)
	w.line(list(", ", "After "+a.Run, a.Day))
	w.gap()
	w.para(0, a.Note)
	w.para(0, tally(a.Findings))
	w.findings()
	w.heading("standard and actual", w.side(a.Total)+" than what was made should have cost")
	t := table{columns: []column{{}, {right: true}, {wraps: true}}}
	for _, x := range []struct {
		name, says string
		amount     unit.Money
	}{{"price", "what ingredients cost", a.Price}, {"mix", "dearer ingredients in place of cheaper ones", a.Mix}, {"yield", "ingredients for what was made", a.Yield}, {"rate", "what an hour of hands cost", a.Rate}, {"efficiency", "time for what was made", a.Efficiency}} {
		t.add(x.name, w.side(x.amount), x.says)
	}
	t.add("in all", w.side(a.Total), "the five together, to the last cent")
	w.table(t)
	w.heading("made", "")
	made := table{columns: []column{{wraps: true}, {head: "planned", right: true}, {head: "made", right: true}}}
	for _, x := range a.Packs {
		made.add(x.Name, fmt.Sprint(x.Planned), fmt.Sprint(x.Made))
	}
	w.table(made)
	w.heading("ingredients", "as purchased, for what was made")
	foods := table{columns: []column{{wraps: true}, {head: "should", right: true}, {head: "used", right: true}, {head: "should cost", right: true}, {head: "cost", right: true}, {head: "price", right: true}, {head: "usage", right: true}}}
	for _, x := range a.Foods {
		if x.Should != x.Cost || x.Standard != x.Used {
			foods.add(x.Name, x.Standard.Show(units), x.Used.Show(units), w.money(x.Should), w.money(x.Cost), w.side(x.Price), w.side(x.Usage))
		}
	}
	w.table(foods)
	w.para(0, "Ingredients that stand nowhere here were used as they should be.")
	w.heading("hands", "")
	hands := table{columns: []column{{wraps: true}, {head: "should", right: true}, {head: "took", right: true}, {head: "rate", right: true}, {head: "efficiency", right: true}}}
	for _, x := range a.Hands {
		hands.add(x.Name, x.Standard.Show(units), x.Took.Show(units), w.side(x.Rate), w.side(x.Efficiency))
	}
	w.table(hands)
	return w.String()
}

// side is a difference with its direction in words.
func (w *writer) side(m unit.Money) string {
	switch {
	case m > 0:
		return w.money(m) + " more"
	case m < 0:
		return w.money(-m) + " less"
	}
	return "as it should"
}
