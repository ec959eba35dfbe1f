// Package vessel is the arithmetic of stirred pots: how a content of one temperature follows its heater and surroundings (Vessel; Open with
// vapour from its surface; Kettle for a pot of food on a burner), how much water leaves an open surface or a boil, and how much ice a
// batch melts.
//
// Units, ranges and errors are as in package heat. The one exception is KgM2H, kg/(m²·h), because evaporation is read that way.
package vessel
