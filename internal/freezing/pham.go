package freezing

import "kettlefrost/internal/heat"

// Freeze is one body of food in moving or still air, cooled alike on all its surface.
type Freeze struct {
	Food     heat.FreezingFood
	Shape    heat.Shape
	SizeM    float64 // smallest full thickness, or diameter; 1e-4 to 3 m
	FilmWM2K float64 // 0.1 to 1e7, the package included (heat.CoatedFilmWM2K)
	StartC   float64 // throughout; freezing point to 100 °C
	AirC     float64 // -60 °C to below CoreC
	CoreC    float64 // where the centre is called frozen: -30 °C to below the freezing point

	// Dimensionality E divides the time of the slab: how many slabs' worth of surface work on the body. 0 means that of the shape: 1,
	// 2, 3. Use 1 for a flat bag and for anything in a stack; ThinDimensionality and Dimensionality estimate bricks too fast.
	Dimensionality float64 // 0, or 1 to 3
}

// TimeS is Pham's (1986) time until the centre is at CoreC: precooling to a mean freezing temperature Tfm = 1.8 + 0.263·Tc +
// 0.105·Ta, then freezing and subcooling,
//
//	t = R/(E·h)·(ΔH1/ΔT1 + ΔH2/ΔT2)·(1 + Bi/2),  R half the size,  Bi = h·R/k
//
// with k that of the food at CoreC and the latent heat that which is really given off between freezing point and CoreC, not that
// of all the water: this was found to be nearer to a full solution. Formula from memory. Published for slabs of food of Biot 0.02 to
// 11 and air of -15 to -45 °C (from memory); tried here against a finite-volume solution for 24 to 100 mm, 8 to 300 W/(m²·K) and
// -18 to -35 °C. Outside those it still gives an order of magnitude. Errors: *heat.RangeError; *heat.NeverError if the air is not
// colder than CoreC.
func (f Freeze) TimeS() (float64, error) {
	if err := f.check(); err != nil {
		return 0, err
	}
	released, err := f.Food.HeatJKg(f.Food.FreezingPointC, f.CoreC)
	if err != nil {
		return 0, err
	}
	frozenK, err := f.Food.ConductivityWMK(f.CoreC)
	if err != nil {
		return 0, err
	}
	meanC := 1.8 + 0.263*f.CoreC + 0.105*f.AirC
	// The mean freezing temperature must lie between start and end, or a share of the heat would count as negative.
	if err := heat.InRange("mean freezing temperature of Pham's formula", "°C", meanC, f.CoreC, f.StartC); err != nil {
		return 0, err
	}
	density := f.Food.DensityKgM3
	unfrozenJM3K, frozenJM3K := density*f.Food.UnfrozenHeatJKgK, density*f.Food.FrozenHeatJKgK
	latent := density*released - frozenJM3K*(f.Food.FreezingPointC-f.CoreC)
	precool := unfrozenJM3K * (f.StartC - meanC) / ((f.StartC+meanC)/2 - f.AirC)
	freeze := (latent + frozenJM3K*(meanC-f.CoreC)) / (meanC - f.AirC)
	half := f.SizeM / 2
	biot := f.FilmWM2K * half / frozenK
	return half / (f.dimensionality() * f.FilmWM2K) * (precool + freeze) * (1 + biot/2), nil
}

// Plank is the same body for Plank's formula: at its freezing point, with all freezable water and the conductivity of fully frozen food.
// Errors: *heat.RangeError, *heat.NeverError.
func (f Freeze) Plank() (Plank, error) {
	if err := f.check(); err != nil {
		return Plank{}, err
	}
	return Plank{
		Shape: f.Shape, SizeM: f.SizeM, FilmWM2K: f.FilmWM2K,
		LatentJM3:             f.Food.DensityKgM3 * f.Food.FreezableJKg,
		FrozenConductivityWMK: f.Food.FrozenConductivityWMK,
		FreezingPointC:        f.Food.FreezingPointC,
		AirC:                  f.AirC,
	}, nil
}

func (f Freeze) check() error {
	if err := f.Food.Check(); err != nil {
		return err
	}
	err := checkAll(
		limit{"shape", "", float64(f.Shape), float64(heat.Slab), float64(heat.Sphere)},
		limit{"size", "m", f.SizeM, heat.SmallestM, heat.LargestM},
		limit{"surface coefficient", "W/(m²·K)", f.FilmWM2K, heat.SmallestFilmWM2K, heat.LargestFilmWM2K},
		limit{"start temperature", "°C", f.StartC, f.Food.FreezingPointC, 100},
		limit{"core temperature", "°C", f.CoreC, -30, f.Food.FreezingPointC},
		limit{"air temperature", "°C", f.AirC, -60, 100},
		limit{"dimensionality", "", f.dimensionality(), 1, 3},
	)
	if err != nil {
		return err
	}
	if f.AirC > f.CoreC-leastDriveK {
		return &heat.NeverError{StartC: f.StartC, TargetC: f.CoreC, LimitC: f.AirC}
	}
	return nil
}

func (f Freeze) dimensionality() float64 {
	if f.Dimensionality == 0 {
		return float64(f.Shape-heat.Slab) + 1 // slab 1, cylinder 2, sphere 3
	}
	return f.Dimensionality
}

// ThinDimensionality is E of a brick at very small Biot number, 1 + 1/β1 + 1/β2, where β is another half size over the smallest one
// (ASHRAE Handbook Refrigeration, "Cooling and freezing times of foods", eq. 20). It holds where the air, not the food, holds the
// heat back. β 1 to 1e6. Errors: *heat.RangeError.
func ThinDimensionality(beta1, beta2 float64) (float64, error) {
	if err := checkBetas(beta1, beta2); err != nil {
		return 0, err
	}
	return 1 + 1/beta1 + 1/beta2, nil
}

// Dimensionality is E of a brick at a finite Biot number h·R/k (1e-6 to 1e6, R half the smallest size): 1 + Σ(1 + 2/Bi)/(β² + 2β/Bi),
// from memory. It is optimistic: against a three-dimensional solution it came out 5 to 22 % too high for bags and boxes.
// Errors: *heat.RangeError.
func Dimensionality(biot, beta1, beta2 float64) (float64, error) {
	if err := heat.InRange("Biot number", "", biot, 1e-6, 1e6); err != nil {
		return 0, err
	}
	if err := checkBetas(beta1, beta2); err != nil {
		return 0, err
	}
	e := 1.0
	for _, b := range []float64{beta1, beta2} {
		e += (1 + 2/biot) / (b*b + 2*b/biot)
	}
	return e, nil
}

func checkBetas(betas ...float64) error {
	for _, b := range betas {
		if err := heat.InRange("size over smallest size", "", b, 1, 1e6); err != nil {
			return err
		}
	}
	return nil
}
