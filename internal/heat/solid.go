package heat

// Solid is a material that conducts and does not change phase.
type Solid struct {
	DensityKgM3      float64 // 50 to 20,000
	SpecificHeatJKgK float64 // 100 to 10,000
	ConductivityWMK  float64 // 0.01 to 500
}

// Check is nil if the constants are those of a possible material.
func (s Solid) Check() error {
	if err := InRange("density", "kg/m³", s.DensityKgM3, 50, 20_000); err != nil {
		return err
	}
	if err := InRange("specific heat", "J/(kg·K)", s.SpecificHeatJKgK, 100, 10_000); err != nil {
		return err
	}
	return InRange("conductivity", "W/(m·K)", s.ConductivityWMK, 0.01, 500)
}

// DiffusivityM2S is k/(ρ·c) in m²/s. Errors: *RangeError.
func (s Solid) DiffusivityM2S() (float64, error) {
	if err := s.Check(); err != nil {
		return 0, err
	}
	return s.ConductivityWMK / (s.DensityKgM3 * s.SpecificHeatJKgK), nil
}

// The sizes and surface coefficients for which bodies and slabs are meant.
const (
	SmallestM, LargestM = 1e-4, 3
	LargestFilmWM2K     = 1e7 // practically a surface held at the temperature of the medium
	SmallestFilmWM2K    = 0.1
)

// A Shape is a body whose heat flows in one direction only.
type Shape int

const (
	Slab     Shape = iota + 1 // both faces alike; a series.Sheet has different ones
	Cylinder                  // long, through the round side
	Sphere
)

var shapeNames = [...]string{Slab: "slab", Cylinder: "cylinder", Sphere: "sphere"}

// String is "slab", "cylinder" or "sphere".
func (s Shape) String() string {
	if s < Slab || s > Sphere {
		return "unknown shape"
	}
	return shapeNames[s]
}

// Check is nil if it is one of the three. Errors: *RangeError.
func (s Shape) Check() error {
	return InRange("shape", "", float64(s), float64(Slab), float64(Sphere))
}
