package conduction

import (
	"fmt"
	"testing"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/series"
)

// Without phase change the exact series of package heat (itself held to published roots and textbook answers) say when a core is there
// and how much heat is left, for every shape and from Biot 0.1 to 100.
func TestAgainstSeries(t *testing.T) {
	s := heat.Solid{DensityKgM3: 1030, SpecificHeatJKgK: 3850, ConductivityWMK: 0.59}
	m := mustSolid(s.DensityKgM3, s.SpecificHeatJKgK, s.ConductivityWMK)
	for _, film := range []float64{1, 10, 100, 1000} {
		for _, targetC := range []float64{40, 21.1, 5} {
			for _, shape := range []heat.Shape{heat.Slab, heat.Cylinder, heat.Sphere} {
				exact := series.Body{Solid: s, Axes: []series.Axis{{Shape: shape, HalfM: 0.03, FilmWM2K: film}}}
				b := slabOf(m, 57.2, 0.06, in(film, 3))
				if shape != heat.Slab {
					b = roundOf(m, shape, 57.2, 0.06, in(film, 3))
				}
				compare(t, fmt.Sprintf("%v, h %g, to %g", shape, film, targetC), exact, b, targetC)
			}
			compare(t, fmt.Sprintf("can, h %g, to %g", film, targetC), series.Can(s, 0.1, 0.12, film),
				Body{m, []Axis{{Shape: heat.Cylinder, SizeM: 0.1, High: in(film, 3)}, Both(0.12, in(film, 3))}, 57.2}, targetC)
			compare(t, fmt.Sprintf("bar, h %g, to %g", film, targetC), series.Body{Solid: s, Axes: []series.Axis{{Shape: heat.Slab, HalfM: 0.03, FilmWM2K: film}, {Shape: heat.Slab, HalfM: 0.05, FilmWM2K: 2 * film}}},
				Body{m, []Axis{Both(0.06, in(film, 3)), Both(0.1, in(2*film, 3))}, 57.2}, targetC)
		}
		compare(t, fmt.Sprintf("brick, h %g", film), series.Brick(s, 0.06, 0.1, 0.16, film), brickOf(m, 57.2, in(film, 3), 0.06, 0.1, 0.16), 21.1)
	}
}

func compare(t *testing.T, what string, exact series.Body, b Body, targetC float64) {
	t.Helper()
	want, err := exact.CentreTimeS(57.2, 3, targetC)
	if err != nil {
		t.Fatal(err)
	}
	r, err := b.Simulate(Ask{CoreC: targetC})
	if err != nil {
		t.Fatal(err)
	}
	near(t, what, r.TimeS, want, 0.01)
	mean, err := exact.TempC(series.Mean, 57.2, 3, r.TimeS)
	if err != nil {
		t.Fatal(err)
	}
	last := r.Points[len(r.Points)-1]
	within(t, what+", mean temperature", last.MeanC, mean, 0.005*(57.2-3))
	if len(exact.Axes) == 1 {
		surface, err := exact.TempC(series.Surface, 57.2, 3, r.TimeS)
		if err != nil {
			t.Fatal(err)
		}
		within(t, what+", surface", last.SurfaceC, surface, 0.005*(57.2-3))
	}
}

// The hottest point of a slab with different faces, wherever it lies, against the exact series of series.Sheet; Low and High may be
// exchanged.
func TestUnequalFacesAgainstSeries(t *testing.T) {
	s := heat.Solid{DensityKgM3: 1030, SpecificHeatJKgK: 3850, ConductivityWMK: 0.59}
	m := mustSolid(s.DensityKgM3, s.SpecificHeatJKgK, s.ConductivityWMK)
	for _, faces := range [][2]float64{{8, 10}, {8, 60}, {0, 20}, {200, 5}, {1000, 300}} {
		sheet := series.Sheet{Solid: s, ThicknessM: 0.05, BottomFilmWM2K: faces[0], TopFilmWM2K: faces[1]}
		for _, targetC := range []float64{50, 21.1, 5} {
			want, err := sheet.CoreTimeS(57.2, 3, targetC)
			if err != nil {
				t.Fatal(err)
			}
			for _, b := range []Body{panOf(m, 57.2, 0.05, in(faces[0], 3), in(faces[1], 3)), panOf(m, 57.2, 0.05, in(faces[1], 3), in(faces[0], 3))} {
				r, err := b.Simulate(Ask{CoreC: targetC})
				if err != nil {
					t.Fatal(err)
				}
				near(t, fmt.Sprintf("films %g and %g, to %g", b.Axes[0].Low.FilmWM2K, b.Axes[0].High.FilmWM2K, targetC), r.TimeS, want, 0.01)
			}
		}
	}
}

// Two faces in different media: in the end the flux through film, slab and film is the same everywhere.
func TestSteadyFlowThroughASlab(t *testing.T) {
	m := mustSolid(1000, 4000, 0.5)
	b := panOf(m, 10, 0.05, in(20, 60), in(10, 0))
	r, err := b.Simulate(Ask{CoreC: 59, WithinS: 20 * 86400}) // warming: the coldest point never gets there
	if err != nil {
		t.Fatal(err)
	}
	fluxWM2 := 60 / (1/20.0 + 0.05/0.5 + 1/10.0)
	last := r.Points[len(r.Points)-1]
	within(t, "surface", last.SurfaceC, fluxWM2/10, 1e-3)
	if r.Reached {
		t.Error("reached 59 °C between 60 and 0 °C")
	}
	end := r.Profiles[len(r.Profiles)-1]
	within(t, "other surface", end.Places[0].TempC, 60-fluxWM2/20, 1e-3)
	half := len(end.Places) / 2
	within(t, "in between", end.Places[half].TempC, 60-fluxWM2/20-fluxWM2/0.5*end.Places[half].DepthM, 1e-3)
}

// The same through three layers with two gaps: resistances add up.
func TestSteadyFlowThroughLayers(t *testing.T) {
	m := mustSolid(1000, 4000, 0.5)
	b := Body{m, []Axis{{Shape: heat.Slab, SizeM: 0.06, Low: in(20, 60), High: in(10, 0), Layers: 3, GapM2KW: 0.03}}, 10}
	r, err := b.Simulate(Ask{CoreC: 59, WithinS: 30 * 86400})
	if err != nil {
		t.Fatal(err)
	}
	fluxWM2 := 60 / (1/20.0 + 0.06/0.5 + 2*0.03 + 1/10.0)
	within(t, "surface", r.Points[len(r.Points)-1].SurfaceC, fluxWM2/10, 1e-3)
}

// An even stack is computed as a half whatever the number of its layers; faces that differ by nothing that matters are computed whole.
func TestStacksInHalf(t *testing.T) {
	for layers := 2; layers <= 7; layers++ {
		half := stackOf(soupCold, 5, 0.02*float64(layers), in(10, -18), layers, 0.02)
		whole := half
		whole.Axes = []Axis{half.Axes[0]}
		whole.Axes[0].High.FilmWM2K *= 1 + 1e-9
		a, err := half.Simulate(Ask{CoreC: -10, Accuracy: Fine})
		if err != nil {
			t.Fatal(err)
		}
		b, err := whole.Simulate(Ask{CoreC: -10, Accuracy: Fine})
		if err != nil {
			t.Fatal(err)
		}
		if b.Cells != 2*a.Cells {
			t.Errorf("%d layers: %d and %d cells", layers, a.Cells, b.Cells)
		}
		near(t, fmt.Sprintf("%d layers", layers), a.TimeS, b.TimeS, 1e-3)
	}
}
