package reheating

import (
	"math"
	"testing"

	"kettlefrost/internal/conduction"
)

// When a surface passes 5 °C, by hand: on a straight line between the points.
func TestSurfacePasses(t *testing.T) {
	points := func(surfaceC ...float64) []conduction.Point {
		var all []conduction.Point
		for i, c := range surfaceC {
			all = append(all, conduction.Point{TimeS: 60 * float64(i), SurfaceC: c})
		}
		return all
	}
	for _, c := range []struct {
		points []conduction.Point
		wantS  float64
		passed bool
	}{
		{points(-18, 0, 4), 0, false}, {points(-18, 5, 5), 0, false}, {points(-18, 2, 6), 105, true}, {points(-18, 6, 4, 8), 23.0 / 24 * 60, true},
		{points(7, 9), 0, true}, {nil, 0, false},
	} {
		got, passed := firstAbove(c.points, 5)
		if passed != c.passed || math.Abs(got-c.wantS) > 1e-9 {
			t.Errorf("%v: %g s, %v", c.points, got, passed)
		}
	}
}
