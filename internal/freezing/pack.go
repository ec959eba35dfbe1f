package freezing

import (
	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
)

// Pack is one flat bag of food.
type Pack struct {
	Food            heat.FreezingFood
	ThicknessM      float64 // filled and lying flat; 1 mm to 0.5 m
	LengthM, WidthM float64 // only a Block needs them; 0 where they are not known
	MassKg          float64 // 1 g to 100 kg
	StartC          float64 // throughout; freezing point to 100 °C
	PackageM2KW     float64 // resistance of the package, 0 to 1; medium.BagFilmM2KW
}

const (
	thinnestM, thickestM   = 1e-3, 0.5
	lightestKg, heaviestKg = 1e-3, 100
	mostResistanceM2KW     = 1
	warmestStartC          = 100
)

func (p Pack) check() error {
	if err := p.Food.Check(); err != nil {
		return err
	}
	return checkAll(
		limit{"thickness of the pack", "m", p.ThicknessM, thinnestM, thickestM},
		limit{"length of the pack", "m", p.LengthM, 0, heat.LargestM},
		limit{"width of the pack", "m", p.WidthM, 0, heat.LargestM},
		limit{"mass of the pack", "kg", p.MassKg, lightestKg, heaviestKg},
		limit{"start temperature", "°C", p.StartC, p.Food.FreezingPointC, warmestStartC},
		limit{"resistance of the package", "m²·K/W", p.PackageM2KW, 0, mostResistanceM2KW},
	)
}

// faceM2 is the face of one pack as far as food of its thickness lies under it: mass over density and thickness. It, and not length times
// width, is what the sums use, so that the heat is that of the mass.
func (p Pack) faceM2() float64 { return p.MassKg / (p.Food.DensityKgM3 * p.ThicknessM) }

// HeatJ is what one pack gives off until all of it is at coreC. Errors: *heat.RangeError.
func (p Pack) HeatJ(coreC float64) (float64, error) {
	perKg, err := p.Food.HeatJKg(p.StartC, coreC)
	return p.MassKg * perKg, err
}

// checkFilm is nil for 0.1 ≤ low ≤ usual ≤ high ≤ 1e7 W/(m²·K).
func checkFilm(what string, f medium.Film) error {
	return checkAll(
		limit{what + ", low", "W/(m²·K)", f.LowWM2K, heat.SmallestFilmWM2K, heat.LargestFilmWM2K},
		limit{what + ", usual", "W/(m²·K)", f.UsualWM2K, f.LowWM2K, heat.LargestFilmWM2K},
		limit{what + ", high", "W/(m²·K)", f.HighWM2K, f.UsualWM2K, heat.LargestFilmWM2K},
	)
}

// Side is an end of the range of a surface coefficient.
type Side int

const (
	Usual Side = iota
	Low
	High
)

func (s Side) of(f medium.Film) float64 {
	switch s {
	case Low:
		return f.LowWM2K
	case High:
		return f.HighWM2K
	default:
		return f.UsualWM2K
	}
}

func (s Side) check() error {
	return heat.InRange("side of the surface coefficient", "", float64(s), float64(Usual), float64(High))
}
