package heat

import (
	"errors"
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

func drawSheet(t *rapid.T) Sheet {
	return Sheet{
		Solid:          Solid{rapid.Float64Range(800, 1200).Draw(t, "density"), 3800, rapid.Float64Range(0.3, 0.7).Draw(t, "k")},
		ThicknessM:     rapid.Float64Range(1e-3, 0.3).Draw(t, "thickness"),
		BottomFilmWM2K: rapid.Float64Range(1, 1000).Draw(t, "bottom"),
		TopFilmWM2K:    rapid.Float64Range(1, 1000).Draw(t, "top"),
	}
}

// core is the time of a sheet that is known to arrive.
func core(t *rapid.T, s Sheet, startC, mediumC, targetC float64) float64 {
	got, err := s.CoreTimeS(startC, mediumC, targetC)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

const rounding = 1 + 1e-9 // what two searches may differ by

func TestSheetAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSheet(t)
		mediumC := rapid.Float64Range(-30, 4).Draw(t, "medium")
		targetC := rapid.Float64Range(5, 50).Draw(t, "target")
		startC := rapid.Float64Range(51, 95).Draw(t, "start")
		base := core(t, s, startC, mediumC, targetC)
		if !(base > 0) || math.IsInf(base, 0) {
			t.Fatalf("time %g", base)
		}
		thicker := s
		thicker.ThicknessM *= rapid.Float64Range(1, 3).Draw(t, "thicker by")
		if core(t, thicker, startC, mediumC, targetC)*rounding < base {
			t.Error("thicker is faster")
		}
		windier := s
		windier.TopFilmWM2K *= rapid.Float64Range(1, 10).Draw(t, "windier by")
		if core(t, windier, startC, mediumC, targetC) > base*rounding {
			t.Error("more surface coefficient is slower")
		}
		if core(t, s, startC+3, mediumC, targetC)*rounding < base {
			t.Error("hotter start is sooner cold")
		}
		if core(t, s, startC, mediumC-5, targetC) > base*rounding {
			t.Error("colder medium is slower")
		}
		turned := s
		turned.BottomFilmWM2K, turned.TopFilmWM2K = s.TopFilmWM2K, s.BottomFilmWM2K
		if d := core(t, turned, startC, mediumC, targetC)/base - 1; math.Abs(d) > 1e-8 {
			t.Errorf("upside down differs by %g", d)
		}
		if at, err := s.CoreTempC(startC, mediumC, base); err != nil || math.Abs(at-targetC) > 1e-6 {
			t.Errorf("core at that time is %g, %v: want %g", at, err, targetC)
		}
		if mean, err := s.MeanTempC(startC, mediumC, base); err != nil || mean > targetC+1e-9 || mean < mediumC {
			t.Errorf("mean %g, %v: want between medium and core %g", mean, err, targetC)
		}
	})
}

// With equal faces a sheet is the slab of half its thickness.
func TestEqualSheetIsSlab(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSheet(t)
		s.TopFilmWM2K = s.BottomFilmWM2K
		b := Body{s.Solid, []Axis{{Slab, s.ThicknessM / 2, s.BottomFilmWM2K}}}
		want, err := b.CentreTimeS(60, 0, 20)
		if got := core(t, s, 60, 0, 20); err != nil || math.Abs(got/want-1) > 1e-8 {
			t.Errorf("sheet %g, slab %g, %v", got, want, err)
		}
	})
}

func TestBodyAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		solid := Solid{1030, 3850, 0.55}
		a, b, c := rapid.Float64Range(0.01, 0.4).Draw(t, "a"), rapid.Float64Range(0.01, 0.4).Draw(t, "b"), rapid.Float64Range(0.01, 0.4).Draw(t, "c")
		film := rapid.Float64Range(1, 2000).Draw(t, "film")
		targetC := rapid.Float64Range(1, 59).Draw(t, "target")
		at := func(body Body) float64 {
			got, err := body.CentreTimeS(60, 0, targetC)
			if err != nil {
				t.Fatal(err)
			}
			return got
		}
		brick := at(Brick(solid, a, b, c, film))
		slab := at(Body{solid, []Axis{{Slab, min(a, b, c) / 2, film}}})
		if brick > slab*rounding {
			t.Errorf("brick %g is slower than the slab of its smallest side %g", brick, slab)
		}
		cylinder, sphere := at(Body{solid, []Axis{{Cylinder, a / 2, film}}}), at(Body{solid, []Axis{{Sphere, a / 2, film}}})
		long := at(Body{solid, []Axis{{Slab, a / 2, film}}})
		if !(sphere < cylinder && cylinder < long) {
			t.Errorf("want sphere < cylinder < slab: %g %g %g", sphere, cylinder, long)
		}
		if can := at(Can(solid, a, b, film)); can > cylinder*rounding {
			t.Errorf("can %g is slower than the endless cylinder %g", can, cylinder)
		}
	})
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

func TestVesselAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := Vessel{rapid.Float64Range(1e3, 1e7).Draw(t, "capacity"), rapid.Float64Range(0, 1e3).Draw(t, "loss")}
		h := Heater{rapid.Float64Range(0, 1e5).Draw(t, "power"), rapid.Float64Range(0, 1).Draw(t, "efficiency")}
		targetC := rapid.Float64Range(20, 100).Draw(t, "target")
		base, err := v.HeatUpTimeS(h, 20, 20, targetC)
		if err != nil {
			var never *NeverError
			var out *RangeError
			if !errors.As(err, &never) && !errors.As(err, &out) {
				t.Fatalf("untyped error %v", err)
			}
			t.Skip("does not arrive")
		}
		stronger := h
		stronger.RatedW = min(1e6, h.RatedW*2)
		if got, err := v.HeatUpTimeS(stronger, 20, 20, targetC); err != nil || got > base*rounding {
			t.Errorf("twice the power takes %g, %v: want at most %g", got, err, base)
		}
		ideal := Vessel{HeatCapacityJK: v.HeatCapacityJK}
		if got, err := ideal.HeatUpTimeS(h, 20, 20, targetC); err != nil || got > base*rounding {
			t.Errorf("no loss takes %g, %v: want at most %g", got, err, base)
		}
	})
}

func TestEvaporationRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(38, 98).Draw(t, "cooler")
		b := rapid.Float64Range(a, 98.5).Draw(t, "hotter")
		ea, errA := StillAirEvaporation(a)
		eb, errB := StillAirEvaporation(b)
		if errA != nil || errB != nil || eb.KgM2H < ea.KgM2H {
			t.Errorf("%g °C %v %v, %g °C %v %v", a, ea, errA, b, eb, errB)
		}
	})
}
