// Package loads splits what a step works on into fillings of real equipment: as few as its limits allow, all of the same size,
// rather than nine full ones and a tiny one.
package loads

import (
	"fmt"
	"math"
)

// Limit is what one filling can hold. Zero means that side has no limit.
type Limit struct {
	VolumeL float64 // working volume, litres
	MassKg  float64 // by surface, jar or back: kilograms
}

// Binding says which side of the limit decided the number of fillings.
type Binding int

const (
	Unlimited Binding = iota // one filling, nothing was near
	ByVolume
	ByMass
)

// String is a word for people.
func (b Binding) String() string { return [...]string{"no limit", "volume", "mass"}[b] }

// Split is the same amount of food in N equal fillings.
type Split struct {
	N       int
	EachKg  float64
	EachL   float64
	Binding Binding
	// Full is the part of the binding limit that each filling uses, 0 to 1; 0 when there is no limit.
	Full float64
}

// slack lets a filling be over its limit by rounding only.
const slack = 1e-9

// Most is the largest number of fillings that Even will plan; beyond it something is wrong with the limits.
const Most = 10_000

// ErrTooMany means that a mass would take more than Most fillings.
var ErrTooMany = fmt.Errorf("more than %d loads", Most)

// Even splits massKg of food with the given density (kg/L) into as few equal fillings as the limit allows.
// A mass of zero needs no filling. It fails on values that are not finite or negative, and beyond Most fillings.
func Even(massKg, densityKgL float64, limit Limit) (Split, error) {
	volumeL := massKg / densityKgL
	switch {
	case !(massKg >= 0) || math.IsInf(massKg, 0):
		return Split{}, fmt.Errorf("a mass of %v kg cannot be split into loads", massKg)
	case !(densityKgL > 0) || math.IsInf(densityKgL, 0):
		return Split{}, fmt.Errorf("a density of %v kg/L cannot be used to fill a vessel", densityKgL)
	case limit.VolumeL < 0 || limit.MassKg < 0:
		return Split{}, fmt.Errorf("a load limit of %v L and %v kg cannot be met", limit.VolumeL, limit.MassKg)
	case massKg == 0:
		return Split{}, nil
	}
	byVolume, byMass := share(volumeL, limit.VolumeL), share(massKg, limit.MassKg)
	need := math.Ceil(max(byVolume, byMass, slack) - slack)
	if need > Most {
		return Split{}, fmt.Errorf("%.4g kg at %.4g L or %.4g kg each: %w", massKg, limit.VolumeL, limit.MassKg, ErrTooMany)
	}
	n := max(1, need)
	s := Split{N: int(n), EachKg: massKg / n, EachL: volumeL / n}
	switch {
	case byVolume == 0 && byMass == 0:
	case byVolume >= byMass:
		s.Binding, s.Full = ByVolume, byVolume/n
	default:
		s.Binding, s.Full = ByMass, byMass/n
	}
	return s, nil
}

// FullIn is the part of another limit that each filling would use, more than 1 where it does not fit; 0 when there is no limit.
func (s Split) FullIn(limit Limit) float64 {
	return max(share(s.EachL, limit.VolumeL), share(s.EachKg, limit.MassKg))
}

func share(amount, limit float64) float64 {
	if limit == 0 {
		return 0
	}
	return amount / limit
}

// Fewest picks, among limits that would all do, the one with the fewest fillings; equal counts go to the first.
// It returns the index of the limit. No limits at all count as one unlimited place, index -1.
func Fewest(massKg, densityKgL float64, limits []Limit) (int, Split, error) {
	if len(limits) == 0 {
		s, err := Even(massKg, densityKgL, Limit{})
		return -1, s, err
	}
	best, bestSplit := -1, Split{}
	var firstErr error
	for i, l := range limits {
		s, err := Even(massKg, densityKgL, l)
		if err != nil {
			if firstErr == nil {
				firstErr = err
			}
			continue
		}
		if best < 0 || s.N < bestSplit.N {
			best, bestSplit = i, s
		}
	}
	if best < 0 {
		return -1, Split{}, firstErr
	}
	return best, bestSplit, nil
}
