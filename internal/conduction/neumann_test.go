package conduction

import (
	"fmt"
	"math"
	"testing"

	"kettlefrost/internal/heat"
)

// The half spaces of section 5.1 of the thermal reference: Stefan's and Neumann's exact solutions (Carslaw & Jaeger), one density.
type halfSpace struct {
	name          string
	m             Pure
	startC, wallC float64
	lambda        float64 // of the phase that grows
	frontMm       map[float64]float64
}

func ice(rho, cs, cl float64) Pure {
	return Pure{Solid: heat.Solid{DensityKgM3: rho, SpecificHeatJKgK: cs, ConductivityWMK: 2.2},
		Liquid: heat.Solid{DensityKgM3: rho, SpecificHeatJKgK: cl, ConductivityWMK: 0.56}, FusionJKg: 333.6e3}
}

var halfSpaces = []halfSpace{
	{"Stefan -5", ice(917, 2050, 4200), 0, -5, 0.123319, map[float64]float64{600: 6.5356, 3600: 16.0089, 36000: 50.6245}},
	{"Stefan -10", ice(917, 2050, 4200), 0, -10, 0.173532, map[float64]float64{600: 9.19679, 3600: 22.5274, 36000: 71.238}},
	{"Stefan -20", ice(917, 2050, 4200), 0, -20, 0.243041, map[float64]float64{600: 12.8806, 3600: 31.5508, 36000: 99.7724}},
	{"Stefan -30", ice(917, 2050, 4200), 0, -30, 0.294882, map[float64]float64{600: 15.628, 3600: 38.2807, 36000: 121.054}},
	{"Neumann 10 to -20", ice(1000, 2050, 4200), 10, -20, 0.222292, map[float64]float64{600: 11.2814, 3600: 27.6338, 36000: 87.3856}},
	{"Neumann 20 to -30", ice(1000, 2050, 4200), 20, -30, 0.252843, map[float64]float64{600: 12.8319, 3600: 31.4316, 36000: 99.3954}},
	{"Neumann 5 to -18", ice(1000, 2050, 4200), 5, -18, 0.220411, map[float64]float64{600: 11.186, 3600: 27.3999, 36000: 86.6461}},
	{"melting -18 to 20", ice(1000, 2050, 4200), -18, 20, 0.262349, map[float64]float64{600: 4.69304, 3600: 11.4955}},
	{"melting -18 to 95", ice(1000, 2050, 4200), -18, 95, 0.586412, map[float64]float64{600: 10.4901, 3600: 25.6953}},
}

// grown and other are the phases at the wall and beyond the front.
func (h halfSpace) phases() (grown, other heat.Solid) {
	if h.wallC < h.m.MeltsC {
		return h.m.Solid, h.m.Liquid
	}
	return h.m.Liquid, h.m.Solid
}

func diffusivity(s heat.Solid) float64 {
	return s.ConductivityWMK / (s.DensityKgM3 * s.SpecificHeatJKgK)
}

// root is Neumann's equation solved by bisection, with nothing of the code under test.
func (h halfSpace) root() float64 {
	g, o := h.phases()
	ratio := math.Sqrt(diffusivity(g) / diffusivity(o))
	drive, rest := math.Abs(h.wallC-h.m.MeltsC), math.Abs(h.startC-h.m.MeltsC)
	f := func(l float64) float64 {
		left := math.Exp(-l*l)/math.Erf(l) - o.ConductivityWMK/g.ConductivityWMK*ratio*rest/drive*math.Exp(-l*l*ratio*ratio)/math.Erfc(l*ratio)
		return left - l*h.m.FusionJKg*math.SqrtPi/(g.SpecificHeatJKgK*drive)
	}
	low, high := 1e-6, 3.0
	for range 200 {
		if mid := (low + high) / 2; f(mid) > 0 {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

func (h halfSpace) frontM(timeS float64) float64 {
	g, _ := h.phases()
	return 2 * h.root() * math.Sqrt(diffusivity(g)*timeS)
}

func (h halfSpace) tempC(x, timeS float64) float64 {
	g, o := h.phases()
	l := h.root()
	if x < h.frontM(timeS) {
		return h.wallC + (h.m.MeltsC-h.wallC)*math.Erf(x/(2*math.Sqrt(diffusivity(g)*timeS)))/math.Erf(l)
	}
	return h.startC + (h.m.MeltsC-h.startC)*math.Erfc(x/(2*math.Sqrt(diffusivity(o)*timeS)))/math.Erfc(l*math.Sqrt(diffusivity(g)/diffusivity(o)))
}

// marched is the half space, cut off where nothing has arrived yet, after a time. The front comes from the enthalpy: how much of every
// cell has changed phase.
func (h halfSpace) marched(t testing.TB, timeS float64, cellsInFront int, tolerance float64) (f *field, frontM float64) {
	_, o := h.phases()
	depthM := h.frontM(timeS) + 7*math.Sqrt(diffusivity(o)*timeS)
	if h.startC == h.m.MeltsC { // beyond the front nothing happens
		depthM = 1.5 * h.frontM(timeS)
	}
	cells := int(float64(cellsInFront) * depthM / h.frontM(timeS))
	b := panOf(h.m, h.startC, depthM, in(1e7, h.wallC), Face{})
	f = newField(&b, cells, true, h.wallC < h.startC)
	m := newMarch(settings{cells, tolerance, 1e-8}, []*field{f}, timeS)
	m.limit(h.m.FusionJKg, timeS, true)
	for m.timeS < timeS {
		if err := m.next(timeS, func(stage) float64 { return 1 }); err != nil {
			t.Fatal(err)
		}
	}
	changed := 0.0
	for _, e := range f.h[now] {
		liquid := min(max(1+e/h.m.FusionJKg, 0), 1)
		if h.wallC < h.m.MeltsC {
			changed += 1 - liquid
		} else {
			changed += liquid
		}
	}
	return f, changed * f.along[0].widthM
}

func TestNeumann(t *testing.T) {
	for _, h := range halfSpaces {
		near(t, h.name+": lambda", h.root(), h.lambda, 5e-6)
		for timeS, wantMm := range h.frontMm {
			near(t, h.name+": table of fronts", 1000*h.frontM(timeS), wantMm, 2e-5)
			_, got := h.marched(t, timeS, 60, 2e-4)
			near(t, fmt.Sprintf("%s: front after %g s", h.name, timeS), 1000*got, wantMm, 1e-3)
		}
	}
}

// Temperatures on either side of the front. Between the centres of cells they are read off a straight line.
func TestNeumannTemperatures(t *testing.T) {
	h := halfSpaces[4]
	f, _ := h.marched(t, 3600, 120, 1e-4)
	for xMm, want := range map[float64]float64{10: -12.6589, 20: -5.41211, 40: 4.71874, 60: 8.5822} { // section 5.1
		within(t, "exact", h.tempC(xMm/1000, 3600), want, 1e-3)
		at := xMm/1000/f.along[0].widthM - 0.5
		i := int(at)
		got := f.tempC[i] + (f.tempC[i+1]-f.tempC[i])*(at-float64(i))
		within(t, fmt.Sprintf("at %g mm", xMm), got, want, 0.02)
	}
}

// The front does not lag by a part of a cell: its error falls faster than the cells, on average over several moments (a front steps
// through the cells, so a single one is a matter of luck).
func TestFrontConverges(t *testing.T) {
	h := halfSpaces[4]
	errorOf := func(cells int) float64 {
		sum := 0.0
		moments := []float64{2000, 2400, 2800, 3200, 3600}
		for _, timeS := range moments {
			_, got := h.marched(t, timeS, cells, 1e-4)
			sum += math.Abs(got/h.frontM(timeS) - 1)
		}
		return sum / float64(len(moments))
	}
	coarse, fine := errorOf(8), errorOf(32)
	t.Logf("front off by %.3f %% with 8 cells in it, %.3f %% with 32", 100*coarse, 100*fine)
	if order := math.Log(coarse/fine) / math.Log(4); order < 1.3 {
		t.Errorf("order %.2f: errors %g and %g", order, coarse, fine)
	}
}

// Plank's formula is exact for isothermal freezing when the solid has no heat capacity: ratios from section 5.1 of the thermal
// reference, where the solver took 20 and 2000 J/(kg·K). (Simulate wants at least 100; this goes round that check.)
func TestPlankLimit(t *testing.T) {
	const plankS = 1000 * 250e3 / 30.0 * (0.5*0.05/25 + 0.125*0.05*0.05/1.6)
	near(t, "Plank's formula", plankS, 9960.94, 1e-6)
	for _, c := range []struct{ solidHeat, want float64 }{{20, 1.00051}, {2000, 1.03103}} {
		m := Pure{Solid: heat.Solid{DensityKgM3: 1000, SpecificHeatJKgK: c.solidHeat, ConductivityWMK: 1.6},
			Liquid: heat.Solid{DensityKgM3: 1000, SpecificHeatJKgK: 4000, ConductivityWMK: 0.5}, FusionJKg: 250e3}
		r := run(t, slabOf(m, 0, 0.05, in(25, -30)), settings{100, 2e-4, 1e-7}, -1e-3)
		within(t, fmt.Sprintf("last liquid gone over Plank, solid of %g J/(kg·K)", c.solidHeat), r.TimeS/plankS, c.want, 0.002)
	}
}
