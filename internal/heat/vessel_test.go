package heat

import (
	"errors"
	"math"
	"testing"

	"kettlefrost/internal/unit"
)

// pot is 40 US gal of soup in a pot of 0.57 m: 151.4 L, 1030 kg/m³, 3850 J/(kg·K).
func pot() (v Vessel, wetM2, allM2, depthM float64) {
	const diameterM = 0.57
	volumeM3 := 40 * 3.785411784e-3
	floor := math.Pi / 4 * diameterM * diameterM
	depthM = volumeM3 / floor
	wetM2 = floor + math.Pi*diameterM*depthM
	return Vessel{HeatCapacityJK: volumeM3 * 1030 * 3850}, wetM2, wetM2 + floor, depthM
}

// Derived apart from this code: the reference pot, 0.5 %.
func TestStirredPot(t *testing.T) {
	v, wetM2, allM2, depthM := pot()
	near(t, "depth", depthM, 0.593381, 1e-3)
	near(t, "heat capacity", v.HeatCapacityJK, 600442, 1e-3)
	near(t, "mean power in 2 h", must(v.HeatJ(57.2, 21.1))(t)/7200, 3010.55, 1e-3)
	for _, c := range []struct{ u, to21, to5 float64 }{{50, 151.473, 370.164}, {100, 75.7365, 185.082}, {300, 25.2455, 61.6939}} {
		v.LossWK = c.u * wetM2
		near(t, "minutes to 21.1 °C", must(v.TimeS(57.2, 0, 21.1))(t)/60, c.to21, 5e-3)
		near(t, "minutes to 5 °C", must(v.TimeS(57.2, 0, 5))(t)/60, c.to5, 5e-3)
	}
	v.LossWK = 11.4 * allM2
	near(t, "covered in 3 °C air, hours to 21.1 °C", must(v.TimeS(57.2, 3, 21.1))(t)/3600, 10.2017, 5e-3)
	near(t, "covered in 3 °C air, hours to 5 °C", must(v.TimeS(57.2, 3, 5))(t)/3600, 30.6908, 5e-3)
}

func TestIce(t *testing.T) {
	v, _, _, _ := pot()
	near(t, "kg of ice, 57.2 to 5 °C", must(IceKg(must(v.HeatJ(57.2, 5))(t), 0, 0))(t), 93.9541, 5e-3)
	paddleJ := 3.6 * must(IceUptakeJKg(-18, 21.1))(t)
	near(t, "paddle of 3.6 kg", paddleJ, 1651.77e3, 5e-3)
	near(t, "paddles", must(v.HeatJ(57.2, 21.1))(t)/paddleJ, 13.1229, 5e-3)
}

// A burner of 90,000 Btu/h of which 40 % reaches the pot (US Department of Energy figure, read as quoted): derived, 0.5 %.
func TestHeatUp(t *testing.T) {
	v, _, _, _ := pot()
	burner := Heater{RatedW: 90000 * 1055.05585262 / 3600, Efficiency: 0.40}
	near(t, "minutes with no loss", must(v.HeatUpTimeS(burner, 20, 20, 95))(t)/60, 71.1397, 5e-3)
	v.LossWK = 17.93
	near(t, "minutes", must(v.HeatUpTimeS(burner, 20, 20, 95))(t)/60, 76.1001, 5e-3)

	// 56.8 kg of water 20 to 100 °C with 35,000 Btu/h at 40 %, no loss: 77 min (derived in the reference).
	water60qt := Vessel{HeatCapacityJK: 56.8 * 4186}
	near(t, "60 qt of water, minutes", must(water60qt.HeatUpTimeS(Heater{35000 * 1055.05585262 / 3600, 0.4}, 20, 20, 100))(t)/60, 77, 0.01)
}

func TestHeatUpThatNeverArrives(t *testing.T) {
	v := Vessel{HeatCapacityJK: 600e3, LossWK: 20}
	// 1 kW against 20 W/K balances at 20 + 50 = 70 °C.
	_, err := v.HeatUpTimeS(Heater{1000, 1}, 20, 20, 75)
	var never *NeverError
	if !errors.As(err, &never) {
		t.Fatalf("got %v, want never", err)
	}
	within(t, "balance", never.LimitC, 70, 1e-9)
	if _, err := v.HeatUpTimeS(Heater{1000, 1}, 20, 20, 69); err != nil {
		t.Errorf("69 °C: %v", err)
	}
}

// Lumped bodies of textbooks (inputs read).
func TestTextbookLumped(t *testing.T) {
	// Geankoplis 5.2-1, steel ball r 25.4 mm: the companion code prints 474.6 K after an hour.
	const r = 0.0254
	ball := Vessel{HeatCapacityJK: 7849 * 460.6 * 4 / 3 * math.Pi * r * r * r, LossWK: 11.36 * 4 * math.Pi * r * r}
	within(t, "steel ball, K", must(ball.TempC(699.9-273.15, 394.3-273.15, 3600))(t)+273.15, 474.6, 0.05)
	// Singh and Heldman: tomato juice in a hemispherical kettle of 0.5 m, wall 90 °C: 83.155 °C after 300 s (derived).
	kettle := Vessel{HeatCapacityJK: 980 * 3950 * 2 / 3 * math.Pi * 0.125, LossWK: 5000 * 2 * math.Pi * 0.25}
	within(t, "tomato juice", must(kettle.TempC(20, 90, 300))(t), 83.155, 0.05)
}

// Overall coefficients assumed in the reference: 299 for broth, 108 for thick food scraped well.
func TestOverall(t *testing.T) {
	wall := Coat{ThicknessM: 1e-4, ConductivityWMK: 1} // 1e-4 m²·K/W
	near(t, "broth", must(OverallWM2K(800, 500, wall))(t), 299, 2e-3)
	near(t, "thick", must(OverallWM2K(150, 400, wall))(t), 108, 2e-3)
	// 0.1 mm of film at 0.33 W/(m·K) (from memory) brings 500 down to 435; 1 mm of air at 0.024 halves 24.
	near(t, "bag in water", must(CoatedFilmWM2K(500, Coat{1e-4, 0.33}))(t), 435, 3e-3)
	near(t, "trapped air", must(CoatedFilmWM2K(24, Coat{1e-3, 0.024}))(t), 12, 2e-3)
}

// The Engineering Toolbox, "Heat Loss from Open Water Tanks" (read): W/m² and kg/m²h derived, 2 %. The rows at 170 and 190 °F were
// read as well but are not in the table, so they test the interpolation: 1 %.
func TestEvaporation(t *testing.T) {
	for _, c := range []struct{ tempF, want, tol float64 }{
		{100, 0.75, 0.02}, {120, 1.72, 0.02}, {140, 3.18, 0.02}, {160, 5.36, 0.02},
		{180, 8.58391, 0.02}, {200, 13.3775, 0.02}, {210, 16.2689, 0.02},
	} {
		got := must(StillAirEvaporation(unit.TempF(c.tempF).C()))(t)
		near(t, "kg/m²h", got.KgM2H, c.want, c.tol)
		near(t, "low", got.LowKgM2H, 0.65*got.KgM2H, 1e-12)
		near(t, "high", got.HighKgM2H, 1.35*got.KgM2H, 1e-12)
	}
	for _, c := range []struct{ tempF, btuFt2H float64 }{{170, 1380}, {190, 2160}} {
		at := unit.TempF(c.tempF).C()
		lossWM2 := must(StillAirEvaporation(at))(t).KgM2H * VaporLatentJKg(at) / 3600
		near(t, "Btu/ft²h between rows", lossWM2/wM2PerBtuFt2H, c.btuFt2H, 0.01)
	}
	// US Department of Energy, Steam Tip Sheet 19 (read), dry air at 75 °F: 170 °F 7.7 and 190 °F 14.1 kg/m²h lie inside the spread.
	for _, c := range []struct{ tempF, want float64 }{{170, 7.7}, {190, 14.1}} {
		e := must(StillAirEvaporation(unit.TempF(c.tempF).C()))(t)
		if c.want < e.LowKgM2H || c.want > e.HighKgM2H {
			t.Errorf("%g °F: tip sheet has %g, outside %.3g to %.3g", c.tempF, c.want, e.LowKgM2H, e.HighKgM2H)
		}
	}
	// A pot of 16 in at 200 °F loses 1.74 kg/h (derived).
	near(t, "pot of 16 in", 0.1297*must(StillAirEvaporation(unit.TempF(200).C()))(t).KgM2H, 1.74, 0.01)
	for _, outside := range []float64{unit.TempF(99).C(), unit.TempF(211).C(), math.NaN()} {
		if _, err := StillAirEvaporation(outside); err == nil {
			t.Errorf("%g °C: no error", outside)
		}
	}
}

func TestBoilOff(t *testing.T) {
	near(t, "10 kW net, kg/h", must(BoilOffKgH(10e3))(t), 15.9504, 2e-3)
	near(t, "4.10 kW net, kg/h", must(BoilOffKgH(4.10e3))(t), 6.54, 2e-3)
}
