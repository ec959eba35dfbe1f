package heat

import "math"

// Properties are those of a food at one temperature.
type Properties struct {
	DensityKgM3      float64
	SpecificHeatJKgK float64 // sensible only: without the heat of freezing
	ConductivityWMK  float64
}

// FrozenProperties are those of a partly frozen food.
type FrozenProperties struct {
	Properties
	IceShare float64 // mass of ice per mass of food
}

// At gives the properties of an unfrozen food at tempC, -40 to 150 °C: density 1/Σ(x/ρ) without air, specific heat Σ(x·c),
// conductivity Σ(v·k) by volume (parallel model), components after Choi and Okos. A composition that adds up to less than 1 is
// used as it is (Normalise it first if the rest is unknown). Errors: *RangeError.
func (c Composition) At(tempC float64) (Properties, error) {
	if err := c.checkAt(tempC); err != nil {
		return Properties{}, err
	}
	m := c.mixAt(tempC, 0)
	return Properties{m.density(), m.specificHeat(), m.parallel()}, nil
}

// FrozenAt gives the properties at tempC, -40 °C to freezingPointC, of a food that starts to freeze at freezingPointC. Conductivity
// is Levy's (1981) model with the ice as one phase and everything else, mixed in parallel, as the other: it did best on measured
// frozen foods, where the parallel model is some 30 % too high. Errors: *RangeError.
func (c Composition) FrozenAt(tempC, freezingPointC float64) (FrozenProperties, error) {
	if err := c.checkAt(tempC); err != nil {
		return FrozenProperties{}, err
	}
	iceShare, err := c.IceShare(tempC, freezingPointC)
	if err != nil {
		return FrozenProperties{}, err
	}
	if err := InRange("temperature of the frozen food", "°C", tempC, LowestPropertyC, freezingPointC); err != nil {
		return FrozenProperties{}, err
	}
	m := c.mixAt(tempC, iceShare)
	return FrozenProperties{Properties{m.density(), m.specificHeat(), m.levy()}, iceShare}, nil
}

// The freezing points for which FrozenAt and FreezingFood are meant. Aged cheese is near -13 °C.
const (
	LowestFreezingPointC  = -15
	HighestFreezingPointC = -0.05
)

// IceShare is the mass of ice per mass of food at tempC: (xw - 0.4·xp)(1 - tf/t) below the freezing point tf, 0 above it. Ideal
// solution with bound water (ASHRAE Handbook Refrigeration, "Thermal properties of foods", eq. 4, from memory). tempC -40 to 150 °C,
// freezingPointC -15 to -0.05 °C. Errors: *RangeError.
func (c Composition) IceShare(tempC, freezingPointC float64) (float64, error) {
	if err := c.checkAt(tempC); err != nil {
		return 0, err
	}
	if err := InRange("freezing point", "°C", freezingPointC, LowestFreezingPointC, HighestFreezingPointC); err != nil {
		return 0, err
	}
	if tempC >= freezingPointC {
		return 0, nil
	}
	return c.FreezableWater() * (1 - freezingPointC/tempC), nil
}

func (c Composition) checkAt(tempC float64) error {
	if err := c.Check(); err != nil {
		return err
	}
	return InRange("temperature for food properties", "°C", tempC, LowestPropertyC, HighestPropertyC)
}

// mix is a food at one temperature: per component its mass share and the volume that share takes, per kg of food.
type mix struct {
	t     float64
	share [componentCount + 1]float64
	vol   [componentCount + 1]float64 // m³
}

func (c Composition) mixAt(t, iceShare float64) mix {
	m := mix{t: t}
	for i, x := range c.shares() {
		m.share[i] = x
	}
	m.share[water] -= iceShare
	m.share[ice] = iceShare
	for i, x := range m.share {
		m.vol[i] = x / substances[i].density.at(t)
	}
	return m
}

func (m mix) volume() float64 {
	var v float64
	for _, x := range m.vol {
		v += x
	}
	return v
}

func (m mix) density() float64 {
	var sum float64
	for _, x := range m.share {
		sum += x
	}
	return sum / m.volume()
}

func (m mix) specificHeat() float64 {
	var sum float64
	for i, x := range m.share {
		sum += x * component(i).heatKJKgK(m.t)
	}
	return sum * 1000
}

// parallel is the conductivity of everything side by side, the upper bound.
func (m mix) parallel() float64 {
	var sum float64
	for i, v := range m.vol {
		sum += v * substances[i].conductivity.at(m.t)
	}
	return sum / m.volume()
}

// levy mixes the ice with the rest.
func (m mix) levy() float64 {
	iceVol, all := m.vol[ice], m.volume()
	rest := m
	rest.vol[ice] = 0
	if iceVol == 0 || iceVol == all {
		return m.parallel()
	}
	return levy(substances[ice].conductivity.at(m.t), rest.parallel(), iceVol/all)
}

// levy is Levy's (1981) conductivity of two phases, the first with volume fraction v1. The formula is from memory; it gives the
// same value when the phases change places and the pure ones at v1 = 0 and 1.
func levy(k1, k2, v1 float64) float64 {
	ratio := k1 / k2
	if ratio == 1 {
		return k1
	}
	sigma := (ratio - 1) * (ratio - 1) / ((ratio+1)*(ratio+1) + ratio/2)
	b := 2/sigma - 1 + 2*v1
	f := (b - math.Sqrt(max(0, b*b-8*v1/sigma))) / 2
	return k2 * (2 + ratio + 2*(ratio-1)*f) / (2 + ratio - (ratio-1)*f)
}
