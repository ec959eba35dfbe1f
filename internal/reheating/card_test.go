package reheating

import (
	"errors"
	"math"
	"testing"

	"kettlefrost/internal/conduction"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
	"kettlefrost/internal/series"
)

func TestVerdicts(t *testing.T) {
	all := cards(t)
	for name, want := range map[string][2]Verdict{
		"thin": {DoneWell, DoneWell}, "thick": {TooThick, TooThick}, "inch": {TooThick, DoneWell}, "uneven": {Uneven, Uneven},
		"small-pot": {WaterDips, DoneWell}, "mountain": {NeverHot, NeverHot},
	} {
		if got := [2]Verdict{all[name].Frozen.Verdict, all[name].Thawed.Verdict}; got != want {
			t.Errorf("%s: %v, want %v", name, got, want)
		}
	}
}

// Water that never gets to 165 °F has no minutes, neither has any of its runs; and 74.5 °C is called too cold as well.
func TestWaterBelowTheTarget(t *testing.T) {
	for _, waterC := range []float64{70, 73.9, 74.5, 78.8} {
		c := must(Make(bag(soup), Water{TempC: waterC}, Options{}))(t)
		if c.Frozen.Verdict != NeverHot || c.Thawed.Verdict != NeverHot || c.FrozenMinutes()+c.ThawedMinutes() != 0 {
			t.Errorf("%g °C: %s and %s", waterC, c.Frozen.Verdict, c.Thawed.Verdict)
		}
	}
}

// A pot that the bag cools for good: 10 W need 10 h for the heat of a frozen bag alone (0.68 kg of 592 kJ/kg, derived in the reference, less
// what 0.3 L of water have), so it is not done in the 6 h for which a bag is followed.
func TestAPotWithoutPower(t *testing.T) {
	thin := bag(soup)
	thin.ThicknessM = 0.015
	c := must(Make(thin, Water{LitresPerBag: 0.3, NetPowerW: 10}, Options{}))(t)
	if c.Frozen.Verdict != NeverHot || c.Frozen.Worst.Reached {
		t.Errorf("%s after %.0f s", c.Frozen.Verdict, c.Frozen.Worst.TimeS)
	}
}

// Thawed food does not change phase, so the exact series of a plane wall holds: to 165 °F, and to 70 °C with two minutes on top, through a
// package as well.
func TestThawedAgainstTheSeries(t *testing.T) {
	for _, c := range []struct{ mm, film, resistance, waterC float64 }{
		{12, 300, 0, 95}, {25.4, 435, 0, 95}, {25.4, 1000, 3e-4, 90}, {40, 200, 0.017, 98},
	} {
		b := bag(soup)
		b.PackageM2KW = c.resistance
		w := must(Water{TempC: c.waterC, Film: one(c.film)}.ready())(t)
		ask := conduction.Ask{CoreC: TargetC, MarksC: []float64{HoldC}, WithinS: followS, Accuracy: conduction.Fine}
		got := must(soak(b, w, c.mm/1000, c.film, Thawed, ask))(t)
		through := 1 / (1/c.film + c.resistance)
		wall := series.Sheet{Solid: heat.Solid{DensityKgM3: 1030, SpecificHeatJKgK: 3850, ConductivityWMK: 0.59}, ThicknessM: c.mm / 1000,
			BottomFilmWM2K: through, TopFilmWM2K: through}
		near(t, "to 165 °F", got.TimeS, must(wall.CoreTimeS(4, c.waterC, TargetC))(t), 2e-3)
		near(t, "70 °C for two minutes", got.HeldTimeS-HoldS, must(wall.CoreTimeS(4, c.waterC, HoldC))(t), 2e-3)
	}
}

func TestPrintedMinutes(t *testing.T) {
	for _, c := range []struct {
		seconds float64
		want    int
	}{
		{0, 0}, {-5, 0}, {math.NaN(), 0}, {1, 1}, {60, 1}, {61, 2}, {900, 15}, {1199, 20}, {1200, 20}, {1201, 25}, {1500, 25}, {2700, 45},
		{2701, 50}, {math.Inf(1), math.MaxInt32},
	} {
		if got := PrintedMinutes(c.seconds); got != c.want {
			t.Errorf("%g s is printed as %d min, want %d", c.seconds, got, c.want)
		}
	}
}

// The drawing starts at the start and ends at the end.
func TestCurve(t *testing.T) {
	h := must(Make(bag(soup), Water{}, Options{}))(t).Thawed
	for _, r := range []Run{h.Worst, h.Nominal} {
		first, last := r.Points[0], r.Points[len(r.Points)-1]
		if first.TimeS != 0 || first.CoreC != 4 || math.Abs(last.TimeS-r.TimeS) > 1 || math.Abs(last.CoreC-TargetC) > 0.5 || len(r.Profiles) < 3 {
			t.Errorf("from %+v to %+v, %d profiles", first, last, len(r.Profiles))
		}
	}
	if h.Low.Points != nil || h.Thin.Profiles != nil {
		t.Error("runs that are not drawn carry their points")
	}
}

func TestBadInput(t *testing.T) {
	nan := math.NaN()
	for name, make := range map[string]func(*Bag, *Water, *Options){
		"no bag":              func(b *Bag, _ *Water, _ *Options) { *b = Bag{} },
		"no food":             func(b *Bag, _ *Water, _ *Options) { b.Food = heat.FreezingFood{} },
		"no mass":             func(b *Bag, _ *Water, _ *Options) { b.MassKg = 0 },
		"mass is no number":   func(b *Bag, _ *Water, _ *Options) { b.MassKg = nan },
		"no thickness":        func(b *Bag, _ *Water, _ *Options) { b.ThicknessM = 0 },
		"infinitely thick":    func(b *Bag, _ *Water, _ *Options) { b.ThicknessM = math.Inf(1) },
		"thin above nominal":  func(b *Bag, _ *Water, _ *Options) { b.ThinM = 0.03 },
		"thick below nominal": func(b *Bag, _ *Water, _ *Options) { b.ThickM = 0.02 },
		"negative package":    func(b *Bag, _ *Water, _ *Options) { b.PackageM2KW = -1 },
		"water is no number":  func(_ *Bag, w *Water, _ *Options) { w.TempC = nan },
		"water above boiling": func(_ *Bag, w *Water, _ *Options) { w.TempC = 120 },
		"film falls":          func(_ *Bag, w *Water, _ *Options) { w.Film = medium.Film{LowWM2K: 500, UsualWM2K: 400, HighWM2K: 600} },
		"film half given":     func(_ *Bag, w *Water, _ *Options) { w.Film.UsualWM2K = 400 },
		"power without water": func(_ *Bag, w *Water, _ *Options) { w.NetPowerW = 2000 },
		"negative water":      func(_ *Bag, w *Water, _ *Options) { w.LitresPerBag = -2 },
		"negative bags":       func(_ *Bag, w *Water, _ *Options) { w.Bags = -1 },
		"negative margin":     func(_ *Bag, _ *Water, o *Options) { o.MarginShare = -0.1 },
		"limit is no number":  func(_ *Bag, _ *Water, o *Options) { o.LimitS = nan },
		"spread below one":    func(_ *Bag, _ *Water, o *Options) { o.SpreadLimit = 0.5 },
	} {
		b, w, o := bag(soup), Water{}, Options{}
		make(&b, &w, &o)
		_, err := Make(b, w, o)
		var out *heat.RangeError
		if !errors.As(err, &out) {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, minutes := range []float64{0, -1, nan, 1e6} {
		if _, err := ThicknessFor(minutes, Frozen, bag(soup), Water{}); err == nil {
			t.Errorf("a thickness for %g min", minutes)
		}
	}
	if _, err := ThicknessFor(15, Start(7), bag(soup), Water{}); err == nil {
		t.Error("a thickness from no start")
	}
	for _, p := range []ThawPlace{{TempC: 10}, {Water: true, TempC: 25}, {TempC: nan}, {TempC: 4, ToC: -2}, {TempC: 4, ToC: 6}} {
		if _, err := ThawIn(bag(soup), p); err == nil {
			t.Errorf("thaws in %+v", p)
		}
	}
}

// Bounds of the habit: a minute does for no frozen bag of a millimetre in poor water, and four hours do not make 0.2 m.
func TestHabitAtItsEnds(t *testing.T) {
	if got := must(ThicknessFor(1, Frozen, bag(soup), Water{TempC: 80, Film: one(20)}))(t); got.UsualFilmM != 0 {
		t.Errorf("1 min in poor water does for %g m", got.UsualFilmM)
	}
	if got := must(ThicknessFor(240, Frozen, bag(soup), Water{TempC: 70}))(t); got != (Thickest{}) {
		t.Errorf("water of 70 °C does for %v", got)
	}
}
