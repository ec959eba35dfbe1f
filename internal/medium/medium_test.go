package medium

import (
	"math"
	"testing"
)

func TestEveryMediumIsWhole(t *testing.T) {
	seen := map[string]bool{}
	for _, m := range All() {
		if seen[m.ID] {
			t.Errorf("%s is there twice", m.ID)
		}
		seen[m.ID] = true
		f := m.Film
		if !(0 < f.LowWM2K && f.LowWM2K < f.UsualWM2K && f.UsualWM2K < f.HighWM2K) {
			t.Errorf("%s: %v does not rise", m.ID, f)
		}
		if m.Name == "" || m.Source == "" {
			t.Errorf("%s has no name or no source", m.ID)
		}
		if got, ok := Find(m.ID); !ok || got != m {
			t.Errorf("%s is not found", m.ID)
		}
	}
	if _, ok := Find("warm-blanket"); ok {
		t.Error("a medium that is not there is found")
	}
}

// Published ranges (tables of a food-cooling course and of a textbook, read): what we call usual lies inside them.
func TestUsualIsWithinThePublished(t *testing.T) {
	for id, published := range map[string][2]float64{
		"still-air": {4.6, 9.3}, "freezer-air": {4.6, 9.3}, "walk-in-fan": {13.4, 29}, "ice-bath-still": {232, 582}, "running-water": {232, 582}, "blast-freezer": {13.4, 50},
	} {
		m, _ := Find(id)
		if m.Film.UsualWM2K < published[0] || m.Film.UsualWM2K > published[1] {
			t.Errorf("%s: usual %g, published %v", id, m.Film.UsualWM2K, published)
		}
	}
}

// 0.1 mm of film: 500 becomes 435 in water and nothing is noticed in air; a millimetre of trapped air halves 24 (derived in the reference
// from conductivities from memory).
func TestThrough(t *testing.T) {
	for _, c := range []struct{ bare, resistance, want, tol float64 }{
		{500, BagFilmM2KW, 435, 0.5}, {8, BagFilmM2KW, 8, 0.03}, {24, AirMmM2KW, 12, 0.05},
	} {
		got := Film{c.bare, c.bare, c.bare}.Through(c.resistance).UsualWM2K
		if math.Abs(got-c.want) > c.tol {
			t.Errorf("%g through %g is %g, want %g", c.bare, c.resistance, got, c.want)
		}
	}
	if got := (Film{}).Through(1); got != (Film{}) {
		t.Errorf("no film through a layer is %v", got)
	}
}

// 30 % either way: ASHRAE research project 1123, abstract (read).
func TestSpread(t *testing.T) {
	if got := Spread(10); math.Abs(got.LowWM2K-7) > 1e-9 || math.Abs(got.HighWM2K-13) > 1e-9 || got.UsualWM2K != 10 {
		t.Errorf("spread of 10 is %v", got)
	}
}
