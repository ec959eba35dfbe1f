package packlabel_test

import (
	"math"
	"strings"
	"testing"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/packlabel"
	"kettlefrost/internal/unit"
)

// column is a panel as it is read in one column: calories, then the amounts and per cents of its lines.
func column(p nutrition.Panel, i int) string {
	said := []string{p.Calories[i].Amount}
	for _, row := range p.Rows {
		said = append(said, strings.TrimSpace(row.Cells[i].Amount+" "+row.Cells[i].Percent))
	}
	return strings.Join(said, ", ")
}

// Worked examples of a panel, rounded by hand by 21 CFR 101.9(c) as read. They go the whole way here: from the analysis of an ingredient by the
// cooking, in which water goes, into the pack.
func TestPanelsOfWorkedExamples(t *testing.T) {
	for _, c := range []struct {
		name    string
		asked   func() packlabel.Asked
		serving string
		count   string
		columns []string
	}{
		{"lentil soup, 680 g", func() packlabel.Asked { a := asked(t, lentilSoup()); a.Cup = 245 * unit.Gram; return a }, "1 cup (245 g)", "about 3 servings per container", []string{
			"190, 5 g 6 %, 0.5 g 3 %, 0 g, 0 mg 0 %, 610 mg 27 %, 27 g 10 %, 8 g 27 %, 4 g, 0 g 0 %, 10 g, 0 mcg 0 %, 60 mg 4 %, 3.3 mg 20 %, 650 mg 15 %",
			"530, 13 g 17 %, 2 g 9 %, 0 g, 0 mg 0 %, 1700 mg 74 %, 76 g 28 %, 21 g 75 %, 12 g, less than 1 g 2 %, 27 g, 0 mcg 0 %, 170 mg 15 %, 9 mg 50 %, 1810 mg 40 %"}},
		{"tomato sauce, 500 g", func() packlabel.Asked {
			b := book(analysis(125, 0.47, 0, 0, 3.1, 143, 9.52, 0.83, 6.4, 0.6, 1.52, 0.1, 19, 0.52, 241), "main-sauce", 500*unit.Gram)
			a := asked(t, b)
			a.Cup = 250 * unit.Gram
			return a
		}, "1/2 cup (125 g)", "4 servings per container", []string{
			"50, 0 g 0 %, 0 g 0 %, 0 g, less than 5 mg 1 %, 140 mg 6 %, 10 g 3 %, less than 1 g 3 %, 6 g, less than 1 g 1 %, 2 g, 0.1 mcg 0 %, 20 mg 2 %, 0.5 mg 2 %, 240 mg 6 %"}},
		{"beef braise by the rules of 2016", braise(t, nutrition.FDA), "1/4 pack (140 g)", "4 servings per container", []string{
			"260, 13 g 17 %, 4.5 g 24 %, 0 g, 70 mg 24 %, 700 mg 31 %, 11 g 4 %, 3 g 9 %, 0 g, 0 g 0 %, 25 g, 0 mcg 0 %, 30 mg 2 %, 3.1 mg 15 %, 0 mg 0 %"}},
		{"beef braise by the daily values of 9 CFR 317.309", braise(t, nutrition.USDA), "1/4 pack (140 g)", "4 servings per container", []string{
			"260, 13 g 20 %, 4.5 g 24 %, 0 g, 70 mg 24 %, 700 mg 29 %, 11 g 4 %, 3 g 10 %, 0 g, 0 g, 25 g, 0 mcg 0 %, 30 mg 4 %, 3.1 mg 15 %, 0 mg"}},
	} {
		l := made(t, c.asked())
		if l.Panel == nil || !l.Panel.Printable() {
			t.Fatalf("%s: no panel: %v", c.name, l.Open)
		}
		if l.Panel.Serving.Text != c.serving || l.Panel.Servings.Text != c.count {
			t.Errorf("%s: %s, %s; want %s, %s", c.name, l.Panel.Serving.Text, l.Panel.Servings.Text, c.serving, c.count)
		}
		if len(l.Panel.Calories) != len(c.columns) {
			t.Fatalf("%s: %d columns, want %d", c.name, len(l.Panel.Calories), len(c.columns))
		}
		for i, want := range c.columns {
			if got := column(*l.Panel, i); got != want {
				t.Errorf("%s, column %d:\ngot  %s\nwant %s", c.name, i+1, got, want)
			}
		}
		if l.Content.Panel == nil || l.Content.Panel.Calories.Amounts[0] != l.Panel.Calories[0].Amount {
			t.Errorf("%s: the panel does not stand on the label: %v", c.name, l.Open)
		}
	}
}

// braise is the third example: 140 g, of which the base is beef.
func braise(t *testing.T, rules nutrition.Rules) func() packlabel.Asked {
	return func() packlabel.Asked {
		b := book(analysis(140, 13.2, 4.74, 0, 72.4, 703, 11.3, 2.6, 0, 0, 24.6, 0, 33, 3.1, 0), "meat-entree-sauced", 560*unit.Gram)
		edit(b.Ingredients, "base", func(i *kitchen.Ingredient) { i.Label, i.Class = "beef", "intact-meat" })
		a := asked(t, b)
		a.Panel = rules
		return a
	}
}

// Calories by 4, 4 and 9 are 191.24 in 245 g, worked by hand; what boils off takes nothing but water along.
func TestWaterTakesNothingAlong(t *testing.T) {
	l := made(t, asked(t, lentilSoup()))
	in := l.Food.In(245 * unit.Gram)
	if kcal, whole := in.GeneralEnergy().Get(); !whole || math.Abs(kcal-191.24) > 1e-6 {
		t.Errorf("%v kcal, want 191.24", kcal)
	}
	if sodium, whole := in[nutrition.Sodium].Get(); !whole || math.Abs(sodium-612) > 1e-6 {
		t.Errorf("%v mg of sodium, want 612", sodium)
	}
	if got := in[nutrition.Water].Least + in[nutrition.Fat].Least + in[nutrition.Carbohydrate].Least + in[nutrition.Protein].Least + in[nutrition.Ash].Least; math.Abs(got-245) > 1e-6 {
		t.Errorf("245 g are %v g of what they are made of", got)
	}
}

// What sticks to the pot is as the rest is, so that it changes no figure of what is left.
func TestResidueChangesNothing(t *testing.T) {
	plain := made(t, asked(t, lentilSoup()))
	b := lentilSoup()
	b.Dishes["soup"].Steps[0].Loses.Residue = 800 * unit.Gram
	sticky := made(t, asked(t, b))
	for _, n := range nutrition.Nutrients() {
		was, is := plain.Food.Per100g()[n].Least, sticky.Food.Per100g()[n].Least
		if math.Abs(was-is) > 1e-6*max(1, was) {
			t.Errorf("%v was %v and is %v in 100 g", n, was, is)
		}
	}
}

// A cup that nobody weighed is reckoned from the composition, and the label says so.
func TestACupIsWeighed(t *testing.T) {
	a := asked(t, lentilSoup())
	if l := made(t, a); has(l.Advice, packlabel.CodeDensity) == nil {
		t.Error("nobody weighed a cup of it, and nothing says so")
	}
	a.Cup = 245 * unit.Gram
	if l := made(t, a); has(l.Advice, packlabel.CodeDensity) != nil {
		t.Error("a cup of it was weighed")
	}
}
