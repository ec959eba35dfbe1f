package nutrition

import (
	"math"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/unit"
)

// The guidance's bands at their ends; all of it from memory. Of the answers the first is the one that is printed.
func TestRoundingEU(t *testing.T) {
	seen := map[string]bool{}
	for _, c := range []struct {
		line string
		want map[float64]string
	}{
		{"energy_kj", map[float64]string{369.7: "370 kJ", 0.4: "0 kJ", 0.5: "1 kJ"}},
		{"energy_kcal", map[float64]string{88.2: "88", 88.5: "89"}},
		{"nutrients", map[float64]string{0: "0 g|<0.5 g", 0.4: "<0.5 g|0 g", 0.5: "<0.5 g|0 g", 0.51: "0.5 g", 3.4: "3.4 g", 3: "3.0 g", 3.45: "3.5 g", 9.94: "9.9 g",
			9.95: "10 g", 9.96: "10 g", 10: "10 g", 10.5: "11 g", 43.4: "43 g"}},
		{"fatty_acids", map[float64]string{0: "0 g|<0.1 g", 0.1: "<0.1 g|0 g", 0.11: "0.1 g", 0.2: "0.2 g", 9.96: "10 g", 12.5: "13 g"}},
		{"sodium", map[float64]string{0: "0 g|<0.005 g", 0.005: "<0.005 g|0 g", 0.006: "0.01 g", 0.31: "0.31 g", 0.996: "1.0 g", 1: "1.0 g", 1.25: "1.3 g"}},
		{"salt", map[float64]string{0: "0 g|<0.01 g", 0.0125: "<0.01 g|0 g", 0.013: "0.01 g", 0.775: "0.78 g", 0.994: "0.99 g", 0.995: "1.0 g", 1: "1.0 g", 1.24: "1.2 g", 1.25: "1.3 g"}},
		{"vitamin_d", map[float64]string{0: "0 µg", 1.25: "1.3 µg", 12.4: "12 µg", 0.123: "0.12 µg"}},
		{"iron", map[float64]string{2.14: "2.1 mg", 14.5: "15 mg"}},
		{"calcium", map[float64]string{123.4: "123 mg", 1235: "1240 mg", 12.34: "12.3 mg"}},
		{"potassium", map[float64]string{300.4: "300 mg", 1234: "1230 mg"}},
		{"intake", map[float64]string{4.4: "4 %", 4.5: "5 %"}},
	} {
		seen[c.line] = true
		for amount, want := range c.want {
			var got []string
			for _, p := range AllowedEU(c.line, amount) {
				got = append(got, p.Text)
				if p.Confirm == "" {
					t.Errorf("%s: that it is from memory is not said", c.line)
				}
			}
			if strings.Join(got, "|") != want {
				t.Errorf("%s of %g: %q, want %q", c.line, amount, strings.Join(got, "|"), want)
			}
		}
	}
	for line := range euRoundings {
		if !seen[line] {
			t.Errorf("no case of %s", line)
		}
	}
}

// 3.4 g fat, 8.6 g carbohydrate, 4.9 g protein and 1.8 g fibre in 100 g by the factors of annex XIV (read): 369.7 kJ and 88.2 kcal; 0.31 g of
// sodium are 0.775 g of salt (derived). Carbohydrate by difference has the fibre in it.
var euSoup = amountsOf(map[Nutrient]float64{Fat: 3.4, SaturatedFat: 0.6, Carbohydrate: 8.6 + 1.8, Sugars: 2.1, Fibre: 1.8, Protein: 4.9, Sodium: 310, Calcium: 20, Iron: 2.2, Potassium: 299})

func TestDeclarationByHand(t *testing.T) {
	d, err := EUDeclarationOf(EUAsked{Food: Food{100 * unit.Gram, euSoup}, Portion: 400 * unit.Gram, Portions: 2, Intakes: true,
		Voluntary: []Nutrient{Fibre, Iron, Calcium, Potassium}})
	if err != nil || !d.Printable() || len(d.Assumed) != 0 {
		t.Fatalf("%+v (%v)", d, err)
	}
	var got []string
	for _, r := range d.Rows {
		got = append(got, r.Text(0)+" "+r.Cells[0].Percent+" | "+r.Cells[1].Amount)
	}
	same(t, got, `
		Energy 370 kJ / 88 kcal 4 % | 1479 kJ / 353 kcal
		Fat 3.4 g 5 % | 14 g
		of which saturates 0.6 g 3 % | 2.4 g
		Carbohydrate 8.6 g 3 % | 34 g
		of which sugars 2.1 g 2 % | 8.4 g
		Fibre 1.8 g  | 7.2 g
		Protein 4.9 g 10 % | 20 g
		Salt 0.78 g 13 % | 3.1 g
		Iron 2.2 mg 16 % | 8.8 mg`) // potassium 299 mg is 14.95 % of 2000
	if !slices.Contains(d.Statements, "The pack contains 2 portions.") || !slices.Contains(d.Statements, intakeSays) {
		t.Errorf("%q", d.Statements)
	}
	if len(d.Confirm) == 0 {
		t.Error("what is from memory is not said")
	}
}

// Each factor alone, a gram of it: annex XIV (read).
func TestEnergyFactorsEU(t *testing.T) {
	for _, c := range []struct {
		name     string
		of       map[Nutrient]float64
		kj, kcal float64
	}{
		{"carbohydrate", map[Nutrient]float64{Carbohydrate: 1}, 17, 4}, {"polyols", map[Nutrient]float64{Carbohydrate: 1, SugarAlcohol: 1}, 10, 2.4},
		{"protein", map[Nutrient]float64{Protein: 1}, 17, 4}, {"fat", map[Nutrient]float64{Fat: 1}, 37, 9}, {"alcohol", map[Nutrient]float64{Alcohol: 1}, 29, 7},
		{"fibre", map[Nutrient]float64{Carbohydrate: 1, Fibre: 1}, 8, 2},
	} {
		e := amountsOf(c.of).EU()
		if kj, ok := e.KJ.Get(); !ok || math.Abs(kj-c.kj) > 1e-12 {
			t.Errorf("%s: %g kJ, want %g", c.name, kj, c.kj)
		}
		if kcal, ok := e.Kcal.Get(); !ok || math.Abs(kcal-c.kcal) > 1e-12 {
			t.Errorf("%s: %g kcal, want %g", c.name, kcal, c.kcal)
		}
	}
	for component, kj := range map[string]float64{"salatrims": 25, "organic acid": 13, "erythritol": 0} {
		if i := slices.IndexFunc(EUFactors(), func(f EUFactor) bool { return f.Component == component }); i < 0 || EUFactors()[i].KJPerG != kj {
			t.Errorf("%s", component)
		}
	}
}

// Fibre that is not stated leaves carbohydrate between, and energy open; polyols that are not stated are assumed away, and that is said.
func TestGapsEU(t *testing.T) {
	a := euSoup
	a[Fibre] = Amount{Least: 1, Most: foodtable.Given(3), Missing: []Gap{{Part: "barley"}}}
	a[SugarAlcohol] = Amount{Most: foodtable.Given(10.4), Missing: []Gap{{Part: "barley"}}}
	e := a.EU()
	if math.Abs(e.Carb.Least-7.4) > 1e-12 || math.Abs(e.Carb.Most.Or(0)-9.4) > 1e-12 || len(e.Carb.Missing) != 1 {
		t.Errorf("carbohydrate %+v", e.Carb)
	}
	if len(e.Assumed) != 1 || math.Abs(e.Kcal.Least-(88.2-2*1.2)) > 1e-9 || math.Abs(e.Kcal.Most.Or(0)-(88.2+2*0.8)) > 1e-9 {
		t.Errorf("%v, %+v", e.Assumed, e.Kcal)
	}
	d, err := EUDeclarationOf(EUAsked{Food: Food{100 * unit.Gram, a}})
	if err != nil || d.Printable() || len(d.Open) != 2 || d.Open[0].Nutrient != Energy || d.Open[1].Nutrient != Carbohydrate {
		t.Errorf("%+v (%v)", d.Open, err)
	}
}

// Fat of 0.4 g with 0.2 g of saturates: a bare 0 above 0.2 would read oddly.
func TestTraceOfFat(t *testing.T) {
	d, err := EUDeclarationOf(EUAsked{Food: Food{100 * unit.Gram, amountsOf(map[Nutrient]float64{Fat: 0.4, SaturatedFat: 0.2, Sodium: 4})}, SaltIsNatural: true})
	if err != nil || d.Rows[1].Text(0) != "Fat <0.5 g" || d.Rows[2].Text(0) != "of which saturates 0.2 g" || d.Rows[6].Text(0) != "Salt <0.01 g" || d.Statements[0] != naturalSays {
		t.Errorf("%+v (%v)", d.Rows, err)
	}
	if _, err := EUDeclarationOf(EUAsked{}); err == nil {
		t.Error("a declaration of nothing")
	}
	if _, err := EUDeclarationOf(EUAsked{Food: Food{unit.Gram, euSoup}, Portion: unit.Gram}); err == nil {
		t.Error("portions without their number")
	}
}

// The guidance's tolerances meet where two bands meet, but that of fat steps from 1.5 to 2 g at 10 g (derived; the bands from memory).
func TestTolerances(t *testing.T) {
	for _, c := range []struct {
		line           string
		declared, l, m float64
	}{
		{"nutrients", 9, 7, 11}, {"nutrients", 10, 8, 12}, {"nutrients", 40, 32, 48}, {"nutrients", 50, 42, 58}, {"nutrients", 1, 0, 3},
		{"fat", 9.9, 8.4, 11.4}, {"fat", 10, 8, 12}, {"fat", 41, 33, 49}, {"fatty_acids", 3, 2.2, 3.8}, {"fatty_acids", 4, 3.2, 4.8},
		{"sodium", 0.4, 0.25, 0.55}, {"sodium", 0.5, 0.4, 0.6}, {"salt", 1, 0.625, 1.375}, {"salt", 1.25, 1, 1.5}, {"vitamins", 10, 6.5, 15}, {"minerals", 100, 65, 145},
	} {
		got, ok := ToleranceEU(c.line, c.declared)
		if !ok || math.Abs(got.Least.Or(-1)-c.l) > 1e-9 || math.Abs(got.Most.Or(-1)-c.m) > 1e-9 || got.Confirm == "" {
			t.Errorf("%s of %g: %+v, want %g to %g", c.line, c.declared, got, c.l, c.m)
		}
	}
	if _, ok := ToleranceEU("energy_kcal", 88); ok {
		t.Error("a tolerance for energy")
	}
}
