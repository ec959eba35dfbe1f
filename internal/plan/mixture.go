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
	for _, e := range f.Each {
		ref := d.outputs[kitchen.OutputID(e.ID)]
		c.add(d, d.flow.Steps[ref.Step].Out[ref.Output], e.Mass.Kg())
	}
	return c.perKg()
}

// contentsOf is so many kilograms of one output.
func contentsOf(d *cooked, out massflow.OutFlow, kg float64) contents {
	c := contents{putIn: map[kitchen.IngredientID]float64{}}
	c.add(d, out, kg)
	return c.perKg()
}

// add puts in some of an output. Until perKg the fractions are kilograms.
func (c *contents) add(d *cooked, out massflow.OutFlow, kg float64) {
	if out.Kg <= 0 {
		return
	}
	share := kg / out.Kg
	for i, in := range out.Stream.PutIn {
		if in > 0 {
			c.putIn[d.ingredients[i]] += in * share
		}
	}
	for x, in := range out.Stream.Composition() {
		c.fractions[x] += in * share
	}
	c.kg += kg
}

func (c contents) perKg() contents {
	for x := range c.fractions {
		if c.kg > 0 {
			c.fractions[x] /= c.kg
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
