package heatcase

import (
	"math"

	"kettlefrost/internal/unit"
)

// rounding is to what a time up to a length is rounded up.
var rounding = []struct{ upTo, to unit.Span }{
	{10 * unit.Second, unit.Second}, {2 * unit.Minute, 10 * unit.Second}, {unit.Hour, unit.Minute}, {5 * unit.Hour, 5 * unit.Minute},
	{10 * unit.Hour, 10 * unit.Minute}, {unit.Day, 30 * unit.Minute}, {4 * unit.Day, unit.Hour}, {10 * unit.Day, 12 * unit.Hour}, {math.MaxInt64, unit.Day},
}

// CookTime is a time as a cook should read it: about two figures of it, rounded up, because nothing is known better and waiting too
// short is the worse mistake. Times that make no sense are 0.
func CookTime(timeS float64) unit.Span {
	if !(timeS > 0 && timeS < 1e12) {
		return 0
	}
	for _, r := range rounding {
		if timeS <= r.upTo.S() {
			return unit.Span(math.Ceil(timeS/r.to.S()-1e-9)) * r.to
		}
	}
	return 0
}
