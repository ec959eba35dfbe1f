// Package freezepoint says where a food starts to freeze from what is dissolved in its water, how much of that water is still liquid in a
// freezer, and how salty that liquid has become.
//
// The law is the ideal one for thin solutions, ΔT = Kf · Σ(particles · mol per kg of water), and the liquid that is left at T below it holds
// the same particles: its share of the water is ΔT/|T|. So each figure can be reckoned by hand and says which solute it comes from.
// internal/heat has the law of Raoult for the heat engines; up to 2 °C the two differ by less than 2 %, which a test holds.
//
// Where it fails: what is not named (minerals, protein, acids) lowers the point further, so the answer is the warmest that can be, and the
// range tells how much colder the rest could make it. Below LowestC liquids are so strong that the ideal law is a guide to the order of
// things, no measurement: Liquid.Beyond says so.
package freezepoint
