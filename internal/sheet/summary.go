package sheet

import (
	"fmt"

	"kettlefrost/internal/plan"
)

func (w *writer) summary() {
	s := w.plan.Summary
	w.heading("summary", "")
	t := table{columns: []column{{}, {wraps: true}}}
	for _, d := range w.plan.Dishes {
		t.add("dish", list("; ", d.Name+": "+d.Target, limited(d)))
	}
	t.add("packs", fmt.Sprintf("%d, with %s of food in them", s.Packs, s.FoodMass.Show(w.units)))
	if len(w.plan.Timetable.Tasks) > 0 {
		t.add("day", fmt.Sprintf("%s to %s, %s of hands-on work", s.Start.String(), s.End.String(), s.HandsOn.Show(w.units)))
	}
	t.add("to buy", w.money(s.BuyTotal))
	cost := w.money(s.CostTotal) + ": " + w.counted()
	if s.CostLower {
		cost += "; at least, as prices are missing"
	}
	t.add("cost", cost)
	w.table(t)
}

// counted is what the costs are made of: without a timetable nobody's hours are known.
func (w *writer) counted() string {
	if len(w.plan.Timetable.Tasks) == 0 {
		return "food and packaging of these packs, without labour as there is no timetable"
	}
	return "all that these packs bear, from food to overhead"
}

// limited says what stops one more, when as many as possible were asked for.
func limited(d plan.Dish) string {
	if d.Limit == "" {
		return ""
	}
	return "one more is stopped by " + d.Limit
}
