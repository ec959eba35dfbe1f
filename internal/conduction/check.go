package conduction

import (
	"fmt"
	"math"

	"kettlefrost/internal/heat"
)

// What bodies and surroundings are meant for.
const (
	lowestC, highestC = -60, 150
	longestS          = 30 * 86400 // if not said
	latestS           = 1e9
	mostLayers        = 60
	largestGapM2KW    = 10
)

// A StallError says that the march could not go on: steps had become too small or too many. It is a fault of this package; no case is
// known.
type StallError struct {
	TimeS, StepS float64
	Steps        int
}

func (e *StallError) Error() string {
	return fmt.Sprintf("the simulation stalls at %.6g s after %d steps, the last of %.3g s", e.TimeS, e.Steps, e.StepS)
}

func (b *Body) check() error {
	if err := checkMaterial(b.Material); err != nil {
		return err
	}
	if err := heat.InRange("start temperature", "°C", b.StartC, lowestC, highestC); err != nil {
		return err
	}
	open := false
	var shapes []heat.Shape
	for i := range b.Axes {
		if err := b.Axes[i].check(); err != nil {
			return err
		}
		open = open || b.Axes[i].open()
		shapes = append(shapes, b.Axes[i].Shape)
	}
	if !fit(shapes) {
		return &heat.AxesError{Axes: shapes}
	}
	if !open {
		return &heat.RangeError{What: "surface coefficient of the only open face", Unit: "W/(m²·K)", Low: heat.SmallestFilmWM2K, High: heat.LargestFilmWM2K}
	}
	return nil
}

func checkMaterial(m Material) error {
	if m == nil {
		return &heat.RangeError{What: "density of no material", Unit: "kg/m³", Value: math.NaN(), Low: 50, High: 20_000}
	}
	if c, ok := m.(interface{ Check() error }); ok {
		if err := c.Check(); err != nil {
			return err
		}
	}
	return heat.InRange("density", "kg/m³", m.DensityKgM3(), 50, 20_000)
}

// fit says that axes make a body: slabs that cross, a round one with at most a slab across.
func fit(shapes []heat.Shape) bool {
	var slabs, cylinders, spheres int
	for _, s := range shapes {
		switch s {
		case heat.Slab:
			slabs++
		case heat.Cylinder:
			cylinders++
		case heat.Sphere:
			spheres++
		}
	}
	switch {
	case spheres > 0:
		return spheres == 1 && len(shapes) == 1
	case cylinders > 0:
		return cylinders == 1 && slabs <= 1
	}
	return slabs >= 1 && slabs <= 3
}

func (a *Axis) check() error {
	if err := heat.InRange("shape", "", float64(a.Shape), float64(heat.Slab), float64(heat.Sphere)); err != nil {
		return err
	}
	if err := heat.InRange("thickness or diameter", "m", a.SizeM, heat.SmallestM, 2*heat.LargestM); err != nil {
		return err
	}
	most := mostLayers
	if a.Shape != heat.Slab {
		most = 1
	} else if err := a.Low.check(); err != nil {
		return err
	}
	if err := a.High.check(); err != nil {
		return err
	}
	if err := heat.InRange("number of layers", "", float64(a.Layers), 0, float64(most)); err != nil {
		return err
	}
	return heat.InRange("resistance between layers", "m²·K/W", a.GapM2KW, 0, largestGapM2KW)
}

func (f *Face) check() error {
	if err := heat.InRange("wet share of a face", "", f.Wet, 0, 1); err != nil {
		return err
	}
	if f.FilmWM2K == 0 {
		return nil
	}
	return heat.InRange("surface coefficient", "W/(m²·K)", f.FilmWM2K, heat.SmallestFilmWM2K, heat.LargestFilmWM2K)
}

// check also fills in the default.
func (a *Ask) check() error {
	for _, c := range append([]float64{a.CoreC}, a.MarksC...) {
		if err := heat.InRange("core temperature", "°C", c, -200, 1000); err != nil {
			return err
		}
	}
	if err := heat.InRange("accuracy", "", float64(a.Accuracy), float64(Engineering), float64(Fine)); err != nil {
		return err
	}
	if a.WithinS == 0 {
		a.WithinS = longestS
	}
	return heat.InRange("time to follow", "s", a.WithinS, 1, latestS)
}

// surroundings is what is known beforehand of the courses around a body: their range, and whether they are steady.
type surroundings struct {
	lowC, highC float64
	steady      bool
	wet, pool   bool
}

// look asks every course at many moments. One that shows a single value is taken for steady; it is asked again at every step.
func (b *Body) look(withinS float64) (surroundings, error) {
	s := surroundings{lowC: math.Inf(1), highC: math.Inf(-1), steady: true}
	for i := range b.Axes {
		a := &b.Axes[i]
		for _, f := range []*Face{&a.Low, &a.High} {
			if f == &a.Low && a.Shape != heat.Slab || f.FilmWM2K == 0 {
				continue
			}
			s.wet = s.wet || f.Wet > 0
			if f.Medium == nil {
				s.pool = true
				continue
			}
			low, high, err := span(f.Medium, withinS)
			if err != nil {
				return s, err
			}
			s.steady = s.steady && low == high
			s.lowC, s.highC = min(s.lowC, low), max(s.highC, high)
		}
	}
	return s, nil
}

const looks = 64

func span(c Course, withinS float64) (lowC, highC float64, err error) {
	lowC, highC = math.Inf(1), math.Inf(-1)
	for i := range looks + 1 {
		along := float64(i) / looks
		for _, timeS := range [2]float64{along * withinS, math.Pow(withinS, along) - 1} {
			at, err := mediumAt(c, timeS)
			if err != nil {
				return 0, 0, err
			}
			lowC, highC = min(lowC, at), max(highC, at)
		}
	}
	return lowC, highC, nil
}

func mediumAt(c Course, timeS float64) (float64, error) {
	at := c(timeS)
	return at, heat.InRange("temperature of the medium", "°C", at, lowestC, highestC)
}

// closest is how near to the medium a target may lie, as a part of the whole way, as in package heat.
const closest = 1e-9

// never is a *heat.NeverError if steady surroundings cannot bring the core to the target. Several of them, or evaporation, can leave
// it open; then it is simulated.
func (s surroundings) never(startC, coreC float64) error {
	if !s.steady || s.pool {
		return nil
	}
	limitC := s.lowC
	if coreC > startC {
		limitC = s.highC
	}
	if coreC < startC && s.wet && s.lowC > highestOnsetC {
		return nil
	}
	if theta := (coreC - limitC) / (startC - limitC); !(theta >= closest && theta < 1) {
		return &heat.NeverError{StartC: startC, TargetC: coreC, LimitC: limitC}
	}
	return nil
}
