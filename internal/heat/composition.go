package heat

// Composition is what a food is made of, as mass fractions of the whole (0 to 1). Salt counts as ash.
type Composition struct {
	Water   float64
	Protein float64
	Fat     float64
	Carb    float64 // without fibre: printed tables often include it, subtract it first
	Fibre   float64
	Ash     float64
	Alcohol float64 // ethanol, at most MaxAlcohol
}

const (
	// SumTolerance is how far the fractions may add up from 1: printed rows of foods miss by up to 2 %.
	SumTolerance = 0.02
	// MaxAlcohol is the largest alcohol fraction for which the properties are meant: a sauce with wine, not a spirit.
	MaxAlcohol = 0.15
)

func (c Composition) shares() [componentCount]float64 {
	return [componentCount]float64{water: c.Water, protein: c.Protein, fat: c.Fat, carb: c.Carb, fibre: c.Fibre, ash: c.Ash,
		alcohol: c.Alcohol}
}

// Sum is the total of the fractions.
func (c Composition) Sum() float64 {
	var sum float64
	for _, x := range c.shares() {
		sum += x
	}
	return sum
}

// Check is nil if every fraction is in 0 to 1, alcohol is at most MaxAlcohol, and the sum is 1 within SumTolerance.
func (c Composition) Check() error {
	if err := c.checkParts(); err != nil {
		return err
	}
	return InRange("sum of the composition", "", c.Sum(), 1-SumTolerance, 1+SumTolerance)
}

func (c Composition) checkParts() error {
	for i, x := range c.shares() {
		high := 1.0
		if component(i) == alcohol {
			high = MaxAlcohol
		}
		if err := InRange(component(i).String()+" fraction", "", x, 0, high); err != nil {
			return err
		}
	}
	return nil
}

// Normalise is c scaled so that the fractions add up to 1. It refuses what no rounding explains: a sum outside 0.5 to 1.5, or a
// fraction outside its range before or after.
func (c Composition) Normalise() (Composition, error) {
	if err := c.checkParts(); err != nil {
		return Composition{}, err
	}
	sum := c.Sum()
	if err := InRange("sum of the composition", "", sum, 0.5, 1.5); err != nil {
		return Composition{}, err
	}
	n := Composition{c.Water / sum, c.Protein / sum, c.Fat / sum, c.Carb / sum, c.Fibre / sum, c.Ash / sum, c.Alcohol / sum}
	return n, n.Check()
}

// boundWaterPerProtein is the water that protein holds back from freezing, kg/kg: Schwartzberg, as in ASHRAE Handbook
// Refrigeration, "Thermal properties of foods", eq. 3.
const boundWaterPerProtein = 0.4

// FreezableWater is the mass fraction of water that can turn to ice: water less 0.4 times protein, not less than 0.
func (c Composition) FreezableWater() float64 {
	return max(0, c.Water-boundWaterPerProtein*c.Protein)
}
