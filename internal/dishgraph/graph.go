// Package dishgraph works on a dish as a graph of steps: what flows from which step into which, what hangs on what, and operations that
// change it. An operation takes a book and gives another, with every mention followed, in the dish and in the packs that are filled from it; it
// is refused when steps would wait for each other or something would be named that is not there. What is left loose is no reason to refuse:
// a dish is built piece by piece. bookfile.Between says what an operation changes in the text of the book.
package dishgraph

import (
	"maps"
	"slices"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// Refused says why an operation was not done, and what to do instead.
type Refused struct{ Says, Fix string }

// Error is one line.
func (r *Refused) Error() string { return r.Says + ": " + r.Fix }

// Find is the place of a step in the order in which they are written; -1 for none.
func Find(d kitchen.Dish, step string) int {
	return slices.IndexFunc(d.Steps, func(s kitchen.Step) bool { return s.ID == step })
}

// Giver is the place of the step that gives an output; -1 for none.
func Giver(d kitchen.Dish, output kitchen.OutputID) int {
	return slices.IndexFunc(d.Steps, func(s kitchen.Step) bool {
		return slices.ContainsFunc(s.Outputs(), func(o kitchen.Output) bool { return o.ID == output })
	})
}

// Takers are the places of the steps that take an output.
func Takers(d kitchen.Dish, output kitchen.OutputID) []int {
	var all []int
	for i, s := range d.Steps {
		if slices.ContainsFunc(s.Use, func(u kitchen.Use) bool { return u.From == output }) {
			all = append(all, i)
		}
	}
	return all
}

// PacksWith are the packs of a dish that are filled with an output, in the order of their ids.
func PacksWith(b kitchen.Book, dish kitchen.DishID, output kitchen.OutputID) []kitchen.PackID {
	var all []kitchen.PackID
	for _, id := range PacksOf(b, dish) {
		if slices.ContainsFunc(b.Packs[id].Fill, func(f kitchen.Fill) bool { return f.Of == output }) {
			all = append(all, id)
		}
	}
	return all
}

// PacksOf are the packs that are filled from a dish, in the order of their ids.
func PacksOf(b kitchen.Book, dish kitchen.DishID) []kitchen.PackID {
	var all []kitchen.PackID
	for _, id := range slices.Sorted(maps.Keys(b.Packs)) {
		if b.Packs[id].Dish == dish {
			all = append(all, id)
		}
	}
	return all
}

// Loose are the outputs that no step takes and no pack is filled with, in the order of the steps.
func Loose(b kitchen.Book, dish kitchen.DishID) []kitchen.Output {
	d := b.Dishes[dish]
	var all []kitchen.Output
	for _, s := range d.Steps {
		for _, o := range s.Outputs() {
			if len(Takers(d, o.ID)) == 0 && len(PacksWith(b, dish, o.ID)) == 0 {
				all = append(all, o)
			}
		}
	}
	return all
}

// Left is how much of an output the shares of its steps leave; amounts are not counted.
func Left(d kitchen.Dish, output kitchen.OutputID) unit.Share {
	left := unit.Whole
	for _, s := range d.Steps {
		for _, u := range s.Use {
			if u.From == output && u.Take.Given {
				left -= u.Take.Share
			}
		}
	}
	return max(0, left)
}

// Before says whether a step draws on another, directly or through others. A step draws on itself.
func Before(d kitchen.Dish, earlier, later int) bool {
	seen := make([]bool, len(d.Steps))
	var draws func(i int) bool
	draws = func(i int) bool {
		if i == earlier {
			return true
		}
		seen[i] = true
		for _, u := range d.Steps[i].Use {
			if k := Giver(d, u.From); u.From != "" && k >= 0 && !seen[k] && draws(k) {
				return true
			}
		}
		return false
	}
	return draws(later)
}

// Order is the steps such that each comes after those it draws on, and as they are written wherever that leaves it open. Steps that wait for
// each other come last, as they are written; ok is then false.
func Order(d kitchen.Dish) (order []int, ok bool) {
	done := make([]bool, len(d.Steps))
	ready := func(i int) bool {
		return !slices.ContainsFunc(d.Steps[i].Use, func(u kitchen.Use) bool {
			k := Giver(d, u.From)
			return u.From != "" && k >= 0 && !done[k]
		})
	}
	for len(order) < len(d.Steps) {
		next := -1
		for i := range d.Steps {
			if !done[i] && ready(i) {
				next = i
				break
			}
		}
		if next < 0 {
			for i := range d.Steps {
				if !done[i] {
					order = append(order, i)
				}
			}
			return order, false
		}
		done[next] = true
		order = append(order, next)
	}
	return order, true
}
