package cooling

import (
	"fmt"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/vessel"
)

// Food is one load of hot food, finished: with the water in it that may be added as ice.
type Food struct {
	MassKg       float64           // 0.05 to 10,000
	Props        heat.FreezingFood // of the finished food
	StartC       float64           // throughout, when the cooling begins; at most 130
	AddedWaterKg float64           // of MassKg: the recipe's own water that could be held back and added as ice
	Pieces       bool              // it can be neither stirred nor poured: pans only
}

const (
	smallestLoadKg, largestLoadKg = 0.05, 10_000
	hottestC                      = 130
	coldestMediumC, warmestAirC   = -60, 60
)

// check is nil for a food that is to be cooled to endC.
func (f Food) check(endC float64) error {
	if err := heat.InRange("mass of the load", "kg", f.MassKg, smallestLoadKg, largestLoadKg); err != nil {
		return err
	}
	if err := f.Props.Check(); err != nil {
		return err
	}
	if err := heat.InRange("end of the cooling", "°C", endC, f.Props.FreezingPointC+leastAboveFreezingK, hottestC); err != nil {
		return err
	}
	if err := heat.InRange("start temperature", "°C", f.StartC, endC+leastFallK, hottestC); err != nil {
		return err
	}
	// Water that stores as much heat as the whole load cannot be a part of it.
	return heat.InRange("added water", "kg", f.AddedWaterKg, 0, min(f.MassKg, f.heatJK()/vessel.WaterHeatJKgK))
}

const (
	leastAboveFreezingK = 0.05 // nearer to its freezing point food is not followed
	leastFallK          = 1e-6
)

// heatJK is the heat capacity of the load, above its freezing point.
func (f Food) heatJK() float64 { return f.MassKg * f.Props.UnfrozenHeatJKgK }

func (f Food) volumeM3() float64 { return f.MassKg / f.Props.DensityKgM3 }

// A PiecesError says that a way stirs, or melts ice in, a food that is in pieces.
type PiecesError struct{ Stage int }

func (e *PiecesError) Error() string {
	return fmt.Sprintf("stage %d stirs the food, but it is in pieces", e.Stage+1)
}
