// Package heat is the arithmetic of warming, cooling and freezing: what a composition conducts and stores, how a solid body and a
// stirred vessel follow the medium around them, how much water leaves an open surface, and how much ice a batch melts.
//
// It knows no kitchen. Values go in and come out as float64 in SI units, and the unit is the end of the name: ThicknessM,
// FilmWM2K (W/(m²·K)), SpecificHeatJKgK, TempC (°C). The one exception is KgM2H, kg/(m²·h), because evaporation is read that way.
//
// Every function states where its formula comes from and the range in which it holds, and refuses to answer outside it: with a
// *RangeError for a value that makes no sense there, and a *NeverError for a temperature that the body will never reach. No
// function returns NaN or an infinity, and none loops without a bound.
//
// In it, from the ground up: Composition and its properties (At, FrozenAt, State; Chen and others as a second opinion; FreezingRange),
// FreezingFood for the simulation of freezing; bodies that conduct (Sheet, Body); vessels that are stirred (Vessel, OpenVessel, Kettle)
// and what evaporates from them; and settings read back from a log (CalibratedEfficiency, CalibratedLossWK, CalibratedFilmWM2K).
//
// Bodies conduct only: a food that can be poured also mixes by itself and cools faster than a Slab or a Body says.
package heat
