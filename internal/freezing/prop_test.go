package freezing

import (
	"errors"
	"math"
	"testing"

	"kettlefrost/internal/heat"
	"pgregory.net/rapid"
)

func TestFreezeAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		base := Freeze{
			Food:     rapid.SampledFrom([]heat.FreezingFood{gel, soup, braise}).Draw(t, "food"),
			Shape:    rapid.SampledFrom([]heat.Shape{heat.Slab, heat.Cylinder, heat.Sphere}).Draw(t, "shape"),
			SizeM:    rapid.Float64Range(0.005, 0.3).Draw(t, "size"),
			FilmWM2K: rapid.Float64Range(3, 500).Draw(t, "film"),
			StartC:   rapid.Float64Range(2, 60).Draw(t, "start"),
			AirC:     rapid.Float64Range(-45, -16).Draw(t, "air"),
			CoreC:    rapid.Float64Range(-15, -5).Draw(t, "core"),
		}
		at := func(f Freeze) float64 {
			got, err := f.TimeS()
			if err != nil || !(got > 0) || math.IsInf(got, 0) {
				t.Fatalf("%+v: %g, %v", f, got, err)
			}
			return got
		}
		first := at(base)
		if at(with(base, func(f *Freeze) { f.SizeM *= 1.5 })) <= first {
			t.Error("thicker is faster")
		}
		if at(with(base, func(f *Freeze) { f.FilmWM2K *= 2 })) >= first {
			t.Error("more surface coefficient is slower")
		}
		if at(with(base, func(f *Freeze) { f.StartC += 5 })) <= first {
			t.Error("warmer start is sooner frozen")
		}
		if at(with(base, func(f *Freeze) { f.AirC -= 3 })) >= first {
			t.Error("colder air is slower")
		}
		if at(with(base, func(f *Freeze) { f.CoreC -= 0.5 })) <= first {
			t.Error("colder core is sooner reached")
		}
		// A coat round it never makes it faster.
		coated, err := heat.CoatedFilmWM2K(base.FilmWM2K, heat.Coat{ThicknessM: 1e-4, ConductivityWMK: 0.33})
		if err != nil || at(with(base, func(f *Freeze) { f.FilmWM2K = coated })) <= first {
			t.Errorf("a coat makes it faster, %v", err)
		}
	})
}

func FuzzFreeze(f *testing.F) {
	f.Add(1, 0.05, 25.0, 10.0, -30.0, -10.0, 0.0, 1000.0, 215e3, -0.6)
	f.Add(3, 3.0, 1e7, 100.0, -60.0, -30.0, 3.0, 3000.0, 0.0, -15.0)
	f.Fuzz(func(t *testing.T, shape int, sizeM, film, startC, airC, coreC, e, density, freezable, freezesC float64) {
		food := soup
		food.DensityKgM3, food.FreezableJKg, food.FreezingPointC = density, freezable, freezesC
		fr := Freeze{food, heat.Shape(shape), sizeM, film, startC, airC, coreC, e}
		x, err := fr.TimeS()
		sane(t, "Pham", x, err)
		if p, err := fr.Plank(); err == nil {
			x, err = p.TimeS()
			sane(t, "Plank", x, err)
		}
		x, err = Plank{heat.Shape(shape), sizeM, density, freezable, film, freezesC, airC}.TimeS()
		sane(t, "Plank", x, err)
		x, err = Dimensionality(film, startC, sizeM)
		sane(t, "E", x, err)
		x, err = DailyIntakeKg(film, density)
		sane(t, "intake", x, err)
		in, err := HouseholdIntakeKg(sizeM)
		sane(t, "household", in.HighKg, err)
	})
}

// sane fails unless there is a typed error or a finite number that is not negative.
func sane(t *testing.T, what string, got float64, err error) {
	t.Helper()
	var out *heat.RangeError
	var never *heat.NeverError
	switch {
	case err != nil && !errors.As(err, &out) && !errors.As(err, &never):
		t.Errorf("%s: untyped error %v", what, err)
	case err == nil && !(got >= 0 && got <= math.MaxFloat64):
		t.Errorf("%s = %g", what, got)
	}
}

func BenchmarkPham(b *testing.B) {
	f := bag(soup, 8, -18, -15)
	for b.Loop() {
		if _, err := f.TimeS(); err != nil {
			b.Fatal(err)
		}
	}
}
