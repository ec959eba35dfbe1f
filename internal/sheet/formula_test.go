package sheet_test

import (
	"strings"
	"testing"

	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/formula"
	"kettlefrost/internal/sheet"
	"kettlefrost/internal/storagelife"
	"kettlefrost/internal/unit"

	"kettlefrost/demo"
)

// A scale with steps of a tenth shows tenths, one with steps of a gram whole grams, one of two hundredths hundredths.
func TestOnScale(t *testing.T) {
	for _, c := range []struct {
		m, step unit.Mass
		want    string
	}{{22 * unit.Gram, 100 * unit.Milligram, "22.0 g"}, {853 * unit.Gram, unit.Gram, "853 g"}, {340 * unit.Milligram, 20 * unit.Milligram, "0.34 g"}, {1500 * unit.Gram, 5 * unit.Gram, "1500 g"}} {
		if got := sheet.OnScale(c.m, c.step); got != c.want {
			t.Errorf("%v in steps of %v: %s, want %s", c.m, c.step, got, c.want)
		}
	}
}

func TestFormulaText(t *testing.T) {
	book := bookfile.Read(demo.Book()).Book
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	r, err := formula.ReportOf(book, foods, formula.Asked{Subject: formula.Subject{Pack: "ale-cheddar-lb"}, Excursion: &storagelife.Stay{TempC: -1, Days: 0.25}})
	if err != nil {
		t.Fatal(err)
	}
	text := sheet.FormulaText(r, unit.US, sheet.FormulaAll)
	for _, want := range []string{"nothing to change", "sharp cheddar, block, by itself “change the recipe”: emulsifying salt is 2.5 % of the cheese", "72.6 g to 145.1 g", "on a scale with steps of 0.1 g", "°F", "too warm for any rule"} {
		if !strings.Contains(strings.Join(strings.Fields(text), " "), want) {
			t.Errorf("%q is not in\n%s", want, text)
		}
	}
	if review := sheet.FormulaText(r, unit.US, sheet.FormulaReview); strings.Contains(review, "DOSES") || !strings.Contains(review, "IN THE FREEZER") {
		t.Error(review)
	}
}
