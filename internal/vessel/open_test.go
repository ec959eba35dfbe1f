package vessel

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/heat/heattest"
)

// openPot is the reference pot with 11.4 W/(m²·K) all round (bare tank wall, Engineering Toolbox, read).
func openPot() Open {
	v, wetM2, allM2, _ := pot()
	v.LossWK = BareWallWM2K * allM2
	return Open{Vessel: v, OpenAreaM2: allM2 - wetM2, Wet: 1}
}

// stepped is the slow and obvious twin: small steps of the heat balance.
func stepped(o Open, h Heater, startC, airC, timeS, stepS float64) (tempC, lostKg float64) {
	tempC = startC
	for now := 0.0; now < timeS; now += stepS {
		goesW := o.OpenAreaM2 * o.Wet * surfaceLossWM2(tempC, airC)
		net := h.RatedW*h.Efficiency - o.Vessel.LossWK*(tempC-airC)
		switch {
		case tempC >= 100 && net > goesW:
			lostKg += net / BoilingLatentJKg * stepS
		default:
			lostKg += goesW / VaporLatentJKg(tempC) * stepS
			tempC = min(100, tempC+(net-goesW)*stepS/o.Vessel.HeatCapacityJK)
		}
	}
	return tempC, lostKg
}

func TestOpenVesselAgainstSteps(t *testing.T) {
	for _, c := range []struct {
		name                  string
		netW                  float64
		startC, airC, timeS   float64
		wet, tolC, tolKgShare float64
	}{
		{"left alone in the room", 0, 95, 21, 10 * 3600, 1, 0.02, 1e-3},
		{"left alone in a walk-in", 0, 57.2, 3, 20 * 3600, 1, 0.02, 1e-3},
		{"half a lid, weak burner", 2000, 80, 21, 5 * 3600, 0.5, 0.02, 1e-3},
		{"heating, not yet boiling", 12e3, 15, 21, 3600, 1, 0.02, 2e-3},
		{"heating and then boiling", 20e3, 20, 21, 2 * 3600, 1, 0.02, 2e-3},
		{"boiling under a lid", 20e3, 20, 21, 2 * 3600, 0, 0.02, 2e-3},
	} {
		t.Run(c.name, func(t *testing.T) {
			o := openPot()
			o.Wet = c.wet
			h := Heater{c.netW / 0.4, 0.4}
			wantC, wantKg := stepped(o, h, c.startC, c.airC, c.timeS, 0.5)
			got := heattest.Must(o.After(h, c.startC, c.airC, c.timeS))(t)
			heattest.Within(t, "temperature", got.TempC, wantC, c.tolC)
			heattest.Near(t, "water lost", got.WaterLostKg, wantKg, c.tolKgShare)
			heattest.Near(t, "energy", got.EnergyJ, h.RatedW*c.timeS, 1e-12)
		})
	}
}

// A pot that holds its balance goes on giving off vapour.
func TestRestingPot(t *testing.T) {
	o := openPot()
	if p, err := o.After(Heater{5e3, 0.8}, 20, 21, 100*3600); err == nil {
		t.Errorf("100 h with 4 kW: %+v, want too much water lost", p)
	}
	day, twoDays := heattest.Must(o.After(Heater{250, 1}, 20, 21, 100*3600))(t), heattest.Must(o.After(Heater{250, 1}, 20, 21, 200*3600))(t)
	heattest.Within(t, "the same temperature", twoDays.TempC, day.TempC, 1e-4)
	rateKgS := o.OpenAreaM2 * heattest.Must(OpenSurfaceEvaporation(day.TempC, 21))(t).KgM2H / 3600
	heattest.Near(t, "vapour of the second 100 h", twoDays.WaterLostKg-day.WaterLostKg, rateKgS*100*3600, 1e-3)
	// At rest, what goes in goes out: 250 W.
	heattest.Near(t, "heat that leaves", o.Vessel.LossWK*(day.TempC-21)+rateKgS*VaporLatentJKg(day.TempC), 250, 1e-6)
}

func TestOpenVesselNever(t *testing.T) {
	var never *heat.NeverError
	open := openPot()
	if _, err := open.To(Heater{}, 57.2, 21, 20.9); !errors.As(err, &never) {
		t.Errorf("below the room: %v", err)
	} else {
		heattest.Within(t, "ends at the room", never.LimitC, 21, 1e-6)
	}
	// The reference calls 21.1 °C in a room of 21 °C never; here it is more than a day.
	if p := heattest.Must(open.To(Heater{}, 57.2, 21, 21.1))(t); p.TimeS < 86400 {
		t.Errorf("to the room and a tenth: %+v", p)
	}
	// 3.5 kW net against the loss of the wall and the surface: the lid makes the difference. The balance is where both are equal.
	burner := Heater{3500, 1}
	if _, err := open.To(burner, 20, 20, 95); !errors.As(err, &never) {
		t.Fatalf("3.5 kW, lid off: %v", err)
	}
	loss := open.Vessel.LossWK*(never.LimitC-20) + open.OpenAreaM2*surfaceLossWM2(never.LimitC, 20)
	heattest.Near(t, "loss at the balance", loss, 3500, 1e-6)
	open.Wet = 0
	if _, err := open.To(burner, 20, 20, 95); err != nil {
		t.Errorf("3.5 kW, lid on: %v", err)
	}
	for _, c := range []struct{ startC, airC, targetC float64 }{{50, 20, 60}, {20, 20, 10}, {20, 20, 30}} {
		if _, err := open.To(Heater{}, c.startC, c.airC, c.targetC); !errors.As(err, &never) {
			t.Errorf("%+v: %v", c, err)
		}
	}
	var out *heat.RangeError
	if _, err := open.After(Heater{}, 20, -30, 1e8); !errors.As(err, &out) || out.What != "time before it starts to freeze" {
		t.Errorf("frozen solid: %v", err)
	}
}

// The tail of the evaporation joins the table, and stays within its spread of what is told elsewhere.
func TestOpenSurface(t *testing.T) {
	for _, at := range []float64{37.8, 60, 93, 98.8} {
		heattest.Near(t, "as the table", heattest.Must(OpenSurfaceEvaporation(at, 3))(t).KgM2H, heattest.Must(StillAirEvaporation(at))(t).KgM2H, 1e-12)
	}
	heattest.Within(t, "no evaporation at the temperature of the air", heattest.Must(OpenSurfaceEvaporation(21, 21))(t).KgM2H, 0, 0)
	// Steam tables (from memory), kPa.
	for _, c := range []struct{ tempC, kPa float64 }{{10, 1.228}, {15, 1.706}, {20, 2.339}, {30, 4.247}, {40, 7.384}} {
		heattest.Near(t, "saturation", saturationPa(c.tempC)/1000, c.kPa, 2e-3)
	}
	// Between the first two rows, the table itself and Dalton's law can be compared: 2.25 in the table for 120 against 100 °F.
	air := saturationPa(onsetC(15))
	dalton := (saturationPa(48.889) - air) / (saturationPa(37.778) - air)
	heattest.Within(t, "120 °F against 100 °F", dalton, 360.0/160, 0.2)
}

func TestOpenVesselAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		o := Open{Vessel{draw("capacity", 1e3, 1e6), draw("loss", 0, 50)}, draw("area", 0, 0.5), draw("wet", 0, 1)}
		h := Heater{draw("rated", 0, 3e4), draw("efficiency", 0.1, 1)}
		startC, targetC, airC := draw("start", 1, 99), draw("target", 1, 100), draw("air", -10, 35)
		p, err := o.To(h, startC, airC, targetC)
		var never *heat.NeverError
		if errors.As(err, &never) {
			if between := (targetC - startC) * (targetC - never.LimitC); between < -1e-6 && never.LimitC != startC {
				t.Errorf("never, but %g lies between %g and %g", targetC, startC, never.LimitC)
			}
			return
		}
		if err != nil {
			t.Skip(err.Error())
		}
		back, err := o.After(h, startC, airC, p.TimeS)
		if err != nil || math.Abs(back.TempC-targetC) > 1e-5 {
			t.Errorf("after that time %g °C, %v: want %g", back.TempC, err, targetC)
		}
		if math.Abs(back.WaterLostKg-p.WaterLostKg) > 1e-5*(p.WaterLostKg+1e-3) {
			t.Errorf("water %g and %g", back.WaterLostKg, p.WaterLostKg)
		}
		lid := o
		lid.Wet = 0
		if covered, err := lid.To(h, startC, airC, targetC); targetC > startC && (err != nil || covered.TimeS > p.TimeS*rounding) {
			t.Errorf("the lid makes it slower: %g, %v", covered.TimeS, err)
		} else if err == nil && targetC < startC && covered.TimeS*rounding < p.TimeS {
			t.Errorf("the lid makes it cool faster: %g", covered.TimeS)
		}
	})
}

// Without evaporation it is Newton's law.
func TestLiddedIsNewton(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := Vessel{rapid.Float64Range(1e3, 1e6).Draw(t, "capacity"), rapid.Float64Range(0.01, 50).Draw(t, "loss")}
		targetC := rapid.Float64Range(4, 94).Draw(t, "target")
		want, err := v.TimeS(95, 3, targetC)
		got, err2 := Open{Vessel: v}.To(Heater{}, 95, 3, targetC)
		if err != nil || err2 != nil || math.Abs(got.TimeS/want-1) > 1e-7 {
			t.Errorf("%g, %v; Newton %g, %v", got.TimeS, err2, want, err)
		}
	})
}

// Integrals with a known value: one smooth, one with a kink, one with a pole just beyond the end.
func TestIntegrate(t *testing.T) {
	heattest.Near(t, "1/(1+x²)", integrate(func(x float64) float64 { return 1 / (1 + x*x) }, 0, 1, nil), math.Pi/4, 1e-12)
	heattest.Near(t, "backwards", integrate(func(x float64) float64 { return x * x }, 3, 0, nil), -9, 1e-12)
	heattest.Near(t, "|x - 1| to 3", integrate(func(x float64) float64 { return math.Abs(x - 1) }, 0, 3, []float64{1, 7}), 2.5, 1e-12)
	heattest.Near(t, "1/(1+ε-x)", integrate(func(x float64) float64 { return 1 / (1 + 1e-9 - x) }, 0, 1, nil), math.Log(1e9+1), 1e-7)
}
