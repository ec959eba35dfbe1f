package heat

import "math"

// State is what a food is like at one temperature, frozen or not, per kilogram of the whole.
type State struct {
	DensityKgM3      float64 // without air
	SensibleHeatJKgK float64 // of what is there at this temperature, the heat of freezing left out
	ApparentHeatJKgK float64 // with the heat of the ice that melts per kelvin: the slope of EnthalpyJKg
	ConductivityWMK  float64 // parallel model above the freezing point, Levy's below
	EnthalpyJKg      float64 // heat above the same food at -40 °C
	IceShare         float64
	LiquidWater      float64 // water that is not ice, bound water included
}

// State gives everything at tempC, -40 to 150 °C, for a food that starts to freeze at freezingPointC, -15 to -0.05 °C.
//
// The ice follows the ideal solution with bound water (IceShare), so the apparent heat has Schwartzberg's shape:
//
//	ca = Σ(x·c) + (xw - 0.4·xp)·L·(-tf)/t²    below the freezing point tf
//
// with Σ(x·c) over the components after Choi and Okos and the ice and water of that temperature. It is taken rather than Chen's for
// three reasons: it is the same ice as in FrozenAt and FreezingFood; fat, starch and ash each keep their own heat, where Chen has one for
// all solids; and in Fricke and Becker's comparison of models (2001, abstract) Schwartzberg's apparent heat did best. On Riedel's measured
// lean beef (from memory) it is within 4 % of the heat given off from 0 °C down, Chen 6 % short.
// The enthalpy is its integral, in closed form. L stays at its value at 0 °C, as in the published form; in truth it falls by some
// 2 kJ/kg per kelvin, so that heat given off far below the freezing point is a little too large. Errors: *RangeError.
func (c Composition) State(tempC, freezingPointC float64) (State, error) {
	iceShare, err := c.IceShare(tempC, freezingPointC)
	if err != nil {
		return State{}, err
	}
	m := c.mixAt(tempC, iceShare)
	s := State{DensityKgM3: m.density(), SensibleHeatJKgK: m.specificHeat(), ConductivityWMK: m.levy(), IceShare: iceShare,
		LiquidWater: c.Water - iceShare}
	s.ApparentHeatJKgK = s.SensibleHeatJKgK
	if tempC < freezingPointC {
		s.ApparentHeatJKgK += c.FreezableWater() * LatentHeatIceJKg * -freezingPointC / (tempC * tempC)
	}
	s.EnthalpyJKg = c.partlyFrozenJKg(min(tempC, freezingPointC), freezingPointC)
	if tempC > freezingPointC {
		s.EnthalpyJKg += c.unfrozenJKg(freezingPointC, tempC)
	}
	return s, nil
}

// partlyFrozenJKg is the heat from -40 °C to t, which is at most tf. Of the freezable water the part tf/t is liquid, the rest ice.
func (c Composition) partlyFrozenJKg(t, tf float64) float64 {
	freezable := c.FreezableWater()
	kJ := (c.Water-freezable)*supercooledHeat.integral(LowestPropertyC, t) + freezable*substances[ice].specificHeat.integral(LowestPropertyC, t)
	kJ += freezable * tf * (supercooledHeat.integralOverT(LowestPropertyC, t) - substances[ice].specificHeat.integralOverT(LowestPropertyC, t))
	for i, x := range c.shares() {
		if component(i) != water {
			kJ += x * substances[i].specificHeat.integral(LowestPropertyC, t)
		}
	}
	return kJ*1000 + freezable*LatentHeatIceJKg*(tf/t-tf/LowestPropertyC)
}

// unfrozenJKg is the sensible heat from one temperature to a higher one with all water liquid.
func (c Composition) unfrozenJKg(from, to float64) float64 {
	kJ := c.Water * (supercooledHeat.integral(from, min(to, 0)) + substances[water].specificHeat.integral(0, max(to, 0)))
	for i, x := range c.shares() {
		if component(i) != water {
			kJ += x * substances[i].specificHeat.integral(from, to)
		}
	}
	return kJ * 1000
}

// integral is that of the polynomial from one temperature to another.
func (q quadratic) integral(from, to float64) float64 {
	upTo := func(t float64) float64 { return t * (q[0] + t*(q[1]/2+t*q[2]/3)) }
	return upTo(to) - upTo(from)
}

// integralOverT is the integral of the polynomial divided by t, between two temperatures below 0 °C.
func (q quadratic) integralOverT(from, to float64) float64 {
	return q[0]*math.Log(to/from) + q[1]*(to-from) + q[2]/2*(to*to-from*from)
}
