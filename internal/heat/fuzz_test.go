package heat

import (
	"errors"
	"math"
	"testing"
)

// sane fails unless there is a typed error or only finite numbers.
func sane(t *testing.T, what string, err error, got ...float64) {
	t.Helper()
	if err != nil {
		var out *RangeError
		var never *NeverError
		var axes *AxesError
		if !errors.As(err, &out) && !errors.As(err, &never) && !errors.As(err, &axes) {
			t.Errorf("%s: untyped error %v", what, err)
		}
		if err.Error() == "" {
			t.Errorf("%s: silent error", what)
		}
		return
	}
	for _, x := range got {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			t.Errorf("%s = %g", what, x)
		}
	}
}

func FuzzConduction(f *testing.F) {
	f.Add(1030.0, 3850.0, 0.59, 0.05, 8.0, 10.0, 57.2, 3.0, 21.1, 7200.0)
	f.Add(1030.0, 3850.0, 0.59, 0.05, 0.0, 10.0, 57.2, 3.0, 57.2, 0.0)
	f.Add(7849.0, 460.6, 45.0, 0.05, 1e7, 0.1, 20.0, 80.0, 79.99, 1e9)
	f.Add(500.0, 9000.0, 0.01, 3.0, 1e7, 1e7, 100.0, -40.0, 99.9999999, 1e-300)
	f.Fuzz(func(t *testing.T, rho, c, k, sizeM, bottom, top, startC, mediumC, targetC, timeS float64) {
		solid := Solid{rho, c, k}
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
			{solid, []Axis{{Sphere, sizeM, top}}}, {solid, []Axis{{Sphere, sizeM, top}, {Slab, sizeM, top}}}, {}} {
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
		first, err := FirstTermOf(Shape(shape), biot)
		sane(t, "first term", err, first.Root, first.Coefficient)
		theta, err := RelativeTemp(Shape(shape), Place(place), biot, fourier)
		sane(t, "θ", err, theta)
		if err == nil && (theta < -1e-6 || theta > 1+1e-6) {
			t.Errorf("θ = %g", theta)
		}
	})
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

func FuzzVessel(f *testing.F) {
	f.Add(600e3, 18.0, 26e3, 0.4, 20.0, 20.0, 95.0, 3600.0)
	f.Add(1.0, 1e6, 0.0, 0.0, 20.0, 0.0, 1e-9, 1e9)
	f.Add(1e9, 1e-300, 1e6, 1.0, 20.0, 20.0, 100.0, 0.0)
	f.Fuzz(func(t *testing.T, capacity, loss, ratedW, efficiency, startC, mediumC, targetC, timeS float64) {
		v := Vessel{capacity, loss}
		x, err := v.TimeS(startC, mediumC, targetC)
		sane(t, "time", err, x)
		x, err = v.TempC(startC, mediumC, timeS)
		sane(t, "temperature", err, x)
		x, err = v.HeatUpTimeS(Heater{ratedW, efficiency}, startC, mediumC, targetC)
		sane(t, "heat-up", err, x)
		x, err = v.HeatJ(startC, targetC)
		sane(t, "heat", err, x)
		x, err = IceKg(x, mediumC, targetC)
		sane(t, "ice", err, x)
		x, err = BoilOffKgH(ratedW)
		sane(t, "boil-off", err, x)
		e, err := StillAirEvaporation(startC)
		sane(t, "evaporation", err, e.KgM2H)
		x, err = OverallWM2K(loss, ratedW, Coat{efficiency, startC})
		sane(t, "overall", err, x)
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

func FuzzOpenVessel(f *testing.F) {
	f.Add(600e3, 18.0, 0.25, 1.0, 26e3, 0.4, 20.0, 20.0, 95.0, 3600.0)
	f.Add(1.0, 1e6, 10.0, 1.0, 0.0, 0.0, 100.0, -60.0, 0.0, 1e9)
	f.Add(1e9, 1e-300, 1e-300, 1e-9, 1e6, 1.0, 0.0, 60.0, 100.0, 1e-300)
	f.Fuzz(func(t *testing.T, capacity, loss, area, wet, ratedW, efficiency, startC, airC, targetC, timeS float64) {
		o := OpenVessel{Vessel{capacity, loss}, area, wet}
		h := Heater{ratedW, efficiency}
		p, err := o.To(h, startC, airC, targetC)
		sane(t, "to", err, p.TimeS, p.TempC, p.WaterLostKg, p.EnergyJ)
		if err == nil && (p.TimeS < 0 || p.WaterLostKg < 0) {
			t.Errorf("to: %+v", p)
		}
		p, err = o.After(h, startC, airC, timeS)
		sane(t, "after", err, p.TimeS, p.TempC, p.WaterLostKg, p.EnergyJ)
		if err == nil && (p.TempC < 0 || p.TempC > 100 || p.WaterLostKg < 0) {
			t.Errorf("after: %+v", p)
		}
		k := Kettle{Of: percent(86, 3.5, 3, 5.5, 1, 1), MassKg: capacity, DiameterM: area, Burner: h, AmbientC: airC, WallWM2K: loss, Wet: wet}
		up, err := k.HeatUp(startC, targetC)
		sane(t, "kettle", err, up.TimeS, up.DepthM, up.LossWK, up.UsefulJ)
		log := Logged{StartC: startC, EndC: targetC, MediumC: airC, TimeS: timeS, TempDoubtK: wet, TimeDoubtS: loss}
		x, err := CalibratedLossWK(capacity, log)
		sane(t, "loss", err, x.Value, x.Low, x.High)
		x, err = CalibratedEfficiency(o, ratedW, log)
		sane(t, "efficiency", err, x.Value, x.Low, x.High)
		x, err = CalibratedFilmWM2K(timeS, loss, func(film float64) (float64, error) { return capacity + area/film, nil })
		sane(t, "film", err, x.Value, x.Low, x.High)
		e, err := OpenSurfaceEvaporation(startC, airC)
		sane(t, "open surface", err, e.KgM2H)
	})
}
