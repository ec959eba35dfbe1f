package vessel

import (
	"math"

	"kettlefrost/internal/heat"
)

// Efficiency of burners, the part of the rated power that reaches the food: US Department of Energy figures, as quoted on trade pages
// (read there). Big pots on big gas burners can be worse: calibration.Efficiency.
const (
	GasEfficiencyLow, GasEfficiencyHigh           = 0.40, 0.44
	ElectricEfficiencyLow, ElectricEfficiencyHigh = 0.74, 0.80
	InductionEfficiency                           = 0.84
)

// BareWallWM2K is the loss of a bare pot to still air, radiation included: 2.0 Btu/(h·ft²·°F), The Engineering Toolbox, "Heat Loss from
// Open Water Tanks" (read).
const BareWallWM2K = 11.4

// Kettle is a round, straight pot with a stirred content on a burner.
type Kettle struct {
	Of        heat.Composition
	MassKg    float64 // 0.01 to 5000
	DiameterM float64 // inside, 0.05 to 3
	Burner    Heater
	AmbientC  float64 // -60 to 60
	WallWM2K  float64 // loss through all its surfaces, the top too, 0 to 1000: BareWallWM2K
	Wet       float64 // 0 with the lid on, 1 with it off: see Open
	PotJK     float64 // heat capacity of the empty pot, 0 to 1e6; 0 leaves it out (some 2 % of a full stockpot)
}

// KettleHeatUp is how a kettle gets to its temperature.
type KettleHeatUp struct {
	Passage
	DepthM         float64 // of the food
	HeatCapacityJK float64 // of food and pot, mean on the way
	LossWK         float64
	UsefulJ        float64 // what the content and the pot took up
}

// HeatUp is the way from startC to targetC, both 0 to 100 °C, with the burner at full power. Density and specific heat are the means over
// that range. Thick food that is not stirred burns instead. Errors: *heat.NeverError if the burner cannot do it, with where it ends up;
// *EvaporatedError if a fifth of the content would evaporate on the way; *heat.RangeError.
func (k Kettle) HeatUp(startC, targetC float64) (KettleHeatUp, error) {
	v, depthM, err := k.OpenVessel(startC, targetC)
	if err != nil {
		return KettleHeatUp{}, err
	}
	if targetC < startC {
		return KettleHeatUp{}, &heat.NeverError{StartC: startC, TargetC: targetC, LimitC: startC}
	}
	p, err := v.To(k.Burner, startC, k.AmbientC, targetC)
	if err != nil {
		return KettleHeatUp{}, err
	}
	return KettleHeatUp{p, depthM, v.Vessel.HeatCapacityJK, v.Vessel.LossWK, v.Vessel.HeatCapacityJK * (targetC - startC)}, nil
}

// OpenVessel is the kettle as a stirred vessel between two temperatures, 0 to 100 °C, and the depth of the food in it (at most 3 m).
// Errors: *heat.RangeError.
func (k Kettle) OpenVessel(fromC, toC float64) (Open, float64, error) {
	if err := k.check(fromC, toC); err != nil {
		return Open{}, 0, err
	}
	mean, err := meanOver(k.Of, fromC, toC)
	if err != nil {
		return Open{}, 0, err
	}
	floorM2 := math.Pi / 4 * k.DiameterM * k.DiameterM
	depthM := k.MassKg / mean.DensityKgM3 / floorM2
	if err := heat.InRange("depth of the food", "m", depthM, 0, heat.LargestM); err != nil {
		return Open{}, 0, err
	}
	surfaceM2 := 2*floorM2 + math.Pi*k.DiameterM*depthM
	v := Open{Vessel{k.MassKg*mean.SpecificHeatJKgK + k.PotJK, k.WallWM2K * surfaceM2}, floorM2, k.Wet}
	return v, depthM, v.Check()
}

func (k Kettle) check(fromC, toC float64) error {
	for _, c := range []struct {
		what, unit   string
		v, low, high float64
	}{
		{"mass", "kg", k.MassKg, 0.01, 5000},
		{"diameter", "m", k.DiameterM, 0.05, heat.LargestM},
		{"loss of the wall", "W/(m²·K)", k.WallWM2K, 0, 1000},
		{"heat capacity of the pot", "J/K", k.PotJK, 0, 1e6},
		{"start temperature", "°C", fromC, 0, BoilsC},
		{"target temperature", "°C", toC, 0, BoilsC},
	} {
		if err := heat.InRange(c.what, c.unit, c.v, c.low, c.high); err != nil {
			return err
		}
	}
	return nil
}

// meanOver is the mean of the unfrozen properties between two temperatures by Simpson's rule: exact for the specific heat, which is a
// quadratic of the temperature.
func meanOver(c heat.Composition, fromC, toC float64) (heat.Properties, error) {
	var mean heat.Properties
	for _, at := range []struct{ tempC, weight float64 }{{fromC, 1. / 6}, {(fromC + toC) / 2, 4. / 6}, {toC, 1. / 6}} {
		p, err := c.At(at.tempC)
		if err != nil {
			return heat.Properties{}, err
		}
		mean.DensityKgM3 += at.weight * p.DensityKgM3
		mean.SpecificHeatJKgK += at.weight * p.SpecificHeatJKgK
		mean.ConductivityWMK += at.weight * p.ConductivityWMK
	}
	return mean, nil
}
