// Package heat is what everything about warming, cooling and freezing rests on: what a food of a composition conducts and stores, frozen
// or not, the materials around it, and the errors and ranges that the packages built on it share.
//
// It knows no kitchen. Values go in and come out as float64 in SI units, and the unit is the end of the name: ThicknessM,
// FilmWM2K (W/(m²·K)), SpecificHeatJKgK, TempC (°C).
//
// Every function here, and in series, vessel and calibration, states where its formula comes from and the range in which it holds, and
// refuses to answer outside it: with a *RangeError for a value that makes no sense there, and a *NeverError for a temperature that the
// body will never reach. No function returns NaN or an infinity, and none loops without a bound.
//
// In it, from the ground up: Composition and its properties (At, FrozenAt, State; Chen and others as a second opinion; FreezingRange),
// FreezingFood for the simulation of freezing, Solid for what does not freeze, and Coat for the layers between a body and its medium.
package heat
