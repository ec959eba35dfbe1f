package calibration

import (
	"errors"
	"testing"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/heat/heattest"
	"kettlefrost/internal/vessel"
)

// sane fails unless there is a typed error or only finite numbers.
func sane(t *testing.T, what string, err error, got ...float64) {
	t.Helper()
	var out *heat.RangeError
	var never *heat.NeverError
	heattest.Sane(t, what, err, errors.As(err, &out) || errors.As(err, &never), got...)
}

func FuzzCalibration(f *testing.F) {
	f.Add(600e3, 18.0, 0.25, 1.0, 26e3, 20.0, 20.0, 95.0, 3600.0)
	f.Add(1.0, 1e6, 10.0, 1.0, 0.0, 100.0, -60.0, 0.0, 1e9)
	f.Add(1e9, 1e-300, 1e-300, 1e-9, 1e6, 0.0, 60.0, 100.0, 1e-300)
	f.Fuzz(func(t *testing.T, capacity, loss, area, wet, ratedW, startC, airC, targetC, timeS float64) {
		o := vessel.Open{Vessel: vessel.Vessel{HeatCapacityJK: capacity, LossWK: loss}, OpenAreaM2: area, Wet: wet}
		log := Logged{StartC: startC, EndC: targetC, MediumC: airC, TimeS: timeS, TempDoubtK: wet, TimeDoubtS: loss}
		x, err := LossWK(capacity, log)
		sane(t, "loss", err, x.Value, x.Low, x.High)
		x, err = Efficiency(o, ratedW, log)
		sane(t, "efficiency", err, x.Value, x.Low, x.High)
		x, err = FilmWM2K(timeS, loss, func(film float64) (float64, error) { return capacity + area/film, nil })
		sane(t, "film", err, x.Value, x.Low, x.High)
	})
}
