package series

import "kettlefrost/internal/heat"

// A Place is where in a body the temperature is asked for.
type Place int

const (
	Centre  Place = iota + 1
	Surface       // the middle of the outer surface
	Mean          // over the volume: what is left of the heat
)

func (p Place) check() error {
	return heat.InRange("place", "", float64(p), float64(Centre), float64(Mean))
}
