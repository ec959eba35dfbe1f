package heat

import (
	"errors"
	"testing"

	"kettlefrost/internal/heat/heattest"
)

// sane fails unless there is a typed error or only finite numbers.
func sane(t *testing.T, what string, err error, got ...float64) {
	t.Helper()
	var out *RangeError
	var never *NeverError
	heattest.Sane(t, what, err, errors.As(err, &out) || errors.As(err, &never), got...)
}

func FuzzFood(f *testing.F) {
	f.Add(0.86, 0.035, 0.03, 0.055, 0.01, 0.01, 0.0, -0.8, -18.0)
	f.Add(0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 0.0, -15.0, -40.0)
	f.Add(1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, -0.05, -0.05)
	f.Fuzz(func(t *testing.T, w, p, fa, ca, fi, as, al, freezesC, atC float64) {
		c := Composition{w, p, fa, ca, fi, as, al}
		n, err := c.Normalise()
		sane(t, "normalised", err, n.Sum())
		at, err := c.At(atC)
		sane(t, "unfrozen", err, at.DensityKgM3, at.SpecificHeatJKgK, at.ConductivityWMK)
		fr, err := c.FrozenAt(atC, freezesC)
		sane(t, "frozen", err, fr.DensityKgM3, fr.SpecificHeatJKgK, fr.ConductivityWMK, fr.IceShare)
		food, err := c.FreezingFood(freezesC, atC)
		sane(t, "food", err, food.FrozenConductivityWMK)
		h, err := food.EnthalpyJKg(atC)
		sane(t, "enthalpy", err, h)
		x, err := food.TempC(h)
		sane(t, "temperature", err, x)
		x, err = food.ConductivityWMK(freezesC)
		sane(t, "conductivity", err, x)
		x, err = FreezingPointC(w, Solute{SoluteKind{p, fa}, ca}, Solute{Salt, as})
		sane(t, "freezing point", err, x)
	})
}

func FuzzState(f *testing.F) {
	f.Add(0.86, 0.035, 0.03, 0.055, 0.01, 0.01, 0.0, -0.8, -18.0)
	f.Add(0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 0.0, -15.0, -40.0)
	f.Add(1.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, -0.05, 150.0)
	f.Fuzz(func(t *testing.T, w, p, fa, ca, fi, as, al, freezesC, atC float64) {
		c := Composition{w, p, fa, ca, fi, as, al}
		s, err := c.State(atC, freezesC)
		sane(t, "state", err, s.DensityKgM3, s.SensibleHeatJKgK, s.ApparentHeatJKgK, s.ConductivityWMK, s.EnthalpyJKg, s.IceShare, s.LiquidWater)
		chen, err := c.Chen(freezesC)
		sane(t, "Chen", err, chen.Solids)
		x, err := chen.EnthalpyJKg(atC)
		sane(t, "Chen's enthalpy", err, x)
		x, err = chen.HeatJKgK(atC)
		sane(t, "Chen's heat", err, x)
		x, err = c.TchigeovIce(atC, freezesC)
		sane(t, "Tchigeov", err, x)
		x, err = ChangTaoJKg(w)
		sane(t, "Chang and Tao", err, x)
		r, err := c.FreezingRange(Solute{Salt, as}, Solute{Sucrose, ca})
		sane(t, "freezing range", err, r.LowC, r.UsualC, r.HighC)
		if err == nil && (r.LowC > r.UsualC || r.UsualC > r.HighC) {
			t.Errorf("range %+v", r)
		}
	})
}

func FuzzFilm(f *testing.F) {
	f.Add(800.0, 500.0, 1e-4, 1.0)
	f.Add(0.1, 1e7, 0.5, 0.01)
	f.Fuzz(func(t *testing.T, inside, outside, thicknessM, conductivity float64) {
		x, err := OverallWM2K(inside, outside, Coat{thicknessM, conductivity})
		sane(t, "overall", err, x)
	})
}
