package formula

import (
	"maps"
	"slices"
	"strings"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/stability"
)

// powderOf is the ingredient that a line is of: the one in the dish, or else the first of the book that is such a thing; empty where there is none,
// and for salt, which needs no plan to get it in.
func powderOf(book kitchen.Book, foods *foodtable.Table, p Pot, l Line) kitchen.IngredientID {
	key := l.Key
	if key == KeyThick && l.Substance != cornStarch { // flour goes in with its fat
		return ""
	}
	for _, x := range p.Parts {
		if isPowder(x.Component.Role, x.GumKind, key) && !x.Component.Inside {
			return x.Ingredient
		}
	}
	for _, id := range slices.Sorted(maps.Keys(book.Ingredients)) {
		if k := roleOf(book.Ingredients[id], foods); isPowder(k.role, k.kind, key) {
			return id
		}
	}
	return ""
}

func isPowder(role stability.Role, kind, key string) bool {
	switch key {
	case KeyCitrate:
		return role == stability.EmulsifyingSalt
	case KeyThick:
		return role == stability.NativeStarch
	case KeySalt:
		return false
	}
	return role == stability.Gum && strings.ReplaceAll(gumName(kind), " ", "-") == key
}
