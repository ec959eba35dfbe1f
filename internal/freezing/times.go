package freezing

import (
	"math"

	"kettlefrost/internal/conduction"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
)

// PackTimes is how long a pack takes in air that stays as cold as it is.
type PackTimes struct {
	// Low, Usual and High are simulations with the low, usual and high surface coefficient: the longest time is Low's. All have curve
	// points and profiles to draw. A core that is not there after 30 days has Reached false.
	Low, Usual, High conduction.Result
	Formulas         []Formula
}

// Formula is what a handbook formula says of the same pack at the usual surface coefficient.
type Formula struct {
	Name       string
	TimeS      float64
	Difference float64 // from the simulation: TimeS over its time, less 1; 0 if the simulated core did not get there
	Err        error   // why it has no answer: the formula does not know the case, or not these temperatures
}

// Names of the formulas.
const (
	Pham1986   = "Pham (1986)"
	PlankTimes = "Plank"
)

// UnevenError says that a formula knows only bodies that are cooled alike on all sides.
type UnevenError struct{ Formula string }

func (e *UnevenError) Error() string {
	return e.Formula + " knows only a body that is cooled alike on both faces"
}

// Times simulates one pack lying so, in steady air of airC (-60 °C to below coreC) with a range of surface coefficients, until its core is
// at coreC (-30 °C to below the freezing point), and asks Pham's and Plank's formulas too. The formulas take a stack as one slab without
// air between the packs, and a block with Dimensionality, which is optimistic.
// Errors: *heat.RangeError; *TooColdError where coreC is less than 1 K above the air.
func Times(p Pack, at Placing, film medium.Film, airC, coreC float64) (PackTimes, error) {
	if err := checkTimes(p, at, film, airC, coreC); err != nil {
		return PackTimes{}, err
	}
	m, err := conduction.Food(p.Food)
	if err != nil {
		return PackTimes{}, err
	}
	var out PackTimes
	ask := conduction.Ask{CoreC: coreC, MarksC: marks(p, coreC)}
	for side, into := range []*conduction.Result{Usual: &out.Usual, Low: &out.Low, High: &out.High} {
		if side := Side(side); side != Usual && at.sameFilm(film, side) {
			*into = out.Usual
			continue
		}
		if *into, err = at.body(p, m, film, Side(side), conduction.Steady(airC)).Simulate(ask); err != nil {
			return PackTimes{}, err
		}
	}
	out.Formulas = formulas(p, at, film, airC, coreC, out.Usual)
	return out, nil
}

func checkTimes(p Pack, at Placing, film medium.Film, airC, coreC float64) error {
	if err := p.check(); err != nil {
		return err
	}
	if err := at.check(p); err != nil {
		return err
	}
	if err := checkFilm("surface coefficient", film); err != nil {
		return err
	}
	err := checkAll(
		limit{"air temperature", "°C", airC, -60, 100},
		limit{"core temperature", "°C", coreC, -30, p.Food.FreezingPointC},
	)
	if err != nil {
		return err
	}
	return checkCore(p.StartC, coreC, airC)
}

// marks are temperatures on the way at which profiles are worth drawing.
func marks(p Pack, coreC float64) []float64 {
	var out []float64
	for _, c := range []float64{p.Food.FreezingPointC - 0.1, -5, -10} {
		if c < p.StartC && c > coreC && c < p.Food.FreezingPointC {
			out = append(out, c)
		}
	}
	return out
}

func formulas(p Pack, at Placing, film medium.Film, airC, coreC float64, simulated conduction.Result) []Formula {
	freeze := Freeze{Food: p.Food, Shape: heat.Slab, SizeM: at.thickM(p), FilmWM2K: film.Through(p.PackageM2KW + at.cover()).UsualWM2K,
		StartC: p.StartC, AirC: airC, CoreC: coreC, Dimensionality: 1}
	out := []Formula{{Name: Pham1986}, {Name: PlankTimes}}
	for i := range out {
		f := &out[i]
		if f.TimeS, f.Err = formulaTimeS(f.Name, freeze, p, at); f.Err == nil && simulated.Reached && simulated.TimeS > 0 {
			f.Difference = f.TimeS/simulated.TimeS - 1
		}
	}
	return out
}

func formulaTimeS(name string, freeze Freeze, p Pack, at Placing) (float64, error) {
	if at.Lie == OnPlate {
		return 0, &UnevenError{Formula: name}
	}
	e := 1.0
	if at.Lie == Block {
		var err error
		if freeze.SizeM, e, err = blockDimensionality(freeze, p); err != nil {
			return 0, err
		}
	}
	if name == Pham1986 {
		freeze.Dimensionality = e
		return freeze.TimeS()
	}
	plank, err := freeze.Plank()
	if err != nil {
		return 0, err
	}
	s, err := plank.TimeS()
	return s / e, err
}

// blockDimensionality is the smallest size of a block and its E.
func blockDimensionality(freeze Freeze, p Pack) (smallestM, e float64, err error) {
	sizes := [3]float64{freeze.SizeM, p.LengthM, p.WidthM}
	smallest := 0
	for i, s := range sizes {
		if s < sizes[smallest] {
			smallest = i
		}
	}
	sizes[0], sizes[smallest] = sizes[smallest], sizes[0]
	k, err := freeze.Food.ConductivityWMK(freeze.CoreC)
	if err != nil {
		return 0, 0, err
	}
	e, err = Dimensionality(freeze.FilmWM2K*sizes[0]/2/k, sizes[1]/sizes[0], sizes[2]/sizes[0])
	return sizes[0], math.Min(e, 3), err
}
