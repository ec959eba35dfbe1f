package dosing_test

import (
	"testing"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/unit"
)

// By hand: 0.80 % before 12 % of the water boils away is 0.909 %.
func TestSaltStays(t *testing.T) {
	if got := dosing.AfterLoss(0.008, 0.12); !near(got, 0.00909, 0.000005) {
		t.Errorf("%g", got)
	}
	s, err := dosing.Salt(dosing.Seasoned{Food: 100 * unit.Kilogram, Loses: 0.12, Taste: dosing.Usual})
	// 0.8 % of the 88 kg that are eaten is 704 g: 0.704 % when it goes in.
	if err != nil || !near(s.Target.Kg(), 0.704, 1e-6) || !near(s.AtAdding, 0.00704, 1e-8) || !near(dosing.AfterLoss(s.AtAdding, 0.12), s.With, 1e-9) {
		t.Errorf("%+v %v", s, err)
	}
}

// 10 kg with 8,000 mg of sodium in its stock: 20.3 g of salt (× 2.542). 0.8 % is 80 g, so 59.7 g are still to be added.
func TestOtherSodiumCounts(t *testing.T) {
	s, err := dosing.Salt(dosing.Seasoned{Food: 10 * unit.Kilogram, SodiumMg: 8000, Taste: dosing.Usual})
	if err != nil || !near(s.Target.Kg()*1000, 80-20.336, 0.001) || !near(s.Before, 0.00203, 0.00001) || !near(s.With, 0.008, 1e-8) || len(s.Found) != 0 {
		t.Errorf("%+v %v", s, err)
	}
	if !near(s.SodiumAdded, 59664/2.542, 1) {
		t.Errorf("%g mg of sodium", s.SodiumAdded)
	}
}

func TestSaltEnough(t *testing.T) {
	for _, c := range []struct {
		sodiumMgKg float64
		taste      dosing.Taste
		code       string
		none       bool
	}{
		{0, dosing.Light, "", false},              // 0.5 %
		{3000, dosing.Light, "salt-enough", true}, // 0.76 %
		{3300, dosing.Usual, "", true},            // 0.84 %: between the target and the end of the range
		{4500, dosing.Strong, "too-salty", true},  // 1.14 %
	} {
		s, err := dosing.Salt(dosing.Seasoned{Food: unit.Kilogram, SodiumMg: c.sodiumMgKg, Taste: c.taste})
		if err != nil || (s.Target == 0) != c.none || (c.code == "") != (len(s.Found) == 0) || c.code != "" && !has(s.Found, c.code) {
			t.Errorf("%g mg/kg, %s: %+v %v", c.sodiumMgKg, c.taste, s, err)
		}
	}
	for _, bad := range []dosing.Seasoned{{}, {Food: unit.Kilogram, Taste: "salty"}, {Food: unit.Kilogram, Taste: dosing.Usual, SodiumMg: -1}, {Food: unit.Kilogram, Taste: dosing.Usual, Loses: 1}} {
		if _, err := dosing.Salt(bad); err == nil {
			t.Errorf("%+v was taken", bad)
		}
	}
}

// A target of one's own: under 0.4 % is called bland, and over 1.1 % is cut there (common practice, inside what 119 soups of USDA SR28 have).
func TestOwnTaste(t *testing.T) {
	for _, c := range []struct {
		pct, gets float64
		code      string
	}{{0.3, 3, "bland"}, {0.6, 6, ""}, {1.1, 11, ""}, {1.5, 11, "dose-capped"}} {
		s, err := dosing.Salt(dosing.Seasoned{Food: unit.Kilogram, Want: unit.ShareOf(c.pct / 100)})
		if err != nil || !near(s.Target.Kg()*1000, c.gets, 1e-6) || (c.code == "") != (len(s.Found) == 0) || c.code != "" && !has(s.Found, c.code) {
			t.Errorf("%g %%: %+v %v", c.pct, s, err)
		}
	}
}

// Cheese sauce into soup: what the citrate and the cheese bring is no longer to be salted.
func TestCitrateCountsInTheSalt(t *testing.T) {
	c, err := dosing.Citrate(sauce(93))
	if err != nil {
		t.Fatal(err)
	}
	w, err := c.With(g(3.72))
	if err != nil {
		t.Fatal(err)
	}
	// 1565 mg of sodium are 3.98 g of salt: 0.8 % of a kilogram is 8 g.
	s, err := dosing.Salt(dosing.Seasoned{Food: unit.Kilogram, SodiumMg: w.Whole.SodiumMgKg * w.Total.Kg(), Taste: dosing.Usual})
	if err != nil || !near(s.Target.Kg()*1000, 8-3.98, 0.01) {
		t.Errorf("%+v %v", s, err)
	}
}
