package controlchart

import "math"

// Capability is how much room a process leaves above a lower limit, in threes of its standard deviation.
type Capability struct {
	Lower      float64 // the limit
	Cpk        float64 // (centre - lower)/(3 s); below 0 when the centre is below the limit; +Inf or -Inf when nothing scatters
	ShareBelow float64 // of single values that lie below the limit, if they scatter normally; 0 to 1
}

// Above is the capability against a lower limit only: Cpk = (centre - lower)/(3 s), NIST/SEMATECH e-Handbook 7.1.6 (from memory). It
// speaks of single values as they scatter within groups; what drifts between groups is not in it.
func (s Standard) Above(lower float64) Capability {
	c := Capability{Lower: lower}
	room := s.Centre - lower
	switch {
	case s.SD > 0:
		c.Cpk = room / (3 * s.SD)
		c.ShareBelow = math.Erfc(room/(s.SD*math.Sqrt2)) / 2
	case room >= 0:
		c.Cpk = math.Inf(1)
	default:
		c.Cpk, c.ShareBelow = math.Inf(-1), 1
	}
	return c
}
