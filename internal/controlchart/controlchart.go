// Package controlchart follows a measured value through time: the mean and the spread of small groups (or single values and how far
// each is from the one before), the limits between which chance alone keeps them, and the runs that chance alone seldom makes.
//
// It is Shewhart's method. A Standard is what the process does when it is left alone, a centre and a standard deviation; it is learned
// from groups or stated. A Chart is groups held against a Standard, as plain figures that can be drawn. Values are in whatever unit they
// come in. The limits suppose that single values scatter about normally; for means of four or more that hardly matters.
package controlchart

import (
	"fmt"
	"math"
)

// Kind is a kind of chart.
type Kind int

const (
	MeanRange     Kind = iota + 1 // means of groups, and their ranges
	MeanDeviation                 // means of groups, and their standard deviations
	Individuals                   // single values, and the distance of each to the one before
)

var kindNames = [...]string{MeanRange: "mean and range", MeanDeviation: "mean and standard deviation", Individuals: "individuals and moving range"}

// String is the kind in words.
func (k Kind) String() string {
	if k < MeanRange || k > Individuals {
		return fmt.Sprintf("kind(%d)", int(k))
	}
	return kindNames[k]
}

// Standard is what the process does when nothing but chance is at work.
type Standard struct {
	Kind   Kind
	Size   int     // values in a group; 1 for Individuals
	Centre float64 // mean of single values
	SD     float64 // standard deviation of single values within a group, 0 or more
}

// Chart is groups held against a standard: two series over the same groups.
type Chart struct {
	Standard Standard
	Location Series // means, or single values
	Spread   Series // ranges, standard deviations, or moving ranges: its point i is the distance of value i+1 to value i
}

// Series is the points of one panel of a chart, with its lines.
type Series struct {
	Points               []float64
	Centre, Lower, Upper float64
	SD                   float64 // of one point: a third of the way from the centre to the upper limit
	Signals              []Signal
}

// InputError says which group makes no sense, and what would do. Group is -1 where it is not about one.
type InputError struct {
	Group  int // counted from 0
	Reason string
	Fix    string
}

// Error is one line.
func (e *InputError) Error() string {
	if e.Group < 0 {
		return fmt.Sprintf("controlchart: %s; %s", e.Reason, e.Fix)
	}
	return fmt.Sprintf("controlchart: group %d %s; %s", e.Group+1, e.Reason, e.Fix)
}

func wrongSize(size int) error {
	return &InputError{-1, fmt.Sprintf("groups of %d are not in the table", size), fmt.Sprintf("take 2 to %d in a group, or single values", maxSize)}
}

// Learn estimates the standard from groups of one size, for Individuals from groups of one value (see Singles). The standard deviation
// is the mean range over d2, the mean standard deviation over c4, or the mean moving range over d2 of two. It takes two groups or more;
// twenty to twenty-five are customary before limits are relied on (common practice). Errors are *InputError.
func Learn(kind Kind, groups [][]float64) (Standard, error) {
	if len(groups) < 2 {
		return Standard{}, &InputError{-1, fmt.Sprintf("%d groups say nothing about what is usual", len(groups)), "measure two groups or more"}
	}
	s := Standard{Kind: kind, Size: len(groups[0])}
	if err := s.check(groups); err != nil {
		return Standard{}, err
	}
	location, spread := s.points(groups)
	s.Centre = mean(location)
	per, _ := s.spread()
	s.SD = mean(spread) / per
	return s, nil
}

// Singles makes groups of one value each.
func Singles(values []float64) [][]float64 {
	groups := make([][]float64, len(values))
	for i := range values {
		groups[i] = values[i : i+1 : i+1]
	}
	return groups
}

// Plot holds groups against the standard and looks for signals by the rules: those on the location by rules, on the spread a point
// outside its limits only. The groups may be those that the standard was learned from, or later ones. Errors are *InputError.
func (s Standard) Plot(groups [][]float64, rules []Rule) (Chart, error) {
	if err := s.check(groups); err != nil {
		return Chart{}, err
	}
	c := Chart{Standard: s}
	c.Location.Points, c.Spread.Points = s.points(groups)
	c.Location.limits(s.Centre, s.SD/math.Sqrt(float64(s.Size)))
	per, sd := s.spread()
	c.Spread.limits(s.SD*per, s.SD*sd)
	c.Spread.Lower = max(0, c.Spread.Lower)
	c.Location.Signals = Signals(c.Location.Points, s.Centre, c.Location.SD, rules)
	c.Spread.Signals = Signals(c.Spread.Points, c.Spread.Centre, c.Spread.SD, []Rule{BeyondLimits})
	return c, nil
}

// limits puts the lines of a series three standard deviations of a point from its centre.
func (s *Series) limits(centre, sd float64) {
	s.Centre, s.SD = centre, sd
	s.Lower, s.Upper = centre-3*sd, centre+3*sd
}

// spread is the mean and the standard deviation of a point of the spread, in standard deviations of single values. A moving range is that
// of two.
func (s Standard) spread() (mean, sd float64) {
	f := factors(max(2, s.Size))
	if s.Kind == MeanDeviation {
		return f.C4, f.sdDev
	}
	return f.D2, f.rangeSD
}

func (s Standard) check(groups [][]float64) error {
	switch {
	case s.Kind < MeanRange || s.Kind > Individuals:
		return &InputError{-1, s.Kind.String() + " is no chart", "choose one of the kinds"}
	case s.Kind == Individuals && s.Size != 1:
		return &InputError{-1, "single values come in groups of one", "use Singles"}
	case s.Kind != Individuals && (s.Size < 2 || s.Size > maxSize):
		return wrongSize(s.Size)
	case !(s.SD >= 0) || math.IsInf(s.SD, 0) || math.IsNaN(s.Centre) || math.IsInf(s.Centre, 0):
		return &InputError{-1, "the centre or the standard deviation is no number, or below 0", "give finite ones"}
	}
	for i, g := range groups {
		if len(g) != s.Size {
			return &InputError{i, fmt.Sprintf("has %d values and not %d", len(g), s.Size), "leave it out, or measure as many in every group"}
		}
		for _, x := range g {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				return &InputError{i, "has a value that is no number", "leave the group out"}
			}
		}
	}
	return nil
}
