package conduction

import (
	"math"
	"testing"

	"kettlefrost/internal/heat"
)

// The foods of the reference computation ("seven-constant food" of its section 1.3; soup and braise are derived from assumed recipes, gel
// is round numbers from memory). Cold and hot differ in the conductivity of the unfrozen food.
var (
	soupCold   = mustFood(1030, 3850, 2040, 282e3, -0.8, 0.54, 1.89)
	soupHot    = mustFood(1030, 3850, 2040, 282e3, -0.8, 0.59, 1.89)
	braiseCold = mustFood(1050, 3560, 2200, 219e3, -1.2, 0.49, 1.36)
	braiseHot  = mustFood(1050, 3560, 2200, 219e3, -1.2, 0.53, 1.36)
	gel        = mustFood(1000, 3710, 1900, 215e3, -0.6, 0.50, 1.65)
	checkFood  = mustFood(1050, 3600, 2000, 250e3, -1, 0.5, 1.6)
)

func mustFood(rho, cu, cf, a, tf, ku, kf float64) Material {
	m, err := Food(heat.FreezingFood{DensityKgM3: rho, UnfrozenHeatJKgK: cu, FrozenHeatJKgK: cf, FreezableJKg: a, FreezingPointC: tf,
		UnfrozenConductivityWMK: ku, FrozenConductivityWMK: kf})
	if err != nil {
		panic(err)
	}
	return m
}

func mustSolid(rho, c, k float64) Material {
	m, err := Solid(heat.Solid{DensityKgM3: rho, SpecificHeatJKgK: c, ConductivityWMK: k})
	if err != nil {
		panic(err)
	}
	return m
}

func in(filmWM2K, mediumC float64) Face { return Face{FilmWM2K: filmWM2K, Medium: Steady(mediumC)} }

func slabOf(m Material, startC, sizeM float64, f Face) Body {
	return Body{m, []Axis{Both(sizeM, f)}, startC}
}

func roundOf(m Material, s heat.Shape, startC, diameterM float64, f Face) Body {
	return Body{m, []Axis{{Shape: s, SizeM: diameterM, High: f}}, startC}
}

func brickOf(m Material, startC float64, f Face, sizesM ...float64) Body {
	b := Body{Material: m, StartC: startC}
	for _, s := range sizesM {
		b.Axes = append(b.Axes, Both(s, f))
	}
	return b
}

// panOf stands on its Low face.
func panOf(m Material, startC, depthM float64, bottom, top Face) Body {
	return Body{m, []Axis{{Shape: heat.Slab, SizeM: depthM, Low: bottom, High: top}}, startC}
}

func stackOf(m Material, startC, sizeM float64, f Face, layers int, gapM2KW float64) Body {
	a := Both(sizeM, f)
	a.Layers, a.GapM2KW = layers, gapM2KW
	return Body{m, []Axis{a}, startC}
}

func coreTime(b Body, coreC float64, acc Accuracy) func() (float64, error) {
	return func() (float64, error) {
		r, err := b.Simulate(Ask{CoreC: coreC, Accuracy: acc})
		return r.TimeS, err
	}
}

func near(t reporter, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol*math.Abs(want)) {
		t.Errorf("%s: got %.7g, want %.7g: off by %+.3g %%, allowed %.3g %%", what, got, want, 100*(got/want-1), 100*tol)
	}
}

func within(t reporter, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.7g, want %.7g within %g", what, got, want, tol)
	}
}

// run marches a body with settings of its own, for what Simulate does not let one ask.
func run(t testing.TB, b Body, s settings, coreC float64) Result {
	t.Helper()
	a := Ask{CoreC: coreC}
	if err := a.check(); err != nil {
		t.Fatal(err)
	}
	around, err := b.look(a.WithinS)
	if err != nil {
		t.Fatal(err)
	}
	r, err := b.follow(a, around, s, true)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// reporter is a test or a drawn one.
type reporter interface {
	Helper()
	Errorf(format string, args ...any)
}
