// Package heatcase answers one question about heat: how long a food of this make and shape takes to cool, freeze, thaw or warm in
// these surroundings. It puts together what the engines know: the finite-volume simulation of package conduction for the answer, the
// media of package medium for its band, handbook formulas beside it for comparison, and the published cooling limits of package coolrule.
//
// A Case is the question, in typed quantities; every key of it can also be set and read as text (Fields), so that a command line, a
// file and a page with sliders ask in the same words. An Answer is plain data in SI units, ready for JSON.
//
// A prediction is no release: a thermometer in the food decides, and the local authority says which limits hold.
package heatcase
