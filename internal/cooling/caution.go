package cooling

import "fmt"

// Code is what to look at. Value of the Caution is what it says here.
type Code int

const (
	OnlyConducts   Code = iota + 1 // unstirred: food that can be poured also mixes by itself and is faster
	Uncovered                      // stands open while hot: protect it from above; Value is the share of the surface that evaporates
	SurfaceFreezes                 // the medium is below the food's freezing point; Value is the medium, °C
	AirWarms                       // the machine is overloaded and warms all that is in there; Value is the warmest air, °C
	IceGone                        // the bath has no ice left; Value is when, s from the start of the stage
	PaddlesGone                    // all paddles have melted before the end; Value is when, s from the start of the stage
	WarmsAgain                     // the bath would warm the food, which ends the stage; Value is when, s from the start of the stage
	CookedThicker                  // it is cooked without this part of its water and may catch; Value is the mass held back, kg
	IceIsFood                      // the ice goes into the food: drinking water, clean hands and tools; Value is its mass, kg
	LessIce                        // all the water that may be held back would bring it below the end; Value is the mass left out, kg
	FromHottest                    // it was unstirred before: the stage counts from its hottest point; Value is that, °C
	StageSkipped                   // the stage was not needed: the food is cold enough already
)

var codeNames = [...]string{OnlyConducts: "only conducts", Uncovered: "uncovered", SurfaceFreezes: "surface freezes", AirWarms: "air warms",
	IceGone: "ice gone", PaddlesGone: "paddles gone", WarmsAgain: "warms again", CookedThicker: "cooked thicker", IceIsFood: "ice is food", LessIce: "less ice",
	FromHottest: "from the hottest point", StageSkipped: "stage skipped"}

// String is the code in words.
func (c Code) String() string {
	if c < OnlyConducts || c > StageSkipped {
		return fmt.Sprintf("caution(%d)", int(c))
	}
	return codeNames[c]
}

// Caution is something to look at. Computed with the usual surface coefficients.
type Caution struct {
	Code  Code
	Stage int // index
	Value float64
}
