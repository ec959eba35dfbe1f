package formula

import (
	"cmp"
	"slices"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/stability"
)

// part is what is left of one use of an ingredient.
func (c *composer) part(u use, h plan.Held, share float64) Part {
	g := c.book.Ingredients[u.of]
	f := factsOf(g, c.foods)
	p := Part{Ingredient: u.of, Name: cmp.Or(g.Name, string(u.of)), Steps: []string{c.graph.dish.Steps[u.step].ID}, PutInKg: h.PutIn * share, Kg: h.Kg() * share, Salt: f.saltItself,
		WaterKg: h.Water * share, ProteinKg: h.Protein * share, FatKg: h.Fat * share, FibreKg: h.Fibre * share, AshKg: h.Ash * share, AlcoholKg: h.Alcohol * share,
		SodiumMg: or(f.sodiumMg, 0) * h.PutIn * share * 10, CalciumMg: or(f.calciumMg, 0) * h.PutIn * share * 10,
		Sodium: f.sodiumMg != nil, Calcium: f.calciumMg != nil}
	carb := max(0, h.Carb*share)
	if f.carbG != nil && *f.carbG > 0 && f.sugarsG != nil {
		p.SugarsKg = carb * min(1, *f.sugarsG / *f.carbG)
	}
	if starchy[roleOf(g, c.foods).role] {
		p.StarchKg = carb - p.SugarsKg
	} else {
		p.OtherCarbKg = carb - p.SugarsKg
	}
	return p
}

// starchy are the roles whose carbohydrate is starch, sugars apart.
var starchy = map[stability.Role]bool{stability.Flour: true, stability.NativeStarch: true, stability.WaxyStarch: true, stability.ModifiedStarch: true, stability.Potato: true,
	stability.Pasta: true, stability.Rice: true, stability.Pulses: true, stability.Topping: true}

// join adds more of the same.
func (p *Part) join(q Part) {
	for _, s := range q.Steps {
		if !slices.Contains(p.Steps, s) {
			p.Steps = append(p.Steps, s)
		}
	}
	for _, x := range []struct {
		to   *float64
		more float64
	}{{&p.PutInKg, q.PutInKg}, {&p.Kg, q.Kg}, {&p.WaterKg, q.WaterKg}, {&p.ProteinKg, q.ProteinKg}, {&p.FatKg, q.FatKg}, {&p.SugarsKg, q.SugarsKg}, {&p.StarchKg, q.StarchKg},
		{&p.FibreKg, q.FibreKg}, {&p.AshKg, q.AshKg}, {&p.AlcoholKg, q.AlcoholKg}, {&p.OtherCarbKg, q.OtherCarbKg}, {&p.SodiumMg, q.SodiumMg},
		{&p.CalciumMg, q.CalciumMg}} {
		*x.to += x.more
	}
}

// kinds says which gum or starch it is.
func (c *composer) kinds(p *Part, k known, of kitchen.IngredientID) {
	switch k.role {
	case stability.Gum:
		p.GumKind = k.kind
		p.Component.Gum = stability.GumKind(k.kind)
		if k.kind != string(stability.Xanthan) && k.kind != string(stability.LocustBean) && k.kind != string(stability.Guar) {
			p.Component.Gum = stability.OtherGum
		}
	case stability.NativeStarch:
		p.Component.Starch = stability.StarchKind(k.kind)
	}
}

// plant says whether what does the work of milk or cream is of plants.
func plant(g kitchen.Ingredient, role stability.Role) bool {
	if role != stability.Milk && role != stability.Cream {
		return false
	}
	if g.Allergens.Answered {
		return !slices.Contains(g.Allergens.Names, "milk")
	}
	return hasAny(words(g.Name, g.Label), "coconut|oat|soy|soya|almond|rice|cashew|hemp|pea")
}

// drifts is how a seasoning changes in the freezer, where that is known.
func drifts(name string, role stability.Role) stability.Drift {
	if role != stability.Seasoning {
		return stability.NoDrift
	}
	text := words(name)
	for _, d := range stability.SeasoningDrifts() {
		if has(text, d.Seasoning) && !(d.Seasoning == "pepper" && hasAny(text, "bell pepper|green pepper|red pepper|cayenne")) {
			return d.Drift
		}
	}
	return stability.NoDrift
}
