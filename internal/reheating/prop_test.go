package reheating

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/conduction"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
)

func someBag(t *rapid.T) Bag {
	f := heat.FreezingFood{
		DensityKgM3:             rapid.Float64Range(950, 1150).Draw(t, "density"),
		UnfrozenHeatJKgK:        rapid.Float64Range(2800, 4100).Draw(t, "cu"),
		FrozenHeatJKgK:          rapid.Float64Range(1800, 2400).Draw(t, "cf"),
		FreezableJKg:            rapid.Float64Range(120e3, 320e3).Draw(t, "A"),
		FreezingPointC:          rapid.Float64Range(-4, -0.2).Draw(t, "tf"),
		UnfrozenConductivityWMK: rapid.Float64Range(0.3, 0.62).Draw(t, "ku"),
		FrozenConductivityWMK:   rapid.Float64Range(0.8, 2.2).Draw(t, "kf"),
	}
	kg, thicknessM := rapid.Float64Range(0.2, 2).Draw(t, "kg"), rapid.Float64Range(0.006, 0.06).Draw(t, "thickness")
	return Bag{Food: f, MassKg: kg, ThicknessM: thicknessM}
}

func someWater(t *rapid.T) Water {
	low := rapid.Float64Range(100, 400).Draw(t, "low")
	usual := low * rapid.Float64Range(1, 2).Draw(t, "usual")
	w := Water{TempC: rapid.Float64Range(60, 99).Draw(t, "water"), Film: medium.Film{LowWM2K: low, UsualWM2K: usual, HighWM2K: 4 * low}}
	if rapid.Bool().Draw(t, "pot") {
		w.Bags, w.LitresPerBag = rapid.IntRange(1, 8).Draw(t, "bags"), rapid.Float64Range(0.5, 6).Draw(t, "litres")
		w.NetPowerW = rapid.Float64Range(200, 4000).Draw(t, "power")
	}
	return w
}

// What every card must hold.
func TestEveryCard(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, err := Make(someBag(t), someWater(t), Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, h := range []Heating{c.Frozen, c.Thawed} {
			checkHeating(t, c, h)
		}
		if f, w := c.Frozen.Worst, c.Thawed.Worst; f.Reached && w.Reached && w.TimeS >= f.TimeS {
			t.Errorf("thawed takes %g s, frozen %g s", w.TimeS, f.TimeS)
		}
	})
}

func checkHeating(t *rapid.T, c Card, h Heating) {
	if (h.Minutes > 0) != (h.Verdict == DoneWell) {
		t.Errorf("%s with %d minutes", h.Verdict, h.Minutes)
	}
	if h.Minutes > 0 && float64(60*h.Minutes) < h.Worst.TimeS*(1+c.Options.MarginShare)*(1-1e-9) {
		t.Errorf("prints %d min, worst case %g s", h.Minutes, h.Worst.TimeS)
	}
	if h.Verdict == DoneWell && (!h.Worst.Reached || h.Worst.TimeS > c.Options.LimitS || c.Water.TempC <= TargetC) {
		t.Errorf("done well in water of %g °C: %+v", c.Water.TempC, h.Worst.light())
	}
	for _, r := range []Run{h.Worst, h.Nominal, h.Low, h.High, h.Thin, h.Thick} {
		if math.IsNaN(r.TimeS) || r.TimeS < 0 || r.TimeS > followS*1.01 || math.IsNaN(r.HeldTimeS) || math.IsNaN(r.LowestWaterC) {
			t.Errorf("run %+v", r.light())
		}
		if r.Reached && r.TimeS > h.Worst.TimeS*1.005 {
			t.Errorf("a run of %g s is worse than the worst, %g s", r.TimeS, h.Worst.TimeS)
		}
	}
	for _, r := range []Run{h.Worst, h.Nominal} { // HeldTimeS counts on it
		for i := 1; i < len(r.Points); i++ {
			if r.Points[i].CoreC < r.Points[i-1].CoreC-0.05 {
				t.Errorf("the coldest point cools from %g to %g °C", r.Points[i-1].CoreC, r.Points[i].CoreC)
			}
		}
	}
	if h.High.Reached && h.Low.Reached && h.High.TimeS > h.Low.TimeS*1.005 {
		t.Errorf("more film is slower: %g and %g s", h.High.TimeS, h.Low.TimeS)
	}
}

// Thicker is never sooner, hotter water and more of it never later, a further package never faster.
func TestWhatMakesItSlower(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := someBag(t)
		w, err := someWater(t).ready()
		if err != nil {
			t.Fatal(err)
		}
		w.TempC = max(w.TempC, 80)
		s := Start(rapid.IntRange(0, 1).Draw(t, "start"))
		at := func(b Bag, w Water, thicknessM float64) float64 {
			r, err := soak(b, w, thicknessM, w.Film.UsualWM2K, s, conduction.Ask{CoreC: TargetC, WithinS: followS})
			if err != nil {
				t.Fatal(err)
			}
			if !r.Reached {
				return math.Inf(1)
			}
			return r.TimeS
		}
		base := at(b, w, b.ThicknessM)
		slack := 1.0
		if w.dips() { // when the burner alone decides, nothing of the bag changes the time by more than the 1 % of the simulation
			slack = 0.99
		}
		if thick := at(b, w, b.ThicknessM*1.05); thick < base*slack {
			t.Errorf("thicker is sooner: %g and %g s", base, thick)
		}
		hotter := w
		hotter.TempC++
		if hot := at(b, hotter, b.ThicknessM); hot > base/slack {
			t.Errorf("hotter is later: %g and %g s", base, hot)
		}
		if w.dips() {
			more := w
			more.LitresPerBag *= 1.5
			more.NetPowerW *= 1.5
			if m := at(b, more, b.ThicknessM); m > base/slack {
				t.Errorf("more water and power is later: %g and %g s", base, m)
			}
		}
		wrapped := b
		wrapped.PackageM2KW = 5e-4
		if wrap := at(wrapped, w, b.ThicknessM); wrap < base*slack {
			t.Errorf("wrapped is sooner: %g and %g s", base, wrap)
		}
	})
}

func FuzzCard(f *testing.F) {
	f.Add(0.68, 0.0254, 0.0, 0.0, 0.0, 95.0, 200.0, 435.0, 1000.0, 0.0, 0, 0.0, 0.1, 2700.0, 3.0, 1030.0, 282e3, -0.8)
	f.Add(0.3, 0.012, 0.01, 0.02, 3e-4, 70.0, 1.0, 2.0, 3.0, 2.5, 4, 2500.0, 1.0, 60.0, 1.0, 900.0, 0.0, -15.0)
	f.Add(25.0, 0.2, 0.0005, 0.4, 0.5, 100.0, 1e5, 1e5, 1e5, 0.2, 100, 1.0, 0.0, 14400.0, 100.0, 3000.0, 333e3, -0.05)
	f.Fuzz(func(t *testing.T, kg, thick, thinM, thickM, pack, waterC, low, usual, high, litres float64, bags int,
		power, margin, limitS, spread, density, freezable, freezesC float64) {
		food := soup
		food.DensityKgM3, food.FreezableJKg, food.FreezingPointC = density, freezable, freezesC
		c, err := Make(Bag{Food: food, MassKg: kg, ThicknessM: thick, ThinM: thinM, ThickM: thickM, PackageM2KW: pack},
			Water{TempC: waterC, Film: medium.Film{LowWM2K: low, UsualWM2K: usual, HighWM2K: high}, LitresPerBag: litres, Bags: bags,
				NetPowerW: power},
			Options{MarginShare: margin, LimitS: limitS, SpreadLimit: spread})
		var out *heat.RangeError
		if err != nil {
			if !errors.As(err, &out) {
				t.Errorf("untyped error %v", err)
			}
			return
		}
		for _, h := range []Heating{c.Frozen, c.Thawed} {
			if h.Minutes < 0 || (h.Minutes > 0) != (h.Verdict == DoneWell) || float64(60*h.Minutes) < h.Worst.TimeS && h.Minutes > 0 {
				t.Errorf("%s, %d min, worst %g s", h.Verdict, h.Minutes, h.Worst.TimeS)
			}
			for _, r := range []Run{h.Worst, h.Nominal, h.Low, h.High, h.Thin, h.Thick} {
				if !(r.TimeS >= 0 && r.TimeS <= 2*followS) || math.IsNaN(r.LowestWaterC) {
					t.Errorf("run %+v", r.light())
				}
			}
		}
		for _, l := range c.Lines() {
			if l.English(0) == "" {
				t.Errorf("line %s has no words", l.Code)
			}
		}
	})
}

func BenchmarkCard(b *testing.B) {
	for b.Loop() {
		if _, err := Make(bag(soup), Water{}, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCardInAPot(b *testing.B) {
	for b.Loop() {
		if _, err := Make(bag(soup), Water{LitresPerBag: 2.5, Bags: 4, NetPowerW: 2500}, Options{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkThicknessFor(b *testing.B) {
	for b.Loop() {
		if _, err := ThicknessFor(15, Frozen, bag(soup), Water{}); err != nil {
			b.Fatal(err)
		}
	}
}
