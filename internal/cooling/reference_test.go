package cooling

import (
	"math"
	"testing"

	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
	"kettlefrost/internal/vessel"
)

// The soup and the 40 gal pot of the project's thermal reference. The recipe is assumed; its constants are derived there.
var soup = heat.FreezingFood{DensityKgM3: 1030, UnfrozenHeatJKgK: 3850, FrozenHeatJKgK: 2040, FreezableJKg: 282e3, FreezingPointC: -0.8,
	UnfrozenConductivityWMK: 0.59, FrozenConductivityWMK: 1.89}

const (
	gal40M3  = 0.1514165 // 40 US gal
	potM     = 0.57      // assumed diameter
	hour     = 3600.0
	minute   = 60.0
	potKg    = gal40M3 * 1030
	potHeatJ = potKg * 3850
)

func same(h float64) medium.Film { return medium.Film{LowWM2K: h, UsualWM2K: h, HighWM2K: h} }

func pot40() Food { return Food{MassKg: potKg, Props: soup, StartC: 57.2} }

// fall is a rule of one fall, for a time that is wanted and not judged.
func fall(toC ...float64) coolrule.Rule {
	var r coolrule.Rule
	for _, c := range toC {
		r.Stages = append(r.Stages, coolrule.Stage{ToC: c, WithinS: 9 * dayS, Start: coolrule.AtTheStart})
	}
	return r
}

func one(w Way) Plan { return Plan{[]Stage{{Way: w}}} }

func compareOne(t *testing.T, f Food, p Plan, r coolrule.Rule) Option {
	t.Helper()
	o := Compare(f, []Plan{p}, r)[0]
	if o.Err != nil {
		t.Fatal(o.Err)
	}
	return o
}

// usualS is when the hottest point passes a temperature.
func usualS(t *testing.T, o Option, tempC float64) float64 {
	t.Helper()
	for _, m := range o.To {
		if math.Abs(m.TempC-tempC) < 1e-9 {
			if !m.Usual.Reached {
				t.Fatalf("%g °C is not reached", tempC)
			}
			return m.Usual.TimeS
		}
	}
	t.Fatalf("no milestone at %g °C", tempC)
	return 0
}

func near(t *testing.T, what string, got, want, share float64) {
	t.Helper()
	if !(math.Abs(got-want) <= share*math.Abs(want)) {
		t.Errorf("%s: %.6g, want %.6g within %g %%", what, got, want, 100*share)
	}
}

// Derived in the thermal reference by an independent solver; the coefficients are assumed. 40 gal pot, 57.2 °C, stirred in a bath at
// 0 °C, 1.318 m² of side and base.
func TestStirredPotInIceWater(t *testing.T) {
	for _, c := range []struct{ u, to21, to5 float64 }{ // W/(m²·K), min
		{50, 151.473, 370.164}, {100, 75.7365, 185.082}, {300, 25.2455, 61.6939},
	} {
		o := compareOne(t, pot40(), one(Pot{DiameterM: potM, FillM3: 0.2, Have: 1, Wall: same(c.u), Bath: Bath{Ice: ToppedUp}}), fall(21.1, 5))
		near(t, "to 21.1 °C", usualS(t, o, 21.1), c.to21*minute, 5e-3)
		near(t, "to 5 °C", usualS(t, o, 5), c.to5*minute, 5e-3)
		near(t, "ice melted", o.IceKg, 93.9541, 5e-3)
		near(t, "heat", o.HeatJ, potHeatJ*52.2, 1e-9)
	}
	o := compareOne(t, pot40(), one(Pot{DiameterM: potM, FillM3: 0.2, Have: 1, Wall: same(300), Bath: Bath{Ice: ToppedUp}}), fall(21.1))
	near(t, "mean power for that fall in two hours", o.HeatJ/(2*hour), 3010.55, 1e-3)
	near(t, "heat capacity", potHeatJ, 600442, 1e-3)
}

// As above: U 11.4 on all 1.573 m² (read: table of open tanks, bare walls), air 3 °C.
func TestStirredPotInAir(t *testing.T) {
	pot := Pot{DiameterM: potM, FillM3: 0.2, Have: 1, Wall: same(11.4), Bath: Bath{TempC: 3}, Top: same(11.4), AirC: 3}
	covered := compareOne(t, pot40(), one(pot), fall(21.1, 5))
	near(t, "covered, to 21.1 °C", usualS(t, covered, 21.1), 10.2017*hour, 5e-3)
	near(t, "covered, to 5 °C", usualS(t, covered, 5), 30.6908*hour, 5e-3)

	// Open: the evaporation table was read; below 37.8 °C the reference does not say what it took.
	pot.Wet = 1
	open := compareOne(t, pot40(), one(pot), fall(21.1))
	near(t, "open, to 21.1 °C", usualS(t, open, 21.1), 8.58611*hour, 1e-2)

	pot.Bath.TempC, pot.AirC = 21, 21
	room := compareOne(t, pot40(), Plan{[]Stage{{Way: pot, UntilC: 22, AtMostS: 2 * hour}, {Way: pot}}}, fall(5))
	near(t, "open in a room of 21 °C, after 2 h", room.Stages[0].EndC, 46.5869, 1e-2)
	if room.Verdict != Never {
		t.Errorf("a pot in a room of 21 °C: %v", room.Verdict)
	}
}

// The reference: 3.6 kg of water frozen at -18 °C that end at 21.1 °C take 1651.77 kJ, and 13.1229 such paddles take the pot from 57.2 to
// 21.1 °C. With as many as are needed, every paddle but the last changed when its ice has gone, each has taken up to its melting.
func TestPaddleHeat(t *testing.T) {
	uptake, err := vessel.IceUptakeJKg(-18, 21.1)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "one paddle", 3.6*uptake, 1651.77e3, 5e-3)
	near(t, "paddles", potHeatJ*(57.2-21.1)/(3.6*uptake), 13.1229, 5e-3)
	// 14 of them, all in together, UA 40 W/K each: they end a little colder than the food, so a bit over 21.1 °C is left.
	pot := Pot{DiameterM: potM, FillM3: 0.2, Have: 1, Paddles: Paddles{Have: 14, Together: 14, WaterKg: 3.6, AreaM2: 0.2, Film: same(200), StartC: -18}}
	o := compareOne(t, pot40(), one(pot), fall(21.1))
	near(t, "heat into 14 paddles", o.Taken.PaddlesJ, potHeatJ*(57.2-21.1), 1e-9)
	if o.Stages[0].Paddles != 14 || o.Verdict != WithinMargin {
		t.Errorf("%d paddles, %v", o.Stages[0].Paddles, o.Verdict)
	}
	pot.Paddles.Have, pot.Paddles.Together = 13, 13
	if o := compareOne(t, pot40(), one(pot), fall(21.1)); o.Verdict != Never {
		t.Errorf("13 paddles take too little heat, but: %v", o.Verdict)
	}
}

// Derived in the reference by an independent solver; h assumed. Hottest point of a layer of soup with ku 0.59, from 57.2 °C.
func TestPansOfSoup(t *testing.T) {
	for _, c := range []struct {
		name              string
		inch              float64
		top, bottom, airC float64
		wet               float64
		to21, to5         float64 // h
	}{
		{"still, covered", 2, 10, 8, 3, 0, 4.07222, 11.8556},
		{"still, open", 2, 10, 8, 3, 1, 3.24444, 10.9861},
		{"fan, open", 2, 20, 15, 3, 1, 2.20833, 6.68611},
		{"blast", 2, 35, 35, -10, 0, 1.125, 2.025},
		{"still, covered", 2.5, 10, 8, 3, 0, 5.29722, 15.3194},
		{"still, open", 2.5, 10, 8, 3, 1, 4.34167, 14.3278},
		{"fan, open", 2.5, 20, 15, 3, 1, 2.99722, 8.9},
		{"blast", 2.5, 35, 35, -10, 0, 1.56389, 2.8},
		{"still, covered", 4, 10, 8, 3, 0, 9.45556, 26.9306},
		{"still, open", 4, 10, 8, 3, 1, 8.21944, 25.675},
		{"fan, open", 4, 20, 15, 3, 1, 5.88333, 16.8222},
		{"blast", 4, 35, 35, -10, 0, 3.25278, 5.85833},
	} {
		food := pot40()
		pans := Pans{LengthM: 0.5, WidthM: 0.3, DepthM: c.inch * 0.0254, Have: 20, Top: same(c.top), Bottom: same(c.bottom), AirC: c.airC, Wet: c.wet}
		o := compareOne(t, food, one(pans), fall(21.1, 5))
		near(t, c.name+", to 21.1 °C", usualS(t, o, 21.1), c.to21*hour, 3e-2)
		near(t, c.name+", to 5 °C", usualS(t, o, 5), c.to5*hour, 3e-2)
		t.Logf("%s %g in: %.4f %.4f", c.name, c.inch, usualS(t, o, 21.1)/c.to21/hour, usualS(t, o, 5)/c.to5/hour)
	}
}

// Derived in the reference: thick food left alone in the 40 gal pot, h all round.
func TestPotLeftAlone(t *testing.T) {
	for _, c := range []struct{ h, airC, to21, mean2h float64 }{
		{10, 3, 47.0935, 50.3369}, {25, 3, 39.3199, 45.9332}, {1e6, 0, 31.971, 37.7769},
	} {
		left := PotLeft{DiameterM: potM, FillM3: 0.2, Have: 1, Side: same(c.h), Top: same(c.h), Bottom: same(c.h), AirC: c.airC}
		o := compareOne(t, pot40(), one(left), fall(21.1))
		near(t, "centre to 21.1 °C", usualS(t, o, 21.1), c.to21*hour, 1e-2)
		short := compareOne(t, pot40(), Plan{[]Stage{{Way: left, UntilC: 21.1, AtMostS: 2 * hour}, {Way: left}}}, fall(21.1))
		if got := short.Stages[0].EndC; math.Abs(got-57.2) > 0.05 {
			t.Errorf("centre after 2 h: %g, want 57.2", got)
		}
		gone := short.Stages[0].Taken.MediumJ
		if mean := 57.2 - gone/potHeatJ; math.Abs(mean-c.mean2h) > 0.3 {
			t.Errorf("mean after 2 h: %g, want %g", mean, c.mean2h)
		}
	}
}
