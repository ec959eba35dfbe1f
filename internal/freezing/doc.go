// Package freezing says how long packs of food take to freeze, how many of them a freezer can take in a day, how warm that makes what is
// already in it, and who goes into which freezer on which day.
//
// Times simulates one pack, lying alone, on a cold shelf or in a stack, in air that stays cold. Load simulates all that goes into a freezer
// whose machine has only so much power: the air warms, and the old stock with it. PacksADay and Schedule are decided by loads so
// simulated. Remedies says what would make too much fit.
//
// Pham's and Plank's formulas are for instant estimates and stand beside a simulation. Against a finite-volume solution of 27 slabs
// Pham's came out at 0.91 to 1.12 of the time and Plank's at 0.69 to 0.87 (derived, not published); for 25 mm bags brought to -15 °C in
// still air Plank's falls to 0.66. The surface coefficient is the greater doubt: in still air it is rarely known to better than 30 %.
//
// Conduction in flat bodies, one temperature for all of the air: a bag against a warm one, a door left open, frost and ice on the
// evaporator are not in it. A thermometer in the core of one bag is the proof.
//
// It knows no kitchen. Values in, values out, SI units in the names. Errors are those of package heat, or unwrap to them.
package freezing
