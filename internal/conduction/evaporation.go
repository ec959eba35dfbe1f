package conduction

import "kettlefrost/internal/vessel"

// An open face loses heat by evaporation as vessel.OpenSurfaceEvaporation has it. A surface balance asks for that and its slope many
// times, so it is sampled every half degree Fahrenheit, on the points of its table: straight lines in between are within 0.03 % of it
// and have an exact slope.
const (
	onsetC         = (onsetF - 32) / 1.8
	onsetF         = 60.0 // the air of the table
	tableFromF     = 100.0
	boilsF         = 212.0
	samplesPerF    = 2
	highestOnsetC  = 36.0 // below the table, however warm the air
	samples        = (boilsF - onsetF) * samplesPerF
	samplesToTable = (tableFromF - onsetF) * samplesPerF
)

// evaporationWM2 is the loss in air of the table's temperature or colder.
var evaporationWM2 = func() (table [samples + 1]float64) {
	for i := range table {
		tempC := (onsetF + float64(i)/samplesPerF - 32) / 1.8
		if rate, err := vessel.OpenSurfaceEvaporation(min(tempC, 100), onsetC); err == nil {
			table[i] = rate.KgM2H / 3600 * vessel.VaporLatentJKg(tempC)
		}
	}
	return table
}()

// evaporation is the heat in W/m² and its slope. Above 100 °C it stays.
func evaporation(surfaceC, airC float64) (lossWM2, slopeWM2K float64) {
	loss, slope := sampled(surfaceC)
	if airC <= onsetC || loss >= evaporationWM2[samplesToTable] {
		return loss, slope
	}
	// Warmer air: the tail below the table is a difference of vapour pressures, so it is the same curve from a later onset.
	first := evaporationWM2[samplesToTable]
	from, _ := sampled(min(airC, highestOnsetC))
	if loss <= from {
		return 0, 0
	}
	stretch := first / (first - from)
	return (loss - from) * stretch, slope * stretch
}

func sampled(surfaceC float64) (lossWM2, slopeWM2K float64) {
	along := (surfaceC - onsetC) * 1.8 * samplesPerF
	if !(along > 0) {
		return 0, 0
	}
	if along >= samples {
		return evaporationWM2[samples], 0
	}
	i := int(along)
	rise := evaporationWM2[i+1] - evaporationWM2[i]
	return evaporationWM2[i] + rise*(along-float64(i)), rise * 1.8 * samplesPerF
}
