// Package medium lists what food can stand in while it cools, freezes or warms: air at rest and in motion, ice water, a cold plate,
// simmering water. For each it knows the range of surface coefficients that sources give and the one to start from.
//
// A surface coefficient is the most doubtful number of the whole calculation: even laboratories read it from cooling curves to no
// better than 30 % (ASHRAE research project 1123, abstract). So a medium never has one value but three, and what is computed from it
// is a band. A kitchen that has logged one batch of its own puts its own range in place of these.
package medium
