package heatcase

import (
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/unit"
)

func rowAt(t *testing.T, p Properties, tempC float64) PropertyAt {
	t.Helper()
	i := slices.IndexFunc(p.Rows, func(r PropertyAt) bool { return math.Abs(r.TempC-tempC) < 1e-9 })
	if i < 0 {
		t.Fatalf("there is no row at %g °C", tempC)
	}
	return p.Rows[i]
}

// Water against the steam and ice tables (from memory): 998.2 kg/m³, 4.18 kJ/kg·K and 0.598 W/m·K at 20 °C, 961.9 kg/m³ at 95 °C; ice at
// -30 °C 920 kg/m³ and 2.4 W/m·K (2.2 at 0 °C); 397.9 kJ/kg from 0 to 95 °C. The fits of Choi and Okos are within 1 %, of the ice 2 %.
func TestPropertiesOfWater(t *testing.T) {
	p, err := Food{Composition: Composition{Water: unit.Whole}, FreezesAt: new(tempC(-0.05))}.Properties()
	if err != nil {
		t.Fatal(err)
	}
	ice, cool, cold, hot := rowAt(t, p, -30), rowAt(t, p, 20), rowAt(t, p, 0), rowAt(t, p, 95)
	for _, r := range []struct {
		what            string
		got, want, part float64
	}{{"density at 20 °C", cool.DensityKgM3, 998.2, 0.01}, {"heat at 20 °C", cool.SensibleHeatKJKgK, 4.18, 0.01}, {"conductivity at 20 °C", cool.ConductivityWMK, 0.598, 0.01},
		{"density at 95 °C", hot.DensityKgM3, 961.9, 0.01}, {"heat from 0 to 95 °C", hot.EnthalpyKJKg - cold.EnthalpyKJKg, 397.9, 0.01},
		{"density of ice", ice.DensityKgM3, 920, 0.01}, {"conductivity of ice", ice.ConductivityWMK, 2.4, 0.05}, {"ice at -30 °C", ice.IceShare, 1 - 0.05/30, 1e-9}} {
		if math.Abs(r.got/r.want-1) > r.part {
			t.Errorf("%s: %.5g, want %.5g", r.what, r.got, r.want)
		}
	}
	if cool.ApparentHeatKJKgK != cool.SensibleHeatKJKgK || cool.IceShare != 0 || cool.LiquidWater != 1 {
		t.Errorf("water at 20 °C: %+v", cool)
	}
}

// By hand: 86 % water and 3.5 % protein that begin to freeze at -0.8 °C have, at -10 °C, (0.86 - 0.4·0.035)·(1 - 0.08) = 0.7783 of ice, the
// rest of the water liquid; the ice that melts per kelvin there takes 0.846·333.6·0.8/100 = 2.258 kJ/kg·K.
func TestPropertiesByHand(t *testing.T) {
	p, err := Example(Cool).Food.Properties()
	if err != nil {
		t.Fatal(err)
	}
	r := rowAt(t, p, -10)
	for _, x := range []struct{ got, want float64 }{{r.IceShare, 0.77832}, {r.LiquidWater, 0.86 - 0.77832}, {r.ApparentHeatKJKgK - r.SensibleHeatKJKgK, 2.2578}, {p.FreezableWater, 0.846}} {
		if math.Abs(x.got-x.want) > 1e-3 {
			t.Errorf("got %g, want %g", x.got, x.want)
		}
	}
	at := rowAt(t, p, -0.8)
	if at.IceShare != 0 || !p.FreezesAtAssumed || p.ValidFromC != -40 || p.ValidToC != 150 {
		t.Errorf("at the freezing point %+v of %+v", at, p)
	}
	for i, r := range p.Rows[1:] {
		if before := p.Rows[i]; r.TempC <= before.TempC || r.EnthalpyKJKg <= before.EnthalpyKJKg || r.IceShare > before.IceShare {
			t.Errorf("row %d: %+v after %+v", i+1, r, before)
		}
	}
	text, err := json.Marshal(p)
	if err != nil || !strings.Contains(string(text), `"schema":"kettlefrost.properties/1"`) {
		t.Errorf("as JSON: %.80s, %v", text, err)
	}
}

func TestPropertiesRefuse(t *testing.T) {
	for key, f := range map[string]Food{
		"food": {}, "water": {Composition: Composition{Water: 80 * unit.PerCent}}, "freezes-at": {Find: "16070", FreezesAt: new(tempC(-20))}} {
		_, err := f.Properties()
		if bad, ok := errors.AsType[*CaseError](err); !ok || bad.Found[0].Path != key {
			t.Errorf("%s: %v", key, err)
		}
	}
	p, err := Food{Find: "soup vegetable"}.Properties()
	if err != nil || len(p.Findings) == 0 || !strings.Contains(p.Source, "USDA SR28") {
		t.Errorf("a food of the table: %+v, %v; want the others named", p.Findings, err)
	}
}

// What is held is within rounding of what was given, adds up, can be told as text, and is computed with.
func TestHoldIsKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		part := func(name string, most float64) float64 { return rapid.Float64Range(0, most).Draw(t, name) }
		of := heat.Composition{Water: part("water", 1), Protein: part("protein", 0.3), Fat: part("fat", 1), Carb: part("carb", 0.5), Fibre: part("fibre", 0.1), Ash: part("ash", 0.05), Alcohol: part("alcohol", 0.02)}
		sum := of.Sum()
		if sum < 0.2 {
			t.Skip("nothing")
		}
		for _, x := range []*float64{&of.Water, &of.Protein, &of.Fat, &of.Carb, &of.Fibre, &of.Ash, &of.Alcohol} {
			*x /= sum
		}
		if of.Alcohol > heat.MaxAlcohol {
			t.Skip("a spirit")
		}
		freezes := rapid.Float64Range(-6, -0.05).Draw(t, "freezes at")
		c := Example(Cool)
		c.Food.Find = "16070"
		c.Hold(" a soup ", of, freezes)
		again := Example(Cool)
		again.Food.Composition = Composition{}
		for key, text := range c.Given() {
			if err := again.Set(key, text); err != nil {
				t.Fatalf("%s %q: %v", key, text, err)
			}
		}
		r, err := again.Food.resolve()
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(r.sum-1) > 1e-9 || again.Name != "a soup" || again.Text("food") != "" || math.Abs(r.freezesC-freezes) > 0.0051 {
			t.Fatalf("sum %g, %q, %q, freezes at %g for %g", r.sum, again.Name, again.Text("food"), r.freezesC, freezes)
		}
		got := r.composition
		for _, x := range [][2]float64{{got.Water, of.Water}, {got.Protein, of.Protein}, {got.Fat, of.Fat}, {got.Carb, of.Carb}, {got.Fibre, of.Fibre}, {got.Ash, of.Ash}, {got.Alcohol, of.Alcohol}} {
			if math.Abs(x[0]-x[1]) > 4e-4 {
				t.Fatalf("%+v, want %+v", got, of)
			}
		}
	})
}
