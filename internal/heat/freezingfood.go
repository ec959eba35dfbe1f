package heat

import "math"

// FreezingFood describes a food through freezing with seven constants, such that enthalpy, its inverse and conductivity are closed
// formulas (t in °C, tf the freezing point):
//
//	t >= tf: H = cu·(t-tf)                    k = ku
//	t <  tf: H = cf·(t-tf) + A·(tf/t - 1)     k = kf + (ku-kf)·tf/t
//
// The latent term is the ideal-solution ice curve of IceShare, so the apparent heat cf - A·tf/t² has the shape of Schwartzberg's.
type FreezingFood struct {
	DensityKgM3             float64 // one density throughout
	UnfrozenHeatJKgK        float64 // cu
	FrozenHeatJKgK          float64 // cf, sensible
	FreezableJKg            float64 // A: freezable water times the heat of fusion
	FreezingPointC          float64 // tf
	UnfrozenConductivityWMK float64 // ku
	FrozenConductivityWMK   float64 // kf, the limit for t far below tf
}

// matchC is where the frozen constants are made to fit the composition: the middle of what freezers do.
const matchC = -20

// FreezingFood derives the constants from a composition that starts to freeze at freezingPointC, -15 to -0.05 °C. Density,
// unfrozen heat and conductivity are those at unfrozenC (freezing point to 150 °C; take 5 °C for freezing, 40 °C for reheating);
// frozen heat and conductivity (Levy) are matched at -20 °C. Errors: *RangeError.
func (c Composition) FreezingFood(freezingPointC, unfrozenC float64) (FreezingFood, error) {
	frozen, err := c.FrozenAt(matchC, freezingPointC)
	if err != nil {
		return FreezingFood{}, err
	}
	if err := InRange("temperature of the unfrozen food", "°C", unfrozenC, freezingPointC, HighestPropertyC); err != nil {
		return FreezingFood{}, err
	}
	unfrozen, err := c.At(unfrozenC)
	if err != nil {
		return FreezingFood{}, err
	}
	still := freezingPointC / matchC // part of the freezable water that is liquid at matchC
	food := FreezingFood{
		DensityKgM3:             unfrozen.DensityKgM3,
		UnfrozenHeatJKgK:        unfrozen.SpecificHeatJKgK,
		FrozenHeatJKgK:          frozen.SpecificHeatJKgK,
		FreezableJKg:            c.FreezableWater() * LatentHeatIceJKg,
		FreezingPointC:          freezingPointC,
		UnfrozenConductivityWMK: unfrozen.ConductivityWMK,
		FrozenConductivityWMK:   (frozen.ConductivityWMK - still*unfrozen.ConductivityWMK) / (1 - still),
	}
	return food, food.Check()
}

// Check is nil if every constant is one a food can have.
func (f FreezingFood) Check() error {
	for _, c := range []struct {
		what, unit   string
		v, low, high float64
	}{
		{"density", "kg/m³", f.DensityKgM3, 100, 3000},
		{"unfrozen specific heat", "J/(kg·K)", f.UnfrozenHeatJKgK, 500, 6000},
		{"frozen specific heat", "J/(kg·K)", f.FrozenHeatJKgK, 500, 6000},
		{"freezable heat", "J/kg", f.FreezableJKg, 0, LatentHeatIceJKg},
		{"freezing point", "°C", f.FreezingPointC, LowestFreezingPointC, HighestFreezingPointC},
		{"unfrozen conductivity", "W/(m·K)", f.UnfrozenConductivityWMK, 0.02, 10},
		{"frozen conductivity", "W/(m·K)", f.FrozenConductivityWMK, 0.02, 10},
	} {
		if err := InRange(c.what, c.unit, c.v, c.low, c.high); err != nil {
			return err
		}
	}
	return nil
}

// EnthalpyJKg is the heat in one kilogram at tempC (-60 to 150 °C) above the same food unfrozen at its freezing point, so it is
// negative below that. Errors: *RangeError.
func (f FreezingFood) EnthalpyJKg(tempC float64) (float64, error) {
	if err := f.checkAt(tempC); err != nil {
		return 0, err
	}
	above := tempC - f.FreezingPointC
	if above >= 0 {
		return f.UnfrozenHeatJKgK * above, nil
	}
	return f.FrozenHeatJKgK*above + f.FreezableJKg*(f.FreezingPointC/tempC-1), nil
}

// HeatJKg is what one kilogram gives off from fromC to toC, negative if it takes heat up. Range and errors as EnthalpyJKg.
func (f FreezingFood) HeatJKg(fromC, toC float64) (float64, error) {
	from, err := f.EnthalpyJKg(fromC)
	if err != nil {
		return 0, err
	}
	to, err := f.EnthalpyJKg(toC)
	return from - to, err
}

// TempC is the inverse of EnthalpyJKg. Errors: *RangeError for an enthalpy that belongs to no temperature in -60 to 150 °C.
func (f FreezingFood) TempC(enthalpyJKg float64) (float64, error) {
	low, err := f.EnthalpyJKg(lowestFoodC)
	if err != nil {
		return 0, err
	}
	high := f.UnfrozenHeatJKgK * (HighestPropertyC - f.FreezingPointC)
	if err := InRange("enthalpy", "J/kg", enthalpyJKg, low, high); err != nil {
		return 0, err
	}
	if enthalpyJKg >= 0 {
		return f.FreezingPointC + enthalpyJKg/f.UnfrozenHeatJKgK, nil
	}
	k := enthalpyJKg + f.FrozenHeatJKgK*f.FreezingPointC + f.FreezableJKg
	root := math.Sqrt(k*k - 4*f.FrozenHeatJKgK*f.FreezableJKg*f.FreezingPointC) // freezing point < 0, so the sum is >= k²
	return (k - root) / (2 * f.FrozenHeatJKgK), nil
}

// ConductivityWMK is the conductivity at tempC, -60 to 150 °C. Errors: *RangeError.
func (f FreezingFood) ConductivityWMK(tempC float64) (float64, error) {
	if err := f.checkAt(tempC); err != nil {
		return 0, err
	}
	if tempC >= f.FreezingPointC {
		return f.UnfrozenConductivityWMK, nil
	}
	liquid := f.FreezingPointC / tempC
	return f.FrozenConductivityWMK + (f.UnfrozenConductivityWMK-f.FrozenConductivityWMK)*liquid, nil
}

// lowestFoodC is the coldest a blast freezer brings food; the formulas are smooth beyond their fitted -40 °C.
const lowestFoodC = -60

func (f FreezingFood) checkAt(tempC float64) error {
	if err := f.Check(); err != nil {
		return err
	}
	return InRange("food temperature", "°C", tempC, lowestFoodC, HighestPropertyC)
}
