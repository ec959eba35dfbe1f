package app

import (
	"kettlefrost/internal/keeping"
	"kettlefrost/internal/kitchen"
)

// FoodClass is a row of the published table that a pack fits, and why.
type FoodClass struct {
	Class keeping.Class `json:"class"`
	Why   string        `json:"why"`
}

// cooked are the classes of ingredients that make a pack of a cooked dish a row of the table too, each with the row.
var cooked = []struct {
	class kitchen.IngredientClass
	row   keeping.Class
	why   string
}{
	{"poultry", "poultry-gravy", "it has poultry in it"},
	{"fish", "cooked-fish", "it has fish in it"},
	{"intact-meat", "cooked-meat", "it has meat in it"},
	{"ground-meat", "cooked-meat", "it has meat in it"},
	{"cooked-meat", "cooked-meat", "it has meat in it"},
}

// wet are what makes a dish a soup, a stew or a sauce: what they do in a pot, by the book.
var wet = map[kitchen.IngredientRole]bool{"liquid": true, "milk": true, "cream": true}

// classesOf are the rows of the published table that a pack fits by its ingredients: a guess, which is said. Of a food that is cooked and is no
// soup, stew or sauce it is taken for a combined dish. Where a row is named, it is that alone.
func classesOf(book kitchen.Book, pack kitchen.Pack, as keeping.Class) []FoodClass {
	if row, ok := keeping.Of(as); ok {
		return []FoodClass{{row.Class, "it was chosen"}}
	}
	dish := book.Dishes[pack.Dish]
	heated, liquid := false, false
	has := map[kitchen.IngredientClass]bool{}
	for _, step := range dish.Steps {
		heated = heated || step.HeatTo != nil
		for _, use := range step.Use {
			g, ok := book.Ingredients[use.Of]
			if !ok {
				continue
			}
			has[g.Class] = true
			liquid = liquid || wet[g.Role] || g.Free
		}
	}
	if !heated {
		return nil
	}
	fits := []FoodClass{{"main-dishes", "it is cooked, of several foods"}}
	if liquid {
		fits = []FoodClass{{"soups-stews", "it is cooked with liquid"}}
	}
	for _, c := range cooked {
		if has[c.class] && fits[len(fits)-1].Class != c.row {
			fits = append(fits, FoodClass{c.row, c.why})
		}
	}
	return fits
}
