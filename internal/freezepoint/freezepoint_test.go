package freezepoint_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/freezepoint"
	"kettlefrost/internal/heat"
)

func near(got, want, within float64) bool { return math.Abs(got-want) <= within }

// Reckoned by hand from the law with Kf 1.86, salt as 1.85 particles and sugars as one.
func TestWorkedExamples(t *testing.T) {
	for _, c := range []struct {
		name               string
		food               freezepoint.Food
		mol, starts, doubt float64
	}{
		// 10 g in 990 g of water is 0.1728 mol/kg of salt; measured tables between 0.57 and 0.61 °C.
		{"1 % salt", freezepoint.Food{Water: 0.99, Solutes: []freezepoint.Solute{{freezepoint.Salt, 0.01}}}, 1.85 * 0.1728, -0.595, 0.001},
		{"10 % sucrose", freezepoint.Food{Water: 0.90, Solutes: []freezepoint.Solute{{freezepoint.Double, 0.10}}}, 0.3246, -0.604, 0.0005},
		{"soup with 75 % water, 0.9 % salt, 3 % simple sugars", soup, 0.602, -1.12, 0.005},
		{"water", freezepoint.Food{Water: 1}, 0, 0, 0},
	} {
		p, err := freezepoint.Of(c.food)
		if err != nil {
			t.Fatal(c.name, err)
		}
		if !near(p.WarmestC, c.starts, c.doubt) || !near(p.MolKgWater, c.mol, 0.0005) {
			t.Errorf("%s starts at %.4f °C with %.4f mol/kg, want %g and %g", c.name, p.WarmestC, p.MolKgWater, c.starts, c.mol)
		}
	}
}

var soup = freezepoint.Food{Water: 0.75, Solutes: []freezepoint.Solute{{freezepoint.Salt, 0.009}, {freezepoint.Simple, 0.03}}}

// The same soup in the freezer: 1.12/18 of its water stays liquid, so its salt is 16 times as strong.
func TestSoupAtMinus18(t *testing.T) {
	p, err := freezepoint.Of(soup)
	if err != nil || !near(p.WaterActivity(), 0.989, 0.0005) {
		t.Errorf("water activity %.4f (%v), want 0.989", p.WaterActivity(), err)
	}
	l, err := freezepoint.At(soup, -18)
	if err != nil {
		t.Fatal(err)
	}
	// 9 g of salt in 750 × 0.0622 = 46.65 g of water is 16.2 % of that brine.
	if !near(l.OfWater, 0.0622, 0.0002) || !near(l.Concentrated, 16.07, 0.05) || !near(l.IceOfFood, 0.7033, 0.0005) || !near(l.SaltOfBrine, 0.162, 0.001) || !l.Beyond {
		t.Errorf("%+v", l)
	}
	if warm, err := freezepoint.At(soup, -1); err != nil || warm.OfWater != 1 || warm.IceOfFood != 0 || warm.Beyond {
		t.Errorf("above its freezing point: %+v (%v)", warm, err)
	}
}

// Measured: Smithsonian Physical Tables 1956. Salt as 1.85 particles is within 5 % of the thinnest, where the table has two digits, and
// within 2.5 % of the others.
func TestMeasuredBrines(t *testing.T) {
	for _, b := range []struct{ mol, lowersK float64 }{{0.05, 0.18}, {0.10, 0.35}, {0.25, 0.85}, {0.50, 1.68}, {0.75, 2.60}} {
		got, err := freezepoint.SaltLowersK(b.mol)
		if err != nil || !near(got, b.lowersK, 1e-12) {
			t.Errorf("the table at %g mol/kg says %g (%v), want %g", b.mol, got, err, b.lowersK)
		}
		grams, within := b.mol*58.44, 0.025
		if b.mol < 0.1 {
			within = 0.05
		}
		water := 1000 / (1000 + grams)
		p, err := freezepoint.Of(freezepoint.Food{Water: water, Solutes: []freezepoint.Solute{{freezepoint.Salt, 1 - water}}})
		if err != nil || !near(-p.WarmestC, b.lowersK, within*b.lowersK) {
			t.Errorf("%g mol/kg starts at %.3f °C (%v), measured -%g", b.mol, p.WarmestC, err, b.lowersK)
		}
	}
	// Straight between 0.10 and 0.25: 1 % salt is 0.593.
	if got, err := freezepoint.SaltLowersK(0.1728); err != nil || !near(got, 0.593, 0.0005) {
		t.Errorf("%.4f (%v)", got, err)
	}
	if len(freezepoint.Brines()) != 5 {
		t.Errorf("%d rows", len(freezepoint.Brines()))
	}
	for _, bad := range []float64{-0.1, 0.8, math.NaN()} {
		if _, err := freezepoint.SaltLowersK(bad); err == nil {
			t.Errorf("%g mol/kg was taken", bad)
		}
	}
}

// What is left out makes it colder, never warmer, and protein's water stays liquid.
func TestTheRest(t *testing.T) {
	f := soup
	f.Protein, f.OtherAsh, f.OtherCarb = 0.05, 0.004, 0.01
	p, err := freezepoint.Of(f)
	if err != nil {
		t.Fatal(err)
	}
	// 0.602 × 0.75 = 0.4515 mol; 4 g ash / 74.55 × 1.85 = 0.0993; 10 g / 342.3 = 0.0292: 0.5800 mol in 0.73 kg of water is 0.7945, or 1.477 K.
	if !near(p.ColdestC, -1.477, 0.002) || !near(p.WarmestC, -1.12, 0.005) || p.LeftOut == "" {
		t.Errorf("%+v", p)
	}
	l, err := freezepoint.At(f, -18)
	// 0.02/0.75 held, and 0.9733 × 1.477/18 of the rest: 0.1066.
	if err != nil || !near(l.OfWaterMost, 0.1066, 0.0003) {
		t.Errorf("%+v %v", l, err)
	}
}

// Real foods by what USDA SR28 says is in them (NDB 01077, 09003, 09132, 11529) start to freeze where tables have it, from memory (ASHRAE's for
// fruit, dairies' for milk): between the two ends, to 0.1 °C, by which kinds of one fruit differ.
func TestRealFoods(t *testing.T) {
	for _, c := range []struct {
		name                                string
		water, protein, simple, double, ash float64
		freezesC                            float64
	}{
		{"whole milk", 0.8813, 0.0315, 0, 0.0505, 0.0067, -0.54},
		{"apples", 0.8556, 0.0026, 0.0833, 0.0207, 0.0019, -1.1},
		{"grapes of the European kind", 0.8054, 0.0072, 0.1533, 0.0015, 0.0048, -2.1},
		{"tomatoes", 0.9452, 0.0088, 0.0263, 0, 0.0050, -0.5},
	} {
		p, err := freezepoint.Of(freezepoint.Food{Water: c.water, Protein: c.protein, OtherAsh: c.ash,
			Solutes: []freezepoint.Solute{{freezepoint.Simple, c.simple}, {freezepoint.Double, c.double}}})
		if err != nil || c.freezesC > p.WarmestC+0.1 || c.freezesC < p.ColdestC-0.1 {
			t.Errorf("%s: %.2f to %.2f °C (%v), table %g", c.name, p.WarmestC, p.ColdestC, err, c.freezesC)
		}
	}
}

// Lemon soup: 1 % citric acid in 90 % of water is 10/192.12/0.9 = 0.0578 mol/kg, 0.108 K.
func TestAcidsCount(t *testing.T) {
	p, err := freezepoint.Of(freezepoint.Food{Water: 0.9, Solutes: []freezepoint.Solute{{freezepoint.Citric, 0.01}}})
	if err != nil || !near(p.Parts[0].LowersK, 0.1076, 0.0002) || p.Parts[0].Name != "citric acid" {
		t.Errorf("%+v %v", p, err)
	}
}

func TestRefused(t *testing.T) {
	for name, f := range map[string]freezepoint.Food{
		"dry":                {Water: 0.01},
		"more than itself":   {Water: 0.9, Protein: 0.3},
		"negative salt":      {Water: 0.9, Solutes: []freezepoint.Solute{{freezepoint.Salt, -0.01}}},
		"no number":          {Water: math.NaN()},
		"no protein":         {Water: 0.5, Protein: math.NaN()},
		"nothing of a kind":  {Water: 0.9, Solutes: []freezepoint.Solute{{freezepoint.Kind{Name: "?"}, 0.01}}},
		"protein holds half": {Water: 0.2, Protein: 0.4},
	} {
		_, err := freezepoint.Of(f)
		if wrong := (*freezepoint.InputError)(nil); !errors.As(err, &wrong) || wrong.Fix == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := freezepoint.At(soup, math.Inf(-1)); err == nil {
		t.Error("no temperature was taken")
	}
}

// Whatever is dissolved: more of it is never warmer, colder air never leaves more liquid, the most is never less than the least, ice and
// liquid close on the water, and the heat engines' law of Raoult agrees within 2 % down to -2 °C.
func TestAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		salt, sugar := rapid.Float64Range(0, 0.015).Draw(t, "salt"), rapid.Float64Range(0, 0.05).Draw(t, "sugar")
		f := freezepoint.Food{Water: rapid.Float64Range(0.6, 0.9).Draw(t, "water"), Protein: rapid.Float64Range(0, 0.03).Draw(t, "protein"),
			Solutes: []freezepoint.Solute{{freezepoint.Salt, salt}, {freezepoint.Double, sugar}}}
		p, err := freezepoint.Of(f)
		if err != nil {
			t.Fatal(err)
		}
		raoult, err := heat.FreezingPointC(f.Water, heat.Solute{Kind: heat.Salt, Share: salt}, heat.Solute{Kind: heat.Sucrose, Share: sugar})
		if err == nil && raoult > -2 && !near(p.WarmestC, raoult, 0.02*math.Abs(raoult)+1e-9) {
			t.Errorf("%g by this law, %g by Raoult's", p.WarmestC, raoult)
		}
		more := f
		more.Solutes = []freezepoint.Solute{{freezepoint.Salt, salt + 0.001}, {freezepoint.Double, sugar}}
		if q, err := freezepoint.Of(more); err != nil || !(q.WarmestC < p.WarmestC) {
			t.Errorf("more salt: %v then %v", p, q)
		}
		tempC := rapid.Float64Range(-40, 5).Draw(t, "temp")
		l, err1 := freezepoint.At(f, tempC)
		c, err2 := freezepoint.At(f, tempC-1)
		if errors.Join(err1, err2) != nil || c.OfWater > l.OfWater || l.OfWaterMost < l.OfWater-1e-12 || l.OfWaterMost > 1+1e-12 || !near(l.IceOfFood+f.Water*l.OfWater, f.Water, 1e-12) {
			t.Errorf("%+v, a degree colder %+v", l, c)
		}
	})
}
