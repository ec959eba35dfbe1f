package vessel

import (
	"errors"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/heat"
)

const rounding = 1 + 1e-9 // what two searches may differ by

func TestVesselAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := Vessel{rapid.Float64Range(1e3, 1e7).Draw(t, "capacity"), rapid.Float64Range(0, 1e3).Draw(t, "loss")}
		h := Heater{rapid.Float64Range(0, 1e5).Draw(t, "power"), rapid.Float64Range(0, 1).Draw(t, "efficiency")}
		targetC := rapid.Float64Range(20, 100).Draw(t, "target")
		base, err := v.HeatUpTimeS(h, 20, 20, targetC)
		if err != nil {
			var never *heat.NeverError
			var out *heat.RangeError
			if !errors.As(err, &never) && !errors.As(err, &out) {
				t.Fatalf("untyped error %v", err)
			}
			t.Skip("does not arrive")
		}
		stronger := h
		stronger.RatedW = min(1e6, h.RatedW*2)
		if got, err := v.HeatUpTimeS(stronger, 20, 20, targetC); err != nil || got > base*rounding {
			t.Errorf("twice the power takes %g, %v: want at most %g", got, err, base)
		}
		ideal := Vessel{HeatCapacityJK: v.HeatCapacityJK}
		if got, err := ideal.HeatUpTimeS(h, 20, 20, targetC); err != nil || got > base*rounding {
			t.Errorf("no loss takes %g, %v: want at most %g", got, err, base)
		}
	})
}

func TestEvaporationRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(38, 98).Draw(t, "cooler")
		b := rapid.Float64Range(a, 98.5).Draw(t, "hotter")
		ea, errA := StillAirEvaporation(a)
		eb, errB := StillAirEvaporation(b)
		if errA != nil || errB != nil || eb.KgM2H < ea.KgM2H {
			t.Errorf("%g °C %v %v, %g °C %v %v", a, ea, errA, b, eb, errB)
		}
	})
}
