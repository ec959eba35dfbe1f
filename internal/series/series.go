package series

import (
	"math"

	"kettlefrost/internal/heat"
)

// The numbers for which the series of a body are meant.
const (
	LowestBiot, HighestBiot = 1e-6, 1e8
	// LowestFourier is the earliest dimensionless time for which a series is summed; 0 is allowed as well. In a pan of soup 5 cm
	// deep it is a twentieth of a second.
	LowestFourier, HighestFourier = 1e-5, 1e12
)

const (
	// spentExponent: terms smaller than exp(-40) = 4e-18 of the first no longer change a float64.
	spentExponent = 40
	// untouchedFourier: before it the centre of a slab, cylinder or sphere has cooled by less than 1e-20 of the whole way.
	untouchedFourier = 0.005
)

// term is one member of the series: weight at the places × exp(-rate·Fo).
type term struct {
	rate                  float64 // λ²
	centre, surface, mean float64
}

func (t term) weight(p Place) float64 {
	switch p {
	case Centre:
		return t.centre
	case Surface:
		return t.surface
	default:
		return t.mean
	}
}

// series is the exact solution for one shape and one Biot number; its terms are found as earlier times ask for them.
type series struct {
	shape heat.Shape
	biot  float64
	terms []term
}

func (s *series) termsFor(fourier float64) []term {
	for n := len(s.terms); n == 0 || s.terms[n-1].rate*fourier < spentExponent; n++ {
		s.terms = append(s.terms, newTerm(s.shape, s.biot, n))
	}
	return s.terms
}

// at is the sum and its derivative with respect to the Fourier number, which must be at least LowestFourier.
func (s *series) at(p Place, fourier float64) (theta, slope float64) {
	if p == Centre && fourier < untouchedFourier {
		return 1, 0
	}
	for _, t := range s.termsFor(fourier) {
		part := t.weight(p) * math.Exp(-t.rate*fourier)
		theta += part
		slope -= t.rate * part
	}
	return theta, slope
}

func newTerm(shape heat.Shape, biot float64, n int) term {
	switch shape {
	case heat.Slab:
		return slabTerm(wallRoot(n, 0, biot))
	case heat.Cylinder:
		return cylinderTerm(cylinderRoot(n, biot))
	default:
		return sphereTerm(sphereRoot(n, biot))
	}
}

func slabTerm(l float64) term {
	sin, cos := math.Sincos(l)
	a := 4 * sin / (2*l + math.Sin(2*l))
	return term{rate: l * l, centre: a, surface: a * cos, mean: a * sin / l}
}

func cylinderTerm(l float64) term {
	j0, j1 := math.J0(l), math.J1(l)
	a := 2 * j1 / (l * (j0*j0 + j1*j1))
	return term{rate: l * l, centre: a, surface: a * j0, mean: a * 2 * j1 / l}
}

func sphereTerm(l float64) term {
	sin, cos := math.Sincos(l)
	a := 4 * (sin - l*cos) / (2*l - math.Sin(2*l))
	return term{rate: l * l, centre: a, surface: a * sin / l, mean: a * 3 * (sin - l*cos) / (l * l * l)}
}

// FirstTerm is the first eigenvalue and coefficient of the series: θ at the centre is Coefficient·exp(-Root²·Fo) within 2 % for
// Fo > 0.2. These are the two columns of the usual textbook tables.
type FirstTerm struct{ Root, Coefficient float64 }

// FirstTermOf is for biot 1e-6 to 1e8 = h·L/k with L the half thickness or radius. Errors: *heat.RangeError.
func FirstTermOf(shape heat.Shape, biot float64) (FirstTerm, error) {
	if err := checkSeries(shape, biot); err != nil {
		return FirstTerm{}, err
	}
	t := newTerm(shape, biot, 0)
	return FirstTerm{Root: math.Sqrt(t.rate), Coefficient: t.centre}, nil
}

// RelativeTemp is θ = (T - Tmedium)/(Tstart - Tmedium) in a body that started at one temperature and whose medium, Biot number
// h·L/k and properties are constant: the exact series solution (Carslaw and Jaeger; any textbook of heat transfer), with L the half
// thickness of a slab or the radius, fourier = α·t/L². Biot 1e-6 to 1e8, fourier 0 or 1e-5 to 1e12. Errors: *heat.RangeError.
func RelativeTemp(shape heat.Shape, p Place, biot, fourier float64) (float64, error) {
	if err := checkSeries(shape, biot); err != nil {
		return 0, err
	}
	if err := p.check(); err != nil {
		return 0, err
	}
	if fourier == 0 {
		return 1, nil
	}
	if err := heat.InRange("Fourier number", "", fourier, LowestFourier, HighestFourier); err != nil {
		return 0, err
	}
	theta, _ := (&series{shape: shape, biot: biot}).at(p, fourier)
	return theta, nil
}

func checkSeries(shape heat.Shape, biot float64) error {
	if err := shape.Check(); err != nil {
		return err
	}
	return heat.InRange("Biot number", "", biot, LowestBiot, HighestBiot)
}
