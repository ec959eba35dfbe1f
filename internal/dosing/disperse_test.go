package dosing_test

import (
	"errors"
	"testing"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/unit"
)

func big(way dosing.Way) dosing.Spread {
	d, err := dosing.Gum(dosing.Xanthan, "soup", "", soup(40*unit.Gallon))
	if err != nil {
		panic(err)
	}
	return dosing.Spread{Substance: dosing.Xanthan, Dose: d.Target, Way: way,
		Liquids: []dosing.Pourable{{Portion: dosing.Portion{Name: "water", Mass: 90 * unit.Kilogram}}, {Portion: dosing.Portion{Name: "stock", Mass: 20 * unit.Kilogram}, Hot: true}},
		Carrier: dosing.Portion{Name: "oil", Mass: 3 * unit.Kilogram}}
}

// By hand, for 156.87 kg of soup with 0.15 %: 10 parts of oil are 2.353 kg; a 1 % mix is 23.53 kg, of which 23.295 kg is the recipe's water.
func TestWorkedDispersions(t *testing.T) {
	oil, err := dosing.Disperse(big(dosing.OilSlurry))
	if err != nil || !near(oil.Carrier.Mass.Kg(), 2.353, 0.0005) || len(oil.HeldBack) != 0 {
		t.Errorf("%+v %v", oil, err)
	}
	pre, err := dosing.Disperse(big(dosing.PreHydrate))
	if err != nil || !near(pre.Mix.Kg(), 23.53, 0.005) || len(pre.HeldBack) != 1 || !near(pre.HeldBack[0].Mass.Kg(), 23.295, 0.0005) || !near(pre.Share, 0.01, 1e-9) {
		t.Errorf("%+v %v", pre, err)
	}
	if pre.HeldBack[0].Name != "water" || pre.HeldBack[0].Mass+pre.AtOnce[0].Mass != 90*unit.Kilogram || pre.AtOnce[1].Mass != 20*unit.Kilogram {
		t.Errorf("%+v", pre)
	}
}

// 23.53 kg in a jar of 4 L that is filled to two thirds, 2.667 L: 9 times. With hot stock held back it is half, 2 L: 12 times.
func TestJars(t *testing.T) {
	s := big(dosing.PreHydrate)
	s.Jar.Volume = 4 * unit.Litre
	cold, err := dosing.Disperse(s)
	if err != nil || len(cold.Loads) != 9 || !hasAct(cold, dosing.StartJar, 9) || !has(cold.Found, "many-jars") {
		t.Errorf("%+v %v", cold, err)
	}
	s.Liquids[0], s.Liquids[1] = s.Liquids[1], s.Liquids[0]
	s.Liquids[0].Mass = 30 * unit.Kilogram
	if hot, err := dosing.Disperse(s); err != nil || len(hot.Loads) != 12 {
		t.Errorf("%+v %v", hot, err)
	}
}

func hasAct(d dosing.Dispersion, a dosing.Act, times int) bool {
	for _, s := range d.Steps {
		if s.Act == a {
			return s.Times == times
		}
	}
	return false
}

// The order is part of the answer: liquid is held back before anything is stirred, xanthan before most of the salt, citrate before the cheese,
// locust bean gum must get hot, starch must boil.
func TestOrders(t *testing.T) {
	for _, c := range []struct {
		substance string
		way       dosing.Way
		acts      []dosing.Act
	}{
		{dosing.Xanthan, dosing.PreHydrate, []dosing.Act{dosing.HoldBack, dosing.StartJar, dosing.Sprinkle, dosing.Blend, dosing.StirIn, dosing.AddAfter}},
		{dosing.Xanthan, dosing.OilSlurry, []dosing.Act{dosing.StirInOil, dosing.StirIn, dosing.AddAfter}},
		{dosing.LocustBean, dosing.DryBlend, []dosing.Act{dosing.MixDry, dosing.Sprinkle, dosing.Heat}},
		{"corn starch", dosing.ColdSlurry, []dosing.Act{dosing.HoldBack, dosing.StirCold, dosing.StirIn, dosing.Boil}},
		{"trisodium citrate", dosing.Dissolve, []dosing.Act{dosing.StirIn, dosing.AddAfter}},
	} {
		s := big(c.way)
		s.Substance = c.substance
		d, err := dosing.Disperse(s)
		if err != nil || len(d.Steps) != len(c.acts) {
			t.Errorf("%s: %+v %v", c.substance, d.Steps, err)
			continue
		}
		for i, a := range c.acts {
			if d.Steps[i].Act != a || d.Steps[i].Source == "" {
				t.Errorf("%s, step %d: %+v, want %s", c.substance, i+1, d.Steps[i], a)
			}
		}
	}
}

// A wiki page on xanthan: 10 parts and about 2 h of soaking where it is stirred slowly.
func TestSlowStirring(t *testing.T) {
	s := big(dosing.DryBlend)
	s.SlowStir = true
	d, err := dosing.Disperse(s)
	if err != nil || !hasAct(d, dosing.Soak, 1) {
		t.Errorf("%+v %v", d, err)
	}
	s.Carrier.Mass = 2 * unit.Kilogram // 8.5 parts
	refused(t, s)
}

// Not enough of what is needed: less will do down to five parts, then another way has to be taken.
func TestShort(t *testing.T) {
	s := big(dosing.OilSlurry)
	s.Carrier.Mass = 1500 * unit.Gram
	d, err := dosing.Disperse(s)
	if err != nil || d.Carrier.Mass != 1500*unit.Gram || !has(d.Found, "disperser-short") {
		t.Errorf("%+v %v", d, err)
	}
	s.Carrier.Mass = unit.Kilogram // 4.2 parts
	refused(t, s)
	s = big(dosing.PreHydrate)
	s.Liquids = s.Liquids[1:] // 20 kg: 1.16 %
	if d, err = dosing.Disperse(s); err != nil || !near(d.Share, 0.2353/20.2353, 1e-5) || len(d.AtOnce) != 0 {
		t.Errorf("%+v %v", d, err)
	}
	s.Liquids[0].Mass = 10 * unit.Kilogram // 2.3 %
	refused(t, s)
	s = big(dosing.PreHydrate)
	s.Share = 2 * unit.PerCent
	if d, err = dosing.Disperse(s); err != nil || !has(d.Found, "pre-hydrate-strong") {
		t.Errorf("%+v %v", d, err)
	}
	s.Share, s.Liquids[0].Mass = 3*unit.PerCent, 8*unit.Kilogram // 7.6 kg are held back
	if d, err = dosing.Disperse(s); err != nil || !has(d.Found, "pre-hydrate-strong") || !near(d.HeldBack[0].Mass.Kg(), 0.2353*97/3, 0.001) {
		t.Errorf("%+v %v", d, err)
	}
	s = big("by hand")
	refused(t, s)
	s = big(dosing.ColdSlurry)
	s.Liquids = nil
	refused(t, s)
}

func refused(t *testing.T, s dosing.Spread) {
	t.Helper()
	_, err := dosing.Disperse(s)
	if wrong := (*dosing.InputError)(nil); !errors.As(err, &wrong) || wrong.Fix == "" {
		t.Errorf("%+v: %v", s, err)
	}
}
