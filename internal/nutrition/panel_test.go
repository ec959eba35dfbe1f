package nutrition

import (
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/unit"
)

func lentilAsked() Asked {
	r, _ := ReferenceOf("soup")
	s, _ := r.ByMeasure(245.0 / 240)
	return Asked{Rules: FDA, Food: Food{245 * unit.Gram, lentilSoup}, Net: 680 * unit.Gram, Reference: r.Mass, Serving: s}
}

func lines(p Panel) []string {
	all := []string{p.Title, p.Servings.Text, p.Serving.Text, strings.Join(p.Headings, " | ")}
	row := func(text func(int) string, cells []Cell) {
		var parts []string
		for i, c := range cells {
			parts = append(parts, strings.TrimSpace(text(i)+" "+c.Percent))
		}
		all = append(all, strings.Join(parts, " | "))
	}
	row(func(i int) string { return "Calories " + p.Calories[i].Amount }, p.Calories)
	for _, r := range p.Rows {
		indent := strings.Repeat("  ", r.Indent)
		row(func(i int) string { return indent + r.Text(i) }, r.Cells)
	}
	if p.NotSignificant != "" {
		all = append(all, p.NotSignificant)
	}
	return all
}

func same(t *testing.T, got []string, want string) {
	t.Helper()
	wanted := strings.Split(strings.Trim(want, "\n"), "\n")
	for i := range max(len(got), len(wanted)) {
		g, w := "", ""
		if i < len(got) {
			g = strings.TrimSpace(got[i])
		}
		if i < len(wanted) {
			w = strings.TrimSpace(wanted[i])
		}
		if g != w {
			t.Errorf("line %d: %q, want %q", i+1, g, w)
		}
	}
}

// Lentil soup in a pouch of 680 g, worked by hand from the rules (derived): 277.6 % of the reference amount, so two columns; the container's
// calories are 530, not three times 190.
func TestPanelOfTwoColumns(t *testing.T) {
	p, err := PanelOf(lentilAsked())
	if err != nil || !p.Printable() {
		t.Fatalf("%+v (%v)", p.Open, err)
	}
	same(t, lines(p), `
		Nutrition Facts
		about 3 servings per container
		1 cup (245 g)
		Per serving | Per container
		Calories 190 | Calories 530
		Total Fat 5 g 6 % | Total Fat 13 g 17 %
		Saturated Fat 0.5 g 3 % | Saturated Fat 2 g 9 %
		Trans Fat 0 g | Trans Fat 0 g
		Cholesterol 0 mg 0 % | Cholesterol 0 mg 0 %
		Sodium 610 mg 27 % | Sodium 1700 mg 74 %
		Total Carbohydrate 27 g 10 % | Total Carbohydrate 76 g 28 %
		Dietary Fiber 8 g 27 % | Dietary Fiber 21 g 75 %
		Total Sugars 4 g | Total Sugars 12 g
		Includes 0 g Added Sugars 0 % | Includes less than 1 g Added Sugars 2 %
		Protein 10 g | Protein 27 g
		Vitamin D 0 mcg 0 % | Vitamin D 0 mcg 0 %
		Calcium 60 mg 4 % | Calcium 170 mg 15 %
		Iron 3.3 mg 20 % | Iron 9 mg 50 %
		Potassium 650 mg 15 % | Potassium 1810 mg 40 %`)
	if !slices.ContainsFunc(p.Confirm, func(s string) bool { return strings.Contains(s, "added sugars") }) {
		t.Errorf("what is from memory: %q", p.Confirm)
	}
}

// A pack of 12 oz is one serving of the grams of its net weight.
func TestPanelOfOneServing(t *testing.T) {
	a := lentilAsked()
	a.Net = 12 * unit.Ounce // 340.19 g, 138.9 % of the reference amount
	p, err := PanelOf(a)
	if err != nil {
		t.Fatal(err)
	}
	if p.Servings.Text != "1 serving per container" || p.Serving.Text != "1 container (340 g)" || len(p.Headings) != 1 {
		t.Errorf("%+v, %+v, %q", p.Servings, p.Serving, p.Headings)
	}
	if got := p.Calories[0].Amount; got != "270" { // 191.24 x 340 / 245 = 265.4
		t.Errorf("calories %s", got)
	}
}

// 400 g are 163 % of the reference amount: one serving, to which a column of a cup may be added; 191.24 x 400 / 245 = 312 kcal.
func TestColumnThatMayBeAdded(t *testing.T) {
	a := lentilAsked()
	a.Net, a.AddServing = 400*unit.Gram, true
	p, err := PanelOf(a)
	if err != nil || !slices.Equal(p.Headings, []string{"Per 1 cup (245 g)", "Per container"}) || p.Calories[0].Amount != "190" || p.Calories[1].Amount != "310" ||
		p.Serving.Text != "1 container (400 g)" {
		t.Errorf("%q %+v (%v)", p.Headings, p.Calories, err)
	}
	a.AddServing = false
	if p, err = PanelOf(a); err != nil || len(p.Headings) != 1 || p.Calories[0].Amount != "310" {
		t.Errorf("%q %+v (%v)", p.Headings, p.Calories, err)
	}
	if got := OuterPack(6).Text; got != "6 servings per container" {
		t.Error(got)
	}
}

// A clear stock by hand: 9 of the 15 are insignificant (fat, saturated and trans fat, cholesterol, fibre, both sugars, vitamin D, calcium).
func TestSimplifiedPanel(t *testing.T) {
	a := lentilAsked()
	a.Food.Amounts = amountsOf(map[Nutrient]float64{Protein: 4.7, Carbohydrate: 2.9, Fat: 0.2, Sodium: 343, Iron: 0.5, Potassium: 252, Calcium: 7, Sugars: 0.4})
	a.Simplify = true
	p, err := PanelOf(a)
	if err != nil || !p.Printable() {
		t.Fatalf("%+v (%v)", p.Open, err)
	}
	if n := len(p.Simplified.Insignificant); n != 9 {
		t.Errorf("%d insignificant: %v", n, p.Simplified.Insignificant)
	}
	var got []string
	for _, r := range p.Rows {
		got = append(got, r.Text(0))
	}
	want := []string{"Total Fat 0 g", "Sodium 340 mg", "Total Carbohydrate 3 g", "Protein 5 g", "Iron 0.5 mg", "Potassium 250 mg"}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if p.NotSignificant != "Not a significant source of saturated fat, trans fat, cholesterol, dietary fiber, total sugars, added sugars, vitamin D and calcium." {
		t.Error(p.NotSignificant)
	}
	a.Food.Amounts[Calcium], a.Food.Amounts[Sugars] = exactly(60), exactly(2) // 7 left
	if p, err = PanelOf(a); err != nil || p.Simplified.May || p.NotSignificant != "" || len(p.Rows) != 14 {
		t.Errorf("%+v (%v)", p.Simplified, err)
	}
}

// 21 CFR 101.9(j)(4), by its limits.
func TestInsignificant(t *testing.T) {
	for n, at := range map[Nutrient]float64{Energy: 5, Fat: 0.5, SaturatedFat: 0.5, TransFat: 0.5, Cholesterol: 2, Sodium: 5, Carbohydrate: 1, Fibre: 1,
		Sugars: 0.5, AddedSugars: 0.5, Protein: 1, VitaminD: 0.4, Calcium: 26, Iron: 0.36, Potassium: 94} {
		if FDA.Insignificant(n, exactly(at)) || !FDA.Insignificant(n, exactly(at*0.999)) {
			t.Errorf("%v at %g", n, at)
		}
	}
	if FDA.Insignificant(Fat, Amount{}) || FDA.Insignificant(Fat, Amount{Most: foodtable.Given(0.6), Missing: []Gap{{Part: "oil"}}}) ||
		!FDA.Insignificant(Fat, Amount{Most: foodtable.Given(0.4), Missing: []Gap{{Part: "oil"}}}) {
		t.Error("an amount that is not known whole counts by its most")
	}
}

// Added sugars that nobody stated leave the panel open, and say whose they are.
func TestOpenPanel(t *testing.T) {
	a := lentilAsked()
	a.Food.Amounts[AddedSugars] = Amount{Most: foodtable.Given(4.44), Missing: []Gap{{"tomato paste", 20 * unit.Gram}}}
	p, err := PanelOf(a)
	if err != nil || p.Printable() || len(p.Open) != 1 || p.Open[0].Nutrient != AddedSugars || p.Open[0].Amount.Missing[0].Part != "tomato paste" {
		t.Fatalf("%+v (%v)", p.Open, err)
	}
	if got := p.Rows[8]; got.Nutrient != AddedSugars || !got.Cells[0].Open || got.Cells[0].Amount != "" {
		t.Errorf("%+v", got)
	}
}

func TestVoluntaryLines(t *testing.T) {
	a := lentilAsked()
	a.Voluntary = []Nutrient{PolyunsaturatedFat, SugarAlcohol}
	p, err := PanelOf(a)
	if err != nil || len(p.Rows) != 16 || p.Rows[3].Name != "Polyunsaturated Fat" || p.Rows[10].Name != "Sugar Alcohol" {
		t.Errorf("%+v (%v)", p.Rows, err)
	}
}

func TestPanelOfNothing(t *testing.T) {
	for name, a := range map[string]Asked{"nothing": {}, "no food": {Rules: FDA, Net: unit.Gram, Reference: unit.Gram},
		"no net": {Rules: FDA, Food: lentilAsked().Food, Reference: unit.Gram}, "no serving": {Rules: FDA, Food: lentilAsked().Food, Net: 680 * unit.Gram, Reference: 100 * unit.Gram}} {
		if _, err := PanelOf(a); err == nil {
			t.Errorf("%s: a panel", name)
		}
	}
}

// The areas and type sizes are from memory, and say so.
func TestFormats(t *testing.T) {
	for _, c := range []struct {
		room Room
		want []Format
		tiny bool
	}{
		{Room{AreaSqIn: 60, ColumnFits: true}, []Format{Standard}, false},
		{Room{AreaSqIn: 60}, []Format{Tabular}, false},
		{Room{AreaSqIn: 40, ColumnFits: true}, []Format{Standard}, false},
		{Room{AreaSqIn: 40, TabularFits: true}, []Format{Tabular}, true},
		{Room{AreaSqIn: 39}, []Format{Linear}, true},
		{Room{AreaSqIn: 11.9}, []Format{Contact, Linear}, true},
		{Room{AreaSqIn: 11.9, Claims: true}, []Format{Linear}, true},
		{Room{AreaSqIn: 12}, []Format{Linear}, true},
	} {
		var got []Format
		for _, f := range Formats(c.room) {
			got = append(got, f.Format)
			if f.Small != c.tiny || f.Confirm == "" {
				t.Errorf("%+v: %+v", c.room, f)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%+v: %v, want %v", c.room, got, c.want)
		}
	}
	for _, s := range TypeSizes() {
		if small, given := s.Small.Get(); s.Confirm == "" || given && small > s.Standard.Or(0) {
			t.Errorf("%+v", s)
		}
	}
}
