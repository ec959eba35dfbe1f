package coolforecast_test

import (
	"math"
	"testing"

	"kettlefrost/internal/coolforecast"
	"kettlefrost/internal/coollog"
	"kettlefrost/internal/coolrule"
)

// newton are exact readings of food that cools by Newton's law, T = m + (T0 - m)·exp(-t/τ), at minutes.
func newton(t0, m, tauMin float64, minutes ...float64) []coollog.Reading {
	var r []coollog.Reading
	for _, t := range minutes {
		r = append(r, coollog.Reading{TimeS: t * 60, TempC: m + (t0-m)*math.Exp(-t/tauMin)})
	}
	return r
}

// By hand: from 60 °C in air of 2 °C with a time constant of 90 min, 57.2 °C (135 °F) after 90·ln(58/55.22) = 4.4 min, 21.1 °C after
// 90·ln(58/19.11) = 99.9 min and 5 °C after 90·ln(58/3) = 266.6 min. Nothing is predicted: readings alone tell.
func TestNewtonByHand(t *testing.T) {
	c := coolforecast.Case{Rule: coolrule.FoodCodeCooked(), MediumC: 2, NowS: 80 * 60, Logs: []coollog.Log{{Point: "pan", Readings: newton(60, 2, 90, 0, 4, 20, 40, 60, 80)}}}
	f, err := coolforecast.Of(c)
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{99.9, 266.6} {
		got := f.Limits[i].ReachedS
		if d := got.Usual/60 - want; math.Abs(d) > 0.05*want {
			t.Errorf("limit %d after %.1f min, by hand %.1f", i, got.Usual/60, want)
		}
		if !(got.Good < want*60 && want*60 < got.Bad) {
			t.Errorf("limit %d: the band %.1f to %.1f min is not around %.1f", i, got.Good/60, got.Bad/60, want)
		}
	}
	if f.Outcome != coolforecast.Meets || f.Why != coolforecast.ByForecast {
		t.Errorf("%s, %s", f.Outcome, f.Why)
	}
}
