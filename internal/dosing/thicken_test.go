package dosing_test

import (
	"testing"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/unit"
)

// Shares of the milk's or water's weight, in percent, as derived from the published measures with USDA SR28's weights of them.
func TestSeries(t *testing.T) {
	for _, c := range []struct {
		series    dosing.Series
		thickness dosing.Thickness
		low, high float64
	}{
		{dosing.Professional, dosing.Thin, 4.36, 4.36}, {dosing.Professional, dosing.Medium, 5.81, 5.81}, {dosing.Professional, dosing.Thick, 8.71, 8.71},
		{dosing.Home, dosing.Thin, 3.20, 3.20}, {dosing.Home, dosing.Medium, 6.40, 6.40}, {dosing.Home, dosing.Thick, 9.61, 12.81},
		{dosing.Slurry, dosing.Thin, 3.38, 3.38}, {dosing.Slurry, dosing.Medium, 6.76, 6.76}, {dosing.Slurry, dosing.Thick, 13.53, 13.53},
	} {
		got, err := dosing.Thicken(dosing.Sauce{Liquid: unit.Kilogram, Series: c.series, Thickness: c.thickness})
		if err != nil || !near(100*got.Shares.Low.F(), c.low, 0.006) || !near(100*got.Shares.High.F(), c.high, 0.006) {
			t.Errorf("%s, %s: %v %v, want %g to %g", c.series, c.thickness, got.Shares, err, c.low, c.high)
		}
		if (c.series == dosing.Slurry) != (got.BoilS > 0) || (c.series == dosing.Slurry) != (got.Fat == 0) {
			t.Errorf("%s, %s: boils %d s, fat %v", c.series, c.thickness, got.BoilS, got.Fat)
		}
	}
}

// By hand: 8 oz a gallon is 1.81 tablespoons a cup, where the home series says 2. A gallon of milk (3904 g) takes 226.8 g, and as much fat.
func TestSeriesPart(t *testing.T) {
	got, err := dosing.Thicken(dosing.Sauce{Liquid: g(3904), Series: dosing.Professional, Thickness: dosing.Medium})
	if err != nil || !near(got.HomeTbsp, 1.81, 0.005) || !near(got.Target.Kg(), 0.2268, 0.00005) || got.Fat-got.Target > unit.Microgram || got.Target-got.Fat > unit.Microgram {
		t.Errorf("%+v %v", got, err)
	}
	home, err := dosing.Thicken(dosing.Sauce{Liquid: g(244), Series: dosing.Home, Thickness: dosing.Medium})
	if err != nil || !near(home.HomeTbsp, 2, 1e-6) || !near(home.Target.Kg()*1000, 15.6, 0.05) || !near(home.Fat.Kg()*1000, 28.4, 0.05) {
		t.Errorf("%+v %v", home, err)
	}
	// 8.0 g of corn starch as 15.6 g of flour: 0.51 by weight (derived from 1 Tbsp = 2 Tbsp).
	starch, err := dosing.Thicken(dosing.Sauce{Liquid: g(236.6), Series: dosing.Slurry, Thickness: dosing.Thin})
	if err != nil || !near(starch.Shares.Target.F()/starch.AsFlour, 0.51, 0.005) || !near(starch.Target.Kg()*1000, 8.0, 0.01) {
		t.Errorf("%+v %v", starch, err)
	}
}

func TestWhatThinsASauce(t *testing.T) {
	for _, c := range []struct {
		s    dosing.Sauce
		want string
	}{{dosing.Sauce{}, ""}, {dosing.Sauce{PH: 4.5}, "starch-in-acid"}, {dosing.Sauce{PH: 6}, ""}, {dosing.Sauce{BoilsMin: 45}, "starch-long-boil"}} {
		c.s.Liquid, c.s.Series, c.s.Thickness = unit.Kilogram, dosing.Slurry, dosing.Thin
		got, err := dosing.Thicken(c.s)
		if err != nil || (c.want == "") != (len(got.Found) == 0) || c.want != "" && !has(got.Found, c.want) {
			t.Errorf("%+v: %v %v", c.s, got.Found, err)
		}
	}
	for _, bad := range []dosing.Sauce{{}, {Liquid: unit.Kilogram, Series: dosing.Home, Thickness: "stiff"}, {Liquid: unit.Kilogram, Series: "aunt's", Thickness: dosing.Thin}} {
		if _, err := dosing.Thicken(bad); err == nil {
			t.Errorf("%+v was taken", bad)
		}
	}
}
