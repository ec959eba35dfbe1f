package kitchen_test

import (
	"math"
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

func TestSlipsInIngredients(t *testing.T) {
	testSlips(t, finding.Stop, []slipCase{
		{slip{`"16144"`, `"16145"`}, []found{{kitchen.UnknownFood, "ingredients.lentil.food", "no row 16145", "leading zeros"}}},
		{slip{"ash: 21", "ash: 12"}, []found{{kitchen.AnalysisSum, "ingredients.sauce.analysis", "add up to 91 g, but should to 100 g, give or take 2 g", "sheet"}}},
		{slip{"ash: 21", "ash: 23.1"}, []found{{kitchen.AnalysisSum, "ingredients.sauce.analysis", "102.1 g", "sheet"}}},
		{slip{"ash: 21", "ash: 21, fibre: 4.5"}, []found{{kitchen.AnalysisPart, "ingredients.sauce.analysis.fibre", "4.5 g, more than the 4 g of carbohydrate", "both"}}},
		{slip{"ash: 21", "ash: 21, saturated-fat: 1"}, []found{{kitchen.AnalysisPart, "ingredients.sauce.analysis.saturated-fat", "1 g, more than the 0 g of fat", "both"}}},
		{slip{"ash: 21", "ash: 21, sodium: 78000"}, []found{{kitchen.OutOfRange, "ingredients.sauce.analysis.sodium", "78000 mg, but should be at most 40000 mg", "check"}}},
		{slip{"protein: 5", "protein: -5"}, []found{
			{kitchen.OutOfRange, "ingredients.sauce.analysis.protein", "-5 g, but should be at least 0 g", "check"},
			{kitchen.AnalysisSum, "ingredients.sauce.analysis", "90 g", "sheet"},
		}},
		{slip{"source: tap", `source: ""`}, []found{{kitchen.EmptyText, "ingredients.water.analysis.source", "empty", "source:"}}},
		{slip{"density: 0.85 kg/L", "density: 850 kg/L"}, []found{
			{kitchen.OutOfRange, "ingredients.lentil.density", "850 kg/L, but should be at most 3 kg/L", "unit"},
		}},
		{slip{"density: 0.85 kg/L", "density: 0.04 kg/L"}, []found{{kitchen.OutOfRange, "ingredients.lentil.density", "at least 0.05 kg/L", "unit"}}},
		{slip{"{each: 110 g}", "{each: 1 cup}"}, []found{
			{kitchen.MeasureNotMass, "ingredients.onion.measures.each", "1 cup, not what one of it weighs", "110 g"},
		}},
		{slip{"{each: 110 g}", "{each: 110 g, lb: 450 g}"}, []found{{kitchen.MeasureNotMass, "ingredients.onion.measures.lb", `"lb" is no measure`, "cup"}}},
		{slip{"{each: 110 g}", "{each: 110 kg}"}, []found{{kitchen.OutOfRange, "ingredients.onion.measures.each", "110 kg, but should be at most 50 kg", "check"}}},
		{slip{"trim: 10 %", "trim: 95 %"}, []found{{kitchen.OutOfRange, "ingredients.onion.trim", "95 %, but should be below 95 %", "check"}}},
		{slip{"supplier: mill, pack: 25 lb", "supplier: mil, pack: 25 lb"}, []found{{kitchen.UnknownReference, "ingredients.lentil.buy[0].supplier", "no supplier mil", "did you mean mill?"}}},
		{slip{"price: $31", "price: -$31"}, []found{{kitchen.OutOfRange, "ingredients.lentil.buy[0].price", "-31", "check"}}},
		{slip{"pack: 25 lb", "pack: 0 lb"}, []found{{kitchen.OutOfRange, "ingredients.lentil.buy[0].pack", "nothing", "how much"}}},
		{slip{"pack: 1 kg", "pack: 1 bottle"}, []found{{kitchen.AmountWithoutMass, "ingredients.sauce.buy[0].pack", "1 bottle of fish sauce weighs", "measures: {bottle: ...}"}}},
		{slip{"source: supplier's sheet}", "source: supplier's sheet}\n    stock: 2 cups"}, []found{{kitchen.AmountWithoutMass, "ingredients.sauce.stock", "2 cups of fish sauce", "density"}}},
		{slip{`amount: "1/2 cup, strained"`, `amount: "1/2 cup, cloudy"`}, []found{{kitchen.AmountWithoutMass, "dishes.dal.steps[2].use[2].amount", "1/2 cup, cloudy", "cup, cloudy"}}},
		{slip{"{name: salt, allergens: none}", "{name: '', allergens: none}"}, []found{{kitchen.EmptyText, "ingredients.sauce.contains[1].name", "empty", "name:"}}},
		{slip{"tap}, density: 1 kg/L, free: true, allergens: none", "tap}, density: 1 kg/L, free: true, allergens: [soya]"}, []found{
			{kitchen.UnknownAllergen, "ingredients.water.allergens[0]", `"soya" is none of the major allergens`, "did you mean soybeans?"},
		}},
		{slip{"tap}, density: 1 kg/L, free: true, allergens: none", "tap}, density: 1 kg/L, free: true, allergens: [milk, wheet]"}, []found{
			{kitchen.UnknownAllergen, "ingredients.water.allergens[1]", `"wheet"`, "did you mean wheat?"},
		}},
		{slip{"tap}, density: 1 kg/L, free: true, allergens: none", "tap}, density: 1 kg/L, free: true, allergens: celery"}, []found{
			{kitchen.UnknownAllergen, "ingredients.water.allergens[0]", `"celery"`, "milk, egg, fish"},
		}},
		{slip{"    allergens: [\"fish: anchovy\"]", "    allergens: none"}, []found{
			{kitchen.AllergensContradict, "ingredients.sauce.allergens", "fish: anchovy is in its part anchovies", "add fish: anchovy"},
		}},
	})
}

func TestCautionsAboutIngredients(t *testing.T) {
	testSlips(t, finding.Caution, []slipCase{
		{slip{`food: "16144", `, ""}, []found{{kitchen.CompositionMissing, "ingredients.lentil", "what it consists of", "food:"}}},
		{slip{`food: "16144", `, `food: "16144", analysis: {water: 10, protein: 25, fat: 1, carbohydrate: 61, ash: 3, source: mill}, `}, []found{
			{kitchen.CompositionTwice, "ingredients.lentil.food", "the analysis counts", "one of them"},
		}},
		{slip{"buy: [{supplier: mill, pack: 25 lb, price: $31}], ", ""}, []found{{kitchen.PriceMissing, "ingredients.lentil", "what it costs", "buy:"}}},
		{slip{"price: $31", "price: $0"}, []found{{kitchen.PriceMissing, "ingredients.lentil.buy[0].price", "costs nothing", "price"}}},
		{slip{"{supplier: mill, pack: 25 lb", "{pack: 25 lb"}, []found{{kitchen.SupplierMissing, "ingredients.lentil.buy[0]", "nobody sells", "supplier:"}}},
		{slip{"free: true", "free: true, buy: [{supplier: mill, pack: 1 L, price: $1}]"}, []found{{kitchen.FreeButBought, "ingredients.water.free", "from the tap", "out"}}},
		{slip{"price: $31}], allergens: none", "price: $31}]"}, []found{{kitchen.AllergensUndeclared, "ingredients.lentil.allergens", "nobody has said", "supplier's label"}}},
		{slip{"{name: salt, allergens: none}", "{name: salt}"}, []found{{kitchen.AllergensUndeclared, "ingredients.sauce.contains[1].allergens", "nobody has said", "none"}}},
		{slip{"    allergens: [\"fish: anchovy\"]", "    allergens: fish"}, []found{{kitchen.AllergenKindMissing, "ingredients.sauce.allergens[0]", `"fish" does not name its kind`, "fish: trout"}}},
	})
}

// A measure of the ingredient goes before its density; a form has its own. 1 cup is 236.588 mL (NIST Handbook 44, appendix C).
func TestWeigh(t *testing.T) {
	onion := kitchen.Ingredient{Density: 0.5, Measures: map[string]unit.Amount{
		"each": grams(110), "cup": grams(150), "cup, sliced": grams(115), "bunch": {Kind: unit.AmountCount, Count: unit.One, Measure: "each"},
	}}
	for _, c := range []struct {
		amount string
		gram   float64
		ok     bool
	}{
		{"2 lb", 907.18474, true}, // 1 lb is 0.45359237 kg
		{"3 each", 330, true},
		{"2 cups", 300, true},
		{"8 fl oz", 150, true}, // a cup is 8 fl oz
		{"1 tbsp, sliced", 115.0 / 16, true},
		{"1 L", 150 / 0.2365882365, true},
		{"1 L, grated", 500, true}, // no measure: the density
		{"2 heads", 0, false},
		{"1 bunch", 0, false}, // its measure is no mass
	} {
		amount, err := unit.ParseAmount(c.amount)
		if err != nil {
			t.Fatal(err)
		}
		got, ok := onion.Weigh(amount)
		if ok != c.ok || math.Abs(got.Kg()*1000-c.gram) > 1e-6 {
			t.Errorf("%s weighs %v (%v), want %g g", c.amount, got, ok, c.gram)
		}
	}
	if _, ok := (kitchen.Ingredient{}).Weigh(unit.Amount{Kind: unit.AmountVolume, Volume: unit.Litre}); ok {
		t.Error("a litre of something without density weighs something")
	}
}

func grams(g unit.Mass) unit.Amount { return unit.Amount{Kind: unit.AmountMass, Mass: g * unit.Gram} }
