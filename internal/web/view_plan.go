package web

import (
	"strconv"

	"kettlefrost/internal/draw"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
)

// planView is all that the page shows of a plan, as text.
type planView struct {
	Findings findingsView
	Head     []keyFigure
	Jumps    []jump
	Buy      buyView
	Day      dayView
	UnderWay underWay
	Dishes   []dishView
	Chill    chillView
	Fill     fillView
	Freeze   freezeView
	Cost     costView
	Labels   labelsView
	Cards    cardsView
}

// keyFigure is a figure in big type.
type keyFigure struct {
	Name  string
	Value figure
	More  string
}

// jump is a link to a part of the page.
type jump struct{ To, Name string }

var jumps = []jump{{"findings", "Look first"}, {"buy", "Buy"}, {"day", "Day"}, {"underway", "Now"}, {"dishes", "Cook"}, {"chill", "Chill"}, {"fill", "Fill"},
	{"freeze", "Freeze"}, {"cards", "Heating cards"}, {"cost", "Cost"}, {"labels", "Labels"}}

// viewPlan puts a plan into words. The book is asked only for the order of a dish's steps in its file, by which findings point at
// them, and for the sizes of a way of chilling, to ask about another depth.
func viewPlan(p plan.Plan, book kitchen.Book, r reader, at pictures) *planView {
	codes := draw.NewCodes(p.Dishes)
	return &planView{
		Findings: viewFindings(p.Findings),
		Head:     viewSummary(p, r),
		Jumps:    jumps,
		Buy:      viewBuy(p, r),
		Day:      viewDay(p, codes, at),
		Dishes:   viewDishes(p, book, codes, r),
		Chill:    viewChill(p, book, codes, r, at),
		Fill:     viewFill(p, r),
		Freeze:   viewFreeze(p, r, at),
		Cost:     viewCost(p, r),
		Labels:   viewLabels(p, r),
		Cards:    viewCards(p, r, at),
	}
}

func viewSummary(p plan.Plan, r reader) []keyFigure {
	s := p.Summary
	head := []keyFigure{
		{Name: "Packs", Value: figure{First: strconv.Itoa(s.Packs)}},
		{Name: "Food in them", Value: r.fig(s.FoodMass)},
	}
	if len(p.Timetable.Tasks) > 0 {
		head = append(head, keyFigure{Name: "Start – end", Value: figure{First: s.Start.String() + " – " + s.End.String()}, More: ending(p.Timetable)})
	}
	head = append(head, keyFigure{Name: "Hands-on work", Value: figure{First: s.HandsOn.Show(r.units)}, More: "of all people together"})
	head = append(head, keyFigure{Name: "To spend on ingredients", Value: figure{First: r.money(s.BuyTotal)}})
	cost := keyFigure{Name: "Cost of the packs", Value: figure{First: r.money(s.CostTotal)}, More: "all that they bear, from food to overhead"}
	if s.CostLower {
		cost.Value.First = "at least " + cost.Value.First
		cost.More += "; some prices are not known"
	}
	return append(head, cost)
}

// ending says how far the timetable can be trusted to be the shortest.
func ending(t plan.Timetable) string {
	switch t.Status {
	case "optimal":
		return "No shorter day is possible with these people and this equipment"
	case "feasible":
		return "A shorter day may exist, but none under " + t.Bound.Show(0)
	}
	return ""
}

// graveFor is what stands again in a part of the page.
func graveFor(p plan.Plan, at place) []reminder { return repeated(p.Findings, at) }

// stepPlaces leads from a dish's step to its path in the book.
func stepPlaces(book kitchen.Book, dish string) map[string]string {
	paths := map[string]string{}
	base := kitchen.PathTo("dishes", dish)
	for i, s := range book.Dishes[kitchen.DishID(dish)].Steps {
		paths[s.ID] = kitchen.PathAt(base+".steps", i)
	}
	return paths
}

// dishFindings are the stops and cautions about a dish as a whole.
func dishFindings(list finding.List, dish string) []reminder {
	var out []reminder
	for _, f := range list {
		if f.Severity > finding.Note && f.Path == kitchen.PathTo("dishes", dish) {
			out = append(out, remind(f))
		}
	}
	return out
}
