// Package calibration reads settings back from one logged batch, each with the range that the doubt of the reading leaves: the loss of a
// stirred vessel, the efficiency of a burner, and the surface coefficient that a simulation or formula of the caller needs.
//
// Units, ranges and errors are as in package heat.
package calibration
