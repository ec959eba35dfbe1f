// Package reheating computes the heating card that goes with a frozen flat bag: how long it must stay in simmering water until its
// coldest point is at 165 °F, from frozen and from thawed, and the words that tell a customer so.
//
// The minutes are those of the worst case that is still to be expected, the thickest bag with the least heat transfer, plus a margin.
// No published time for vacuum bags in simmering water was found, and a folded corner or a floating bag is in no such computation: so
// every card ends at the customer's thermometer, and the kitchen is asked to measure. For the microwave and the oven nothing is
// computed at all: there a time comes from at least three measured runs (ValidationForm, Evaluate) or not at all.
//
// It knows no kitchen. SI units, the unit at the end of a name. Errors are *heat.RangeError and *heat.NeverError.
package reheating
