// Package freezing says in closed formulas how long a body of food takes to freeze and how much a freezer can take in a day.
//
// The formulas are for instant estimates. Against a finite-volume solution of 27 slabs Pham's came out at 0.91 to 1.12 of the time
// and Plank's at 0.69 to 0.87 (derived, not published); for 25 mm bags brought to -15 °C in still air Plank's falls to
// 0.66. The surface coefficient is the greater doubt: in still air it is rarely known to better than 30 %.
//
// Values in, values out, SI units in the names. Errors are those of package heat: *heat.RangeError and *heat.NeverError.
package freezing
