// Package conduction marches heat through unstirred food, through its freezing and thawing, by finite volumes in the enthalpy: what a
// cell loses its neighbour or the medium gains, so nothing is lost in the freezing range. Implicit and adaptive in time; one, two or
// three directions; alone or many in a pool that they warm or cool.
//
// The unknown is the specific enthalpy, because temperature stands still while food freezes. The flux between two cells is the
// difference of their conductivity integrals (Kirchhoff), which is exact for steady flow however the conductivity changes in between
// and right at a sharp front too. Each step is a backward Euler step by Newton's method; one step and two half ones are extrapolated to
// second order with the same weights for heat and flux, and their difference sets the size of the next. Several directions are swept
// one after the other (Samarskii and Moiseyenko 1965), which the same extrapolation corrects.
//
// It knows no kitchen. SI units, the unit at the end of a name. Errors are those of package heat.
package conduction
