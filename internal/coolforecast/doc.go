// Package coolforecast tells, while food cools, when it will be at each limit of a coolrule, from what was read so far and from the curve that
// internal/cooling predicts for the way it is cooled; and what can still be done about it, each computed by internal/cooling from the
// temperature of now.
//
// # Method
//
// The curve of the way gives shapes θ(τ), the part of the way from the start to the temperature of what is around the food that is still to go
// after τ: at its low, usual and high surface coefficients, and Newton's law of cooling, θ = exp(-kτ), that takes as long. The food is taken
// to go along one of them at some pace s:
//
//	T(t) = A·θ(s·(t-t₀)) + m·(1-θ(s·(t-t₀))) + d(t)
//
// A is the start, m what it tends to. d is what no such curve explains, a Gaussian process in proportion to the way that is still to go. A and m
// have normal priors, the pace Student's t with 3 degrees of freedom around the predicted one, so that readings that say otherwise win. For each
// shape and pace of a grid A and m follow by generalised least squares, which also gives how well the shape and pace explain the readings (Bayes
// linear regression; Rasmussen and Williams, Gaussian Processes for Machine Learning, 2006, section 2.7, formulas from memory). What is told is
// the mixture of all of them. Without a predicted curve there is Newton's law alone with a pace from a quarter of an hour to fifteen hours.
//
// The widths of the priors are common practice and were set on drawn cases; TestForecastsOfDrawnCases measures the errors on others and
// docs/forecast-checks.md keeps them. Every point of the food is followed by itself and the worst decides.
//
// It knows no kitchen. SI units, the unit at the end of a name. A forecast decides nothing: a reading at or under the limit in time does.
package coolforecast
