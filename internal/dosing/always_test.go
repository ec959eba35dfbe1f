package dosing_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/unit"
)

func mass(t *rapid.T, name string, fromG, toG float64) unit.Mass {
	return g(rapid.Float64Range(fromG, toG).Draw(t, name))
}

// orderly holds of every dose: it is a range with its target inside, and no part of it is above its maximum.
func orderly(t *rapid.T, d dosing.Dose) {
	if d.Low < 0 || d.Low > d.Target || d.Target > d.High || d.Most > 0 && d.High > d.Most || d.Source == "" {
		t.Errorf("%+v", d)
	}
}

// scaled holds of two doses for one batch and for n of it.
func scaled(t *rapid.T, one, many dosing.Dose, n int64) {
	for _, x := range [][2]unit.Mass{{one.Low, many.Low}, {one.Target, many.Target}, {one.High, many.High}, {one.Most, many.Most}} {
		if off := x[1] - x[0]*unit.Mass(n); off > 10*unit.Mass(n) || off < -10*unit.Mass(n) { // rounded to the nanogram, each some times
			t.Errorf("%d batches take %v, one %v", n, x[1], x[0])
		}
	}
}

func TestGumsScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		batch, n := mass(t, "batch", 100, 100_000), rapid.Int64Range(2, 50).Draw(t, "n")
		l := rapid.SampledFrom(dosing.Levels()).Filter(func(l dosing.Level) bool { return l.Basis == dosing.OfFinished }).Draw(t, "level")
		one, err1 := dosing.Gum(l.Substance, l.Use, "", batch)
		many, err2 := dosing.Gum(l.Substance, l.Use, "", batch*unit.Mass(n))
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		orderly(t, one)
		scaled(t, one, many, n)
		if bad, err := dosing.CheckGum(dosing.Gummed{Gum: l.Substance, Dose: one.Target, Finished: batch}); err != nil || len(bad) != 0 {
			t.Errorf("the target itself is told: %v %v", bad, err)
		}
	})
}

func TestCitrateScales(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(2, 50).Draw(t, "n")
		calcium, cheese, liquid := rapid.Float64Range(500, 15000).Draw(t, "calcium"), mass(t, "cheese", 50, 50_000), mass(t, "liquid", 10, 50_000)
		at := func(n int64) dosing.CitrateDoses {
			s := dosing.CheeseSauce{Cheeses: []dosing.Cheese{{Part: dosing.Part{Name: "cheese", Mass: cheese * unit.Mass(n)}, CalciumMgKg: calcium}}, Liquids: []dosing.Part{{Name: "milk", Mass: liquid * unit.Mass(n), Makeup: milk}}}
			c, err := dosing.Citrate(s)
			if err != nil || len(c.Doses) != 3 {
				t.Fatal(c, err)
			}
			return c
		}
		one, many := at(1), at(n)
		for i, d := range one.Doses {
			orderly(t, d)
			scaled(t, d, many.Doses[i], n)
			w, err := one.With(d.High)
			if err != nil || w.OfTotal > 0.03+1e-9 || len(w.Found) != 0 || one.Factor < 0.6 || one.Factor > 1.5 {
				t.Errorf("%+v %v", w, err)
			}
		}
	})
}

func TestSaltScales(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := dosing.Seasoned{Food: mass(t, "food", 100, 100_000), Loses: rapid.Float64Range(0, 0.5).Draw(t, "loses"), Taste: rapid.SampledFrom([]dosing.Taste{dosing.Light, dosing.Usual, dosing.Strong}).Draw(t, "taste")}
		s.SodiumMg = rapid.Float64Range(0, 6000).Draw(t, "sodium per kg") * s.Food.Kg()
		got, err := dosing.Salt(s)
		if err != nil {
			t.Fatal(err)
		}
		orderly(t, got.Dose)
		more := s
		more.SodiumMg += 100 * s.Food.Kg()
		if less, err := dosing.Salt(more); err != nil || less.Target > got.Target {
			t.Errorf("with more sodium %v, else %v (%v)", less.Target, got.Target, err)
		}
		// Salt that is added and salt that was there are all the salt there is.
		eaten := s.Food.Kg() * (1 - s.Loses)
		if in := got.Target.Kg() + s.SodiumMg*dosing.SaltPerSodium/1e6; !near(got.With*eaten, in, 1e-8*in+1e-9) {
			t.Errorf("%g kg of %g", got.With*eaten, in)
		}
	})
}

func TestThickeningScales(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := dosing.Sauce{Liquid: mass(t, "liquid", 100, 100_000), Series: rapid.SampledFrom([]dosing.Series{dosing.Professional, dosing.Home, dosing.Slurry}).Draw(t, "series")}
		last, n := unit.Mass(0), rapid.Int64Range(2, 50).Draw(t, "n")
		for _, s.Thickness = range []dosing.Thickness{dosing.Thin, dosing.Medium, dosing.Thick} {
			one, err1 := dosing.Thicken(s)
			more := s
			more.Liquid *= unit.Mass(n)
			many, err2 := dosing.Thicken(more)
			if err1 != nil || err2 != nil || one.Target <= last {
				t.Fatal(one, err1, err2)
			}
			orderly(t, one.Dose)
			scaled(t, one.Dose, many.Dose, n)
			last = one.Target
		}
	})
}

// What is weighed is whole steps, off by half a step at most and never over the maximum; a stock is within the tolerance where it is
// offered, and enough for the dose.
func TestWeighing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := xanthan(mass(t, "dose", 0.01, 500))
		if rapid.Bool().Draw(t, "limited") {
			d.Most = d.Target + mass(t, "room", 0, 5)
		}
		step := rapid.SampledFrom([]unit.Mass{g(0.01), g(0.1), g(1), g(5)}).Draw(t, "step")
		w, err := dosing.Weigh(d, dosing.Scale{Division: step}, unit.PerCent)
		if err != nil || w.Show%step != 0 || w.Show < 0 || d.Most > 0 && w.Show > d.Most {
			t.Fatalf("%+v %v", w, err)
		}
		if off := w.Show - d.Target; off > step/2+1 || off <= -step {
			t.Errorf("%+v", w)
		}
		if w.Stock != nil && (w.Within || w.Stock.Make < w.Stock.Take-step || math.Abs(w.Stock.ErrPct) > 2 || w.Stock.Holds%step != 0) {
			t.Errorf("%+v", w.Stock)
		}
	})
}

// Whatever the way: the recipe's liquid is all there, and what is blended is the powder and what was held back.
func TestLiquidCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := dosing.Spread{Substance: "gum", Dose: mass(t, "dose", 0.5, 500), Way: rapid.SampledFrom([]dosing.Way{dosing.DryBlend, dosing.OilSlurry, dosing.PreHydrate, dosing.ColdSlurry, dosing.Dissolve}).Draw(t, "way"),
			Carrier: dosing.Portion{Name: "sugar", Mass: mass(t, "carrier", 1, 6000)}, Share: unit.ShareOf(rapid.Float64Range(0.002, 0.03).Draw(t, "share"))}
		var all unit.Mass
		for range rapid.IntRange(1, 4).Draw(t, "liquids") {
			l := dosing.Pourable{Portion: dosing.Portion{Name: "liquid", Mass: mass(t, "liquid", 100, 50_000)}, Hot: rapid.Bool().Draw(t, "hot")}
			s.Liquids, all = append(s.Liquids, l), all+l.Mass
		}
		s.Jar.Volume = unit.VolumeL(rapid.Float64Range(1, 10).Draw(t, "jar"))
		d, err := dosing.Disperse(s)
		if err != nil {
			if wrong := (*dosing.InputError)(nil); !errors.As(err, &wrong) {
				t.Fatal(err)
			}
			return
		}
		var held, atOnce, powder, liquid unit.Mass
		for _, p := range d.HeldBack {
			held += p.Mass
		}
		for _, p := range d.AtOnce {
			atOnce += p.Mass
		}
		for _, l := range d.Loads {
			powder, liquid = powder+l.Powder, liquid+l.Liquid
			if (l.Powder + l.Liquid).Kg() > s.Jar.Volume.L()*2/3+1e-9 {
				t.Errorf("a load of %v in a jar of %v", l.Powder+l.Liquid, s.Jar.Volume)
			}
		}
		if held+atOnce != all || d.Mix != s.Dose+held+d.Carrier.Mass || d.Carrier.Mass > s.Carrier.Mass {
			t.Errorf("%v of %v: %+v", held+atOnce, all, d)
		}
		if s.Way == dosing.PreHydrate && (powder != s.Dose || liquid != held) {
			t.Errorf("%+v", d.Loads)
		}
	})
}
