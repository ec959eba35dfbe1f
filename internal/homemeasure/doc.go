// Package homemeasure says amounts in the spoons and cups that a home has, and reads the lines of home recipes.
//
// Measures are exact: the US gallon of 231 cubic inches and its parts, the pound and the ounce (internal/unit). A home has a few of them
// (data/utensils.csv), and an amount is said as at most two, within a bound: 5 % for most things, for that is how true household cups are;
// 2 % for salt, leavening and the like. What no two measures meet within its bound is said in grams, and gums always are. A word such as
// pinch never stands without its grams.
//
// Of the ways within the bound the one with the fewest different utensils is taken, of those the nearest, of those the one with the fewest
// fillings, and of those the one whose smallest utensil is largest.
package homemeasure

import "fmt"

// InputError says which input makes no sense, and what would do.
type InputError struct {
	Field, Reason, Fix string
}

// Error is one line.
func (e *InputError) Error() string {
	return fmt.Sprintf("homemeasure: %s %s; %s", e.Field, e.Reason, e.Fix)
}
