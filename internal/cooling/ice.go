package cooling

import (
	"kettlefrost/internal/heat"
	"kettlefrost/internal/vessel"
)

// melt is an amount of water that may be ice in part. Its heat is counted from water at 0 °C.
type melt struct{ kg float64 }

// iceJ is the heat of kg of ice at iceC, which is 0 °C or below.
func iceJ(kg, iceC float64) float64 { return kg * (vessel.IceHeatJKgK*iceC - heat.LatentHeatIceJKg) }

func (m melt) tempC(heatJ float64) float64 {
	frozenJ := -m.kg * heat.LatentHeatIceJKg
	switch {
	case heatJ > 0:
		return heatJ / (m.kg * vessel.WaterHeatJKgK)
	case heatJ < frozenJ:
		return (heatJ - frozenJ) / (m.kg * vessel.IceHeatJKgK)
	}
	return 0
}
