package dosing_test

import (
	"errors"
	"strings"
	"testing"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

// 40 US gal of soup at 1.036 g/mL (USDA SR28, median of 119 soups) and 3 qt of it, by hand.
func soup(v unit.Volume) unit.Mass { return v.Times(1.036) }

func TestXanthanInSoup(t *testing.T) {
	for _, c := range []struct {
		batch         unit.Mass
		kg, grams, to float64
	}{{soup(40 * unit.Gallon), 156.87, 235.3, 0.05}, {soup(3 * unit.Quart), 2.941, 4.41, 0.005}} {
		d, err := dosing.Gum(dosing.Xanthan, "soup", "", c.batch)
		if err != nil || !near(c.batch.Kg(), c.kg, 0.005) || !near(d.Target.Kg()*1000, c.grams, c.to) {
			t.Errorf("%g kg take %s (%v), want %g kg and %g g", c.batch.Kg(), dosing.Grams(d.Target), err, c.kg, c.grams)
		}
	}
	d, _ := dosing.Gum(dosing.Xanthan, "soup", "", soup(40*unit.Gallon))
	if dosing.Grams(d.Target) != "235.3 g" || d.Confirm == "" || d.Source == "" {
		t.Errorf("%s: %+v", dosing.Grams(d.Target), d)
	}
	d, _ = dosing.Gum(dosing.Xanthan, "soup", "", soup(3*unit.Quart))
	if dosing.Grams(d.Target) != "4.41 g" {
		t.Errorf("%s", dosing.Grams(d.Target))
	}
}

// 21 CFR 184.1339: guar as served, in percent.
func TestGuarByLaw(t *testing.T) {
	for _, c := range []struct {
		category string
		pct      float64
	}{{"soups and soup mixes", 0.8}, {"gravies and sauces", 1.2}, {"milk products", 0.6}, {"cheese", 0.8}, {"processed vegetables and vegetable juices", 2}, {"fats and oils", 2},
		{"baked goods and baking mixes", 0.35}, {"dairy product analogs", 1}, {"sweet sauces, toppings and syrups", 1}, {"", 0.5}} {
		check := func(grams float64) finding.List {
			l, err := dosing.CheckGum(dosing.Gummed{Gum: dosing.Guar, Category: c.category, Dose: g(grams), Finished: unit.Kilogram})
			if err != nil {
				t.Fatal(err)
			}
			return l
		}
		if l := check(10 * c.pct); len(l) != 0 {
			t.Errorf("%q: %g %% is allowed, %v", c.category, c.pct, l)
		}
		if l := check(10*c.pct + 0.01); !has(l, "gum-over-law") || l.Worst() != finding.Stop {
			t.Errorf("%q: more than %g %% is not, %v", c.category, c.pct, l)
		}
	}
	if len(dosing.Categories(dosing.Guar)) != 10 {
		t.Errorf("%v", dosing.Categories(dosing.Guar))
	}
}

// What is from memory stops nobody, and a maximum is no dose.
func TestWhatIsNotKnown(t *testing.T) {
	l, err := dosing.CheckGum(dosing.Gummed{Gum: dosing.LocustBean, Dose: g(6), Finished: unit.Kilogram})
	if err != nil || !has(l, "gum-over-law") || l.Worst() != finding.Caution || !strings.Contains(l[0].Source, "from memory") {
		t.Errorf("%v %v", l, err)
	}
	for _, gum := range []string{dosing.Guar, "konjac"} {
		_, err = dosing.Gum(gum, "soup", "", unit.Kilogram)
		if none := (*dosing.NoLevelError)(nil); !errors.As(err, &none) {
			t.Errorf("%s: %v", gum, err)
		}
	}
	if _, err = dosing.CheckGum(dosing.Gummed{Gum: dosing.Guar, Category: "stews", Dose: g(1), Finished: unit.Kilogram}); err == nil {
		t.Error("a category that the law does not know was taken")
	}
}

// 21 CFR 172.695, 172.620: no number, but not in a food whose standard forbids it. It is said with every dose.
func TestLawIsSaid(t *testing.T) {
	for _, c := range []struct{ gum, use, says string }{{dosing.Xanthan, "soup", "172.695"}, {dosing.Carrageenan, "milk dessert", "172.620"}, {dosing.LocustBean, "frozen starch paste", "from memory"}, {dosing.CMC, "yogurt", "no law"}} {
		d, err := dosing.Gum(c.gum, c.use, "", unit.Kilogram)
		if err != nil || !strings.Contains(d.MostIs, c.says) || strings.HasPrefix(c.says, "172") != strings.Contains(d.MostIs, "standard does not forbid") {
			t.Errorf("%s: %q %v", c.gum, d.MostIs, err)
		}
	}
}

// Xanthan over 0.5 % is a warning, over 1 % an error: it is called slimy, and a decimal point is easily lost.
func TestTooMuchXanthan(t *testing.T) {
	for _, c := range []struct {
		grams float64
		worst finding.Severity
	}{{5, 0}, {5.1, finding.Caution}, {10, finding.Caution}, {10.1, finding.Stop}} {
		l, err := dosing.CheckGum(dosing.Gummed{Gum: dosing.Xanthan, Dose: g(c.grams), Finished: unit.Kilogram})
		if err != nil || l.Worst() != c.worst {
			t.Errorf("%g g in a kilogram: %v %v", c.grams, l, err)
		}
	}
}

func TestGumsInAcid(t *testing.T) {
	for _, c := range []struct {
		gum  string
		ph   float64
		told bool
	}{{dosing.CMC, 4, true}, {dosing.CMC, 4.2, false}, {dosing.Guar, 4.2, true}, {dosing.Guar, 5, false}, {dosing.Xanthan, 3, false}, {dosing.CMC, 0, false}} {
		l, err := dosing.CheckGum(dosing.Gummed{Gum: c.gum, Dose: g(1), Finished: unit.Kilogram, PH: c.ph})
		if err != nil || has(l, "gum-in-acid") != c.told {
			t.Errorf("%s at pH %g: %v %v", c.gum, c.ph, l, err)
		}
	}
}

func TestTables(t *testing.T) {
	for _, l := range dosing.Levels() {
		if l.Low <= 0 || l.Target < l.Low || l.High < l.Target || l.Source == "" {
			t.Errorf("%+v", l)
		}
	}
	for _, m := range dosing.Maxima() {
		if m.Source == "" || m.Law == "" {
			t.Errorf("%+v", m)
		}
	}
	if len(dosing.Uses(dosing.Xanthan)) != 5 {
		t.Errorf("%v", dosing.Uses(dosing.Xanthan))
	}
}
