package homecard

import (
	"slices"
	"strings"

	"kettlefrost/internal/kitchen"
)

// family is what ends in the same food as an item: everything that goes into a step from which, or to which, its step leads to the same end. The
// salt of meatballs is no matter of the sauce that they swim in.
func family(dish kitchen.Dish, items []*Item, x *Item) []*Item {
	in := map[string]bool{}
	for _, end := range endsOf(dish, x.step) {
		upstream(dish, end, in)
	}
	return slices.DeleteFunc(slices.Clone(items), func(y *Item) bool { return !in[y.step] })
}

// ends names the ends that a step leads to.
func ends(dish kitchen.Dish, step string) string { return strings.Join(endsOf(dish, step), " ") }

// endsOf are the steps that a step leads to and that lead no further.
func endsOf(dish kitchen.Dish, step string) []string {
	var all []string
	seen := map[string]bool{}
	var follow func(id string)
	follow = func(id string) {
		if seen[id] {
			return
		}
		seen[id] = true
		leads := false
		for _, next := range dish.Steps {
			if draws(dish, next, id) {
				leads = true
				follow(next.ID)
			}
		}
		if !leads {
			all = append(all, id)
		}
	}
	follow(step)
	slices.Sort(all)
	return all
}

// draws says whether a step uses what another gives.
func draws(dish kitchen.Dish, step kitchen.Step, from string) bool {
	for _, o := range stepOf(dish, from).Outputs() {
		if slices.ContainsFunc(step.Use, func(u kitchen.Use) bool { return u.From == o.ID && u.From != "" }) {
			return true
		}
	}
	return false
}

// upstream marks a step and all that lead to it.
func upstream(dish kitchen.Dish, step string, in map[string]bool) {
	if in[step] {
		return
	}
	in[step] = true
	for _, s := range dish.Steps {
		if draws(dish, stepOf(dish, step), s.ID) {
			upstream(dish, s.ID, in)
		}
	}
}
