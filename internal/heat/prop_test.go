package heat

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func drawComposition(t *rapid.T) Composition {
	part := func(name string, most float64) float64 { return rapid.Float64Range(0, most).Draw(t, name) }
	c := Composition{Water: part("water", 1), Protein: part("protein", 0.5), Fat: part("fat", 0.5), Carb: part("carb", 0.5),
		Fibre: part("fibre", 0.2), Ash: part("ash", 0.1), Alcohol: part("alcohol", 0.05)}
	n, err := c.Normalise()
	if err != nil {
		t.Skip("not a food")
	}
	return n
}

func TestPropertiesAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawComposition(t)
		at := rapid.Float64Range(0, 100).Draw(t, "temperature")
		p, err := c.At(at)
		if err != nil {
			t.Fatal(err)
		}
		var rho, k, cp [2]float64 // lowest and highest of the components that are there
		rho[0], k[0], cp[0] = math.Inf(1), math.Inf(1), math.Inf(1)
		for i, x := range c.shares() {
			if x == 0 {
				continue
			}
			s := substances[i]
			rho = [2]float64{min(rho[0], s.density.at(at)), max(rho[1], s.density.at(at))}
			k = [2]float64{min(k[0], s.conductivity.at(at)), max(k[1], s.conductivity.at(at))}
			cp = [2]float64{min(cp[0], 1000*component(i).heatKJKgK(at)), max(cp[1], 1000*component(i).heatKJKgK(at))}
		}
		for what, b := range map[string][3]float64{"density": {rho[0], p.DensityKgM3, rho[1]},
			"conductivity": {k[0], p.ConductivityWMK, k[1]}, "specific heat": {cp[0], p.SpecificHeatJKgK, cp[1]}} {
			if b[1] < b[0]*(1-1e-9) || b[1] > b[2]*(1+1e-9) {
				t.Errorf("%s %g, components %g to %g", what, b[1], b[0], b[2])
			}
		}
	})
}

func TestFrozenAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawComposition(t)
		freezesC := rapid.Float64Range(-6, -0.1).Draw(t, "freezing point")
		at := rapid.Float64Range(-40, freezesC).Draw(t, "temperature")
		p, err := c.FrozenAt(at, freezesC)
		if err != nil {
			t.Fatal(err)
		}
		if p.IceShare < 0 || p.IceShare > c.FreezableWater() {
			t.Errorf("ice %g of %g freezable", p.IceShare, c.FreezableWater())
		}
		if upper := c.mixAt(at, p.IceShare).parallel(); p.ConductivityWMK > upper*(1+1e-9) {
			t.Errorf("Levy %g above the upper bound %g", p.ConductivityWMK, upper)
		}
		food, err := c.FreezingFood(freezesC, 5)
		if err != nil {
			t.Fatal(err)
		}
		warmer := rapid.Float64Range(at, 100).Draw(t, "warmer")
		if given, err := food.HeatJKg(warmer, at); err != nil || given < 0 {
			t.Errorf("cooling %g to %g gives off %g, %v", warmer, at, given, err)
		}
		h, _ := food.EnthalpyJKg(at)
		if back, err := food.TempC(h); err != nil || math.Abs(back-at) > 1e-6 {
			t.Errorf("enthalpy of %g °C goes back to %g, %v", at, back, err)
		}
	})
}

// Levy's model does not care which phase is called the first, and lies between the two.
func TestLevySymmetric(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k1, k2 := rapid.Float64Range(0.1, 3).Draw(t, "k1"), rapid.Float64Range(0.1, 3).Draw(t, "k2")
		v := rapid.Float64Range(0.001, 0.999).Draw(t, "v")
		one, two := levy(k1, k2, v), levy(k2, k1, 1-v)
		if math.Abs(one/two-1) > 1e-6 || one < min(k1, k2)*(1-1e-9) || one > max(k1, k2)*(1+1e-9) {
			t.Errorf("%g and %g of %g, %g", one, two, k1, k2)
		}
	})
}
