package nutrition_test

import (
	"slices"
	"testing"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/unit"
)

// The table's energies were published with factors of each food (Merrill and Watt 1973, from memory): 4.27 kcal for a gram of protein of meat and
// fish, 9.02 of their fat, 8.84 of vegetable fat, about 3.57 of carbohydrate of vegetables and 2.44 of their protein. So general factors are up to
// 1 - 4/4.27 = 6.3 % under the table for lean meat, 9/8.84 - 1 = 1.8 % over it for oils, and 12 % or more over it for vegetables.
func TestGeneralFactorsAgainstTheTable(t *testing.T) {
	table, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	off := map[string][]float64{}
	for _, f := range table.Foods() {
		food, err := nutrition.Of(nutrition.Batch{Parts: []nutrition.Part{{Name: f.Name, Mass: unit.Kilogram, Per100g: nutrition.FromTable(f.Per100g)}}, Finished: unit.Kilogram})
		if err != nil {
			t.Fatal(err)
		}
		if w := food.Per100g().EnergyWays(); w.Known && w.Table.Least > 20 {
			off[f.Group] = append(off[f.Group], w.OffShare)
		}
	}
	for _, c := range []struct {
		group             string
		foods             int
		least, mid0, mid1 float64
		most              float64
	}{
		{"Beef Products", 30, -0.063, -0.05, 0, 0.015}, {"Pork Products", 15, -0.063, -0.05, 0, 0.015}, {"Poultry Products", 20, -0.063, -0.05, 0, 0.015},
		{"Finfish and Shellfish Products", 15, -0.064, -0.06, -0.03, 0.015}, {"Fats and Oils", 8, -0.003, 0, 0.019, 0.019},
		{"Vegetables and Vegetable Products", 60, -0.01, 0.11, 0.2, 0.3},
	} {
		got := off[c.group]
		if len(got) < c.foods {
			t.Errorf("%s: only %d foods", c.group, len(got))
			continue
		}
		slices.Sort(got)
		if mid := got[len(got)/2]; got[0] < c.least || got[len(got)-1] > c.most || mid < c.mid0 || mid > c.mid1 {
			t.Errorf("%s: general factors are off by %.3f to %.3f, mostly %.3f", c.group, got[0], got[len(got)-1], mid)
		}
	}
}
