// Package conduction marches heat through unstirred food, through its freezing and thawing, by finite volumes in the enthalpy: what a
// cell loses its neighbour or the medium gains, so nothing is lost in the freezing range. Implicit and adaptive in time; one, two or
// three directions.
//
// It knows no kitchen. SI units, the unit at the end of a name. Errors are those of package heat.
package conduction
