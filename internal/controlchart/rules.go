package controlchart

import (
	"fmt"
	"math"
)

// Rule is a pattern that chance alone seldom makes. S is the standard deviation of a point.
type Rule int

const (
	BeyondLimits     Rule = iota + 1 // one point beyond 3 s
	TwoOfThree                       // two of three beyond 2 s on one side
	FourOfFive                       // four of five beyond 1 s on one side
	EightOnOneSide                   // eight in a row on one side of the centre
	NineOnOneSide                    // nine in a row on one side of the centre
	SixSteadily                      // six in a row, each above the one before or each below
	FourteenUpDown                   // fourteen in a row, up and down by turns
	FifteenNear                      // fifteen in a row within 1 s: limits too wide, or groups that mix two sources
	EightAwayFromAll                 // eight in a row beyond 1 s, on either side
)

// WesternElectric are the four rules of the Western Electric handbook (1956), as NIST/SEMATECH e-Handbook 6.3.2 lists them.
var WesternElectric = []Rule{BeyondLimits, TwoOfThree, FourOfFive, EightOnOneSide}

// Nelson are the eight rules of L. S. Nelson, Journal of Quality Technology 16(4), 1984 (from memory).
var Nelson = []Rule{BeyondLimits, NineOnOneSide, SixSteadily, FourteenUpDown, TwoOfThree, FourOfFive, FifteenNear, EightAwayFromAll}

// pattern is a rule as a count: need of the last window points that belong to it.
type pattern struct {
	name         string
	need, window int
	sided        bool // judged above and below apart
	belongs      func(off []float64, i int, sd float64) bool
}

var patterns = [...]pattern{
	BeyondLimits:     {"one point beyond 3 s", 1, 1, true, above(3)},
	TwoOfThree:       {"two of three beyond 2 s on one side", 2, 3, true, above(2)},
	FourOfFive:       {"four of five beyond 1 s on one side", 4, 5, true, above(1)},
	EightOnOneSide:   {"eight in a row on one side", 8, 8, true, above(0)},
	NineOnOneSide:    {"nine in a row on one side", 9, 9, true, above(0)},
	SixSteadily:      {"six in a row steadily up or down", 5, 5, true, rises},
	FourteenUpDown:   {"fourteen in a row up and down by turns", 12, 12, false, turns},
	FifteenNear:      {"fifteen in a row within 1 s", 15, 15, false, within},
	EightAwayFromAll: {"eight in a row beyond 1 s on either side", 8, 8, false, away},
}

// reach is how many points before the first that belongs are part of the pattern: six points rise five times.
func (r Rule) reach() int {
	switch r {
	case SixSteadily:
		return 1
	case FourteenUpDown:
		return 2
	}
	return 0
}

// above, rises and the rest look at distances from the centre, in units of the values.
func above(k float64) func([]float64, int, float64) bool {
	return func(off []float64, i int, sd float64) bool { return off[i] > k*sd }
}

func rises(off []float64, i int, _ float64) bool { return i > 0 && off[i] > off[i-1] }

func turns(off []float64, i int, _ float64) bool {
	return i > 1 && (off[i]-off[i-1])*(off[i-1]-off[i-2]) < 0
}

func within(off []float64, i int, sd float64) bool { return math.Abs(off[i]) < sd }

func away(off []float64, i int, sd float64) bool { return math.Abs(off[i]) > sd }

// String is the rule in words.
func (r Rule) String() string {
	if r < BeyondLimits || r > EightAwayFromAll {
		return fmt.Sprintf("rule(%d)", int(r))
	}
	return patterns[r].name
}
