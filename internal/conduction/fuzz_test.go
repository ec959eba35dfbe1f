package conduction

import (
	"errors"
	"math"
	"testing"

	"kettlefrost/internal/heat"
)

// Whatever comes in, it ends, and with a finite result or an error that says what is wrong.
func FuzzSimulate(f *testing.F) {
	f.Add(0.0254, 8.0, 8.0, -18.0, 5.0, -10.0, 0.0, 0.0, uint8(1), uint8(0))
	f.Add(0.05, 8.0, 10.0, 3.0, 57.2, 5.0, 1.0, 0.0, uint8(1), uint8(1))
	f.Add(0.1, 435.0, 435.0, 95.0, -18.0, 73.9, 0.0, 0.02, uint8(1), uint8(4))
	f.Add(0.3, 1e7, 0.1, -60.0, 150.0, -59.9, 1.0, 10.0, uint8(1), uint8(60))
	f.Add(6.0, 1e7, 1e7, 150.0, -60.0, 149.9, 1.0, 0.0, uint8(3), uint8(0))
	f.Add(1e-4, 1e7, 0.0, -60.0, 20.0, -0.8, 0.0, 0.0, uint8(2), uint8(0))
	f.Fuzz(func(t *testing.T, sizeM, low, high, mediumC, startC, coreC, wet, gap float64, kind, layers uint8) {
		drift := Course(func(s float64) float64 { return mediumC + math.Mod(s, 7200)/3600*float64(kind>>4) })
		a := Axis{Shape: heat.Shape(kind % 4), SizeM: sizeM, Low: Face{low, Steady(mediumC), wet}, High: Face{high, drift, wet}, Layers: int(layers), GapM2KW: gap}
		b := Body{soupCold, []Axis{a}, startC}
		if kind&8 != 0 {
			b.Axes = append(b.Axes, Both(sizeM*1.5, Face{high, drift, 0}))
		}
		r, err := b.Simulate(Ask{CoreC: coreC, MarksC: []float64{0, -1, coreC}, WithinS: 86400})
		var out *heat.RangeError
		var never *heat.NeverError
		var axes *heat.AxesError
		if err != nil {
			if !errors.As(err, &out) && !errors.As(err, &never) && !errors.As(err, &axes) {
				t.Errorf("%v", err)
			}
			return
		}
		if !(r.TimeS >= 0 && r.TimeS <= 86400) || math.IsNaN(r.GivenOffJ) || math.IsInf(r.GivenOffJ, 0) || !(r.Closure < 1e-6) {
			t.Errorf("%g s, %g J, balance %g", r.TimeS, r.GivenOffJ, r.Closure)
		}
		for _, p := range r.Points {
			for _, v := range []float64{p.TimeS, p.CoreC, p.SurfaceC, p.MeanC, p.MediumC} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Fatalf("%+v", p)
				}
			}
		}
	})
}
