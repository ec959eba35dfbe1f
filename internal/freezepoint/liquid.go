package freezepoint

import (
	"fmt"
	"math"
)

// LowestC is down to where the ideal law is trusted: salt in water at 10 % freezes at -6.56 °C (from memory), and the law says -6.5. Sugars
// leave it sooner. Below, it is a guide.
const LowestC = -6

// Liquid is the water of a food that is not ice at some temperature, and what is dissolved in it.
type Liquid struct {
	TempC float64
	// OfWater is the share of the food's water that is still liquid by what is named as dissolved: not less than this.
	OfWater float64
	// OfWaterMost is that share if the rest lowers the point as far as Point.ColdestC and protein holds its water.
	OfWaterMost float64
	IceOfFood   float64 // ice as a share of the food's mass, at OfWater: not more than this
	// Concentrated is how many times as strong everything dissolved has become: 1/OfWater.
	Concentrated float64
	SaltOfBrine  float64 // salt as a share of the brine it is in, by mass, other solutes left out; 0 without salt
	// Beyond says that the temperature is below LowestC, where these figures are a guide. Real brine holds less salt at -18 °C than this law
	// says, and at its eutectic, -21.1 °C (from memory), salt and the last water freeze together.
	Beyond bool
}

// At is what is liquid at a temperature, °C. Above the freezing point all of it is. Errors: *InputError.
func At(f Food, tempC float64) (Liquid, error) {
	p, err := Of(f)
	if err != nil {
		return Liquid{}, err
	}
	if !(tempC >= -60 && tempC <= 60) {
		return Liquid{}, &InputError{"temperature", fmt.Sprintf("is %g °C", tempC), "give -60 to 60 °C"}
	}
	l := Liquid{TempC: tempC, OfWater: liquidShare(p.WarmestC, tempC), Beyond: tempC < LowestC}
	free := f.freezable() / f.Water
	l.OfWaterMost = (1 - free) + free*liquidShare(p.ColdestC, tempC)
	l.IceOfFood = f.Water * (1 - l.OfWater)
	if l.OfWater > 0 {
		l.Concentrated = 1 / l.OfWater
	}
	for _, s := range f.Solutes {
		if s.Kind == Salt && s.Share > 0 {
			l.SaltOfBrine += s.Share
		}
	}
	if l.SaltOfBrine > 0 {
		l.SaltOfBrine /= l.SaltOfBrine + f.Water*l.OfWater
	}
	return l, nil
}

// liquidShare is the share of water in which particles that lower the point to startC lower it to tempC.
func liquidShare(startC, tempC float64) float64 {
	if tempC >= startC {
		return 1
	}
	return startC / tempC
}

// waterActivity is ln a = -Mw · m, with Mw in kg/mol.
func waterActivity(molKgWater float64) float64 { return math.Exp(-0.018015 * molKgWater) }
