package vessel

import (
	"testing"

	"kettlefrost/internal/heat/heattest"
)

// Heat-up from the fridge in a warm room, with and without loss, against small steps of the heat balance.
func TestHeatUpAgainstSteps(t *testing.T) {
	for _, lossWK := range []float64{0, 18, 100} {
		v := Vessel{HeatCapacityJK: 600e3, LossWK: lossWK}
		const netW, stepS, ambientC = 12e3, 0.1, 21
		tempC, timeS := 4.0, 0.0
		for ; tempC < 95; timeS += stepS {
			tempC += (netW - lossWK*(tempC-ambientC)) * stepS / v.HeatCapacityJK
		}
		heattest.Near(t, "heat-up", heattest.Must(v.HeatUpTimeS(Heater{RatedW: 24e3, Efficiency: 0.5}, 4, ambientC, 95))(t), timeS, 1e-3)
	}
}
