package vessel

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
	heattest.Sane(t, what, err, errors.As(err, &out) || errors.As(err, &never), got...)
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
	})
}

func FuzzOpenVessel(f *testing.F) {
	f.Add(600e3, 18.0, 0.25, 1.0, 26e3, 0.4, 20.0, 20.0, 95.0, 3600.0)
	f.Add(1.0, 1e6, 10.0, 1.0, 0.0, 0.0, 100.0, -60.0, 0.0, 1e9)
	f.Add(1e9, 1e-300, 1e-300, 1e-9, 1e6, 1.0, 0.0, 60.0, 100.0, 1e-300)
	f.Fuzz(func(t *testing.T, capacity, loss, area, wet, ratedW, efficiency, startC, airC, targetC, timeS float64) {
		o := Open{Vessel{capacity, loss}, area, wet}
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
		k := Kettle{Of: soupKettle().Of, MassKg: capacity, DiameterM: area, Burner: h, AmbientC: airC, WallWM2K: loss, Wet: wet}
		up, err := k.HeatUp(startC, targetC)
		sane(t, "kettle", err, up.TimeS, up.DepthM, up.LossWK, up.UsefulJ)
		e, err := OpenSurfaceEvaporation(startC, airC)
		sane(t, "open surface", err, e.KgM2H)
	})
}
