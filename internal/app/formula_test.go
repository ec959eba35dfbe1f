package app_test

import (
	"maps"
	"math"
	"slices"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/app"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/dosing"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/unit"
)

// A bare number takes the kitchen's own unit; what is wrong is told by field and the rest is read.
func TestQuestionsAboutAFormula(t *testing.T) {
	a, problems := app.FormulaTyped{Pack: "ale-cheddar-lb", Mass: "250", Store: "-4", Warm: "20", WarmFor: "6", Thickness: "thick", Own: map[string]string{"xanthan": "0.25", "salt": " "}}.Asked(unit.US)
	if len(problems) > 0 || a.Want.Mass != 250*unit.Pound || math.Abs(*a.Store+20) > 1e-9 || math.Abs(a.Excursion.TempC+6.6667) > 1e-3 || a.Excursion.Days != 0.25 || a.Want.Thickness != dosing.Thick ||
		len(a.Want.Own) != 1 || a.Want.Own["xanthan"].Share != 0.0025 {
		t.Errorf("%+v, %v", a, problems)
	}
	a, problems = app.FormulaTyped{Mass: "110", Store: "-20"}.Asked(unit.Metric)
	if len(problems) > 0 || a.Want.Mass != 110*unit.Kilogram || *a.Store != -20 {
		t.Errorf("%+v, %v", a, problems)
	}
	for field, typed := range map[string]app.FormulaTyped{
		app.FormulaMass: {Mass: "a bucket"}, app.FormulaUse: {Use: "stew"}, app.FormulaThickness: {Thickness: "gluey"}, app.FormulaSeries: {Series: "mine"}, app.FormulaTaste: {Taste: "salty"},
		app.FormulaStore: {Store: "cold"}, app.FormulaWarm: {WarmFor: "6 h"}, app.FormulaWarmFor: {Warm: "20 °F"}, app.FormulaOwn + "salt": {Own: map[string]string{"salt": "a pinch"}},
	} {
		_, problems := typed.Asked(unit.US)
		if !slices.ContainsFunc(problems, func(p app.TypedProblem) bool { return p.Field == field && p.Problem != "" }) {
			t.Errorf("%s: %v", field, problems)
		}
	}
	for _, typed := range []app.FormulaTyped{{Mass: "0 kg"}, {Mass: "1e9 kg"}, {Store: "-100 °C"}, {Warm: "20 °F", WarmFor: "2 years"}, {Warm: "20 °F", WarmFor: "0"}} {
		if _, problems := typed.Asked(unit.US); len(problems) == 0 {
			t.Errorf("%+v is taken", typed)
		}
	}
}

// How the dishes stand is worked out again when a dish changes, and not when something was bought.
func TestFormulasAreKept(t *testing.T) {
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	book := bookfile.Read(demo.Book()).Book
	var kept app.Formulas
	first := kept.Of(book, foods)
	bought := book
	bought.Ingredients = maps.Clone(book.Ingredients)
	g := bought.Ingredients["flour"]
	g.Stock = unit.Amount{Kind: unit.AmountMass, Mass: 50 * unit.Kilogram}
	bought.Ingredients["flour"] = g
	if again := kept.Of(bought, foods); &again.Dishes[0] != &first.Dishes[0] {
		t.Error("worked out again because flour was bought")
	}
	other := book
	other.Dishes = maps.Clone(book.Dishes)
	d := other.Dishes["bean-pot"]
	d.Name = "another pot"
	other.Dishes["bean-pot"] = d
	if again := kept.Of(other, foods); &again.Dishes[0] == &first.Dishes[0] {
		t.Error("a dish was changed, and nothing followed")
	}
}
