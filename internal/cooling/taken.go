package cooling

import "fmt"

// Taken is where the heat went, J.
type Taken struct {
	MediumJ  float64 // the bath or the air
	VapourJ  float64 // evaporation from stirred pots; that from pans is in MediumJ
	PaddlesJ float64
	OwnIceJ  float64 // ice that becomes the recipe's water
}

// SumJ is all of it.
func (t Taken) SumJ() float64 { return t.MediumJ + t.VapourJ + t.PaddlesJ + t.OwnIceJ }

func (t Taken) plus(u Taken) Taken {
	return Taken{t.MediumJ + u.MediumJ, t.VapourJ + u.VapourJ, t.PaddlesJ + u.PaddlesJ, t.OwnIceJ + u.OwnIceJ}
}

func (t Taken) times(n float64) Taken {
	return Taken{t.MediumJ * n, t.VapourJ * n, t.PaddlesJ * n, t.OwnIceJ * n}
}

// Formula is how a stage was computed.
type Formula int

const (
	NotComputed  Formula = iota // the stage was not needed, or failed
	PotSeries                   // exact series of a cylinder crossed with a layer: no freezing, air of constant temperature
	FiniteVolume                // simulation of a layer or pot, with evaporation and freezing of the surface
	SharedAir                   // the same, with the air that all pans warm together
	StirredPot                  // one temperature in the pot, marched in time with its bath and paddles
	IceBalance                  // heat balance of the food and its own ice
)

var formulaNames = [...]string{"not computed", "exact series of a pot", "finite volumes",
	"finite volumes, air shared", "stirred pot", "heat balance with ice"}

// String is the formula in words.
func (f Formula) String() string {
	if f < NotComputed || f > IceBalance {
		return fmt.Sprintf("formula(%d)", int(f))
	}
	return formulaNames[f]
}
