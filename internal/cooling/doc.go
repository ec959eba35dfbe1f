// Package cooling compares what can be done to cool one load of hot food within a limit of coolrule: shallow pans, stirred pots in a
// bath or in air, frozen paddles, ice held back from the recipe, and any of them after one another.
//
// It knows no kitchen. SI units, the unit at the end of a name. Every way is followed three times, with the surface coefficients
// at their low, usual and high end, because a coefficient is the most doubtful number of all: what is in time at the low one has a
// margin. The hottest point of the food counts, never its mean. Everything left out makes the food cool more slowly than it will, or
// is named as a Caution.
//
// What it says is a prediction: a thermometer in the food decides, and the local authority decides which rule holds.
package cooling
