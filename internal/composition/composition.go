// Package composition says what 100 g of an ingredient of the book hold: by its own analysis, or by its row of the composition table, with single
// figures from a supplier's sheet before either. What nobody gives is not given; it is never 0.
package composition

import (
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/nutrition"
)

// Of is what 100 g of an ingredient hold, and why its added sugars are what they are where neither the book nor a sheet says so but the kind of
// food does (nutrition.AddedSugarsOf). Of an ingredient that nothing is known of nothing is given.
func Of(g kitchen.Ingredient, foods *foodtable.Table) (nutrition.Composition, nutrition.AddedAnswer) {
	if g.Analysis != nil {
		return sheeted(analysed(*g.Analysis), g.Figures), nutrition.AddedAnswer{}
	}
	food, known := foods.Lookup(g.Food)
	if !known {
		return sheeted(nutrition.Composition{}, g.Figures), nutrition.AddedAnswer{}
	}
	c := sheeted(nutrition.FromTable(food.Per100g), g.Figures)
	if c[nutrition.AddedSugars].IsGiven() {
		return c, nutrition.AddedAnswer{}
	}
	answer := nutrition.AddedSugarsOf(food)
	c[nutrition.AddedSugars] = answer.Per100g
	return c, answer
}

// analysed is an analysis of the book's own. It has no energy: that is reckoned from the rest.
func analysed(a kitchen.Analysis) nutrition.Composition {
	c := nutrition.Composition{
		nutrition.Water: foodtable.Given(a.Water), nutrition.Protein: foodtable.Given(a.Protein), nutrition.Fat: foodtable.Given(a.Fat), nutrition.Carbohydrate: foodtable.Given(a.Carb),
		nutrition.Ash: foodtable.Given(a.Ash), nutrition.Alcohol: foodtable.Given(a.Alcohol),
	}
	return sheeted(c, &kitchen.Figures{SatFat: a.SatFat, TransFat: a.TransFat, Cholesterol: a.Cholesterol, Sodium: a.Sodium, Fibre: a.Fibre, Sugars: a.Sugars, AddedSugars: a.AddedSugars,
		VitaminD: a.VitaminD, Calcium: a.Calcium, Iron: a.Iron, Potassium: a.Potassium})
}

// sheeted is a composition with the figures of a sheet in it.
func sheeted(c nutrition.Composition, f *kitchen.Figures) nutrition.Composition {
	if f == nil {
		return c
	}
	for n, x := range map[nutrition.Nutrient]*float64{
		nutrition.SaturatedFat: f.SatFat, nutrition.TransFat: f.TransFat, nutrition.Cholesterol: f.Cholesterol, nutrition.Sodium: f.Sodium, nutrition.Fibre: f.Fibre, nutrition.Sugars: f.Sugars,
		nutrition.AddedSugars: f.AddedSugars, nutrition.VitaminD: f.VitaminD, nutrition.Calcium: f.Calcium, nutrition.Iron: f.Iron, nutrition.Potassium: f.Potassium,
	} {
		if x != nil {
			c[n] = foodtable.Given(*x)
		}
	}
	return c
}
