package reheating

import (
	"math"
	"testing"

	"kettlefrost/internal/unit"
)

// The printed check values of the saturation line: IAPWS-IF97, table 36 (from memory).
func TestSaturationLine(t *testing.T) {
	for _, c := range []struct{ pressureMPa, wantK float64 }{{0.1, 0.372755919e3}, {1, 0.453035632e3}, {10, 0.584149488e3}} {
		if got := boilsK(c.pressureMPa * 1e6); math.Abs(got-c.wantK) > 1e-6 {
			t.Errorf("at %g MPa: %.6f K, want %.6f", c.pressureMPa, got, c.wantK)
		}
	}
}

// The standard atmosphere, ISO 2533 (from memory): 1000 m 89,875 Pa, 2000 m 79,495 Pa, 3000 m 70,109 Pa, 5000 m 54,020 Pa.
func TestStandardAtmosphere(t *testing.T) {
	for _, c := range []struct{ altitudeM, wantPa float64 }{{0, 101325}, {1000, 89875}, {2000, 79495}, {3000, 70109}, {5000, 54020}} {
		near(t, "pressure", must(PressurePa(c.altitudeM))(t), c.wantPa, 2e-4)
	}
}

// Boiling points in the mountains as the United States Department of Agriculture prints them for cooks (high altitude cooking; from memory,
// rounded there), and the household rule of 1 °F for each 500 ft (from memory).
func TestBoilingInTheMountains(t *testing.T) {
	for _, c := range []struct{ feet, wantF float64 }{{0, 212}, {2000, 208.4}, {5000, 203}, {7500, 198.4}, {10_000, 194}} {
		altitudeM := c.feet * unit.Foot.M()
		gotF := unit.TempC(must(BoilC(altitudeM))(t)).F()
		if math.Abs(gotF-c.wantF) > 0.6 {
			t.Errorf("at %g ft: %.1f °F, printed %g", c.feet, gotF, c.wantF)
		}
		if rule := 212 - c.feet/500; math.Abs(gotF-rule) > 2.5 {
			t.Errorf("at %g ft: %.1f °F, by the household rule %g", c.feet, gotF, rule)
		}
		if simmer := must(SimmerC(altitudeM))(t); math.Abs(unit.TempC(simmer).F()-(gotF-9)) > 0.01 {
			t.Errorf("simmering at %.2f °C is not 9 °F below %.1f °F", simmer, gotF)
		}
	}
	if _, err := BoilC(9000); err == nil {
		t.Error("an altitude of 9000 m is answered")
	}
	if _, err := SimmerC(math.NaN()); err == nil {
		t.Error("an altitude that is no number is answered")
	}
}
