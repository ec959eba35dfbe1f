// Package lethality adds up what heat kills, from readings at the coldest point of a food: against a target at a reference temperature, and
// against published tables of how long food must stay at or above a temperature.
//
// It never says that food is safe. A target that is reached is reached under assumptions that the result carries: the readings are of the
// coldest point, the food is moist, the tables are those of their edition. Meat and poultry have tables of their own, and one is never used
// for the other. No heat of a kitchen kills the spores that cooling and freezing are for.
package lethality

import "fmt"

// Reading is a temperature at the coldest point of the food.
type Reading struct {
	TimeS float64 // from any beginning, ascending
	TempC float64
}

// ReadingError says which reading makes no sense.
type ReadingError struct {
	Reading int // from 0; -1 when there are too few
	Problem string
	Fix     string
}

func (e *ReadingError) Error() string {
	if e.Reading < 0 {
		return "lethality: " + e.Problem + ": " + e.Fix
	}
	return fmt.Sprintf("lethality: reading %d %s: %s", e.Reading+1, e.Problem, e.Fix)
}

// Temperatures that no kitchen thermometer in food shows.
const (
	coldestC = -60
	hottestC = 300
)

func check(readings []Reading) error {
	if len(readings) < 2 {
		return &ReadingError{-1, "fewer than two readings say nothing about time", "give all readings of the heating"}
	}
	for i, r := range readings {
		switch {
		case !(r.TempC >= coldestC && r.TempC <= hottestC):
			return &ReadingError{i, fmt.Sprintf("is %g °C, which food never is", r.TempC), "look at its unit, and correct it"}
		case !(r.TimeS >= 0 && r.TimeS < 1e9):
			return &ReadingError{i, fmt.Sprintf("is at %g s", r.TimeS), "count the seconds from the first reading"}
		case i > 0 && r.TimeS <= readings[i-1].TimeS:
			return &ReadingError{i, "is not later than the one before it", "sort the readings by time, and keep one of each time"}
		}
	}
	return nil
}
