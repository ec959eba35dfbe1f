package nutrition_test

import (
	"fmt"
	"strings"
	"testing"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/unit"
)

// A stock with lentils boiled down from 3 kg to 2.4 kg, sold in pouches of 680 g.
func Example() {
	table, err := foodtable.Default()
	if err != nil {
		fmt.Println(err)
		return
	}
	part := func(ndb string, mass unit.Mass) nutrition.Part {
		food, _ := table.Lookup(ndb)
		c := nutrition.FromTable(food.Per100g)
		c[nutrition.AddedSugars] = nutrition.AddedSugarsOf(food).Per100g
		return nutrition.Part{Name: food.Name, Mass: mass, Per100g: c}
	}
	food, err := nutrition.Of(nutrition.Batch{
		Parts:    []nutrition.Part{part("14411", 2450*unit.Gram), part("16069", 400*unit.Gram), part("11282", 130*unit.Gram), part("02047", 20*unit.Gram)},
		Finished: 2400 * unit.Gram,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	soup, _ := nutrition.ReferenceOf("soup")
	cup, _ := soup.ByMeasure(1.04)
	panel, err := nutrition.PanelOf(nutrition.Asked{Rules: nutrition.FDA, Food: food, Net: 680 * unit.Gram, Reference: soup.Mass, Serving: cup})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(panel.Servings.Text+",", panel.Serving.Text)
	for _, row := range panel.Rows[:8] {
		fmt.Println(strings.TrimSpace(row.Text(0) + " " + row.Cells[0].Percent))
	}
	fmt.Println("all known:", panel.Printable())
	// Output:
	// about 2.5 servings per container, 1 cup (250 g)
	// Total Fat 0 g 0 %
	// Saturated Fat 0 g 0 %
	// Trans Fat 0 g
	// Cholesterol 0 mg 0 %
	// Sodium 820 mg 36 %
	// Total Carbohydrate 28 g 10 %
	// Dietary Fiber 5 g 17 %
	// Total Sugars 1 g
	// all known: true
}

// BenchmarkPanel is a pack of twenty ingredients, from their masses to its panel of two columns.
func BenchmarkPanel(b *testing.B) {
	table, err := foodtable.Default()
	if err != nil {
		b.Fatal(err)
	}
	batch := nutrition.Batch{}
	for _, f := range table.Foods()[200:220] {
		batch.Parts = append(batch.Parts, nutrition.Part{Name: f.Name, Mass: unit.Kilogram, Per100g: nutrition.FromTable(f.Per100g)})
		batch.Finished += unit.Kilogram
	}
	for b.Loop() {
		food, err := nutrition.Of(batch)
		if err != nil {
			b.Fatal(err)
		}
		if _, err := nutrition.PanelOf(nutrition.Asked{Rules: nutrition.FDA, Food: food, Net: 680 * unit.Gram, Reference: 245 * unit.Gram, Serving: nutrition.Whole(245*unit.Gram, "cup")}); err != nil {
			b.Fatal(err)
		}
	}
}
