package plan

import (
	"math"
	"testing"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// A 40 gal pot of thick food, 0.57 m across and 0.593 m deep (ρ 1030, c 3850, k 0.59), from 57.2 °C in still air of 3 °C with 10 W/m²K all
// round: its centre takes 47.1 h to 21.1 °C (product of series, derived).
func TestPotLeftAlone(t *testing.T) {
	solid := heat.Solid{DensityKgM3: 1030, SpecificHeatJKgK: 3850, ConductivityWMK: 0.59}
	hours := func(c kitchen.Chilling) float64 {
		s, err := potInAir(solid, 0.57, 0.593, c).CentreTimeS(57.2, 3, 21.1)
		if err != nil {
			t.Fatal(err)
		}
		return s / 3600
	}
	round := hours(kitchen.Chilling{Top: 10, Bottom: 10, Wall: 10})
	if math.Abs(round-47.1) > 0.5 {
		t.Errorf("10 W/m²K all round: %.2f h, want 47.1", round)
	}
	// A slower face never makes it faster, and a face that is not given counts as closed.
	slower, closed := hours(kitchen.Chilling{Top: 10, Bottom: 5, Wall: 10}), hours(kitchen.Chilling{Top: 10, Wall: 10})
	if !(round < slower && slower < closed) {
		t.Errorf("all round %.2f h, slow below %.2f h, closed below %.2f h", round, slower, closed)
	}
}

// A 4 in pan in air of -10 °C came out 2.4 % short of a finite-volume solution (derived): the plan must not promise the shorter time.
func TestFreezingAirPromisesNoLess(t *testing.T) {
	formula := func(float64) (float64, error) { return 1000, nil }
	for medium, least := range map[float64]float64{3: 1000, -10: 1024} {
		if s, err := slowed(unit.TempC(medium), formula)(21.1); err != nil || s < least {
			t.Errorf("air at %v °C: %v s, %v; want %v at least", medium, s, err, least)
		}
	}
}
