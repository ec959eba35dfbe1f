package dosing_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"kettlefrost/internal/dosing"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

func near(got, want, within float64) bool { return math.Abs(got-want) <= within }

func g(x float64) unit.Mass { return unit.MassKg(x / 1000) }

// USDA SR28, per kilogram: NDB 01009 cheddar, 01077 whole milk, and other cheeses by their calcium.
var (
	cheddar = dosing.Cheese{Part: dosing.Part{Name: "cheddar", Mass: g(100), Makeup: dosing.Makeup{Water: 0.3702, Fat: 0.3331, Protein: 0.2287, SodiumMgKg: 6530}}, CalciumMgKg: 7100}
	milk    = dosing.Makeup{Water: 0.8813, Fat: 0.0325, Protein: 0.0315, SodiumMgKg: 430}
)

func sauce(milkG float64) dosing.CheeseSauce {
	return dosing.CheeseSauce{Cheeses: []dosing.Cheese{cheddar}, Liquids: []dosing.Part{{Name: "milk", Mass: g(milkG), Makeup: milk}}}
}

func has(l finding.List, code string) bool {
	for _, f := range l {
		if f.Code == code {
			return true
		}
	}
	return false
}

// Reckoned by hand: cheese 100 g, liquid 93 g, citrate 4 % of the liquid. Makeup with SR28's figures; sodium 23.45 % of the dihydrate.
func TestUsualSauce(t *testing.T) {
	c, err := dosing.Citrate(sauce(93))
	if err != nil {
		t.Fatal(err)
	}
	d, ok := c.By(dosing.OfLiquid)
	if !ok || d.Target != g(3.72) || d.Low != g(1.86) || c.Factor != 1 || has(c.Found, "emulsifier-bases-diverge") {
		t.Fatalf("%+v", c)
	}
	w, err := c.With(d.Target)
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []struct {
		name               string
		got, want, rounded float64
	}{
		{"of the cheese", w.OfCheese, 0.0372, 0.00005}, {"of the whole", w.OfTotal, 0.0189, 0.00005}, {"whole, g", w.Total.Kg() * 1000, 196.72, 0.001},
		{"moisture", w.Whole.Water, 0.605, 0.0005}, {"fat", w.Whole.Fat, 0.185, 0.0005}, {"protein", w.Whole.Protein, 0.131, 0.0005},
		{"share of sodium", dosing.CitrateSodium, 0.2345, 0.00005}, {"sodium, mg", w.SodiumMg, 872, 0.5},
	} {
		if !near(x.got, x.want, x.rounded) {
			t.Errorf("%s: %g, want %g", x.name, x.got, x.want)
		}
	}
	if len(w.Found) != 0 || c.Becomes != "a pouring sauce" {
		t.Errorf("%v, %s", w.Found, c.Becomes)
	}
	// All the sodium there is: 653 of the cheese, 40 of the milk, 872 of the citrate in 196.72 g.
	if !near(w.Whole.SodiumMgKg*0.19672, 653+40+872.4, 1) {
		t.Errorf("sodium %g mg", w.Whole.SodiumMgKg*0.19672)
	}
}

// Reckoned by hand: cheese 100 g, liquid 35 g. By the liquid 1.40 g, 1.03 % of the whole; by the cheese 2 to 4 g.
func TestBasesDiverge(t *testing.T) {
	c, err := dosing.Citrate(sauce(35))
	if err != nil {
		t.Fatal(err)
	}
	liquid, _ := c.By(dosing.OfLiquid)
	cheese, _ := c.By(dosing.OfCheese)
	w, err := c.With(liquid.Target)
	if err != nil || liquid.Target != g(1.40) || !near(w.OfTotal, 0.0103, 0.00005) || !near(w.OfCheese, 0.014, 1e-9) {
		t.Errorf("%+v %+v %v", liquid, w, err)
	}
	if cheese.Low != g(2) || cheese.High != g(4) || !has(c.Found, "emulsifier-bases-diverge") || c.Becomes != "sets to a firm slice" {
		t.Errorf("%+v %v %s", cheese, c.Found, c.Becomes)
	}
	if c, err := dosing.Citrate(sauce(50)); err != nil || has(c.Found, "emulsifier-bases-diverge") {
		t.Errorf("with half as much liquid as cheese: %v %v", c.Found, err)
	}
	// A soup with cheese in it: 4 % of all its liquid would be 40 % of the cheese.
	if c, err := dosing.Citrate(sauce(1000)); err != nil || !has(c.Found, "emulsifier-much-liquid") {
		t.Errorf("a soup: %v %v", c.Found, err)
	}
}

// Calcium by USDA SR28, mg/100 g. The factors are derived from it, the ends are ours.
func TestCalciumFactors(t *testing.T) {
	for _, c := range []struct {
		name     string
		mg, want float64
		held     bool
	}{{"cheddar", 710, 1, false}, {"colby", 685, 0.96, false}, {"monterey", 746, 1.05, false}, {"gruyere", 1011, 1.42, false}, {"swiss", 890, 1.25, false}, {"gouda", 700, 0.99, false},
		{"fontina", 550, 0.77, false}, {"low-moisture part-skim mozzarella", 697, 0.98, false}, {"parmesan, hard", 1184, 1.5, true}, {"brie", 184, 0.6, true}} {
		s := sauce(93)
		s.Cheeses[0].CalciumMgKg = c.mg * 10
		got, err := dosing.Citrate(s)
		if err != nil || !near(got.Factor, c.want, 0.0051) || has(got.Found, "calcium-factor-held") != c.held || strings.Contains(got.Doses[0].Confirm, "our own model") != (c.mg != 710) {
			t.Errorf("%s: %.3f, want %.2f (%v)", c.name, got.Factor, c.want, err)
		}
	}
}

// Process cheese brings its own salts and cream cheese needs none; of a blend only the rest of the cheese counts.
func TestWhatNeedsNone(t *testing.T) {
	for _, holds := range []dosing.Calcium{dosing.Taken, dosing.None} {
		s := sauce(93)
		s.Cheeses[0].Holds = holds
		c, err := dosing.Citrate(s)
		if err != nil || len(c.Doses) != 0 || c.NeedsSalt != 0 || !has(c.Found, "emulsifier-not-for-all") {
			t.Errorf("%d: %+v %v", holds, c, err)
		}
	}
	s := sauce(100)
	american := cheddar
	american.Name, american.Holds, american.Mass = "process American", dosing.Taken, g(300)
	s.Cheeses = append(s.Cheeses, american)
	c, err := dosing.Citrate(s)
	cheese, _ := c.By(dosing.OfCheese)
	liquid, _ := c.By(dosing.OfLiquid)
	if err != nil || cheese.Target != g(3) || liquid.Target != g(1) || c.NeedsSalt != 0.25 {
		t.Errorf("a quarter cheddar: %+v %v", c, err)
	}
}

// 3 % of the whole is a warning: more of the salt sets firmer and melts less (Shirashoji et al. 2006).
func TestCeiling(t *testing.T) {
	s := sauce(20)
	s.Cheeses[0].CalciumMgKg = 11840 // 4 % × 1.5 of 100 g would be 6 g in 126
	c, err := dosing.Citrate(s)
	if err != nil {
		t.Fatal(err)
	}
	d, _ := c.By(dosing.OfCheese)
	if most := g(120 * 3.0 / 97); d.High > most || most-d.High > unit.Milligram || !has(d.Found, "dose-capped") || d.Low > d.Target || d.Target > d.High {
		t.Errorf("%+v", d)
	}
	if w, err := c.With(g(6)); err != nil || !has(w.Found, "emulsifier-over-ceiling") {
		t.Errorf("%+v %v", w, err)
	}
	if w, err := c.With(d.High); err != nil || len(w.Found) != 0 || !near(w.OfTotal, 0.03, 1e-6) {
		t.Errorf("%+v %v", w, err)
	}
}

// Samples at pH 5.3 fractured (Lu et al. 2008); over 10 % of sour liquid is when to measure (common practice).
func TestSourSauces(t *testing.T) {
	for _, c := range []struct {
		ph, sourG float64
		want      string
	}{{0, 0, ""}, {0, 19, ""}, {0, 25, "cheese-sauce-sour"}, {5.8, 25, ""}, {5.3, 0, "cheese-sauce-sour"}, {5.5, 0, "cheese-sauce-ph"}, {6.2, 0, "cheese-sauce-ph"}} {
		s := sauce(93)
		s.PH, s.Acid = c.ph, g(c.sourG)
		got, err := dosing.Citrate(s)
		if err != nil || (c.want == "") != (len(got.Found) == 0) || c.want != "" && !has(got.Found, c.want) {
			t.Errorf("pH %g, %g g sour: %v %v, want %q", c.ph, c.sourG, got.Found, err, c.want)
		}
	}
}

func TestSaucesRefused(t *testing.T) {
	for name, change := range map[string]func(*dosing.CheeseSauce){
		"no cheese":        func(s *dosing.CheeseSauce) { s.Cheeses = nil },
		"no calcium":       func(s *dosing.CheeseSauce) { s.Cheeses[0].CalciumMgKg = 0 },
		"weightless":       func(s *dosing.CheeseSauce) { s.Liquids[0].Mass = 0 },
		"too much acid":    func(s *dosing.CheeseSauce) { s.Acid = g(200) },
		"a broken model":   func(s *dosing.CheeseSauce) { s.Model = dosing.CalciumModel{CheddarMgKg: 7100, Least: 2, Most: 1} },
		"more than itself": func(s *dosing.CheeseSauce) { s.Liquids[0].Fat = 0.9 },
	} {
		s := sauce(93)
		change(&s)
		_, err := dosing.Citrate(s)
		if wrong := (*dosing.InputError)(nil); !errors.As(err, &wrong) || wrong.Fix == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}
