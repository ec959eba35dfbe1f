package board

import (
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/record"
	"kettlefrost/internal/unit"
)

// Goods are a lot as it was bought.
type Goods struct {
	Ingredient kitchen.IngredientID
	Mass       unit.Mass
	Paid       unit.Money
}

// Actual is what a production made and used, as far as it was entered: a planned pack that nobody filled is none, and an ingredient of which
// nobody entered anything is left out, which counts as planned. What was used costs what its lots did; where one of them has no price, what was
// planned. False while nothing was filled.
func Actual(r *Run, p plan.Plan, bought func(record.Lot) (Goods, bool)) (kitchen.Actual, bool) {
	a := kitchen.Actual{Made: map[kitchen.PackID]int{}}
	for _, f := range p.Fill {
		a.Made[kitchen.PackID(f.Pack)] = 0
	}
	filled := false
	for _, x := range Of[record.Packed](r) {
		id := kitchen.PackID(x.Pack)
		if _, planned := a.Made[id]; planned {
			a.Made[id] += int(x.Numbers.Count())
			filled = true
		}
	}
	a.Used = used(r, bought)
	return a, filled
}

// used is what was taken of bought lots, by ingredient, in the order in which each was first taken.
func used(r *Run, bought func(record.Lot) (Goods, bool)) (all []kitchen.ActualUse) {
	at, priced := map[kitchen.IngredientID]int{}, map[kitchen.IngredientID]bool{}
	for _, x := range Of[record.Used](r) {
		g, known := bought(x.Lot)
		if !known || g.Mass <= 0 {
			continue
		}
		i, seen := at[g.Ingredient]
		if !seen {
			i = len(all)
			at[g.Ingredient], priced[g.Ingredient] = i, true
			all = append(all, kitchen.ActualUse{Of: g.Ingredient, Amount: unit.Amount{Kind: unit.AmountMass}})
		}
		all[i].Amount.Mass += x.Mass
		all[i].Paid += g.Paid.Times(int64(x.Mass/unit.Milligram), int64(g.Mass/unit.Milligram))
		priced[g.Ingredient] = priced[g.Ingredient] && g.Paid > 0
	}
	for i := range all {
		if !priced[all[i].Of] {
			all[i].Paid = 0
		}
	}
	return all
}
