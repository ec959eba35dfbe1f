package cooling

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/medium"
	"kettlefrost/internal/vessel"
)

// Newton's law and the open vessel of package heat are formulas of their own: the march agrees with them.
func TestMarchAgreesWithFormulas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		food := Food{MassKg: rapid.Float64Range(5, 200).Draw(t, "kg"), Props: soup, StartC: rapid.Float64Range(40, 99).Draw(t, "start")}
		pot := Pot{DiameterM: rapid.Float64Range(0.2, 0.8).Draw(t, "diameter"), FillM3: 1, Have: 1, Wall: same(rapid.Float64Range(5, 500).Draw(t, "wall"))}
		pot.Bath.TempC = rapid.Float64Range(0, 15).Draw(t, "bath")
		v := vessel.Vessel{HeatCapacityJK: food.heatJK(), LossWK: pot.Wall.UsualWM2K * pot.wetM2(food, 1)}
		want, err := v.TimeS(food.StartC, pot.Bath.TempC, 21.1)
		if err != nil {
			t.Fatal(err)
		}
		closeTo(t, "bath", Compare(food, []Plan{one(pot)}, fall(21.1))[0].TimeS, want, 1e-3)

		pot.Top, pot.AirC, pot.Wet = same(10), pot.Bath.TempC, rapid.Float64Range(0, 1).Draw(t, "wet")
		v.LossWK += 10 * circleM2(pot.DiameterM)
		open, err := vessel.Open{Vessel: v, OpenAreaM2: circleM2(pot.DiameterM), Wet: pot.Wet}.To(vessel.Heater{}, food.StartC, pot.AirC, 21.1)
		var evaporated *vessel.EvaporatedError
		if errors.As(err, &evaporated) {
			t.Skip("so much would evaporate that the formula gives no answer")
		}
		if err != nil {
			t.Fatal(err)
		}
		closeTo(t, "open", Compare(food, []Plan{one(pot)}, fall(21.1))[0].TimeS, open.TimeS, 1e-3)
	})
}

func closeTo(t *rapid.T, what string, got, want, share float64) {
	if !(math.Abs(got-want) <= share*math.Abs(want)) {
		t.Fatalf("%s: %.8g, want %.8g within %g %%", what, got, want, 100*share)
	}
}

func drawFilm(t *rapid.T, what string, low, high float64) medium.Film {
	a := rapid.Float64Range(low, high).Draw(t, what)
	b := rapid.Float64Range(1, 2).Draw(t, what+" usual/low")
	c := rapid.Float64Range(1, 2).Draw(t, what+" high/usual")
	return medium.Film{LowWM2K: a, UsualWM2K: a * b, HighWM2K: a * b * c}
}

func drawFood(t *rapid.T) Food {
	kg := rapid.Float64Range(2, 150).Draw(t, "kg")
	return Food{MassKg: kg, Props: soup, StartC: rapid.Float64Range(58, 100).Draw(t, "start"), AddedWaterKg: kg * rapid.Float64Range(0, 0.4).Draw(t, "water")}
}

func drawPans(t *rapid.T) Pans {
	return Pans{Work: Work{60, 0.1}, LengthM: 0.5, WidthM: 0.3, DepthM: rapid.Float64Range(0.01, 0.1).Draw(t, "depth"), Have: 40,
		Top: drawFilm(t, "top", 5, 50), Bottom: drawFilm(t, "bottom", 5, 50), AirC: rapid.Float64Range(-30, 4).Draw(t, "air"),
		Wet: rapid.SampledFrom([]float64{0, 0.5, 1}).Draw(t, "wet"), CoolingW: rapid.SampledFrom([]float64{0, 0, 2000, 20000}).Draw(t, "cooling")}
}

func drawPot(t *rapid.T) Pot {
	p := Pot{Work: Work{60, 0.5}, DiameterM: rapid.Float64Range(0.2, 0.7).Draw(t, "diameter"), FillM3: 0.08, Have: 2, Wall: drawFilm(t, "wall", 30, 300),
		Top: drawFilm(t, "lid", 4, 12), AirC: rapid.Float64Range(-5, 4).Draw(t, "air"), Wet: rapid.Float64Range(0, 1).Draw(t, "wet")}
	p.Bath = Bath{Ice: Ice(rapid.IntRange(0, 2).Draw(t, "ice")), TempC: rapid.Float64Range(0, 4).Draw(t, "bath"),
		IceC:    rapid.Float64Range(-20, 0).Draw(t, "ice temperature"),
		WaterKg: 40, WaterC: 15, LossWK: rapid.Float64Range(0, 50).Draw(t, "loss"), AmbientC: 25}
	if p.Bath.Ice == OnceOnly {
		p.Bath.IceKg = rapid.Float64Range(0, 300).Draw(t, "ice kg")
	}
	if rapid.Bool().Draw(t, "paddles") {
		p.Paddles = Paddles{Have: rapid.IntRange(1, 12).Draw(t, "have"), Together: rapid.IntRange(1, 3).Draw(t, "together"), WaterKg: 3.6,
			AreaM2: 0.2, Film: same(200), StartC: -18,
			RefreezeS: rapid.SampledFrom([]float64{0, 86400}).Draw(t, "refreeze"), ChangeS: 30}
	}
	return p
}

func drawPlan(t *rapid.T) Plan {
	var stages []Stage
	if rapid.Bool().Draw(t, "own ice") {
		stages = append(stages, Stage{Way: HeldIce{Work: Work{60, 1}, Share: rapid.Float64Range(0, 1).Draw(t, "share"), IceC: -10, MeltS: 300}})
	}
	for range rapid.IntRange(1, 2).Draw(t, "stages") {
		s := Stage{UntilC: rapid.Float64Range(10, 70).Draw(t, "until"), AtMostS: rapid.SampledFrom([]float64{0, 3600}).Draw(t, "at most")}
		if rapid.Bool().Draw(t, "pans") {
			s.Way = drawPans(t)
		} else {
			s.Way = drawPot(t)
		}
		stages = append(stages, s)
	}
	return Plan{stages}
}

// Whatever is planned: a better film is never slower, the three verdicts agree, temperatures pass in order, and the heat that
// was taken is the heat that the food has lost.
func TestEveryPlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		food, plan := drawFood(t), drawPlan(t)
		o := Compare(food, []Plan{plan}, coolrule.FoodCodeCooked())[0]
		if o.Err != nil {
			t.Fatal(o.Err)
		}
		sound(t, plan, o)
		balanced(t, food, plan, o)
	})
}

func balanced(t *rapid.T, food Food, plan Plan, o Option) {
	endMeanC := o.Curve[len(o.Curve)-1].MeanC
	if o.Verdict == Never {
		return // the curve ends before what was followed
	}
	lost, err := food.Props.HeatJKg(food.StartC, endMeanC)
	if err != nil {
		t.Fatal(err)
	}
	want := food.MassKg * lost
	ownIceKg := 0.0
	if _, ok := plan.Stages[0].Way.(HeldIce); ok {
		ownIceKg = o.Stages[0].IceKg
		// The water that was held back has not been hot: what the rest gave off while the ice melted is what the ice took up.
		uptake, err := vessel.IceUptakeJKg(-10, o.Stages[0].EndC)
		if err != nil {
			t.Fatal(err)
		}
		if ownIceKg > 1e-3 {
			closeTo(t, "heat of the own ice", o.Taken.OwnIceJ, ownIceKg*uptake, 1e-6)
		}
		want -= food.MassKg*food.Props.UnfrozenHeatJKgK*(food.StartC-o.Stages[0].EndC) - o.Taken.OwnIceJ
	}
	for i := 1; i < len(plan.Stages); i++ {
		if !plan.Stages[i-1].Way.stirs() && o.Stages[i-1].Need > 0 && o.Stages[i].Need > 0 {
			return // the second stage counts from the hottest point, which is more heat than there is
		}
	}
	closeTo(t, "heat", o.HeatJ, want, 1e-5)
}

// ordered says that a better film must be faster. In a bath without ice to melt it need not be: the better wall warms the bath more, and the bath
// then keeps the food warm while a lid in cold air would cool it. Nor in air that the pans share: what one face gives off warms what the other
// face meets.
func ordered(plan Plan) bool {
	for _, s := range plan.Stages {
		if p, ok := s.Way.(Pot); ok && p.Bath.Ice == OnceOnly {
			return false
		}
		if p, ok := s.Way.(Pans); ok && p.CoolingW > 0 {
			return false
		}
	}
	return true
}

func changesPaddles(plan Plan) bool {
	for _, s := range plan.Stages {
		if p, ok := s.Way.(Pot); ok && p.Paddles.Have > 0 {
			return true
		}
	}
	return false
}

// sound is what holds for every option that was computed.
func sound(t *rapid.T, plan Plan, o Option) {
	tolerance := 1.01 // of the simulation's times
	if changesPaddles(plan) {
		tolerance = 1.05 // when a paddle is changed shifts by its own melting
	}
	for i, m := range o.To {
		if ordered(plan) && (m.Usual.Reached && (!m.High.Reached || m.High.TimeS > tolerance*m.Usual.TimeS+1) || m.Low.Reached && (!m.Usual.Reached || m.Usual.TimeS > tolerance*m.Low.TimeS+1)) {
			t.Fatalf("%g °C: low %+v, usual %+v, high %+v", m.TempC, m.Low, m.Usual, m.High)
		}
		if i > 0 && m.Usual.Reached && (!o.To[i-1].Usual.Reached || o.To[i-1].Usual.TimeS > m.Usual.TimeS) {
			t.Fatalf("%g °C before %g °C", m.TempC, o.To[i-1].TempC)
		}
	}
	in := func(v coolrule.Verdict) bool { return v.Outcome == coolrule.WithinRule }
	if o.Verdict == WithinMargin && !(in(o.LowRule) && in(o.UsualRule) && in(o.HighRule)) || o.Verdict == Within && !in(o.UsualRule) || o.Verdict == TooSlow && in(o.UsualRule) {
		t.Fatalf("%v, but low %v, usual %v, high %v", o.Verdict, o.LowRule.Outcome, o.UsualRule.Outcome, o.HighRule.Outcome)
	}
	if (o.Verdict >= Within) != (in(o.UsualRule) && o.Short == NothingShort) {
		t.Fatalf("%v, usual %v, short of %v", o.Verdict, o.UsualRule.Outcome, o.Short)
	}
	for i := 1; i < len(o.Curve); i++ {
		if o.Curve[i].TimeS < o.Curve[i-1].TimeS || o.Curve[i].CoreC > o.Curve[i-1].CoreC+1e-6 {
			t.Fatalf("the curve goes back: %+v, %+v", o.Curve[i-1], o.Curve[i])
		}
	}
}

func TestDeeperIsNeverSooner(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		food, shallow := drawFood(t), drawPans(t)
		shallow.CoolingW = 0
		deep := shallow
		deep.DepthM *= rapid.Float64Range(1.02, 3).Draw(t, "deeper")
		o := Compare(food, []Plan{one(shallow), one(deep)}, coolrule.FoodCodeCooked())
		for i := range o[0].To {
			if a, b := o[0].To[i].Usual, o[1].To[i].Usual; b.Reached && (!a.Reached || a.TimeS > b.TimeS) {
				t.Fatalf("%g °C: %+v, deeper %+v", o[0].To[i].TempC, a, b)
			}
		}
	})
}

// Calorimetry: ice in a bath of a given size and the food end at one temperature if one waits; a colder end is never reached, a warmer one
// is. The room gives nothing.
func TestBathEndsAtTheMixture(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		food := drawFood(t)
		iceKg, waterKg := food.MassKg*rapid.Float64Range(0.1, 1.5).Draw(t, "ice/food"), food.MassKg*rapid.Float64Range(0, 1).Draw(t, "water/food")
		pot := Pot{DiameterM: 0.4, FillM3: 1, Have: 1, Wall: same(200), Bath: Bath{Ice: OnceOnly, IceKg: iceKg, IceC: -5, WaterKg: waterKg, WaterC: 12}}
		mixC := (food.MassKg*3850*food.StartC + waterKg*4186*12 - iceKg*(333.6e3+2050*5)) / (food.MassKg*3850 + (waterKg+iceKg)*4186)
		if mixC < 2 {
			t.Skip("ice would be left, and the mixture is not at one temperature that is easily told")
		}
		o := Compare(food, []Plan{one(pot), one(pot)}, fall(mixC-0.5))[0]
		if o.Verdict != Never {
			t.Fatalf("mixes at %g °C, but half a kelvin below is %v", mixC, o.Verdict)
		}
		o = Compare(food, []Plan{one(pot)}, fall(mixC+0.5))[0]
		if o.Verdict != WithinMargin {
			t.Fatalf("mixes at %g °C, but half a kelvin above is %v", mixC, o.Verdict)
		}
	})
}

// Just above the freezing point of the food a pot is computed by the exact series, just below by finite volumes: two codes, one answer.
func TestPotLeftByTwoFormulas(t *testing.T) {
	left := PotLeft{DiameterM: 0.3, FillM3: 0.05, Have: 1, Side: same(12), Top: same(10), Bottom: same(6), AirC: -0.79}
	food := Food{MassKg: 30, Props: soup, StartC: 80}
	series := compareOne(t, food, one(left), fall(21.1, 5))
	left.AirC = -0.81
	volumes := compareOne(t, food, one(left), fall(21.1, 5))
	if series.Stages[0].Formula != PotSeries || volumes.Stages[0].Formula != FiniteVolume {
		t.Errorf("%v and %v", series.Stages[0].Formula, volumes.Stages[0].Formula)
	}
	for _, c := range []float64{21.1, 5} {
		near(t, "finite volumes against series", usualS(t, volumes, c), usualS(t, series, c), 1e-2)
	}
	near(t, "heat", volumes.HeatJ, series.HeatJ, 1e-2)
}

// School calorimetry: 1 kg of ice at 0 °C in 4 kg of water at 80 °C ends at (4·80·4.186 - 333.6)/(5·4.186) = 48.06 °C.
func TestOwnIceMixture(t *testing.T) {
	water := soup
	water.UnfrozenHeatJKgK = 4186
	food := Food{MassKg: 5, Props: water, StartC: 80, AddedWaterKg: 1}
	o := compareOne(t, food, one(HeldIce{Share: 1}), fall(50))
	if o.Verdict != WithinMargin {
		t.Errorf("to 50 °C: %v", o.Verdict)
	}
	o = compareOne(t, food, one(HeldIce{Share: 1}), fall(20))
	if got := o.Stages[0].EndC; math.Abs(got-48.06) > 0.01 || o.Verdict != Never {
		t.Errorf("ends at %g °C, %v", got, o.Verdict)
	}
	if !warned(o, CookedThicker) || !warned(o, IceIsFood) || warned(o, LessIce) {
		t.Errorf("cautions %v", o.Cautions)
	}
}

// A medium that is not colder than the end: never, by every way.
func TestWarmMedium(t *testing.T) {
	rule := coolrule.FoodCodeCooked()
	pans, pot := hotelPans(0.05), stewPot()
	pans.AirC = 5.1
	pot.Bath, pot.AirC = Bath{TempC: 15}, 20
	left := PotLeft{DiameterM: 0.5, FillM3: 0.07, Have: 2, Side: same(10), Top: same(10), Bottom: same(10), AirC: 8}
	overloaded := pans
	overloaded.CoolingW = 2000
	for i, o := range Compare(stew(), []Plan{one(pans), one(pot), one(left), one(overloaded)}, rule) {
		if o.Err != nil || o.Verdict != Never || o.Fit.LoadKg != 0 || o.Fit.DeepestM != 0 {
			t.Errorf("%d: %v, %v, %+v", i, o.Verdict, o.Err, o.Fit)
		}
	}
}
