package app

import (
	"fmt"
	"maps"
	"slices"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/lots"
	"kettlefrost/internal/packlabel"
	"kettlefrost/internal/unit"
)

// CodeLabelStranger is an ingredient that went into a lot and that its label does not know.
const CodeLabelStranger = "label-not-in-book"

// wentIn is what went into a lot of packs by the records, ingredient by ingredient, and the dishes that it went through.
type wentIn struct {
	mass   map[kitchen.IngredientID]unit.Mass
	dishes map[kitchen.DishID]bool
}

func wentInto(book kitchen.Book, state *lots.State, l *lots.Lot) wentIn {
	in := wentIn{map[kitchen.IngredientID]unit.Mass{}, map[kitchen.DishID]bool{book.Packs[kitchen.PackID(l.What)].Dish: true}}
	all, err := state.Backward(l.ID)
	if err != nil {
		return in // a lot within itself is told at the lot
	}
	for _, r := range all {
		switch {
		case r.Sort == lots.Goods:
			in.mass[kitchen.IngredientID(r.What)] += r.Content.Expected
		case r.Sort == lots.Packs:
			in.dishes[book.Packs[kitchen.PackID(r.What)].Dish] = true // opened and used again
		case r.Dish != "":
			in.dishes[kitchen.DishID(r.Dish)] = true
		}
	}
	return in
}

// uses are the lines of those dishes.
func (in wentIn) uses(book kitchen.Book) (all []kitchen.Use) {
	for _, d := range slices.Sorted(maps.Keys(in.dishes)) {
		for _, s := range book.Dishes[d].Steps {
			all = append(all, s.Use...)
		}
	}
	return all
}

// instead is which ingredients took the place of others: those that a dish lets stand in. One that the dish has anyway is taken to stand in only
// where nothing of the other came. The share is that of what came of both.
func (in wentIn) instead(book kitchen.Book) (all []packlabel.Instead) {
	uses := in.uses(book)
	for _, u := range uses {
		for _, by := range u.Instead {
			same := func(x packlabel.Instead) bool { return x.Of == u.Of && x.By == by }
			own := slices.ContainsFunc(uses, func(o kitchen.Use) bool { return o.Of == by })
			if in.mass[by] <= 0 || own && in.mass[u.Of] > 0 || slices.ContainsFunc(all, same) {
				continue
			}
			x := packlabel.Instead{Of: u.Of, By: by}
			if in.mass[u.Of] > 0 {
				x.Share = unit.ShareOf(in.mass[by].Kg() / (in.mass[by] + in.mass[u.Of]).Kg())
			}
			all = append(all, x)
		}
	}
	return all
}

// strangers are ingredients that went in and that no dish of the book knows: nobody has answered for this pack what they bring.
func (in wentIn) strangers(book kitchen.Book, lot string) (all finding.List) {
	known := map[kitchen.IngredientID]bool{}
	for _, u := range in.uses(book) {
		known[u.Of], known[u.Or] = true, true
		for _, by := range u.Instead {
			known[by] = true
		}
	}
	for _, id := range slices.Sorted(maps.Keys(in.mass)) {
		if known[id] {
			continue
		}
		all = append(all, finding.Finding{Code: CodeLabelStranger, Severity: finding.Stop, Where: "lot " + lot, Path: "ingredients." + string(id),
			Message: fmt.Sprintf("by the records %s of %s went into it, which no line of its dish has: the label would not name it, nor its allergens", in.mass[id].Show(book.Kitchen.Units), id),
			Fix:     "correct the entry, or write the ingredient into the dish, as its line or at instead"})
	}
	return all
}
