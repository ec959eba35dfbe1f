package plan_test

import (
	"slices"
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// By hand from soupKitchen: 10 kg of water and 4 kg of carrots, less 1 kg evaporated, are 13 kg. Raw carrots, NDB 11124, have per 100 g
// 88.29 g of water, 0.93 g of protein, 0.24 g of fat, 9.58 g of carbohydrate with 2.8 g of fibre, 0.97 g of ash, 4.74 g of sugars and 69
// mg of sodium (USDA SR28, read). So the soup has 9 + 4·0.8829 = 12.5316 kg of water; the other parts are 4/13 of the carrots'. The
// table's row adds up to 100.01, so the sum of all is 1 within 0.0001.
// It freezes where 0.1896 kg of sugars and 4·0.00069·58.44/22.99 = 0.007016 kg of salt in 12.5316 kg of water have it: 0.5539 mol of
// sucrose and 0.1200·1.85 = 0.2221 mol of ions are 0.0619 mol/kg, at 1.86 K·kg/mol (handbook constant of water) 0.115 K below zero.
func TestMadeByHand(t *testing.T) {
	made := plan.Made(soupKitchen(t), table(t))
	if len(made) != 1 || made[0].ID() != "soup/soup" || made[0].Name != "carrot soup" || made[0].DishName != "carrot soup" {
		t.Fatalf("made: %+v, want the soup", made)
	}
	m := made[0]
	near(t, "mass, kg", m.Mass.Kg(), 13, 1e-5)
	near(t, "leaves at, °C", m.From.C(), 95, 1e-9)
	near(t, "water", m.Composition.Water, 12.5316/13, 2e-4)
	near(t, "protein", m.Composition.Protein, 0.0093*4/13, 2e-5)
	near(t, "fat", m.Composition.Fat, 0.0024*4/13, 2e-5)
	near(t, "carbohydrate without fibre", m.Composition.Carb, 0.0678*4/13, 1e-4)
	near(t, "fibre", m.Composition.Fibre, 0.028*4/13, 1e-4)
	near(t, "ash", m.Composition.Ash, 0.0097*4/13, 2e-5)
	near(t, "sum", m.Composition.Sum(), 1, 1e-9)
	near(t, "begins to freeze, °C", m.FreezesC, -0.115, 0.003)
	if m.Assumed {
		t.Error("its freezing point is called assumed")
	}
}

// By hand: stock, a quarter of what went in, is set aside before a second step stirs 2 kg of chilled carrots into the rest. 14 kg give
// 3.5 kg of stock, 1 kg evaporates, 9.5 kg go on; with 2 kg at 4 °C the mixture has (9.5·95 + 2·4)/11.5 = 79.2 °C (by mass).
func TestMadeOfSeveralSteps(t *testing.T) {
	book := soupKitchen(t)
	d := book.Dishes["soup"]
	d.Steps[0].Gives = []kitchen.Output{{ID: "base"}, {ID: "stock", Name: "stock", Takes: 25 * unit.PerCent}}
	d.Steps = append(d.Steps, kitchen.Step{ID: "stir", Do: "Stir carrots in.", Use: []kitchen.Use{{From: "base", Take: kitchen.Take{Given: true, Share: unit.Whole}},
		{Of: "carrot", Amount: quantity(t, unit.ParseAmount, "2 kg")}}, Gives: []kitchen.Output{{ID: "soup", Name: "carrot soup"}}})
	book.Dishes["soup"] = d
	made := plan.Made(book, table(t))
	var ids []string
	for _, m := range made {
		ids = append(ids, m.ID())
	}
	if !slices.Equal(ids, []string{"soup/base", "soup/soup", "soup/stock"}) {
		t.Fatalf("made: %v", ids)
	}
	near(t, "base, kg", made[0].Mass.Kg(), 9.5, 1e-5)
	near(t, "soup, kg", made[1].Mass.Kg(), 11.5, 1e-5)
	near(t, "soup leaves at, °C", made[1].From.C(), 79.2, 0.06)
	near(t, "stock, kg", made[2].Mass.Kg(), 3.5, 1e-5)
	if made[0].Name != "carrot soup: base" {
		t.Errorf("an output without a name is called %q", made[0].Name)
	}
}

// A dish that cannot be solved does not take the others with it.
func TestMadeLeavesOutWhatCannotBeSolved(t *testing.T) {
	book := soupKitchen(t)
	book.Dishes["broken"] = kitchen.Dish{Name: "broken", Steps: []kitchen.Step{{ID: "mix", Use: []kitchen.Use{{From: "nothing"}}, Gives: []kitchen.Output{{ID: "x"}}}}}
	book.Ingredients["riddle"] = kitchen.Ingredient{Name: "a riddle"}
	book.Dishes["riddle"] = kitchen.Dish{Name: "riddle", Steps: []kitchen.Step{{ID: "mix", Use: []kitchen.Use{{Of: "riddle", Amount: quantity(t, unit.ParseAmount, "1 kg")}}, Gives: []kitchen.Output{{ID: "x"}}}}}
	if made := plan.Made(book, table(t)); len(made) != 1 || made[0].Dish != "soup" {
		t.Errorf("made: %+v, want only the soup", made)
	}
	if made := plan.Made(kitchen.Book{}, table(t)); made == nil || len(made) != 0 {
		t.Errorf("of an empty book: %v", made)
	}
}
