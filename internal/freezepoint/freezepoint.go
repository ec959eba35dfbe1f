package freezepoint

import (
	"fmt"

	"kettlefrost/internal/heat"
)

// Cryoscopic is Kf of water, K·kg/mol: R·T0²/L with R = 8.314462618 J/(mol·K), T0 = 273.15 K and the heat of fusion that the heat engines
// use, 333.6 kJ/kg. That is 1.8596, where tables print 1.86 (from memory).
const Cryoscopic = 8.314462618 * 273.15 * 273.15 / heat.LatentHeatIceJKg

// A Kind is something that dissolves, with how it counts.
type Kind struct {
	Name string
	heat.SoluteKind
}

// What is dissolved in cooked food. Sugars, alcohol and acids count one particle a molecule: of weak acids a few in a hundred split, which is
// left out. Molar masses are sums of atomic weights.
var (
	Salt     = Kind{"salt", heat.Salt}
	Simple   = Kind{"simple sugars", heat.Glucose} // glucose and fructose
	Double   = Kind{"double sugars", heat.Sucrose} // sucrose, lactose, maltose
	Ethanol  = Kind{"alcohol", heat.Ethanol}
	Citric   = Kind{"citric acid", heat.SoluteKind{MolarMassKgMol: 0.19212, Particles: 1}} // C6H8O7
	Malic    = Kind{"malic acid", heat.SoluteKind{MolarMassKgMol: 0.13409, Particles: 1}}  // C4H6O5
	Tartaric = Kind{"tartaric acid", heat.SoluteKind{MolarMassKgMol: 0.15009, Particles: 1}}
	Lactic   = Kind{"lactic acid", heat.SoluteKind{MolarMassKgMol: 0.09008, Particles: 1}}
	Acetic   = Kind{"acetic acid", heat.SoluteKind{MolarMassKgMol: 0.06005, Particles: 1}}
	// Citrate is trisodium citrate dihydrate. Its four ions hold on to each other: about 2.9 count (osmotic coefficient 0.73 near 0.1 mol/kg, from memory).
	Citrate   = Kind{"trisodium citrate", heat.SoluteKind{MolarMassKgMol: 0.29410, Particles: 2.9}}
	Minerals  = Kind{"minerals that are not salt", heat.SoluteKind{MolarMassKgMol: 0.07455, Particles: 1.85}} // as potassium chloride
	otherCarb = Kind{"carbohydrate that is not named", heat.Sucrose}
)

// Solute is how much of a kind is dissolved, as a share of the food's mass.
type Solute struct {
	Kind
	Share float64
}

// Food is what the answer is reckoned from. All are shares of the food's mass, 0 to 1.
type Food struct {
	Water    float64
	Protein  float64  // holds back 0.4 times its mass of water, at the cold end of the range alone
	Solutes  []Solute // what is known to be dissolved
	OtherAsh float64  // ash that is not salt: some of it dissolved
	// OtherCarb is carbohydrate that is neither a named sugar, starch nor fibre: some of it dissolved. Leave it 0 where it is starch.
	OtherCarb float64
}

// Part is what one solute does.
type Part struct {
	Name       string
	MolKgWater float64 // of particles
	LowersK    float64
}

// Point is where a food starts to freeze: not above WarmestC, and not below ColdestC as far as what is given goes.
type Point struct {
	// WarmestC is by the solutes that are named.
	WarmestC float64
	// ColdestC is if all other ash were dissolved as potassium chloride and all other carbohydrate as double sugar, in the water that protein
	// does not hold.
	ColdestC   float64
	Parts      []Part // of WarmestC, in the order given
	MolKgWater float64
	LeftOut    string // what the range does not hold, in words
}

// leftOut is said with every answer.
const leftOut = "salts of the food itself and acids that are not given; real foods start at about -0.5 to -2.5 °C (from memory)"

// InputError says which figure makes no sense, and what would do.
type InputError struct{ What, Reason, Fix string }

// Error is one line.
func (e *InputError) Error() string {
	return fmt.Sprintf("freezepoint: %s %s; %s", e.What, e.Reason, e.Fix)
}

// Of is where a food starts to freeze, in °C. Errors: *InputError.
func Of(f Food) (Point, error) {
	if err := f.check(); err != nil {
		return Point{}, err
	}
	p := Point{LeftOut: leftOut}
	for _, s := range f.Solutes {
		part := s.in(f.Water)
		p.Parts = append(p.Parts, part)
		p.MolKgWater += part.MolKgWater
	}
	p.WarmestC = -Cryoscopic * p.MolKgWater
	most := p.MolKgWater*f.Water + Solute{Minerals, f.OtherAsh}.in(1).MolKgWater + Solute{otherCarb, f.OtherCarb}.in(1).MolKgWater
	p.ColdestC = -Cryoscopic * most / f.freezable()
	return p, nil
}

// in is what a solute does in so much water per mass of food.
func (s Solute) in(water float64) Part {
	mol := s.Share / s.MolarMassKgMol * s.Particles / water
	return Part{s.Name, mol, Cryoscopic * mol}
}

// freezable is the water that protein does not hold.
func (f Food) freezable() float64 {
	return heat.Composition{Water: f.Water, Protein: f.Protein}.FreezableWater()
}

func (f Food) check() error {
	sum := f.Water + f.Protein + f.OtherAsh + f.OtherCarb
	for _, s := range f.Solutes {
		if !(s.Share >= 0 && s.Share <= 1) {
			return &InputError{s.Name, fmt.Sprintf("is %g of the food", s.Share), "give a share of 0 to 1"}
		}
		if !(s.MolarMassKgMol > 0) || !(s.Particles >= 1) {
			return &InputError{"solute " + s.Name, "has no molar mass or no particles", "take one of the kinds that are listed"}
		}
		sum += s.Share
	}
	for _, x := range []struct {
		what  string
		share float64
	}{{"protein", f.Protein}, {"other ash", f.OtherAsh}, {"other carbohydrate", f.OtherCarb}} {
		if !(x.share >= 0 && x.share <= 1) {
			return &InputError{x.what, fmt.Sprintf("is %g of the food", x.share), "give a share of 0 to 1"}
		}
	}
	switch {
	case !(f.Water >= 0.05 && f.Water <= 1):
		return &InputError{"water", fmt.Sprintf("is %g of the food", f.Water), "give 0.05 to 1: a drier food has no freezing point worth the name"}
	case sum > 1+heat.SumTolerance:
		return &InputError{"the food", fmt.Sprintf("adds up to %.3g of itself", sum), "give shares of the whole, each thing once"}
	case f.freezable() < f.Water/2:
		return &InputError{"protein", "would hold more than half of the water", "this law is not for dry food"}
	}
	return nil
}

// WaterActivity is exp(-0.018015 · mol of particles per kg of water): 1 is pure water.
func (p Point) WaterActivity() float64 { return waterActivity(p.MolKgWater) }
