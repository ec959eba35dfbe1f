// Package formula looks at a dish as what it is made of: the whole pot as it goes into the freezer, from the dish's own mass flow; what in it goes
// wrong there and what would help; how much of what is added by the gram it takes; where it freezes and how long it keeps.
//
// It is the place that knows both the nouns of the kitchen and the engines of formulation (stability, dosing, freezepoint, storagelife). What the
// book does not say is guessed in the open: each guess is an Ask, a question in plain words with what was taken meanwhile.
//
// Everything is worked out at the scale that the dish is written for and then taken in proportion: that is what a dose is. How much more water a
// small pot loses is the plan's affair.
package formula
