package plan

import (
	"kettlefrost/internal/heat"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/massflow"
)

// fractions is what an ingredient is made of, from its own analysis or the table's row. What the figures leave over one is Other.
func (p *planner) fractions(id kitchen.IngredientID) (massflow.Fractions, bool) {
	ing := p.book.Ingredients[id]
	var water, protein, fat, carb, fibre, ash, alcohol float64
	if a := ing.Analysis; a != nil {
		water, protein, fat, carb, ash, alcohol = a.Water, a.Protein, a.Fat, a.Carb, a.Ash, a.Alcohol
		if a.Fibre != nil {
			fibre = *a.Fibre
		}
	} else {
		food, ok := p.foods.Lookup(ing.Food)
		if !ok {
			return massflow.Fractions{massflow.Other: 1}, false
		}
		n := food.Per100g
		water, protein, fat, carb = n.WaterG.Or(0), n.ProteinG.Or(0), n.FatG.Or(0), n.CarbG.Or(0)
		fibre, ash, alcohol = n.FibreG.Or(0), n.AshG.Or(0), n.AlcoholG.Or(0)
	}
	f := massflow.Fractions{massflow.Water: water, massflow.Protein: protein, massflow.Fat: fat, massflow.Carbohydrate: carb - fibre,
		massflow.Fibre: fibre, massflow.Ash: ash, massflow.Alcohol: alcohol}
	rest := 1.0
	for c := range f {
		f[c] /= 100
		rest -= f[c]
	}
	f[massflow.Other] = rest
	return f, true
}

// alcoholKgL is the density of ethanol at 20 °C, 0.789 kg/L (handbook value, from memory); Choi and Okos give none.
const alcoholKgL = 0.789

// componentDensities is each component alone at 20 °C. What analyses leave over is mostly dissolved (acids, sodium bicarbonate) or
// rounding; it counts with the density of water.
func componentDensities() massflow.Fractions {
	alone := func(c heat.Composition) float64 {
		if x, err := c.At(20); err == nil {
			return x.DensityKgM3 / 1000
		}
		return 1
	}
	return massflow.Fractions{
		massflow.Water: alone(heat.Composition{Water: 1}), massflow.Protein: alone(heat.Composition{Protein: 1}), massflow.Fat: alone(heat.Composition{Fat: 1}),
		massflow.Carbohydrate: alone(heat.Composition{Carb: 1}), massflow.Fibre: alone(heat.Composition{Fibre: 1}), massflow.Ash: alone(heat.Composition{Ash: 1}),
		massflow.Alcohol: alcoholKgL, massflow.Other: alone(heat.Composition{Water: 1}),
	}
}
