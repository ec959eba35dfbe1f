package series

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/heat"
)

func drawSheet(t *rapid.T) Sheet {
	return Sheet{
		Solid: heat.Solid{DensityKgM3: rapid.Float64Range(800, 1200).Draw(t, "density"), SpecificHeatJKgK: 3800,
			ConductivityWMK: rapid.Float64Range(0.3, 0.7).Draw(t, "k")},
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
		b := Body{s.Solid, []Axis{{heat.Slab, s.ThicknessM / 2, s.BottomFilmWM2K}}}
		want, err := b.CentreTimeS(60, 0, 20)
		if got := core(t, s, 60, 0, 20); err != nil || math.Abs(got/want-1) > 1e-8 {
			t.Errorf("sheet %g, slab %g, %v", got, want, err)
		}
	})
}

func TestBodyAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		solid := heat.Solid{DensityKgM3: 1030, SpecificHeatJKgK: 3850, ConductivityWMK: 0.55}
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
		slab := at(Body{solid, []Axis{{heat.Slab, min(a, b, c) / 2, film}}})
		if brick > slab*rounding {
			t.Errorf("brick %g is slower than the slab of its smallest side %g", brick, slab)
		}
		cylinder, sphere := at(Body{solid, []Axis{{heat.Cylinder, a / 2, film}}}), at(Body{solid, []Axis{{heat.Sphere, a / 2, film}}})
		long := at(Body{solid, []Axis{{heat.Slab, a / 2, film}}})
		if !(sphere < cylinder && cylinder < long) {
			t.Errorf("want sphere < cylinder < slab: %g %g %g", sphere, cylinder, long)
		}
		if can := at(Can(solid, a, b, film)); can > cylinder*rounding {
			t.Errorf("can %g is slower than the endless cylinder %g", can, cylinder)
		}
	})
}
