package freezing

import (
	"fmt"

	"kettlefrost/internal/heat"
)

// coldestAboveAirK is how far above the air the coldest core lies that is worth asking for. The last kelvin costs a core more time than
// all those before it together, and a freezer's air swings by as much.
const coldestAboveAirK = 1

// TooColdError says that a core was asked for that the air cannot bring about in a useful time. The caller decides: ask for ColdestC, or
// set the air colder. It unwraps to a *heat.NeverError.
type TooColdError struct {
	StartC, CoreC, AirC float64
	ColdestC            float64 // the coldest core that can be asked for in this air: 1 K above it
}

func (e *TooColdError) Error() string {
	return fmt.Sprintf("a core of %.6g °C does not come in air of %.6g °C: the coldest to ask for is %.6g °C", e.CoreC, e.AirC, e.ColdestC)
}

func (e *TooColdError) Unwrap() error {
	return &heat.NeverError{StartC: e.StartC, TargetC: e.CoreC, LimitC: e.AirC}
}

// ColdestCoreC is the coldest core that can be asked for in air of airC.
func ColdestCoreC(airC float64) float64 { return airC + coldestAboveAirK }

func checkCore(startC, coreC, airC float64) error {
	if coldest := ColdestCoreC(airC); coreC < coldest {
		return &TooColdError{StartC: startC, CoreC: coreC, AirC: airC, ColdestC: coldest}
	}
	return nil
}
