package freezing

import "kettlefrost/internal/heat"

// Plank is a body at its freezing point that gives off latent heat only.
type Plank struct {
	Shape                 heat.Shape
	SizeM                 float64 // full thickness of a slab cooled on both faces, or diameter; 1e-4 to 3 m
	LatentJM3             float64 // heat of freezing per volume, 1e6 to 4e8
	FrozenConductivityWMK float64 // 0.02 to 10
	FilmWM2K              float64 // 0.1 to 1e7, the package included
	FreezingPointC        float64 // -15 to 0 °C
	AirC                  float64 // -200 °C to below the freezing point
}

// plankFactors are P and R of t = L/(tf-ta)·(P·D/h + R·D²/k): Encyclopaedia of Food Sciences and Nutrition, article on freezing.
var plankFactors = map[heat.Shape]struct{ p, r float64 }{
	heat.Slab:     {1. / 2, 1. / 8},
	heat.Cylinder: {1. / 4, 1. / 16},
	heat.Sphere:   {1. / 6, 1. / 24},
}

// TimeS is Plank's time until the last of the body is frozen. It leaves out all sensible heat, before, during and after: 13 to 34 %
// short of a full solution. Errors: *heat.RangeError; *heat.NeverError if the air is not colder than the freezing point.
func (p Plank) TimeS() (float64, error) {
	factors, known := plankFactors[p.Shape]
	if !known {
		return 0, heat.InRange("shape", "", float64(p.Shape), float64(heat.Slab), float64(heat.Sphere))
	}
	err := checkAll(
		limit{"size", "m", p.SizeM, heat.SmallestM, heat.LargestM},
		limit{"latent heat", "J/m³", p.LatentJM3, 1e6, 4e8},
		limit{"frozen conductivity", "W/(m·K)", p.FrozenConductivityWMK, 0.02, 10},
		limit{"surface coefficient", "W/(m²·K)", p.FilmWM2K, heat.SmallestFilmWM2K, heat.LargestFilmWM2K},
		limit{"freezing point", "°C", p.FreezingPointC, heat.LowestFreezingPointC, 0},
		limit{"air temperature", "°C", p.AirC, -200, 100},
	)
	if err != nil {
		return 0, err
	}
	if p.AirC > p.FreezingPointC-leastDriveK {
		return 0, &heat.NeverError{StartC: p.FreezingPointC, TargetC: p.FreezingPointC, LimitC: p.AirC}
	}
	resistance := factors.p*p.SizeM/p.FilmWM2K + factors.r*p.SizeM*p.SizeM/p.FrozenConductivityWMK
	return p.LatentJM3 / (p.FreezingPointC - p.AirC) * resistance, nil
}

// leastDriveK is how much colder than the target the air must be for a time to be given: less is within what a freezer swings.
const leastDriveK = 0.1

type limit struct {
	what, unit       string
	value, low, high float64
}

func checkAll(limits ...limit) error {
	for _, l := range limits {
		if err := heat.InRange(l.what, l.unit, l.value, l.low, l.high); err != nil {
			return err
		}
	}
	return nil
}
