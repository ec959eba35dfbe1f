package vessel

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/heat/heattest"
)

// soupKettle is the reference pot, 40 US gal in 0.57 m, with the reference's assumed soup of 1030 kg/m³ and 3850 J/(kg·K).
func soupKettle() Kettle {
	return Kettle{Of: heat.Composition{Water: 0.86, Protein: 0.035, Fat: 0.03, Carb: 0.055, Fibre: 0.01, Ash: 0.01},
		MassKg: 40 * 3.785411784 * 1.030, DiameterM: 0.57, Burner: btuH(90_000), AmbientC: 20, WallWM2K: BareWallWM2K}
}

// Derived apart from this code with rounded constants: 76.1 min lid on, 71.1 without loss, depth 0.593 m, UA 17.93 W/K. The kettle works
// out density and heat by itself: 1.5 %.
func TestKettleHeatUp(t *testing.T) {
	k := soupKettle()
	lidOn := heattest.Must(k.HeatUp(20, 95))(t)
	heattest.Near(t, "minutes, lid on", lidOn.TimeS/60, 76.1001, 0.015)
	heattest.Near(t, "depth", lidOn.DepthM, 0.593381, 0.015)
	heattest.Near(t, "UA", lidOn.LossWK, 17.93, 0.015)
	heattest.Within(t, "no water lost under the lid", lidOn.WaterLostKg, 0, 0)
	k.WallWM2K = 0
	heattest.Near(t, "minutes, no loss", heattest.Must(k.HeatUp(20, 95))(t).TimeS/60, 71.1397, 0.015)
	// The lid off: between nothing and the loss of an open surface at 95 °C all the way (some 3.5 kg/h).
	k = soupKettle()
	k.Wet = 1
	lidOff := heattest.Must(k.HeatUp(20, 95))(t)
	if lidOff.TimeS <= lidOn.TimeS || lidOff.WaterLostKg <= 0 || lidOff.WaterLostKg > 3.8*lidOff.TimeS/3600 {
		t.Errorf("lid off %+v, lid on %+v", lidOff, lidOn)
	}
	// What the burner put in is in the food, through the wall or off as vapour. The wall takes UA times the mean excess, which is more
	// than half the rise because the end is slower than the start, and less than 60 % of it.
	in := lidOff.EnergyJ * k.Burner.Efficiency
	wall := in - lidOff.UsefulJ - lidOff.WaterLostKg*VaporLatentJKg(80)
	if share := wall / (lidOff.LossWK * 75 * lidOff.TimeS); share < 0.5 || share > 0.6 {
		t.Errorf("the wall took %g of its loss at the end, want 0.5 to 0.6", share)
	}
}

// Water alone by hand: 56.8 kg, 20 to 100 °C, 35,000 Btu/h at 40 %, no loss, 77 min (derived in the reference); 56.8·4186·80 J / 4103 W.
func TestKettleOfWater(t *testing.T) {
	k := Kettle{Of: heat.Composition{Water: 1}, MassKg: 56.8, DiameterM: 0.4, Burner: btuH(35_000), AmbientC: 20}
	p := heattest.Must(k.HeatUp(20, 100))(t)
	heattest.Near(t, "minutes", p.TimeS/60, 77, 0.01)
	heattest.Near(t, "kWh of gas", p.EnergyJ/3.6e6, 56.8*4186*80/0.4/3.6e6, 0.01)
}

// The same heat from burners of the efficiencies that trade pages quote from the US Department of Energy: at the same power in the food,
// gas uses twice what induction does (0.84/0.42), an electric plate 5 to 14 % more. At the same rated power induction is there in less
// than half the time, because the losses run for a shorter time as well.
func TestBurnersCompared(t *testing.T) {
	const intoFoodW = 10e3
	k := soupKettle()
	used := func(efficiency float64) float64 {
		k.Burner = Heater{intoFoodW / efficiency, efficiency}
		return heattest.Must(k.HeatUp(20, 95))(t).EnergyJ
	}
	induction := used(InductionEfficiency)
	heattest.Near(t, "gas over induction, low", used(GasEfficiencyLow)/induction, 2.1, 1e-9)
	heattest.Near(t, "gas over induction, high", used(GasEfficiencyHigh)/induction, 1.90909, 1e-5)
	heattest.Near(t, "electric over induction, low", used(ElectricEfficiencyLow)/induction, 1.13514, 1e-5)
	heattest.Near(t, "electric over induction, high", used(ElectricEfficiencyHigh)/induction, 1.05, 1e-9)
	timeS := func(efficiency float64) float64 {
		k.Burner = Heater{20e3, efficiency}
		return heattest.Must(k.HeatUp(20, 95))(t).TimeS
	}
	if ratio := timeS(0.42) / timeS(0.84); ratio < 2 || ratio > 2.3 {
		t.Errorf("20 kW of gas takes %g times as long as 20 kW of induction", ratio)
	}
}

func TestKettleAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
		of, err := heat.Composition{Water: draw("water", 0, 1), Protein: draw("protein", 0, 0.5), Fat: draw("fat", 0, 0.5), Carb: draw("carb", 0, 0.5),
			Fibre: draw("fibre", 0, 0.2), Ash: draw("ash", 0, 0.1), Alcohol: draw("alcohol", 0, 0.05)}.Normalise()
		if err != nil {
			t.Skip("not a food")
		}
		k := Kettle{Of: of, MassKg: draw("mass", 1, 200), DiameterM: draw("diameter", 0.3, 0.8),
			Burner: Heater{draw("power", 1e3, 4e4), draw("efficiency", 0.2, 0.9)}, AmbientC: 20, WallWM2K: 11.4, Wet: draw("wet", 0, 1)}
		startC := draw("start", 4, 60)
		base, err := k.HeatUp(startC, 95)
		if err != nil {
			var never *heat.NeverError
			var out *heat.RangeError
			if !errors.As(err, &never) && !errors.As(err, &out) {
				t.Fatal(err)
			}
			t.Skip(err.Error())
		}
		near := func(a, b float64) bool { return math.Abs(a-b) <= 1e-6*math.Abs(b)+1e-6 }
		if !near(base.EnergyJ, k.Burner.RatedW*base.TimeS) || base.EnergyJ*k.Burner.Efficiency < base.UsefulJ*(1-1e-9)-base.LossWK*16*base.TimeS {
			t.Errorf("energy %+v", base)
		}
		for what, change := range map[string]func(*Kettle){
			"more food": func(k *Kettle) { k.MassKg *= 1.2 }, "a heavy pot": func(k *Kettle) { k.PotJK = 1e4 },
			"a weaker burner": func(k *Kettle) { k.Burner.RatedW *= 0.9 }, "less efficiency": func(k *Kettle) { k.Burner.Efficiency *= 0.9 },
			"less lid": func(k *Kettle) { k.Wet = 1 }, "a windy room": func(k *Kettle) { k.WallWM2K *= 2 },
		} {
			other := k
			change(&other)
			if got, err := other.HeatUp(startC, 95); err == nil && got.TimeS*rounding < base.TimeS && (startC >= 20 || what != "a windy room") {
				t.Errorf("%s makes it faster: %g, was %g", what, got.TimeS, base.TimeS)
			}
		}
	})
}
