// Package homecard writes a dish of the book for 4 to 8 people at home: how much in cups and spoons, in which pots, for how long, and how it is
// frozen, thawed and heated there.
//
// The dish is not divided by its batch. It is planned again (internal/plan) in a kitchen that has what a home has (data/kit.csv): one filling
// of a small pot, whose surface is large for what is in it. What that pot loses more by evaporation is put in as water, so that the food is as
// thick as the book has it; what sticks to it follows from the surface it wets. Then every amount is said in measures that exist
// (internal/homemeasure), and what must keep its proportion, a gum to its liquid, an emulsifying salt to its cheese, is reckoned from the
// rounded amount of its partner and checked afterwards.
package homecard
