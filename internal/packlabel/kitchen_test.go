package packlabel_test

import (
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/packlabel"
	"kettlefrost/internal/unit"
)

// analysis is figures for some grams of a food, in the order in which a panel has them, as 100 g of the ingredient that it is made from: that is
// half of it, the rest is water.
func analysis(grams float64, fat, sat, trans, chol, sodium, carb, fibre, sugars, added, protein, vitD, calcium, iron, potassium float64) *kitchen.Analysis {
	k := 2 * 100 / grams
	given := func(x float64) *float64 { x *= k; return &x }
	a := &kitchen.Analysis{Fat: k * fat, Carb: k * carb, Protein: k * protein, Ash: 2, SatFat: given(sat), TransFat: given(trans), Cholesterol: given(chol), Sodium: given(sodium), Fibre: given(fibre),
		Sugars: given(sugars), AddedSugars: given(added), VitaminD: given(vitD), Calcium: given(calcium), Iron: given(iron), Potassium: given(potassium), Source: "a worked example"}
	a.Water = 100 - a.Fat - a.Carb - a.Protein - a.Ash
	return a
}

func none() kitchen.Allergens { return kitchen.Allergens{Answered: true} }

func with(names ...string) kitchen.Allergens { return kitchen.Allergens{Answered: true, Names: names} }

func zero() *float64 { return new(float64) }

// book is a kitchen with one dish: 5 kg of base and 6 kg of water, of which 1 kg boils off. So half of what is left is base, and half water. The
// kitchen is invented.
func book(base *kitchen.Analysis, reference string, net unit.Mass) kitchen.Book {
	hot := unit.Temp(0)
	if err := hot.UnmarshalText([]byte("205 °F")); err != nil {
		panic(err)
	}
	grams := func(m unit.Mass) unit.Amount { return unit.Amount{Kind: unit.AmountMass, Mass: m} }
	return kitchen.Book{
		Kitchen: kitchen.Kitchen{Name: "Test Kitchen", Units: unit.US, Currency: "$", Labels: kitchen.Labels{Regime: kitchen.USLabels, Wide: 4 * unit.Inch, High: 6 * unit.Inch, Address: "12 Hill Road, Burlington, VT 05401"}},
		Ingredients: map[kitchen.IngredientID]kitchen.Ingredient{
			"water": {Name: "water", Class: "water", Allergens: none(), Free: true, Analysis: &kitchen.Analysis{Water: 100, Fibre: zero(), Sugars: zero(), SatFat: zero(), Sodium: zero(), Cholesterol: zero(),
				Calcium: zero(), Iron: zero(), Potassium: zero(), VitaminD: zero(), Source: "taken as pure"}},
			"base": {Name: "base", Label: "lentils", Class: "beans", Allergens: none(), Analysis: base},
		},
		Equipment: map[kitchen.EquipmentID]kitchen.Equipment{"pot": {Name: "pot", Kind: kitchen.Vessel, Count: 1, Volume: 20 * unit.Litre}},
		Bags:      map[kitchen.BagID]kitchen.Bag{"bag": {Name: "bag", Length: 8 * unit.Inch, Width: 6 * unit.Inch}},
		Dishes: map[kitchen.DishID]kitchen.Dish{"soup": {Name: "soup", Steps: []kitchen.Step{{ID: "simmer", Do: "Simmer it.", In: []kitchen.EquipmentID{"pot"}, HeatTo: &hot,
			Use:   []kitchen.Use{{Of: "base", Amount: grams(5 * unit.Kilogram)}, {Of: "water", Amount: grams(6 * unit.Kilogram)}},
			Loses: kitchen.Losses{ReduceTo: unit.ShareOf(10.0 / 11)}, Gives: []kitchen.Output{{ID: "soup", Name: "soup"}}}}}},
		Packs: map[kitchen.PackID]kitchen.Pack{"pack": {Name: "Soup", Identity: "Lentil soup", Dish: "soup", Fill: []kitchen.Fill{{Of: "soup", Mass: net}}, Bag: "bag", Reference: reference,
			BestBefore: kitchen.Keeping{Weeks: 13, Source: "test"}}},
	}
}

// lentilSoup is the first worked example: figures of 245 g, reckoned by hand.
func lentilSoup() kitchen.Book {
	return book(analysis(245, 4.76, 0.68, 0, 0, 612, 27.36, 7.6, 4.44, 0.31, 9.74, 0, 62, 3.26, 653), "soup", 680*unit.Gram)
}

func edit[K comparable, V any](in map[K]V, key K, change func(*V)) {
	v := in[key]
	change(&v)
	in[key] = v
}

func foods(t testing.TB) *foodtable.Table {
	t.Helper()
	table, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// asked is a label of the pack of a test's book, of a lot that is known.
func asked(t testing.TB, b kitchen.Book) packlabel.Asked {
	return packlabel.Asked{Book: b, Foods: foods(t), Pack: "pack", Lot: packlabel.Lot{Code: "L-0917", Packed: "2026-12-01"}}
}

func made(t testing.TB, a packlabel.Asked) packlabel.Label {
	t.Helper()
	l, err := packlabel.Of(a)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func has(list finding.List, code string) *finding.Finding {
	for i := range list {
		if list[i].Code == code {
			return &list[i]
		}
	}
	return nil
}
