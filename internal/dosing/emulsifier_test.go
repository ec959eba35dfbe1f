package dosing_test

import (
	"testing"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/finding"
)

// pH of 1 % solutions as in table 11.15 of a dairy processing handbook; sodium from atomic weights (Na 22.990, P 30.974, O 15.999, H 1.008).
func TestEmulsifiers(t *testing.T) {
	const na, po4 = 22.990, 30.974 + 4*15.999
	for i, want := range []struct{ ph, sodium float64 }{{8.6, dosing.CitrateSodium}, {9.1, 2 * na / (2*na + 1.008 + po4)}, {11.9, 3 * na / (3*na + po4)}, {6.6, na / (na + po4 - 15.999)}, {9.2, 0}} {
		e := dosing.Emulsifiers()[i]
		if e.PHOfOnePercent != want.ph || !near(e.Sodium, want.sodium, 0.0001) || e.Source == "" {
			t.Errorf("%+v, want %+v", e, want)
		}
	}
	if dosing.Emulsifiers()[0].OnBacteria != "none" {
		t.Error("citrate does nothing to bacteria: it gives no credit for keeping")
	}
}

// 21 CFR 133.169, 133.173 and 133.179 as read, 3 CCR 425. A sauce of 100 g of cheddar and 93 g of milk with citrate has 60.5 % water and 18.5 % fat.
func TestNamesInLaw(t *testing.T) {
	if !near(dosing.HeldC, 65.6, 0.05) || dosing.HeldS != 30 {
		t.Errorf("%g °C for %d s", dosing.HeldC, dosing.HeldS)
	}
	for _, c := range []struct {
		name     string
		milkG    float64
		citrateG float64
		ph       float64
		found    int
		worst    finding.Severity
	}{
		{"pasteurized process cheese", 93, 3.72, 0, 1, finding.Stop},        // too wet
		{"pasteurized process cheese", 10, 2, 0, 0, 0},                      // 41 % water
		{"pasteurized process cheese", 10, 4, 0, 1, finding.Stop},           // 3.5 % salt
		{"pasteurized process cheese", 10, 2, 5.2, 1, finding.Caution},      // pH, from memory
		{"pasteurized process cheese food", 12, 2, 0, 0, 0},                 // 41.8 % water, 29.6 % fat
		{"pasteurized process cheese spread", 93, 3.72, 0, 3, finding.Stop}, // 60.5 % water, 18.5 % fat, 50.8 % cheese
		{"pasteurized process cheese spread", 40, 2, 0, 0, 0},               // 50.9 % water, 24.4 % fat
		{"pasteurized process cheese spread", 5, 2, 0, 1, finding.Stop},     // 38.7 % water: too dry
	} {
		s := sauce(c.milkG)
		s.PH = c.ph
		d, err := dosing.Citrate(s)
		if err != nil {
			t.Fatal(err)
		}
		w, err := d.With(g(c.citrateG))
		if err != nil {
			t.Fatal(err)
		}
		got, err := d.Named(c.name, w)
		if err != nil || len(got) != c.found || got.Worst() != c.worst {
			t.Errorf("%+v: %v %v", c, got, err)
		}
	}
	if _, err := (dosing.CitrateDoses{}).Named("nacho cheese", dosing.Salted{}); err == nil {
		t.Error("a name that the law does not define was taken")
	}
}
