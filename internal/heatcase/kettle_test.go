package heatcase

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/unit"
)

// A 40 gal pot of soup (ρ 1030, c 3850, 155.9 kg, 0.57 m across) from 20 to 95 °C on 90,000 Btu/h at 40 %, lid on, losing 17.93 W/K: 76.10
// min (derived in the reference on heat, burner efficiency read). The composition is the assumed recipe of those constants; 2 %.
func TestKettleOnALargeBurner(t *testing.T) {
	k := Kettle{Food: Food{Composition: Composition{Water: 86 * unit.PerCent, Protein: 35 * unit.PerCent / 10, Fat: 3 * unit.PerCent, Carbohydrate: 65 * unit.PerCent / 10, Fibre: unit.PerCent, Ash: unit.PerCent}},
		Mass: unit.MassKg(155.95), Diameter: unit.LengthM(0.57), Power: unit.PowerW(26376), Efficiency: 40 * unit.PerCent, From: unit.TempC(20), To: unit.TempC(95), Air: unit.TempC(20)}
	a, err := k.Answer()
	if err != nil {
		t.Fatal(err)
	}
	if got := a.LidOn.TimeS / 60; math.Abs(got/76.10-1) > 0.02 {
		t.Errorf("%.2f min, want 76.10", got)
	}
	if got := a.LidOn.EnergyKWh; math.Abs(got-a.LidOn.TimeS/3600*26.376) > 1e-6 {
		t.Errorf("%.3f kWh in %.0f s", got, a.LidOn.TimeS)
	}
	if !(a.LidOff.TimeS > a.LidOn.TimeS && a.LidOff.WaterKg > 0 && a.LidOn.WaterKg == 0) {
		t.Errorf("lid on %+v, off %+v", a.LidOn, a.LidOff)
	}
	k.Power = 2 * unit.Kilowatt
	if a, err = k.Answer(); err != nil || a.LidOff.Reached || a.LidOff.EndsC <= 20 || a.LidOff.EndsC >= 95 {
		t.Errorf("2 kW under 40 gal: %+v, %v", a.LidOff, err)
	}
}

// Whatever is asked, there is a finite answer or every mistake is named; more power is never slower.
func TestKettleAlwaysAnswers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := Kettle{Food: Example(Cool).Food, Mass: unit.Mass(rapid.Int64().Draw(t, "mass")), Diameter: unit.Length(rapid.Int64().Draw(t, "diameter")),
			Power: unit.Power(rapid.Int64().Draw(t, "power")), Efficiency: unit.Share(rapid.Int64Range(-1e9, 2e9).Draw(t, "efficiency")),
			From: unit.TempC(rapid.Float64Range(-50, 150).Draw(t, "from")), To: unit.TempC(rapid.Float64Range(-50, 150).Draw(t, "to")), Air: unit.TempC(20)}
		if rapid.Bool().Draw(t, "a kitchen's") {
			k.Mass, k.Diameter = unit.MassKg(rapid.Float64Range(1, 300).Draw(t, "kg")), unit.LengthM(rapid.Float64Range(0.2, 1).Draw(t, "m"))
			k.Power, k.Efficiency = unit.PowerW(rapid.Float64Range(500, 60e3).Draw(t, "W")), 50*unit.PerCent
		}
		a, err := k.Answer()
		bad, outOfRange := (*CaseError)(nil), (*heat.RangeError)(nil)
		if err != nil {
			if !errors.As(err, &bad) && !errors.As(err, &outOfRange) {
				t.Fatalf("%v", err)
			}
			return
		}
		for _, w := range []KettleWay{a.LidOn, a.LidOff} {
			if w.Reached && !(w.TimeS > 0 && w.TimeS < 1e9 && w.EnergyKWh > 0) {
				t.Fatalf("%+v", w)
			}
		}
		k.Power = k.Power / 10 * 11
		if stronger, err := k.Answer(); err == nil && a.LidOn.Reached && (!stronger.LidOn.Reached || stronger.LidOn.TimeS > a.LidOn.TimeS*(1+1e-9)) {
			t.Fatalf("more power: %+v, then %+v", a.LidOn, stronger.LidOn)
		}
	})
}
