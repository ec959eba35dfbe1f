package formula

import (
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
)

// facts are what an ingredient brings besides the components that the mass flow follows, per 100 g; nil where nobody says.
type facts struct {
	carbG, sugarsG                 *float64 // carbohydrate without fibre
	sodiumMg, calciumMg            *float64
	proteinKnown, compositionKnown bool
	proteinG                       float64
	saltItself                     bool // it is table salt, or near enough
}

// saltSodium is from how much sodium an ingredient is salt: pure salt has 39,337 mg in 100 g, from atomic weights.
const saltSodium = 30_000

func factsOf(g kitchen.Ingredient, foods *foodtable.Table) facts {
	if a := g.Analysis; a != nil {
		carb := a.Carb
		if a.Fibre != nil {
			carb -= *a.Fibre
		}
		return facts{carbG: &carb, sugarsG: a.Sugars, sodiumMg: a.Sodium, calciumMg: a.Calcium, proteinKnown: true, compositionKnown: true,
			proteinG: a.Protein, saltItself: a.Sodium != nil && *a.Sodium >= saltSodium}
	}
	food, ok := foods.Lookup(g.Food)
	if !ok {
		return facts{}
	}
	n := food.Per100g
	f := facts{sugarsG: given(n.SugarsG), sodiumMg: given(n.SodiumMg), calciumMg: given(n.CalciumMg), compositionKnown: true,
		proteinG: n.ProteinG.Or(0)}
	_, f.proteinKnown = n.ProteinG.Get()
	if carb, ok := n.CarbG.Get(); ok {
		carb -= n.FibreG.Or(0)
		f.carbG = &carb
	}
	f.saltItself = f.sodiumMg != nil && *f.sodiumMg >= saltSodium
	return f
}

func given(v foodtable.Value) *float64 {
	x, ok := v.Get()
	if !ok {
		return nil
	}
	return &x
}

// or is a figure, or another where there is none.
func or(x *float64, instead float64) float64 {
	if x == nil {
		return instead
	}
	return *x
}
