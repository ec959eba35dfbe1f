package heat

import "math"

// DefaultFreezingPointC is where a soup starts to freeze if nothing better is known: most lie between -0.6 and -1.5 °C.
const DefaultFreezingPointC = -0.8

const (
	// LatentHeatIceJKg is the heat of fusion of ice at 0 °C.
	LatentHeatIceJKg = 333.6e3

	gasConstant     = 8.314462618 // J/(mol·K), exact by definition since 2019, rounded
	waterMolarKgMol = 0.01801528
	meltingPointK   = 273.15
)

// A SoluteKind is a substance that lowers the freezing point when it is dissolved.
type SoluteKind struct {
	MolarMassKgMol float64 // 0.01 to 10
	Particles      float64 // dissolved particles per molecule, 1 to 4
}

// Common solutes. Salt counts 1.85 particles, not 2: that matches the measured depression of table salt in water up to 0.75 mol/kg.
// Alcohol stays in the liquid and counts like a sugar.
var (
	Salt    = SoluteKind{0.05844, 1.85}
	Glucose = SoluteKind{0.18016, 1}
	Sucrose = SoluteKind{0.34230, 1}
	Ethanol = SoluteKind{0.04607, 1}
)

// Solute is how much of a kind is dissolved.
type Solute struct {
	Kind  SoluteKind
	Share float64 // mass per mass of food, 0 to 1
}

// lowestIdealC is the coldest freezing point that the ideal law may give: beyond it solutions are far from ideal.
const lowestIdealC = -6

// FreezingPointC is the initial freezing point of a food with waterShare (0.05 to 1) of water and these solutes: Raoult's law for an
// ideal solution, ln a = -(L·Mw/R)(1/T - 1/T0) with a the mole fraction of water. With no solute it is 0 °C. Acids, minerals and
// protein lower a real food further by some tenths. Errors: *RangeError, also when the result would be below -6 °C.
func FreezingPointC(waterShare float64, solutes ...Solute) (float64, error) {
	if err := InRange("water share", "", waterShare, 0.05, 1); err != nil {
		return 0, err
	}
	var moles float64
	for _, s := range solutes {
		if err := s.check(); err != nil {
			return 0, err
		}
		moles += s.Share / s.Kind.MolarMassKgMol * s.Kind.Particles
	}
	waterMoles := waterShare / waterMolarKgMol
	lnActivity := math.Log(waterMoles / (waterMoles + moles))
	inverseK := 1/meltingPointK - lnActivity*gasConstant/(LatentHeatIceJKg*waterMolarKgMol)
	freezesC := 1/inverseK - meltingPointK
	// math.Log(1) is exactly 0, but 1/(1/T0) need not be T0.
	if moles == 0 {
		freezesC = 0
	}
	return freezesC, InRange("ideal freezing point", "°C", freezesC, lowestIdealC, 0)
}

func (s Solute) check() error {
	if err := InRange("solute share", "", s.Share, 0, 1); err != nil {
		return err
	}
	if err := InRange("molar mass", "kg/mol", s.Kind.MolarMassKgMol, 0.01, 10); err != nil {
		return err
	}
	return InRange("particles per molecule", "", s.Kind.Particles, 1, 4)
}
