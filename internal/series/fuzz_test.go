package series

import (
	"errors"
	"testing"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/heat/heattest"
)

// sane fails unless there is a typed error or only finite numbers.
func sane(t *testing.T, what string, err error, got ...float64) {
	t.Helper()
	var out *heat.RangeError
	var never *heat.NeverError
	var axes *heat.AxesError
	heattest.Sane(t, what, err, errors.As(err, &out) || errors.As(err, &never) || errors.As(err, &axes), got...)
}

func FuzzConduction(f *testing.F) {
	f.Add(1030.0, 3850.0, 0.59, 0.05, 8.0, 10.0, 57.2, 3.0, 21.1, 7200.0)
	f.Add(1030.0, 3850.0, 0.59, 0.05, 0.0, 10.0, 57.2, 3.0, 57.2, 0.0)
	f.Add(7849.0, 460.6, 45.0, 0.05, 1e7, 0.1, 20.0, 80.0, 79.99, 1e9)
	f.Add(500.0, 9000.0, 0.01, 3.0, 1e7, 1e7, 100.0, -40.0, 99.9999999, 1e-300)
	f.Fuzz(func(t *testing.T, rho, c, k, sizeM, bottom, top, startC, mediumC, targetC, timeS float64) {
		solid := heat.Solid{DensityKgM3: rho, SpecificHeatJKgK: c, ConductivityWMK: k}
		s := Sheet{solid, sizeM, bottom, top}
		x, err := s.CoreTimeS(startC, mediumC, targetC)
		sane(t, "core time", err, x)
		if err == nil && x < 0 {
			t.Errorf("core time %g", x)
		}
		x, err = s.CoreTempC(startC, mediumC, timeS)
		sane(t, "core", err, x)
		x, err = s.MeanTempC(startC, mediumC, timeS)
		sane(t, "mean", err, x)
		for _, b := range []Body{Brick(solid, sizeM, 2*sizeM, 3*sizeM, bottom), Can(solid, sizeM, sizeM, top),
			{solid, []Axis{{heat.Sphere, sizeM, top}}}, {solid, []Axis{{heat.Sphere, sizeM, top}, {heat.Slab, sizeM, top}}}, {}} {
			x, err = b.CentreTimeS(startC, mediumC, targetC)
			sane(t, "centre time", err, x)
			for p := Centre; p <= Mean; p++ {
				x, err = b.TempC(p, startC, mediumC, timeS)
				sane(t, "temperature", err, x)
			}
		}
	})
}

func FuzzSeries(f *testing.F) {
	f.Add(1, 1, 2.0, 0.05)
	f.Add(2, 3, 1e-6, 1e-5)
	f.Add(3, 2, 1e8, 1e12)
	f.Fuzz(func(t *testing.T, shape, place int, biot, fourier float64) {
		first, err := FirstTermOf(heat.Shape(shape), biot)
		sane(t, "first term", err, first.Root, first.Coefficient)
		theta, err := RelativeTemp(heat.Shape(shape), Place(place), biot, fourier)
		sane(t, "θ", err, theta)
		if err == nil && (theta < -1e-6 || theta > 1+1e-6) {
			t.Errorf("θ = %g", theta)
		}
	})
}
