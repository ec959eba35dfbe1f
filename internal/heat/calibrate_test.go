package heat

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// By hand: 20 kg of water from 20 to 80 °C in 20 min on 10 kW, nothing counted as lost: 20·4186·60/(10,000·1200) = 0.4186. With a
// thermometer to 1 K and a clock to 30 s: 58 K in 1230 s to 62 K in 1170 s.
func TestEfficiencyByHand(t *testing.T) {
	log := Logged{StartC: 20, EndC: 80, MediumC: 20, TimeS: 1200, TempDoubtK: ThermometerDoubtK, TimeDoubtS: ClockDoubtS}
	water := OpenVessel{Vessel: Vessel{HeatCapacityJK: 20 * 4186}}
	got := must(CalibratedEfficiency(water, 10e3, log))(t)
	near(t, "efficiency", got.Value, 0.4186, 1e-5)
	near(t, "low", got.Low, 20*4186*58/(10e3*1230), 1e-5)
	near(t, "high", got.High, 20*4186*62/(10e3*1170), 1e-5)
	// A quarter of the time would be 167 %: more than there is.
	log.TimeS = 300
	var out *RangeError
	if _, err := CalibratedEfficiency(water, 10e3, log); !errors.As(err, &out) || out.What != "logged time" {
		t.Errorf("more than all: %v", err)
	}
}

// The reference pot in an ice bath, 57.2 to 21.1 °C in 75.7365 min, has U 100 on 1.318 m² (derived apart from this code).
func TestLossOfTheReferencePot(t *testing.T) {
	v, wetM2, _, _ := pot()
	log := Logged{StartC: 57.2, EndC: 21.1, MediumC: 0, TimeS: 75.7365 * 60, TempDoubtK: 1, TimeDoubtS: 30}
	got := must(CalibratedLossWK(v.HeatCapacityJK, log))(t)
	near(t, "UA", got.Value, 100*wetM2, 1e-4)
	near(t, "low", got.Low, v.HeatCapacityJK/(75.7365*60+30)*math.Log(56.2/22.1), 1e-9)
	near(t, "high", got.High, v.HeatCapacityJK/(75.7365*60-30)*math.Log(58.2/20.1), 1e-9)
}

// Geankoplis 5.5-2: meat slab 63.5 mm, 75 % water of 335 kJ/kg, 1057 kg/m³, k 1.038, 270.4 K in 244.3 K: Plank's 6.651 h belong to
// 17 W/(m²·K) (inputs read, time derived).
func TestFilmOfPlanksSlab(t *testing.T) {
	const d = 0.0635
	plank := func(film float64) (float64, error) {
		return 1057 * 0.75 * 335e3 / (270.4 - 244.3) * (d/(2*film) + d*d/(8*1.038)), nil
	}
	got := must(CalibratedFilmWM2K(6.65123*3600, 0.1*6.65123*3600, plank))(t)
	near(t, "film", got.Value, 17, 3e-4)
	if !(got.Low < 17 && got.High > 17) {
		t.Errorf("range %+v", got)
	}
	near(t, "low, read backwards", must(plank(got.Low))(t), 1.1*6.65123*3600, 3e-4)
	near(t, "high, read backwards", must(plank(got.High))(t), 0.9*6.65123*3600, 3e-4)

	var out *RangeError
	if _, err := CalibratedFilmWM2K(600, 0, plank); !errors.As(err, &out) || out.What != "logged time" {
		t.Errorf("faster than the food conducts: %v", err)
	}
	if _, err := CalibratedFilmWM2K(1e7, 0, plank); !errors.As(err, &out) || out.What != "logged time" {
		t.Errorf("slower than the slowest: %v", err)
	}
	// Just above the limit the shortest reading is faster than any film.
	quickest := must(plank(LargestCalibratedWM2K))(t)
	within(t, "open end", must(CalibratedFilmWM2K(1.05*quickest, 0.2*quickest, plank))(t).High, LargestCalibratedWM2K, 0)
	broken := errors.New("no grid")
	if _, err := CalibratedFilmWM2K(600, 0, func(float64) (float64, error) { return 0, broken }); !errors.Is(err, broken) {
		t.Errorf("the caller's error: %v", err)
	}
	if _, err := CalibratedFilmWM2K(600, 0, func(float64) (float64, error) { return math.NaN(), nil }); !errors.As(err, &out) {
		t.Errorf("no number: %v", err)
	}
	never := func(float64) (float64, error) { return 0, &NeverError{5, -10, -5} }
	if _, err := CalibratedFilmWM2K(600, 0, never); !errors.As(err, &out) {
		t.Errorf("never: %v", err)
	}
}

// What a model gives is read back by the calibration, in few calls.
func TestCalibrationsRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		film := draw("film", 2, 300)
		s := Sheet{Solid: Solid{1030, 3850, 0.59}, ThicknessM: draw("thickness", 0.01, 0.1)}
		calls := 0
		timeS := func(film float64) (float64, error) {
			calls++
			s.BottomFilmWM2K, s.TopFilmWM2K = film, film
			return s.CoreTimeS(57.2, 3, 21.1)
		}
		logged, err := timeS(film)
		calls = 0
		got, err2 := CalibratedFilmWM2K(logged, 0, timeS)
		if err != nil || err2 != nil || math.Abs(got.Value/film-1) > 1e-3 {
			t.Errorf("film %g, %v %v: want %g", got.Value, err, err2, film)
		}
		if calls > 45 {
			t.Errorf("%d calls for three values", calls)
		}

		o := OpenVessel{Vessel{draw("capacity", 2e4, 6e5), draw("loss", 0, 20)}, draw("area", 0, 0.25), draw("wet", 0, 1)}
		efficiency := draw("efficiency", 0.2, 0.9)
		if p, err := o.To(Heater{2e4, efficiency}, 15, 21, 90); err == nil {
			got, err := CalibratedEfficiency(o, 2e4, Logged{StartC: 15, EndC: 90, MediumC: 21, TimeS: p.TimeS, TempDoubtK: 1, TimeDoubtS: 10})
			if err != nil || math.Abs(got.Value/efficiency-1) > 1e-4 || got.Low > got.Value || got.High < got.Value {
				t.Errorf("efficiency %+v, %v: want %g", got, err, efficiency)
			}
		}
		v := Vessel{draw("capacity 2", 2e4, 6e5), draw("loss 2", 1, 200)}
		cooled, err := v.TimeS(80, 3, 30)
		log := Logged{StartC: 80, EndC: 30, MediumC: 3, TimeS: cooled, TempDoubtK: 0.5, TimeDoubtS: 0.01 * cooled}
		loss, err2 := CalibratedLossWK(v.HeatCapacityJK, log)
		if err != nil || err2 != nil || math.Abs(loss.Value/v.LossWK-1) > 1e-9 || !(loss.Low < loss.Value && loss.Value < loss.High) {
			t.Errorf("loss %+v, %v %v: want %g", loss, err, err2, v.LossWK)
		}
	})
}

func TestLogsRefused(t *testing.T) {
	water := OpenVessel{Vessel: Vessel{HeatCapacityJK: 80e3}}
	var out *RangeError
	var never *NeverError
	for _, c := range []struct {
		what string
		err  error
	}{
		{"logged time", second(CalibratedLossWK(80e3, Logged{StartC: 57, EndC: 21}))},
		{"change of temperature", second(CalibratedLossWK(80e3, Logged{StartC: 57, EndC: 56, MediumC: 3, TimeS: 600, TempDoubtK: 1}))},
		{"distance of the end from the medium", second(CalibratedLossWK(80e3, Logged{StartC: 57, EndC: 4, MediumC: 3, TimeS: 600, TempDoubtK: 1}))},
		{"heat capacity", second(CalibratedLossWK(0, Logged{StartC: 57, EndC: 21, MediumC: 3, TimeS: 600}))},
		{"rise of temperature", second(CalibratedEfficiency(water, 1e4, Logged{StartC: 80, EndC: 20, MediumC: 20, TimeS: 600}))},
		{"rated power", second(CalibratedEfficiency(water, 0, Logged{StartC: 20, EndC: 80, MediumC: 20, TimeS: 600}))},
		{"doubt of the time", second(CalibratedFilmWM2K(600, 600, nil))},
	} {
		if !errors.As(c.err, &out) || out.What != c.what {
			t.Errorf("%s: %v", c.what, c.err)
		}
	}
	if _, err := CalibratedLossWK(80e3, Logged{StartC: 57, EndC: 60, MediumC: 3, TimeS: 600}); !errors.As(err, &never) {
		t.Errorf("wrong way: %v", err)
	}
}
