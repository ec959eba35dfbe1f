package calibration

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/heat/heattest"
	"kettlefrost/internal/series"
	"kettlefrost/internal/vessel"
)

// By hand: 20 kg of water from 20 to 80 °C in 20 min on 10 kW, nothing counted as lost: 20·4186·60/(10,000·1200) = 0.4186. With a
// thermometer to 1 K and a clock to 30 s: 58 K in 1230 s to 62 K in 1170 s.
func TestEfficiencyByHand(t *testing.T) {
	log := Logged{StartC: 20, EndC: 80, MediumC: 20, TimeS: 1200, TempDoubtK: ThermometerDoubtK, TimeDoubtS: ClockDoubtS}
	water := vessel.Open{Vessel: vessel.Vessel{HeatCapacityJK: 20 * 4186}}
	got := heattest.Must(Efficiency(water, 10e3, log))(t)
	heattest.Near(t, "efficiency", got.Value, 0.4186, 1e-5)
	heattest.Near(t, "low", got.Low, 20*4186*58/(10e3*1230), 1e-5)
	heattest.Near(t, "high", got.High, 20*4186*62/(10e3*1170), 1e-5)
	// A quarter of the time would be 167 %: more than there is.
	log.TimeS = 300
	var out *heat.RangeError
	if _, err := Efficiency(water, 10e3, log); !errors.As(err, &out) || out.What != "logged time" {
		t.Errorf("more than all: %v", err)
	}
}

// The reference pot in an ice bath, 57.2 to 21.1 °C in 75.7365 min, has U 100 on 1.318 m² (derived apart from this code).
func TestLossOfTheReferencePot(t *testing.T) {
	const volumeM3 = 40 * 3.785411784e-3
	const wetM2 = math.Pi/4*0.57*0.57 + math.Pi*0.57*0.593381
	v := vessel.Vessel{HeatCapacityJK: volumeM3 * 1030 * 3850}
	log := Logged{StartC: 57.2, EndC: 21.1, MediumC: 0, TimeS: 75.7365 * 60, TempDoubtK: 1, TimeDoubtS: 30}
	got := heattest.Must(LossWK(v.HeatCapacityJK, log))(t)
	heattest.Near(t, "UA", got.Value, 100*wetM2, 1e-4)
	heattest.Near(t, "low", got.Low, v.HeatCapacityJK/(75.7365*60+30)*math.Log(56.2/22.1), 1e-9)
	heattest.Near(t, "high", got.High, v.HeatCapacityJK/(75.7365*60-30)*math.Log(58.2/20.1), 1e-9)
}

// Geankoplis 5.5-2: meat slab 63.5 mm, 75 % water of 335 kJ/kg, 1057 kg/m³, k 1.038, 270.4 K in 244.3 K: Plank's 6.651 h belong to
// 17 W/(m²·K) (inputs read, time derived).
func TestFilmOfPlanksSlab(t *testing.T) {
	const d = 0.0635
	plank := func(film float64) (float64, error) {
		return 1057 * 0.75 * 335e3 / (270.4 - 244.3) * (d/(2*film) + d*d/(8*1.038)), nil
	}
	got := heattest.Must(FilmWM2K(6.65123*3600, 0.1*6.65123*3600, plank))(t)
	heattest.Near(t, "film", got.Value, 17, 3e-4)
	if !(got.Low < 17 && got.High > 17) {
		t.Errorf("range %+v", got)
	}
	heattest.Near(t, "low, read backwards", heattest.Must(plank(got.Low))(t), 1.1*6.65123*3600, 3e-4)
	heattest.Near(t, "high, read backwards", heattest.Must(plank(got.High))(t), 0.9*6.65123*3600, 3e-4)

	var out *heat.RangeError
	if _, err := FilmWM2K(600, 0, plank); !errors.As(err, &out) || out.What != "logged time" {
		t.Errorf("faster than the food conducts: %v", err)
	}
	if _, err := FilmWM2K(1e7, 0, plank); !errors.As(err, &out) || out.What != "logged time" {
		t.Errorf("slower than the slowest: %v", err)
	}
	// Just above the limit the shortest reading is faster than any film.
	quickest := heattest.Must(plank(LargestFilmWM2K))(t)
	heattest.Within(t, "open end", heattest.Must(FilmWM2K(1.05*quickest, 0.2*quickest, plank))(t).High, LargestFilmWM2K, 0)
	broken := errors.New("no grid")
	if _, err := FilmWM2K(600, 0, func(float64) (float64, error) { return 0, broken }); !errors.Is(err, broken) {
		t.Errorf("the caller's error: %v", err)
	}
	if _, err := FilmWM2K(600, 0, func(float64) (float64, error) { return math.NaN(), nil }); !errors.As(err, &out) {
		t.Errorf("no number: %v", err)
	}
	never := func(float64) (float64, error) { return 0, &heat.NeverError{StartC: 5, TargetC: -10, LimitC: -5} }
	if _, err := FilmWM2K(600, 0, never); !errors.As(err, &out) {
		t.Errorf("never: %v", err)
	}
}

// What a model gives is read back by the calibration, in few calls.
func TestCalibrationsRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		film := draw("film", 2, 300)
		s := series.Sheet{Solid: heat.Solid{DensityKgM3: 1030, SpecificHeatJKgK: 3850, ConductivityWMK: 0.59}, ThicknessM: draw("thickness", 0.01, 0.1)}
		calls := 0
		timeS := func(film float64) (float64, error) {
			calls++
			s.BottomFilmWM2K, s.TopFilmWM2K = film, film
			return s.CoreTimeS(57.2, 3, 21.1)
		}
		logged, err := timeS(film)
		calls = 0
		got, err2 := FilmWM2K(logged, 0, timeS)
		if err != nil || err2 != nil || math.Abs(got.Value/film-1) > 1e-3 {
			t.Errorf("film %g, %v %v: want %g", got.Value, err, err2, film)
		}
		if calls > 45 {
			t.Errorf("%d calls for three values", calls)
		}

		o := vessel.Open{Vessel: vessel.Vessel{HeatCapacityJK: draw("capacity", 2e4, 6e5), LossWK: draw("loss", 0, 20)},
			OpenAreaM2: draw("area", 0, 0.25), Wet: draw("wet", 0, 1)}
		efficiency := draw("efficiency", 0.2, 0.9)
		if p, err := o.To(vessel.Heater{RatedW: 2e4, Efficiency: efficiency}, 15, 21, 90); err == nil {
			got, err := Efficiency(o, 2e4, Logged{StartC: 15, EndC: 90, MediumC: 21, TimeS: p.TimeS, TempDoubtK: 1, TimeDoubtS: 10})
			if err != nil || math.Abs(got.Value/efficiency-1) > 1e-4 || got.Low > got.Value || got.High < got.Value {
				t.Errorf("efficiency %+v, %v: want %g", got, err, efficiency)
			}
		}
		v := vessel.Vessel{HeatCapacityJK: draw("capacity 2", 2e4, 6e5), LossWK: draw("loss 2", 1, 200)}
		cooled, err := v.TimeS(80, 3, 30)
		log := Logged{StartC: 80, EndC: 30, MediumC: 3, TimeS: cooled, TempDoubtK: 0.5, TimeDoubtS: 0.01 * cooled}
		loss, err2 := LossWK(v.HeatCapacityJK, log)
		if err != nil || err2 != nil || math.Abs(loss.Value/v.LossWK-1) > 1e-9 || !(loss.Low < loss.Value && loss.Value < loss.High) {
			t.Errorf("loss %+v, %v %v: want %g", loss, err, err2, v.LossWK)
		}
	})
}

func TestLogsRefused(t *testing.T) {
	water := vessel.Open{Vessel: vessel.Vessel{HeatCapacityJK: 80e3}}
	var out *heat.RangeError
	var never *heat.NeverError
	for _, c := range []struct {
		what string
		err  error
	}{
		{"logged time", heattest.Second(LossWK(80e3, Logged{StartC: 57, EndC: 21}))},
		{"change of temperature", heattest.Second(LossWK(80e3, Logged{StartC: 57, EndC: 56, MediumC: 3, TimeS: 600, TempDoubtK: 1}))},
		{"distance of the end from the medium", heattest.Second(LossWK(80e3, Logged{StartC: 57, EndC: 4, MediumC: 3, TimeS: 600, TempDoubtK: 1}))},
		{"heat capacity", heattest.Second(LossWK(0, Logged{StartC: 57, EndC: 21, MediumC: 3, TimeS: 600}))},
		{"rise of temperature", heattest.Second(Efficiency(water, 1e4, Logged{StartC: 80, EndC: 20, MediumC: 20, TimeS: 600}))},
		{"rated power", heattest.Second(Efficiency(water, 0, Logged{StartC: 20, EndC: 80, MediumC: 20, TimeS: 600}))},
		{"doubt of the time", heattest.Second(FilmWM2K(600, 600, nil))},
	} {
		if !errors.As(c.err, &out) || out.What != c.what {
			t.Errorf("%s: %v", c.what, c.err)
		}
	}
	if _, err := LossWK(80e3, Logged{StartC: 57, EndC: 60, MediumC: 3, TimeS: 600}); !errors.As(err, &never) {
		t.Errorf("wrong way: %v", err)
	}
}
