// Package storagelife says what share of a frozen food's life of good quality its storage has used, and what a freezer that got warm cost.
//
// The rule is the time-temperature tolerance of frozen food (IIR 1986): each stay uses a share of life, shares add, and their order does not
// matter. It is about quality while food stays frozen. It says nothing of safety, and nothing above -5 °C, where food must be looked at.
package storagelife

import (
	"fmt"
	"math"
)

// Rule is how long a food keeps, and how that changes with temperature.
type Rule struct {
	DaysAt18 float64 // practical storage life at -18 °C
	// Q10 is how many times as fast quality goes 10 °C warmer. No figure for soups and sauces was found published: 3, with a range of 2 to 4, is
	// an assumption, within the 2.3 to 3.9 that IIR's table for meat and fish implies between -12 and -18 °C (from memory).
	Q10, Q10Low, Q10High float64
}

// Assumed is the rule for a food that keeps so many days at -18 °C.
func Assumed(days float64) Rule { return Rule{days, 3, 2, 4} }

// WarmestC is up to where the rule is used.
const WarmestC = -5

const referenceC = -18

// Days is how long the food keeps at a temperature, in days: PSL(T) = PSL(-18) Q10^((-18 - T)/10).
func (r Rule) Days(tempC float64) float64 { return r.days(tempC, r.Q10) }

func (r Rule) days(tempC, q10 float64) float64 {
	return r.DaysAt18 * math.Pow(q10, (referenceC-tempC)/10)
}

// Stay is a time at a temperature.
type Stay struct {
	TempC, Days float64
}

// Used is the share of life that stays have used, with the range over Q10, and what is left at -18 °C.
type Used struct {
	Share, Low, High float64
	LeftDays         float64 // at -18 °C, never below 0
	// WarmDays were spent above -5 °C, where the rule does not hold: they are in no share.
	WarmDays float64
}

// StayError says which stay makes no sense.
type StayError struct {
	Stay    int
	Problem string
}

func (e *StayError) Error() string {
	return fmt.Sprintf("storagelife: stay %d %s", e.Stay+1, e.Problem)
}

// Use adds up stays. Errors are *StayError.
func (r Rule) Use(stays []Stay) (Used, error) {
	var u Used
	for i, s := range stays {
		switch {
		case !(s.Days >= 0 && s.Days < 1e6):
			return Used{}, &StayError{i, fmt.Sprintf("lasts %g days", s.Days)}
		case !(s.TempC > -100 && s.TempC < 100):
			return Used{}, &StayError{i, fmt.Sprintf("is at %g °C", s.TempC)}
		case s.TempC > WarmestC:
			u.WarmDays += s.Days
			continue
		}
		low, high := s.Days/r.days(s.TempC, r.Q10Low), s.Days/r.days(s.TempC, r.Q10High)
		u.Share += s.Days / r.Days(s.TempC)
		u.Low, u.High = u.Low+min(low, high), u.High+max(low, high)
	}
	u.LeftDays = max(0, (1-u.Share)*r.DaysAt18)
	return u, nil
}
