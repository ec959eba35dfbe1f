package web

import (
	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
)

// graveFor is what stands again on a page of a run.
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
