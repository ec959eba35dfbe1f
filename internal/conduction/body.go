package conduction

import "kettlefrost/internal/heat"

// Material says what a kilogram of it is at a specific enthalpy. It is asked in the innermost loop, so it checks nothing; Food and Solid
// make checked ones.
type Material interface {
	DensityKgM3() float64
	// EnthalpyJKg is the enthalpy at a temperature; at the temperature of a plateau, its upper end.
	EnthalpyJKg(tempC float64) float64
	// At is the temperature at an enthalpy, its slope (K·kg/J, 0 on a plateau), and the conductivity there.
	At(enthalpyJKg float64) (tempC, slopeKKgJ, conductivityWMK float64)
	// Potential is the conductivity integrated over the temperature, from any fixed one (Kirchhoff), and the conductivity itself. The
	// flux between two points is the difference of their potentials over the distance, whatever freezes in between.
	Potential(tempC float64) (potentialWM, conductivityWMK float64)
}

// Course is a temperature over time, in °C, from when the body comes in; nil in a Face is the temperature of the Pool around the body.
// -60 to 150 °C. It must give the same answer whenever it is asked for the same time.
type Course func(timeS float64) float64

// Steady is a temperature that does not change.
func Steady(tempC float64) Course { return func(float64) float64 { return tempC } }

// Face is what one side of a body meets.
type Face struct {
	FilmWM2K float64 // surface coefficient, packages included; 0 is a closed face
	Medium   Course
	// Wet is the share of the face that evaporates as a free water surface in still air does (vessel.OpenSurfaceEvaporation): 0 under a
	// lid or in a bag, 1 for an open pan of thin soup. The film does not count it.
	Wet float64
}

// Axis is one direction of a body.
type Axis struct {
	Shape     heat.Shape
	SizeM     float64 // full thickness of a slab, diameter of a cylinder or sphere
	Low, High Face    // the two faces of a slab; round bodies have High only
	Layers    int     // equal layers lying on each other, of a slab; 0 is 1
	GapM2KW   float64 // resistance between two of them
}

// Both is a slab with the same face on either side.
func Both(sizeM float64, f Face) Axis { return Axis{Shape: heat.Slab, SizeM: sizeM, Low: f, High: f} }

// Body is what heats or cools: one slab, cylinder or sphere; a cylinder and a slab (pot, round tub); two or three slabs (brick).
type Body struct {
	Material Material
	Axes     []Axis
	StartC   float64 // throughout
}

// Accuracy is how fine the computation is.
type Accuracy int

const (
	Engineering Accuracy = iota // 1 % of the time
	Fine                        // 0.1 %
)

// Ask is what is wanted of a simulation. The core is the point that changes last: the hottest while cooling, the coldest while warming,
// wherever it lies.
type Ask struct {
	CoreC    float64   // stop when the core has passed it; must lie between start and medium
	MarksC   []float64 // other temperatures whose passing by the core is wanted
	WithinS  float64   // stop then at the latest; 0 is 30 days
	Accuracy Accuracy
}

// Point is one moment of a simulation.
type Point struct {
	TimeS    float64
	CoreC    float64
	SurfaceC float64 // middle of the High face of the first axis
	MeanC    float64 // temperature at the mean enthalpy
	MediumC  float64 // around the High face of the first axis
}

// Passing is when the core passed a temperature.
type Passing struct {
	TempC   float64
	Reached bool
	TimeS   float64 // if not reached, how long it was followed
}

// Place is a temperature at a depth.
type Place struct{ DepthM, TempC float64 }

// Profile is the temperatures along the first axis, through the core, from the Low face (or the centre of a round body) up.
type Profile struct {
	TimeS  float64
	Places []Place
}

// Result is a simulation.
type Result struct {
	Reached   bool      // the core is at Ask.CoreC
	TimeS     float64   // until then, or until it was given up
	Passed    []Passing // MarksC in their order
	Points    []Point   // from the start to TimeS, as the steps fell
	Profiles  []Profile // at the start, at each mark reached, and at the end
	GivenOffJ float64   // of the whole body (a slab: for 1 m² of face; a cylinder or two slabs: for 1 m of length), negative when it took heat up
	Closure   float64   // |stored + given off| / largest of both, or of 1 J/kg: how well the energy balance closes
	Cells     int
	Steps     int
}
