package cooling

import (
	"testing"

	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/medium"
)

// An invented kitchen: 30 US gal of thick stew at 200 °F, two pots, three racks of hotel pans, ice, a walk-in and a blast chiller.
func stew() Food { return Food{MassKg: 0.11356 * 1030, Props: soup, StartC: 93.3, AddedWaterKg: 25} }

func film(id string) medium.Film {
	m, _ := medium.Find(id)
	return m.Film
}

var (
	thickWall = medium.Film{LowWM2K: 60, UsualWM2K: 100, HighWM2K: 160} // stirred and scraped, through steel, into moving ice water
	panWork   = Work{SetUpS: 120, Tend: 0.02}
	potWork   = Work{SetUpS: 300, Tend: 0.5}
)

func hotelPans(depthM float64) Pans {
	return Pans{Work: panWork, LengthM: 0.5, WidthM: 0.3, DepthM: depthM, Have: 54,
		Top: film("walk-in-fan"), Bottom: medium.Film{LowWM2K: 8, UsualWM2K: 12, HighWM2K: 18}, AirC: 3}
}

func stewPot() Pot {
	return Pot{Work: potWork, DiameterM: 0.5, FillM3: 0.07, Have: 2, Wall: thickWall,
		Bath: Bath{Ice: ToppedUp, TempC: 0.5, WaterKg: 80, WaterC: 15, LossWK: 20, AmbientC: 24},
		Top:  film("room-air"), AirC: 24}
}

func ways() []Plan {
	shallow, deep := hotelPans(0.025), hotelPans(0.0635)
	open := hotelPans(0.0508)
	open.Wet = 0.8
	small := hotelPans(0.0381)
	small.CoolingW = 3000
	blast := Pans{Work: panWork, LengthM: 0.5, WidthM: 0.3, DepthM: 0.0508, Have: 20,
		Top: film("blast-chiller"), Bottom: film("blast-chiller"), AirC: -10, CoolingW: 8000}
	bath := stewPot()
	paddles := stewPot()
	paddles.Paddles = Paddles{Have: 4, Together: 1, WaterKg: 3.6, AreaM2: 0.2,
		Film: medium.Film{LowWM2K: 100, UsualWM2K: 200, HighWM2K: 300}, StartC: -18, ChangeS: 60}
	once := stewPot()
	once.Bath.Ice, once.Bath.IceKg = OnceOnly, 80
	left := PotLeft{DiameterM: 0.5, FillM3: 0.07, Have: 2, Side: film("still-air"), Top: film("still-air"), Bottom: film("still-air"), AirC: 3}
	ice := HeldIce{Work: Work{SetUpS: 300}, Share: 0.9, IceC: -10, MeltS: 600}
	return []Plan{
		one(shallow), one(deep), one(open), one(small), one(blast), one(bath), one(paddles), one(once), one(left),
		{[]Stage{{Way: bath, UntilC: 21}, {Way: hotelPans(0.05)}}},
		{[]Stage{{Way: ice}, {Way: bath}}},
	}
}

// The least work among those with a margin, found again by looking at every option.
func TestRecommend(t *testing.T) {
	options := Compare(stew(), ways(), coolrule.FoodCodeCooked())
	best := Recommend(options)
	if best < 0 || options[best].Verdict != WithinMargin {
		t.Fatalf("recommends %d", best)
	}
	for i, o := range options {
		if o.Err != nil {
			t.Errorf("%d: %v", i, o.Err)
		}
		if o.Verdict == WithinMargin && o.HandsS < options[best].HandsS {
			t.Errorf("%d takes %g s of work, %d %g s", i, o.HandsS, best, options[best].HandsS)
		}
	}
	tight := Option{Verdict: Within, HandsS: 60}
	roomy := Option{Verdict: WithinMargin, HandsS: 6000}
	for _, c := range []struct {
		name    string
		options []Option
		want    int
	}{
		{"a margin is worth the work", []Option{tight, roomy}, 1},
		{"tight is better than nothing", []Option{{Verdict: TooSlow}, tight, {Verdict: NotEnough}}, 1},
		{"none", []Option{{Verdict: TooSlow}, {Verdict: Never}, {}}, -1},
		{"of equal work the quicker", []Option{{Verdict: Within, TimeS: 2}, {Verdict: Within, TimeS: 1}}, 1},
		{"nothing to choose from", nil, -1},
	} {
		if got := Recommend(c.options); got != c.want {
			t.Errorf("%s: %d, want %d", c.name, got, c.want)
		}
	}
}

// Olds and Sneed 2005, Journal of Child Nutrition & Management 29(1), abstract (read): chili in 2.5 and 4 in pans and in a 3 gal pot did not
// meet the limits in a walk-in; only the blast chiller brought it from 135 to 70 °F in 2 h.
func TestChiliStudy(t *testing.T) {
	rule := coolrule.FoodCodeCooked()
	food := Food{MassKg: 11, Props: soup, StartC: 75}
	for _, inch := range []float64{2.5, 4} {
		p := hotelPans(inch * 0.0254)
		p.Top, p.Bottom = film("still-air"), film("still-air")
		if o := compareOne(t, food, one(p), rule); o.Verdict != TooSlow {
			t.Errorf("%g in in a walk-in: %v", inch, o.Verdict)
		}
	}
	left := PotLeft{DiameterM: 0.25, FillM3: 0.0115, Have: 1, Side: film("still-air"), Top: film("still-air"), Bottom: film("still-air"), AirC: 3}
	if o := compareOne(t, food, one(left), rule); o.Verdict != TooSlow {
		t.Errorf("3 gal pot in a walk-in: %v", o.Verdict)
	}
	blast := hotelPans(2.5 * 0.0254)
	blast.Top, blast.Bottom, blast.AirC = film("blast-chiller"), film("blast-chiller"), -10
	o := compareOne(t, food, one(blast), rule)
	if s := o.UsualRule.Stages[0]; s.Outcome != coolrule.WithinRule {
		t.Errorf("2.5 in in a blast chiller: 135 to 70 °F takes %g h", s.TookS/hour)
	}
}

// What would fit is followed again: a little more of it does not.
func TestFitIsTheLimit(t *testing.T) {
	rule := coolrule.FoodCodeCooked()
	within := func(f Food, p Plan) bool {
		o := compareOne(t, f, p, rule)
		return o.LowRule.Outcome == coolrule.WithinRule
	}
	deep := hotelPans(0.0635)
	o := compareOne(t, stew(), one(deep), rule)
	if o.Verdict != TooSlow || o.Fit.LateS <= 0 {
		t.Errorf("2.5 in in a walk-in: %v, late by %g s", o.Verdict, o.Fit.LateS)
	}
	deep.DepthM = o.Fit.DeepestM
	if !within(stew(), one(deep)) {
		t.Errorf("%g m is not in time", deep.DepthM)
	}
	if need := deep.vessels(stew()).Need; need != o.Fit.Pans {
		t.Errorf("%d pans, want %d", o.Fit.Pans, need)
	}
	deep.DepthM *= 1.06
	if within(stew(), one(deep)) {
		t.Errorf("%g m is in time, too", deep.DepthM)
	}

	pot := stewPot()
	pot.Bath.Ice, pot.Bath.IceKg = OnceOnly, 80
	o = compareOne(t, stew(), one(pot), rule)
	if o.Verdict == WithinMargin || o.Fit.IceKg <= 80 || o.Fit.LoadKg <= 0 {
		t.Fatalf("80 kg of ice: %v, %+v", o.Verdict, o.Fit)
	}
	less := stew()
	less.MassKg = o.Fit.LoadKg
	halves := pot // it is spread over both pots
	halves.FillM3 = 0.51 * less.volumeM3()
	if !within(less, one(halves)) {
		t.Errorf("%g kg are not in time", less.MassKg)
	}
	less.MassKg *= 1.02
	halves.FillM3 *= 1.02
	if within(less, one(halves)) {
		t.Errorf("%g kg are in time, too", less.MassKg)
	}
	pot.Bath.IceKg = o.Fit.IceKg
	if !within(stew(), one(pot)) {
		t.Errorf("%g kg of ice do not do", o.Fit.IceKg)
	}
	pot.Bath.IceKg *= 0.97
	if within(stew(), one(pot)) {
		t.Errorf("%g kg of ice do, too", pot.Bath.IceKg)
	}
}

func TestWhatIsShort(t *testing.T) {
	rule := coolrule.FoodCodeCooked()
	pans, ice, paddles := hotelPans(0.025), stewPot(), stewPot()
	pans.Have = 10
	ice.Bath.IceKg = 100
	paddles.Paddles = Paddles{Have: 1, Together: 1, WaterKg: 3.6, AreaM2: 0.2, Film: same(200), StartC: -18}
	for _, c := range []struct {
		name string
		way  Way
		want Short
	}{{"10 pans", pans, ShortOfVessels}, {"100 kg of ice", ice, ShortOfIce}, {"one paddle for two pots", paddles, ShortOfPaddles}} {
		o := compareOne(t, stew(), one(c.way), rule)
		if o.Verdict != NotEnough || o.Short != c.want || o.Fit.LoadKg >= stew().MassKg || c.want != ShortOfPaddles && o.Fit.LoadKg <= 0 {
			t.Errorf("%s: %v, short of %v, fits %g kg", c.name, o.Verdict, o.Short, o.Fit.LoadKg)
		}
	}
}

// Pans that are put in together in a cabinet with little power: its air warms, and it never takes out more than the machine can.
func TestCabinetWarms(t *testing.T) {
	free, loaded := hotelPans(0.0381), hotelPans(0.0381)
	loaded.CoolingW = 3000
	a := compareOne(t, stew(), one(free), coolrule.FoodCodeCooked())
	b := compareOne(t, stew(), one(loaded), coolrule.FoodCodeCooked())
	if b.TimeS <= a.TimeS || b.Stages[0].Formula != SharedAir || a.Stages[0].Formula != FiniteVolume {
		t.Errorf("%g s by %v, %g s by %v", b.TimeS, b.Stages[0].Formula, a.TimeS, a.Stages[0].Formula)
	}
	if b.HeatJ-3000*b.TimeS > rackHeatJK*60 {
		t.Errorf("%g J in %g s are more than 3 kW", b.HeatJ, b.TimeS)
	}
	if !warned(b, AirWarms) || warned(a, AirWarms) {
		t.Errorf("cautions %v, and with enough power %v", b.Cautions, a.Cautions)
	}
}

func warned(o Option, code Code) bool {
	for _, c := range o.Cautions {
		if c.Code == code {
			return true
		}
	}
	return false
}

func TestStages(t *testing.T) {
	rule := coolrule.FoodCodeCooked()
	bath, pans := stewPot(), hotelPans(0.02)
	o := compareOne(t, stew(), Plan{[]Stage{{Way: bath, UntilC: 30}, {Way: pans}}}, rule)
	first, second := o.Stages[0], o.Stages[1]
	near(t, "end of the first", first.EndC, 30, 1e-9)
	near(t, "begin of the second", second.StartS, first.TimeS+float64(second.Need)*pans.SetUpS, 1e-9)
	near(t, "whole time", o.TimeS, second.StartS+second.TimeS, 1e-9)
	near(t, "work", o.HandsS, 2*bath.SetUpS+bath.Tend*first.TimeS+float64(second.Need)*pans.SetUpS+pans.Tend*second.TimeS, 1e-9)

	o = compareOne(t, stew(), Plan{[]Stage{{Way: pans, UntilC: 60}, {Way: bath, UntilC: 70}, {Way: bath}}}, rule)
	if !warned(o, StageSkipped) || !warned(o, FromHottest) || o.Stages[1].Need != 0 || o.Stages[1].HandsS != 0 {
		t.Errorf("a stage that ends warmer than it begins: %v, %+v", o.Cautions, o.Stages[1])
	}
	// A first stage that would last for ever is left when its time is over.
	room := Pot{DiameterM: 0.5, FillM3: 0.2, Have: 1, Top: film("room-air"), AirC: 24, Bath: Bath{TempC: 24}}
	if o = compareOne(t, stew(), Plan{[]Stage{{Way: room, UntilC: 21}, {Way: bath}}}, rule); o.Verdict != Never {
		t.Errorf("waiting for room air to reach 21 °C: %v", o.Verdict)
	}
	if o = compareOne(t, stew(), Plan{[]Stage{{Way: room, UntilC: 21, AtMostS: hour}, {Way: bath}}}, rule); o.Verdict != WithinMargin {
		t.Errorf("an hour in the room first, well above 135 °F: %v", o.Verdict)
	}
}

func BenchmarkCompare(b *testing.B) {
	plans := ways()
	for b.Loop() {
		Compare(stew(), plans, coolrule.FoodCodeCooked())
	}
}

// Judge says of every plan what Compare says, but for what would make it fit.
func TestJudgeIsCompareWithoutFit(t *testing.T) {
	f, plans, rule := stew(), ways(), coolrule.FoodCodeCooked()
	quick := Judge(f, plans, rule)
	for i, o := range Compare(f, plans, rule) {
		if quick[i].Verdict != o.Verdict || quick[i].TimeS != o.TimeS || quick[i].Fit != (Fit{}) {
			t.Errorf("plan %d: %s in %g s, judged %s in %g s with %+v", i, o.Verdict, o.TimeS, quick[i].Verdict, quick[i].TimeS, quick[i].Fit)
		}
	}
}
