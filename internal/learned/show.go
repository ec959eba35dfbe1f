package learned

import (
	"math"

	"kettlefrost/internal/learning"
	"kettlefrost/internal/unit"
)

// Cover is the chance with which the truth lies in an interval.
const Cover = 0.9

// scatters says whether the figure is a scatter itself.
func (f Figure) scatters() bool { return f.Kind == Fills || f.Kind == Spread }

// True is where the figure truly is, with the chance that cover says.
func (f Figure) True() (low, high, cover float64) {
	if f.scatters() {
		return f.Scatter.True.Low, f.Scatter.True.High, f.Scatter.Cover
	}
	return f.Proposal.True.Low, f.Proposal.True.High, f.Proposal.Cover
}

// Mean is what would be proposed, before it is rounded.
func (f Figure) Mean() float64 {
	if f.scatters() {
		return f.Scatter.After
	}
	return f.Proposal.After
}

// OfRuns is what the runs alone say.
func (f Figure) OfRuns() float64 {
	if f.scatters() {
		return f.Scatter.SDRuns
	}
	return f.Proposal.MeanRuns
}

// Worth is what the book is worth, in runs, or of fillings in packs weighed.
func (f Figure) Worth() float64 {
	if f.scatters() {
		return f.Scatter.Worth
	}
	return f.Prior.Runs
}

// Weight is the share that the runs have in what is proposed.
func (f Figure) Weight() float64 {
	if f.scatters() {
		return f.Scatter.Weight
	}
	return f.Proposal.Weight
}

// Show is a value of the figure for reading.
func (f Figure) Show(x float64, s unit.System) string { return f.Kind.Show(x, s) }

// Unit is what the values of a kind are counted in.
func (k Kind) Unit() string {
	switch k {
	case Evaporation:
		return "kg/m2h"
	case Residue:
		return "kg"
	case Pace:
		return "s/kg"
	case PackPace, Time:
		return "s"
	case Fills:
		return "g"
	case Pot:
		return "times"
	}
	return "share"
}

// Usual is how far single runs are taken to lie from the book's figure: one standard deviation to either side. Of a spread it is that about
// nothing.
func (f Figure) Usual() (low, high float64) {
	switch {
	case f.Kind == Spread:
		return -f.Value, f.Value
	case f.scatters():
		return f.Value, f.Value
	case f.Scale == learning.Ratio:
		return f.Value * math.Exp(-f.Prior.SD), f.Value * math.Exp(f.Prior.SD)
	}
	return max(0, f.Value-f.Prior.SD), f.Value + f.Prior.SD
}
