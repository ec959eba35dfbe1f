package vessel

import (
	"math"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/unit"
)

// OpenSurfaceEvaporation is StillAirEvaporation carried on to 0 and to 100 °C, for a surface that stands in air of airC, -60 to 60 °C.
//
// Between 37.8 and 98.9 °C it is the table. Above, it goes on like the table's last segment. Below, it falls from the table's first
// value with the difference of vapour pressures (Dalton's law) between the water and saturated air. That air is at 15.6 °C, the
// temperature of the table, or at airC if that is warmer: so evaporation never cools the water below the room, which dry air would do.
// The air temperature has no other part in it; cold dry air takes up somewhat more. The spread counts for all of it. Errors: *heat.RangeError.
func OpenSurfaceEvaporation(waterC, airC float64) (Evaporation, error) {
	if err := heat.InRange("water temperature", "°C", waterC, 0, BoilsC); err != nil {
		return Evaporation{}, err
	}
	if err := heat.InRange("air temperature", "°C", airC, coldestAirC, hottestAirC); err != nil {
		return Evaporation{}, err
	}
	return evaporationOf(surfaceLossWM2(waterC, airC), waterC), nil
}

const (
	coldestAirC, hottestAirC = -60, 60
	tableAirF                = 60.0
	highestOnsetC            = 36.0 // where the tail starts at the latest, so that it joins the table
)

// tableStartC is where the table of evaporation begins.
func tableStartC() float64 { return unit.TempF(stillAirLoss[0].tempF).C() }

// onsetC is the water temperature at which evaporation starts.
func onsetC(airC float64) float64 { return min(max(unit.TempF(tableAirF).C(), airC), highestOnsetC) }

// surfaceLossWM2 is the heat that evaporation carries off, W per m² of open water. It never falls as the water gets hotter.
func surfaceLossWM2(waterC, airC float64) float64 {
	first, onset := tableStartC(), onsetC(airC)
	switch {
	case waterC <= onset:
		return 0
	case waterC >= first:
		return tableLossWM2(waterC)
	}
	air := saturationPa(onset)
	return tableLossWM2(first) * (saturationPa(waterC) - air) / (saturationPa(first) - air)
}

// saturationPa is the vapour pressure over water at t °C: Buck's formula of 1981 in its later form, from memory. Checked against steam
// tables from 10 to 40 °C.
func saturationPa(t float64) float64 {
	return 611.21 * math.Exp((18.678-t/234.5)*t/(257.14+t))
}

// surfaceKinks are the temperatures between which surfaceLossWM2 is smooth, rising.
func surfaceKinks(airC float64) []float64 {
	kinks := []float64{onsetC(airC)}
	for _, row := range stillAirLoss {
		kinks = append(kinks, unit.TempF(row.tempF).C())
	}
	return kinks
}
