package heat

import "math"

// ChenFood holds what Chen's (1985) formulas of specific heat and enthalpy need, as mass fractions. They are a published second
// opinion on State: one heat for all solids, no temperature dependence but that of the ice.
type ChenFood struct {
	Water          float64 // 0 to 1
	Protein        float64 // 0 to 1; 0.4 times it is water that does not freeze
	Solids         float64 // 0 to 1
	FreezingPointC float64 // -15 to -0.05 °C
}

// Chen is the composition in Chen's terms: everything but water is solids. Errors: *RangeError.
func (c Composition) Chen(freezingPointC float64) (ChenFood, error) {
	if err := c.Check(); err != nil {
		return ChenFood{}, err
	}
	f := ChenFood{c.Water, c.Protein, max(0, 1-c.Water), freezingPointC}
	return f, f.check()
}

// highestChenC: his unfrozen food has one specific heat, which is not meant for more than the liquid state.
const highestChenC = 100

func (f ChenFood) check() error {
	for _, p := range []struct {
		what string
		v    float64
	}{{"water fraction", f.Water}, {"protein fraction", f.Protein}, {"solids fraction", f.Solids}} {
		if err := InRange(p.what, "", p.v, 0, 1); err != nil {
			return err
		}
	}
	return InRange("freezing point", "°C", f.FreezingPointC, LowestFreezingPointC, HighestFreezingPointC)
}

func (f ChenFood) checkAt(tempC float64) error {
	if err := f.check(); err != nil {
		return err
	}
	return InRange("temperature for Chen's formulas", "°C", tempC, LowestPropertyC, highestChenC)
}

func (f ChenFood) freezable() float64 { return max(0, f.Water-boundWaterPerProtein*f.Protein) }

func (f ChenFood) unfrozenJKgK() float64 {
	return 1000 * (4.19 - 2.30*f.Solids - 0.628*math.Pow(f.Solids, 3))
}

// HeatJKgK is the apparent specific heat at tempC, -40 to 100 °C: 4.19 - 2.30·xs - 0.628·xs³ above the freezing point, else
// 1.55 + 1.26·xs - (xw - 0.4·xp)·L·tf/t², kJ/(kg·K) (Chen 1985, as in ASHRAE Handbook Refrigeration, "Thermal properties of foods";
// formulas from memory, the second confirmed by printed rows of its table 3). Errors: *RangeError.
func (f ChenFood) HeatJKgK(tempC float64) (float64, error) {
	if err := f.checkAt(tempC); err != nil {
		return 0, err
	}
	if tempC >= f.FreezingPointC {
		return f.unfrozenJKgK(), nil
	}
	return 1550 + 1260*f.Solids - f.freezable()*LatentHeatIceJKg*f.FreezingPointC/(tempC*tempC), nil
}

// EnthalpyJKg is the heat at tempC, -40 to 100 °C, above that at -40 °C: the integral of HeatJKgK (the same source, eqs. 15 and 18, read
// in a public statement of them). Errors: *RangeError.
func (f ChenFood) EnthalpyJKg(tempC float64) (float64, error) {
	if err := f.checkAt(tempC); err != nil {
		return 0, err
	}
	t := min(tempC, f.FreezingPointC)
	h := (t - LowestPropertyC) * (1550 + 1260*f.Solids - f.freezable()*LatentHeatIceJKg*f.FreezingPointC/(LowestPropertyC*t))
	return h + max(0, tempC-f.FreezingPointC)*f.unfrozenJKgK(), nil
}

// ChangTaoJKg is the quick enthalpy at the freezing point of a food with waterShare of water, 0.73 to 0.94: 9.79 + 405.1·xw kJ/kg
// (Chang and Tao 1981, as in ASHRAE Handbook Refrigeration, eq. 25; read in a public statement of it). Its zero is 227.6 K (-45.6 °C) and
// its range that of meats, fruit, vegetables and juices: both from memory. Errors: *RangeError.
func ChangTaoJKg(waterShare float64) (float64, error) {
	if err := InRange("water share for Chang and Tao's formula", "", waterShare, 0.73, 0.94); err != nil {
		return 0, err
	}
	return 1000 * (9.79 + 405.1*waterShare), nil
}

// TchigeovIceShare is the ice per mass of food at tempC, -45 °C up to the freezing point: 1.105·xw/(1 + 0.7138/ln(tf - t + 1)) (Tchigeov,
// ASHRAE Handbook Refrigeration, "Thermal properties of foods", eq. 5, read in a public statement of it). It knows no bound water: for
// lean meat it gives more ice than there is water that can freeze, so clamp it with FreezableWater, and do not mix it with an enthalpy
// of another model. waterShare 0 to 1, freezingPointC -15 to -0.05 °C. Errors: *RangeError.
func TchigeovIceShare(waterShare, freezingPointC, tempC float64) (float64, error) {
	if err := InRange("water share", "", waterShare, 0, 1); err != nil {
		return 0, err
	}
	if err := InRange("freezing point", "°C", freezingPointC, LowestFreezingPointC, HighestFreezingPointC); err != nil {
		return 0, err
	}
	if err := InRange("temperature for Tchigeov's formula", "°C", tempC, -45, freezingPointC); err != nil {
		return 0, err
	}
	below := math.Log1p(freezingPointC - tempC)
	// The same fraction with both sides multiplied by the logarithm, which is 0 at the freezing point.
	return 1.105 * waterShare * below / (below + 0.7138), nil
}

// TchigeovIce is TchigeovIceShare of the composition, never more than its freezable water. Errors: *RangeError.
func (c Composition) TchigeovIce(tempC, freezingPointC float64) (float64, error) {
	if err := c.Check(); err != nil {
		return 0, err
	}
	x, err := TchigeovIceShare(c.Water, freezingPointC, tempC)
	return min(x, c.FreezableWater()), err
}
