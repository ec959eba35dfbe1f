package composition_test

import (
	"testing"

	"kettlefrost/internal/composition"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/nutrition"
)

// Unsalted butter is row 01145 of USDA SR28: 11 mg of sodium, and nothing of its trans fat.
func TestWhoSaysWhat(t *testing.T) {
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	x := func(v float64) *float64 { return &v }
	table := kitchen.Ingredient{Food: "01145"}
	sheet := kitchen.Ingredient{Food: "01145", Figures: &kitchen.Figures{TransFat: x(3.3), Sodium: x(9)}}
	own := kitchen.Ingredient{Food: "01145", Analysis: &kitchen.Analysis{Water: 16, Fat: 82, Carb: 1, Protein: 1, Sodium: x(7)}, Figures: &kitchen.Figures{TransFat: x(3)}}
	nothing := kitchen.Ingredient{Figures: &kitchen.Figures{Sodium: x(5)}}
	for _, c := range []struct {
		name  string
		of    kitchen.Ingredient
		what  nutrition.Nutrient
		want  float64
		given bool
	}{
		{"the table", table, nutrition.Sodium, 11, true},
		{"what the table has not", table, nutrition.TransFat, 0, false},
		{"a sheet beside the table", sheet, nutrition.TransFat, 3.3, true},
		{"a sheet before the table", sheet, nutrition.Sodium, 9, true},
		{"the rest is the table's", sheet, nutrition.Water, 17.94, true},
		{"an analysis before the table", own, nutrition.Sodium, 7, true},
		{"what the analysis has not is not the table's", own, nutrition.Cholesterol, 0, false},
		{"a sheet beside the analysis", own, nutrition.TransFat, 3, true},
		{"a sheet alone", nothing, nutrition.Sodium, 5, true},
		{"and no more than it says", nothing, nutrition.Fat, 0, false},
	} {
		got, _ := composition.Of(c.of, foods)
		if amount, given := got[c.what].Get(); given != c.given || amount != c.want {
			t.Errorf("%s: %g (given: %v), want %g (%v)", c.name, amount, given, c.want, c.given)
		}
	}
	if _, answer := composition.Of(table, foods); answer == (nutrition.AddedAnswer{}) {
		t.Error("of butter nothing says why it has no added sugars")
	}
	if _, answer := composition.Of(kitchen.Ingredient{Food: "01145", Figures: &kitchen.Figures{AddedSugars: x(0)}}, foods); answer != (nutrition.AddedAnswer{}) {
		t.Error("what the sheet says is said to follow from the kind of food")
	}
}
