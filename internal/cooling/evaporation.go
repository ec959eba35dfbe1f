package cooling

import "kettlefrost/internal/vessel"

// evaporationWM2 is the heat that a free water surface at waterC gives off by evaporating into air of airC, as
// vessel.OpenSurfaceEvaporation has it: the table of open tanks, and below its 37.8 °C the difference of vapour pressures.
func evaporationWM2(waterC, airC float64) float64 {
	waterC = min(100, max(0, waterC))
	rate, err := vessel.OpenSurfaceEvaporation(waterC, airC)
	if err != nil { // both are in its range
		return 0
	}
	return rate.KgM2H / 3600 * vessel.VaporLatentJKg(waterC)
}
