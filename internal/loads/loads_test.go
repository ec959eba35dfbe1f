package loads

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Worked by hand. The searing figures are geometry (derived): 25 mm cubes at 1.06 kg/L and 60 % cover are 16 kg/m²; a base 26 cm
// across, 531 cm², takes about 0.85 kg.
func TestEven(t *testing.T) {
	for _, c := range []struct {
		name    string
		kg, kgL float64
		limit   Limit
		n       int
		each    float64
		binding Binding
	}{
		{"60 kg of cubes in one layer", 60, 1.06, Limit{VolumeL: 8, MassKg: 16 * 0.0531}, 71, 60.0 / 71, ByMass},
		{"91 L of soup in 45 L pots: three, not two and a spoonful", 91, 1, Limit{VolumeL: 45}, 3, 91.0 / 3, ByVolume},
		{"exactly two pots", 90, 1, Limit{VolumeL: 45}, 2, 45, ByVolume},
		{"two pots but for rounding", 90 + 1e-12, 1, Limit{VolumeL: 45}, 2, 45, ByVolume},
		{"leaves fill the pot before they weigh", 6, 0.1, Limit{VolumeL: 20, MassKg: 10}, 3, 2, ByVolume},
		{"no limit", 90, 1, Limit{}, 1, 90, Unlimited},
		{"nothing to do", 0, 1, Limit{VolumeL: 45}, 0, 0, Unlimited},
	} {
		got, err := Even(c.kg, c.kgL, c.limit)
		if err != nil || got.N != c.n || math.Abs(got.EachKg-c.each) > 1e-9 || got.Binding != c.binding {
			t.Errorf("%s: got %+v, %v; want %d loads of %v kg by %v", c.name, got, err, c.n, c.each, c.binding)
		}
	}
}

func TestFewest(t *testing.T) {
	limits := []Limit{{VolumeL: 20}, {VolumeL: 45}, {VolumeL: 50}}
	if i, s, err := Fewest(60, 1, limits); err != nil || i != 1 || s.N != 2 {
		t.Errorf("60 L: got %d, %+v, %v; the first pot that does it in two", i, s, err)
	}
	if i, s, err := Fewest(60, 1, nil); err != nil || i != -1 || s.N != 1 {
		t.Errorf("no vessel: got %d, %+v, %v", i, s, err)
	}
}

func TestEvenRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		kg, kgL float64
		limit   Limit
	}{
		"not a number":   {math.NaN(), 1, Limit{}},
		"negative":       {-1, 1, Limit{}},
		"no density":     {1, 0, Limit{}},
		"negative limit": {1, 1, Limit{VolumeL: -1}},
		"a thimble":      {200, 1, Limit{VolumeL: 0.001}},
	} {
		if s, err := Even(c.kg, c.kgL, c.limit); err == nil {
			t.Errorf("%s: got %+v", name, s)
		}
	}
}

// Never over the limit, never one filling more than needed, nothing lost.
func TestEvenAlways(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kg, kgL := rapid.Float64Range(0.001, 500).Draw(t, "kg"), rapid.Float64Range(0.05, 2).Draw(t, "kg/L")
		limit := Limit{VolumeL: rapid.Float64Range(0.5, 200).Draw(t, "L"), MassKg: rapid.Float64Range(0.5, 200).Draw(t, "limit kg")}
		s, err := Even(kg, kgL, limit)
		if err != nil {
			return // more than Most fillings
		}
		if math.Abs(s.EachKg*float64(s.N)-kg) > 1e-9*kg || s.EachL > limit.VolumeL*(1+1e-8) || s.EachKg > limit.MassKg*(1+1e-8) {
			t.Fatalf("%+v does not hold %v kg within %+v", s, kg, limit)
		}
		if n := float64(s.N - 1); n > 0 && kg/kgL < n*limit.VolumeL*(1-1e-8) && kg < n*limit.MassKg*(1-1e-8) {
			t.Fatalf("%d fillings where %v would do", s.N, n)
		}
	})
}
