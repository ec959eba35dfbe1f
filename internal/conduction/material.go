package conduction

import (
	"math"

	"kettlefrost/internal/heat"
)

// Food is a food that freezes over a range of temperatures, as heat.FreezingFood describes it; -60 to 150 °C. The potential is the
// integral of its conductivity from the freezing point. Errors: *heat.RangeError.
func Food(f heat.FreezingFood) (Material, error) {
	if err := f.Check(); err != nil {
		return nil, err
	}
	return food{f}, nil
}

type food struct{ heat.FreezingFood }

func (f food) DensityKgM3() float64 { return f.FreezingFood.DensityKgM3 }

// EnthalpyJKg is heat.FreezingFood's without its checks.
func (f food) EnthalpyJKg(tempC float64) float64 {
	above := tempC - f.FreezingPointC
	if above >= 0 {
		return f.UnfrozenHeatJKgK * above
	}
	return f.FrozenHeatJKgK*above + f.FreezableJKg*(f.FreezingPointC/tempC-1)
}

func (f food) At(enthalpyJKg float64) (tempC, slopeKKgJ, conductivityWMK float64) {
	tf, cf := f.FreezingPointC, f.FrozenHeatJKgK
	if enthalpyJKg >= 0 {
		return tf + enthalpyJKg/f.UnfrozenHeatJKgK, 1 / f.UnfrozenHeatJKgK, f.UnfrozenConductivityWMK
	}
	k := enthalpyJKg + cf*tf + f.FreezableJKg
	root := math.Sqrt(k*k - 4*cf*f.FreezableJKg*tf)
	if k > 0 { // the same root of the quadratic, without cancellation
		tempC = 2 * f.FreezableJKg * tf / (k + root)
	} else {
		tempC = (k - root) / (2 * cf)
	}
	liquid := tf / tempC
	return tempC, 1 / (cf - f.FreezableJKg*liquid/tempC), f.FrozenConductivityWMK + (f.UnfrozenConductivityWMK-f.FrozenConductivityWMK)*liquid
}

func (f food) Potential(tempC float64) (potentialWM, conductivityWMK float64) {
	tf, ku, kf := f.FreezingPointC, f.UnfrozenConductivityWMK, f.FrozenConductivityWMK
	if tempC >= tf {
		return ku * (tempC - tf), ku
	}
	liquid := tf / tempC
	return kf*(tempC-tf) - (ku-kf)*tf*math.Log(liquid), kf + (ku-kf)*liquid
}

// Solid is a material that does not change phase; its enthalpy is 0 at 0 °C. Errors: *heat.RangeError.
func Solid(s heat.Solid) (Material, error) {
	if err := s.Check(); err != nil {
		return nil, err
	}
	return solid{s}, nil
}

type solid struct{ heat.Solid }

func (s solid) DensityKgM3() float64              { return s.Solid.DensityKgM3 }
func (s solid) EnthalpyJKg(tempC float64) float64 { return s.SpecificHeatJKgK * tempC }
func (s solid) At(h float64) (t, slope, k float64) {
	return h / s.SpecificHeatJKgK, 1 / s.SpecificHeatJKgK, s.ConductivityWMK
}
func (s solid) Potential(t float64) (p, k float64) { return s.ConductivityWMK * t, s.ConductivityWMK }

// Pure is a material that melts at one temperature, such as ice; one density. Its enthalpy is 0 when it has just melted. It has no
// conductivity while it melts: the potential makes the flux to a melting cell that of the phase on the other side, which is what a
// sharp front does. (A mixed conductivity of the melting cell would make the front lag by 0.7 of a cell.)
type Pure struct {
	Solid, Liquid heat.Solid // the density of the solid is that of both
	FusionJKg     float64
	MeltsC        float64
}

// Check is nil if a material can be so. Errors: *heat.RangeError.
func (p Pure) Check() error {
	if err := p.Solid.Check(); err != nil {
		return err
	}
	if err := p.Liquid.Check(); err != nil {
		return err
	}
	if err := heat.InRange("heat of fusion", "J/kg", p.FusionJKg, 0, 1e7); err != nil {
		return err
	}
	return heat.InRange("melting point", "°C", p.MeltsC, lowestC, highestC)
}

func (p Pure) DensityKgM3() float64 { return p.Solid.DensityKgM3 }

func (p Pure) EnthalpyJKg(tempC float64) float64 {
	if tempC >= p.MeltsC {
		return p.Liquid.SpecificHeatJKgK * (tempC - p.MeltsC)
	}
	return p.Solid.SpecificHeatJKgK*(tempC-p.MeltsC) - p.FusionJKg
}

func (p Pure) At(enthalpyJKg float64) (tempC, slopeKKgJ, conductivityWMK float64) {
	switch {
	case enthalpyJKg > 0:
		return p.MeltsC + enthalpyJKg/p.Liquid.SpecificHeatJKgK, 1 / p.Liquid.SpecificHeatJKgK, p.Liquid.ConductivityWMK
	case enthalpyJKg < -p.FusionJKg:
		return p.MeltsC + (enthalpyJKg+p.FusionJKg)/p.Solid.SpecificHeatJKgK, 1 / p.Solid.SpecificHeatJKgK, p.Solid.ConductivityWMK
	default:
		return p.MeltsC, 0, p.Liquid.ConductivityWMK
	}
}

func (p Pure) Potential(tempC float64) (potentialWM, conductivityWMK float64) {
	k := p.Liquid.ConductivityWMK
	if tempC < p.MeltsC {
		k = p.Solid.ConductivityWMK
	}
	return k * (tempC - p.MeltsC), k
}
