package vessel

import (
	"kettlefrost/internal/heat"
)

// IceHeatJKgK and WaterHeatJKgK are the specific heats of ice and water for ice baths and paddles, J/(kg·K): round handbook values
// near -10 and 10 °C, from memory.
const (
	IceHeatJKgK   = 2050
	WaterHeatJKgK = 4186
)

// IceUptakeJKg is what one kilogram of ice takes up from iceC (-60 to 0 °C), melting, until its water is at endC (0 to 100 °C).
// Errors: *heat.RangeError.
func IceUptakeJKg(iceC, endC float64) (float64, error) {
	if err := heat.InRange("ice temperature", "°C", iceC, -60, 0); err != nil {
		return 0, err
	}
	if err := heat.InRange("temperature of the melt water", "°C", endC, 0, 100); err != nil {
		return 0, err
	}
	return IceHeatJKgK*-iceC + heat.LatentHeatIceJKg + WaterHeatJKgK*endC, nil
}

// IceKg is how much ice at iceC must melt and warm to endC to take up heatJ, 0 to 1e12: the energy balance alone. What the bath
// takes up from the room comes on top. Errors: *heat.RangeError.
func IceKg(heatJ, iceC, endC float64) (float64, error) {
	if err := heat.InRange("heat", "J", heatJ, 0, 1e12); err != nil {
		return 0, err
	}
	uptake, err := IceUptakeJKg(iceC, endC)
	if err != nil {
		return 0, err
	}
	return heatJ / uptake, nil
}
