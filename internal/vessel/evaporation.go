package vessel

import (
	"math"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/unit"
)

// stillAirLoss is the heat of evaporation from an open water surface in still air at 60 °F, by its own source "rough estimates":
// The Engineering Toolbox, "Heat Loss from Open Water Tanks".
var stillAirLoss = [...]struct{ tempF, btuFt2H float64 }{
	{100, 160}, {120, 360}, {140, 660}, {160, 1100}, {180, 1740}, {200, 2680}, {210, 3240},
}

const (
	wM2PerBtuFt2H = 3.15459 // 1055.056 J / 3600 s / 0.09290304 m²

	// EvaporationSpread is how far the table may be off either way: a US Department of Energy tip sheet on open vessels (no. 19, dry
	// air at 75 °F) has 13 to 32 % more, and a draught of 3 mph more than doubles it. Weigh one batch to know.
	EvaporationSpread = 0.35

	// BoilingLatentJKg is the heat of vaporisation at 100 °C.
	BoilingLatentJKg = 2257e3
)

// Evaporation is an estimate with its spread, in kg of water per m² of open surface and hour.
type Evaporation struct {
	KgM2H, LowKgM2H, HighKgM2H float64
}

// StillAirEvaporation is the loss from an open, fat-free water surface at waterC in still air near 16 °C, for 37.8 to 98.9 °C (100
// to 210 °F), interpolated in the logarithm. Thick or fat-covered surfaces lose less, draughts more than double it, and at the
// boil the heat decides: see BoilOffKgH. Errors: *heat.RangeError; it does not extrapolate.
func StillAirEvaporation(waterC float64) (Evaporation, error) {
	first, last := stillAirLoss[0], stillAirLoss[len(stillAirLoss)-1]
	if err := heat.InRange("water temperature", "°C", waterC, unit.TempF(first.tempF).C(), unit.TempF(last.tempF).C()); err != nil {
		return Evaporation{}, err
	}
	return evaporationOf(tableLossWM2(waterC), waterC), nil
}

// tableLossWM2 interpolates the table in the logarithm; beyond its ends it goes on like the last segment.
func tableLossWM2(waterC float64) float64 {
	i := 1
	for i < len(stillAirLoss)-1 && unit.TempF(stillAirLoss[i].tempF).C() < waterC {
		i++
	}
	low, high := stillAirLoss[i-1], stillAirLoss[i]
	along := (waterC - unit.TempF(low.tempF).C()) / (unit.TempF(high.tempF).C() - unit.TempF(low.tempF).C())
	return wM2PerBtuFt2H * low.btuFt2H * math.Pow(high.btuFt2H/low.btuFt2H, along)
}

func evaporationOf(lossWM2, waterC float64) Evaporation {
	rate := lossWM2 * 3600 / VaporLatentJKg(waterC)
	return Evaporation{rate, rate * (1 - EvaporationSpread), rate * (1 + EvaporationSpread)}
}

// VaporLatentJKg is the heat of vaporisation at t °C: a straight line through the steam tables' 2501 kJ/kg at 0 °C and 2257 at
// 100 °C, within 0.2 % between them.
func VaporLatentJKg(t float64) float64 { return 2501e3 + (BoilingLatentJKg-2501e3)*t/100 }

// BoilOffKgH is what a rolling boil gives off: power that reaches the content less wall losses (netW, 0 to 1e6 W) over the heat of
// vaporisation at 100 °C, in kg per hour. Errors: *heat.RangeError, also if the losses exceed the power.
func BoilOffKgH(netW float64) (float64, error) {
	if err := heat.InRange("net power", "W", netW, 0, 1e6); err != nil {
		return 0, err
	}
	return netW * 3600 / BoilingLatentJKg, nil
}
