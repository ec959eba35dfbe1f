package plan

import (
	"kettlefrost/internal/heat"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/massflow"
)

// contents is what one pack holds: how much of each ingredient was put in for it, and what it is made of now.
type contents struct {
	kg        float64
	putIn     map[kitchen.IngredientID]float64 // kilograms
	fractions massflow.Fractions
}

// contents mixes what one pack is filled with from the dish's outputs.
func (p *planner) contents(d *cooked, f PackFill) contents {
	c := contents{putIn: map[kitchen.IngredientID]float64{}}
	var sum massflow.Fractions
	for _, e := range f.Each {
		ref := d.outputs[kitchen.OutputID(e.ID)]
		out := d.flow.Steps[ref.Step].Out[ref.Output]
		if out.Kg <= 0 {
			continue
		}
		share := e.Mass.Kg() / out.Kg
		for i, kg := range out.Stream.PutIn {
			if kg > 0 {
				c.putIn[d.ingredients[i]] += kg * share
			}
		}
		for x, kg := range out.Stream.Composition() {
			sum[x] += kg * share
		}
		c.kg += e.Mass.Kg()
	}
	for x := range sum {
		if c.kg > 0 {
			c.fractions[x] = sum[x] / c.kg
		}
	}
	return c
}

// saltPerSodium is NaCl over Na by molar masses.
const saltPerSodium = 58.44 / 22.99

// freezingPointC is where a pack starts to freeze, from the salt and sugars put in, the water left, and the alcohol left. Salt and
// sugars that no source gives are left out, which puts it too high; outside the formula's range the usual value of soups is taken.
func (p *planner) freezingPointC(c contents) float64 {
	salt, sugars := 0.0, 0.0
	for id, kg := range c.putIn {
		na, sug := p.sodiumAndSugars(id)
		salt += kg * na / 1000 / 100 * saltPerSodium
		sugars += kg * sug / 100
	}
	t, err := heat.FreezingPointC(c.fractions[massflow.Water], heat.Solute{Kind: heat.Salt, Share: salt / c.kg},
		heat.Solute{Kind: heat.Sucrose, Share: sugars / c.kg}, heat.Solute{Kind: heat.Ethanol, Share: c.fractions[massflow.Alcohol]})
	if err != nil || t > heat.HighestFreezingPointC {
		return heat.DefaultFreezingPointC
	}
	return t
}

// sodiumAndSugars is milligrams of sodium and grams of sugars per 100 g of an ingredient; what is not given counts as none.
func (p *planner) sodiumAndSugars(id kitchen.IngredientID) (sodiumMg, sugarsG float64) {
	if a := p.book.Ingredients[id].Analysis; a != nil {
		if a.Sodium != nil {
			sodiumMg = *a.Sodium
		}
		if a.Sugars != nil {
			sugarsG = *a.Sugars
		}
		return sodiumMg, sugarsG
	}
	food, ok := p.foods.Lookup(p.book.Ingredients[id].Food)
	if !ok {
		return 0, 0
	}
	return food.Per100g.SodiumMg.Or(0), food.Per100g.SugarsG.Or(0)
}
