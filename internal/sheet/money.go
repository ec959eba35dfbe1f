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
	w.joint()
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

// prices says what each pack leaves, and what it would have to cost the customer.
func (w *writer) prices() {
	if len(w.plan.Prices) == 0 {
		return
	}
	w.sub("what each pack leaves")
	t := table{indent: 2, columns: []column{{head: "pack", wraps: true}, {head: "price", right: true}, {head: "leaves", right: true}, {head: "margin", right: true}, {head: "mark-up", right: true}, {head: "food of price", right: true}, {head: "price for target", right: true, wraps: true}}}
	for _, x := range w.plan.Prices {
		price, leaves, margin, markUp, food := "", "", "", "", ""
		if x.Price > 0 {
			price = w.money(x.Price)
			leaves, margin, markUp, food = w.money(x.Contribution), x.Margin.Show(w.units), x.MarkUp.Show(w.units), x.FoodShare.Show(w.units)
			if x.AtMost {
				leaves = "at most " + leaves
			}
		}
		t.add(x.Name, price, leaves, margin, markUp, food, w.targets(x))
	}
	w.table(t)
	w.para(2, "What a pack leaves is its price less what it costs, overhead aside.")
	if e := w.plan.BreakEven; e != nil && e.Why != "" {
		w.para(2, "The week's "+w.money(e.Fixed)+" are never paid: "+e.Why+".")
	} else if e != nil {
		var packs []string
		for _, x := range e.Packs {
			packs = append(packs, fmt.Sprintf("%d × %s", x.Count, x.Name))
		}
		w.para(2, fmt.Sprintf("A week's %s are paid by sales of %s in the proportions of this run: %s.", w.money(e.Fixed), w.money(e.Sales), strings.Join(packs, ", ")))
	}
	w.moves()
}

func (w *writer) targets(x plan.PackPrice) string {
	text := w.money(x.ForFood) + " for " + x.FoodTarget.Show(w.units) + " food"
	if x.ForMargin > 0 {
		text += ", " + w.money(x.ForMargin) + " for " + x.MarginTarget.Show(w.units) + " margin"
	}
	return text
}

// mostMoves is how many inputs of a pack's cost are told.
const mostMoves = 5

// moves says what moves the cost of each pack the most.
func (w *writer) moves() {
	w.sub("what moves the cost of a pack the most, each alone")
	t := table{indent: 2, columns: []column{{wraps: true}, {head: "low end", right: true}, {head: "high end", right: true}}}
	for _, x := range w.plan.Prices {
		t.title(x.Name)
		for _, m := range x.Moves[:min(mostMoves, len(x.Moves))] {
			t.add(m.Input, w.money(m.Low), w.money(m.High))
		}
	}
	w.table(t)
}

// joint says what the packs of one pot bear by each rule.
func (w *writer) joint() {
	for _, j := range w.plan.Money.Joint {
		var parts []string
		for _, part := range j.Parts {
			parts = append(parts, fmt.Sprintf("%s %s (%s)", part.Output, w.money(part.Cost), part.Share.Show(w.units)))
		}
		used := "for comparison"
		if j.Used {
			used = "as counted here"
		}
		w.para(2, fmt.Sprintf("%s of %s, %s, %s: %s.", w.money(j.Total), w.dishName(j.Dish), j.Rule, used, strings.Join(parts, "; ")))
	}
}
