package packlabel_test

import (
	"math"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/packlabel"
	"kettlefrost/internal/unit"
)

// USDA National Nutrient Database for Standard Reference, release 28: bacon raw (10123) and pan-fried (10862). The demo's step loses the water and
// gives the fat that these two rows tell; all else of the fried row is reckoned from the raw one here, and comes out within a few per cent.
func TestRenderedBaconIsThatOfTheTable(t *testing.T) {
	b := bookfile.Read(demo.Book()).Book
	b.Packs["bacon"] = kitchen.Pack{Name: "crisp bacon", Dish: "bean-pot", Bag: "bag-6x9", Reference: "meat-entree", Fill: []kitchen.Fill{{Of: "crisp", Mass: 100 * unit.Gram}}}
	l := made(t, packlabel.Asked{Book: b, Foods: foods(t), Pack: "bacon"})
	food, _ := foods(t).Lookup("10862")
	fried := nutrition.FromTable(food.Per100g)
	for n, within := range map[nutrition.Nutrient]float64{nutrition.Energy: 0.01, nutrition.Fat: 0.02, nutrition.SaturatedFat: 0.04, nutrition.Protein: 0.03, nutrition.Water: 0.02, nutrition.Ash: 0.02,
		nutrition.Sodium: 0.04, nutrition.Potassium: 0.05} {
		want, given := fried[n].Get()
		if got := l.Food.Per100g()[n].Least; !given || math.Abs(got/want-1) > within {
			t.Errorf("%v: %.4g in 100 g, the table has %.4g", n, got, want)
		}
	}
	// What the fat takes along of cholesterol is not known, and it stays: too high, which the label says.
	if got, want := l.Food.Per100g()[nutrition.Cholesterol].Least, fried[nutrition.Cholesterol].Or(0); got < want || has(l.Advice, packlabel.CodeRendered) == nil {
		t.Errorf("%.4g mg of cholesterol, the table has %.4g", got, want)
	}
}
