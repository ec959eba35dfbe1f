package conduction

import (
	"math"
	"testing"

	"kettlefrost/internal/heat"
	"pgregory.net/rapid"
)

func draw(t *rapid.T, name string, low, high float64) float64 {
	return rapid.Float64Range(low, high).Draw(t, name)
}

// drawWide is evenly spread in the logarithm.
func drawWide(t *rapid.T, name string, low, high float64) float64 {
	return math.Exp(draw(t, name, math.Log(low), math.Log(high)))
}

func drawFood(t *rapid.T) Material {
	m, err := Food(heat.FreezingFood{DensityKgM3: draw(t, "density", 500, 1200), UnfrozenHeatJKgK: draw(t, "cu", 2000, 4200), FrozenHeatJKgK: draw(t, "cf", 1500, 2500),
		FreezableJKg: draw(t, "freezable", 0, 320e3), FreezingPointC: -drawWide(t, "freezing point", 0.1, 10),
		UnfrozenConductivityWMK: draw(t, "ku", 0.2, 0.7), FrozenConductivityWMK: draw(t, "kf", 0.3, 2.2)})
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// drawJob is a body with a start, a target and a medium that lie in this order, up or down.
func drawJob(t *rapid.T) (b Body, mediumC, coreC float64) {
	mediumC, b.StartC = draw(t, "medium", -40, 100), draw(t, "start", -40, 100)
	if math.Abs(mediumC-b.StartC) < 1 {
		t.Skip("nothing to do")
	}
	coreC = b.StartC + (mediumC-b.StartC)*draw(t, "part of the way", 0.01, 0.97)
	b.Material = drawFood(t)
	film := func(name string) Face { return in(drawWide(t, name, 1, 2000), mediumC) }
	size := func(name string) float64 { return drawWide(t, name, 0.003, 0.3) }
	switch rapid.IntRange(0, 5).Draw(t, "kind") {
	case 0:
		b.Axes = []Axis{Both(size("thickness"), film("film"))}
	case 1:
		b.Axes = []Axis{{Shape: heat.Slab, SizeM: size("thickness"), Low: film("low"), High: film("high")}}
	case 2:
		b.Axes = []Axis{{Shape: rapid.SampledFrom([]heat.Shape{heat.Cylinder, heat.Sphere}).Draw(t, "shape"), SizeM: size("diameter"), High: film("film")}}
	case 3:
		b.Axes = []Axis{{Shape: heat.Slab, SizeM: size("height"), Low: film("low"), High: film("high")}, {Shape: heat.Cylinder, SizeM: size("diameter"), High: film("film")}}
	case 4:
		b.Axes = []Axis{{Shape: heat.Slab, SizeM: size("stack"), Low: film("low"), High: film("high"), Layers: rapid.IntRange(1, 8).Draw(t, "layers"), GapM2KW: draw(t, "gap", 0, 0.05)}}
	case 5:
		b.Axes = []Axis{{Shape: heat.Slab, SizeM: size("thickness"), Low: film("low"), High: in(0, mediumC)}}
	}
	return b, mediumC, coreC
}

func simulate(t *rapid.T, b Body, a Ask) Result {
	t.Helper()
	r, err := b.Simulate(a)
	if err != nil {
		t.Fatalf("%v: %+v", err, b)
	}
	return r
}

// What must hold for any body: it arrives, heat is conserved, nothing is hotter or colder than where it came from and where it goes,
// time goes on, and the core goes one way.
func TestAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b, mediumC, coreC := drawJob(t)
		r := simulate(t, b, Ask{CoreC: coreC, WithinS: latestS})
		if !r.Reached || !(r.TimeS > 0) || math.IsInf(r.TimeS, 0) {
			t.Fatalf("reached %v after %g s", r.Reached, r.TimeS)
		}
		if !(r.Closure < 1e-9) {
			t.Errorf("balance closes to %g", r.Closure)
		}
		if len(r.Points) > 600 {
			t.Errorf("%d points", len(r.Points))
		}
		span := math.Abs(mediumC - b.StartC)
		low, high := min(mediumC, b.StartC)-1e-3*span, max(mediumC, b.StartC)+1e-3*span
		sign := 1.0
		if coreC > b.StartC {
			sign = -1
		}
		for i, p := range r.Points {
			for _, c := range []float64{p.CoreC, p.SurfaceC, p.MeanC} {
				if !(c >= low && c <= high) {
					t.Errorf("%g °C between %g and %g: %+v", c, mediumC, b.StartC, p)
				}
			}
			if sign*(p.MeanC-p.CoreC) > 1e-3*span || sign*(p.SurfaceC-p.CoreC) > 1e-3*span {
				t.Errorf("the core changes last: %+v", p)
			}
			if i > 0 && (p.TimeS <= r.Points[i-1].TimeS || sign*(p.CoreC-r.Points[i-1].CoreC) > 0) {
				t.Errorf("%+v after %+v", p, r.Points[i-1])
			}
		}
		within(t, "core at the end", r.Points[len(r.Points)-1].CoreC, coreC, 1e-3*span)
		for _, p := range r.Profiles {
			for i, at := range p.Places {
				if i > 0 && at.DepthM <= p.Places[i-1].DepthM || !(at.TempC >= low && at.TempC <= high) {
					t.Errorf("profile %+v", p)
					break
				}
			}
		}
	})
}

// Both times of a comparison are within the accuracy, which is 1 % each.
const bothOff = 1.02

func TestThickerWindierColder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b, mediumC, coreC := drawJob(t)
		base := simulate(t, b, Ask{CoreC: coreC, WithinS: latestS}).TimeS
		change := func(what string, slower bool, with func(*Axis)) {
			other := b
			other.Axes = append([]Axis(nil), b.Axes...)
			for i := range other.Axes {
				with(&other.Axes[i])
			}
			got := simulate(t, other, Ask{CoreC: coreC, WithinS: latestS}).TimeS
			if slower && got*bothOff < base || !slower && got > base*bothOff {
				t.Errorf("%s: %g s, before %g s", what, got, base)
			}
		}
		by := draw(t, "by", 1, 4)
		change("thicker", true, func(a *Axis) { a.SizeM *= by })
		change("higher films", false, func(a *Axis) { a.Low.FilmWM2K *= by; a.High.FilmWM2K *= by })
		change("a worse gap", true, func(a *Axis) {
			if a.Layers > 1 {
				a.GapM2KW *= by
			}
		})
		further := mediumC + draw(t, "medium further by", 0, 15)*math.Copysign(1, mediumC-b.StartC)
		change("a medium further off", false, func(a *Axis) { a.Low.Medium, a.High.Medium = Steady(further), Steady(further) })
	})
}

// Cutting an even slab in half changes nothing; neither does turning a slab over.
func TestHalvesAndTurns(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, film, other := drawFood(t), drawWide(t, "film", 1, 500), drawWide(t, "other film", 1, 500)
		size := drawWide(t, "thickness", 0.005, 0.1)
		courseA := func(timeS float64) float64 { return -18 }
		courseB := func(timeS float64) float64 { return -18 - 1e-9*min(1, timeS) } // not quite the same, so not halved
		half := simulate(t, slabOf(m, 5, size, Face{FilmWM2K: film, Medium: courseA}), Ask{CoreC: -12})
		whole := simulate(t, panOf(m, 5, size, Face{FilmWM2K: film, Medium: courseA}, Face{FilmWM2K: film, Medium: courseB}), Ask{CoreC: -12})
		if whole.Cells != 2*half.Cells {
			t.Fatalf("%d cells of half, %d of all", half.Cells, whole.Cells)
		}
		if math.Abs(whole.TimeS/half.TimeS-1) > 0.005 || math.Abs(whole.GivenOffJ/half.GivenOffJ-1) > 0.005 {
			t.Errorf("half %g s, %g J; whole %g s, %g J", half.TimeS, half.GivenOffJ, whole.TimeS, whole.GivenOffJ)
		}
		up := simulate(t, panOf(m, 5, size, in(film, -18), in(other, -18)), Ask{CoreC: -12})
		down := simulate(t, panOf(m, 5, size, in(other, -18), in(film, -18)), Ask{CoreC: -12})
		if math.Abs(up.TimeS/down.TimeS-1) > 0.001 {
			t.Errorf("turned over %g s and %g s", up.TimeS, down.TimeS)
		}
	})
}

func TestPoolAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := Pool{StartC: draw(t, "start", -30, 95), HeatCapacityJK: drawWide(t, "capacity", 1e3, 1e6), PowerW: rapid.SampledFrom([]float64{0, 150, 3000}).Draw(t, "power"),
			SetC: draw(t, "set", -30, 95), Cools: rapid.Bool().Draw(t, "cools"), LossWK: draw(t, "loss", 0, 5), AmbientC: 21}
		if p.StartC >= 0 {
			p.IceKg = rapid.SampledFrom([]float64{0, 5}).Draw(t, "ice")
		}
		var batches []Batch
		for range rapid.IntRange(0, 3).Draw(t, "batches") {
			batches = append(batches, Batch{Body: slabOf(drawFood(t), draw(t, "food", -20, 90), drawWide(t, "thickness", 0.005, 0.1), Face{FilmWM2K: drawWide(t, "film", 2, 1000)}),
				Count: drawWide(t, "count", 0.1, 10), InS: rapid.SampledFrom([]float64{0, 3600}).Draw(t, "in")})
		}
		r, err := p.Simulate(batches, Ask{CoreC: draw(t, "core", -18, 80), WithinS: 12 * 3600})
		if err != nil {
			t.Fatalf("%v: %+v", err, p)
		}
		if !(r.Closure < 1e-9) {
			t.Errorf("balance closes to %g", r.Closure)
		}
		for i, at := range r.Points {
			if i > 0 && at.TimeS <= r.Points[i-1].TimeS || !(at.TempC > -60 && at.TempC < 150) || at.PowerW < 0 || at.PowerW > p.PowerW || at.IceKg < 0 || at.IceKg > p.IceKg {
				t.Errorf("point %+v of %+v", at, p)
			}
		}
		for i, b := range r.Batches {
			if b.Closure > 1e-9 || b.Reached && b.Points[len(b.Points)-1].TimeS != b.TimeS {
				t.Errorf("batch %d: %g", i, b.Closure)
			}
		}
	})
}
