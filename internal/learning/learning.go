// Package learning moves a figure that a book holds, such as a yield, towards what actual runs gave, and says how far and how sure.
//
// The rule: values scatter normally about a mean that nobody knows, with a spread that nobody knows; the book is worth a stated number of
// runs. Mean and spread then follow together (normal and inverse gamma, conjugate: Gelman and others, Bayesian Data Analysis, 3.3). The
// figure proposed is the book's and the runs', each with its weight in runs:
//
//	after = (worth × book + runs × their mean) / (worth + runs)
//
// and its spread that of the book, worth its own number of runs, with the runs' about their mean, and what book and runs differ by.
//
// Runs that lie far from the others, or from what the book lets expect, are questioned and kept: whoever made the run knows whether it was
// a spilt pot or the truth. A proposal says what it would be without each. The order of runs makes no difference.
//
// Figures are plain numbers in the caller's unit.
package learning

import (
	"fmt"
	"math"
)

// Scale says how a figure scatters.
type Scale int

const (
	Plain Scale = iota // by about as much, whatever its size: a share, a mass
	Ratio              // in proportion to itself: a time, a rate; means and spreads are those of the logarithms, the mean the geometric one
)

// Prior is what the book says.
type Prior struct {
	Value float64
	Runs  float64 // how many runs the value is worth; 0: nothing, and the runs alone speak
	// SD is how far single runs lie from the value, in its unit, or on a ratio scale as a share of it (0.1: a tenth). SDRuns is how many runs
	// that is worth; 0 if the book says nothing of the spread.
	SD, SDRuns float64
}

// Run is what one run gave.
type Run struct {
	ID    string
	Value float64
	// LeftOut is why somebody has left the run out. It is listed and not counted.
	LeftOut string
}

// Options says what is asked. The zero value asks for 90 % intervals, questions at 5 %, and proposes any change.
type Options struct {
	Scale    Scale
	Cover    float64 // of intervals; 0: 0.9
	Doubtful float64 // how seldom a run is questioned wrongly, for each test; 0: 0.05
	Least    float64 // a change smaller than this share of the book's value is not worth making
}

// Ending is how learning ends.
type Ending int

const (
	Proposed Ending = iota + 1
	TooSmall        // the change is smaller than Options.Least
	TooFew          // there are no runs, or nothing that scatters: there is no interval to tell
)

var endingNames = [...]string{Proposed: "proposed", TooSmall: "too small a change", TooFew: "too few runs"}

// String is the ending in words.
func (e Ending) String() string {
	if e < Proposed || e > TooFew {
		return fmt.Sprintf("ending(%d)", int(e))
	}
	return endingNames[e]
}

// Interval holds a value with the chance asked for.
type Interval struct{ Low, High float64 }

// Proposal is what a figure should be, and what that rests on. Nothing is changed by it.
type Proposal struct {
	Ending   Ending
	Before   float64
	After    float64
	Runs     int      // that were counted
	Worth    float64  // of the book, in runs
	Weight   float64  // of the runs in After: runs / (worth + runs)
	MeanRuns float64  // of the runs alone (geometric on a ratio scale); Before if there are none
	True     Interval // where the figure truly is
	Next     Interval // where the next run will be
	SDBefore float64  // of single runs, as in Prior.SD; 0: not known
	SDAfter  float64
	Cover    float64 // of the intervals
	Asked    []Question
	LeftOut  []Run
}

// String is what was learned, in the caller's unit: "0.8 to 0.835 (0.806 to 0.864, 90 %): 4 runs of 0.87, which weigh 50 % against a book worth 4".
func (p Proposal) String() string {
	if p.Runs == 0 {
		return fmt.Sprintf("%.4g stays: no runs", p.Before)
	}
	learned := fmt.Sprintf("%.4g to %.4g", p.Before, p.After)
	if p.Ending != TooFew {
		learned += fmt.Sprintf(" (%.3g to %.3g, %.0f %%)", p.True.Low, p.True.High, 100*p.Cover)
	}
	runs, weigh := "runs", "weigh"
	if p.Runs == 1 {
		runs, weigh = "run", "weighs"
	}
	s := fmt.Sprintf("%s: %d %s of %.4g, which %s %.0f %% against a book worth %.3g", learned, p.Runs, runs, p.MeanRuns, weigh, 100*p.Weight, p.Worth)
	if p.Ending != Proposed {
		s += "; " + p.Ending.String()
	}
	return s
}

// InputError says which input makes no sense, and what would do.
type InputError struct {
	Field, Reason, Fix string
}

// Error is one line.
func (e *InputError) Error() string {
	return fmt.Sprintf("learning: %s %s; %s", e.Field, e.Reason, e.Fix)
}

// Update learns a figure from runs. Errors are *InputError.
func Update(prior Prior, runs []Run, opt Options) (Proposal, error) {
	opt = opt.filled()
	if err := check(prior, runs, opt); err != nil {
		return Proposal{}, err
	}
	b := prior.on(opt.Scale)
	p := Proposal{Before: prior.Value, Worth: prior.Runs, Cover: opt.Cover, SDBefore: b.sd()}
	var counted []Run
	for _, r := range runs {
		if r.LeftOut != "" {
			p.LeftOut = append(p.LeftOut, r)
		} else {
			counted = append(counted, r)
		}
	}
	values := valuesOn(counted, opt.Scale)
	after := b.with(values)
	p.tell(after, values, opt)
	p.Asked = questions(b, counted, opt)
	return p, nil
}

func (p *Proposal) tell(after belief, values []float64, opt Options) {
	p.Runs = len(values)
	p.After, p.SDAfter = opt.Scale.back(after.mean), after.sd()
	p.MeanRuns = p.Before
	if p.Runs > 0 {
		mean, _ := meanOf(values)
		p.MeanRuns = opt.Scale.back(mean)
		p.Weight = float64(p.Runs) / (p.Worth + float64(p.Runs))
	}
	p.True, p.Next = Interval{p.After, p.After}, Interval{p.After, p.After}
	switch {
	case p.Runs == 0 || after.sd() == 0:
		p.Ending = TooFew
		return
	case math.Abs(p.After-p.Before) < opt.Least*math.Abs(p.Before):
		p.Ending = TooSmall
	default:
		p.Ending = Proposed
	}
	within := after.quantile((1 + opt.Cover) / 2)
	reach := within * after.sd() / math.Sqrt(after.worth)
	p.True = Interval{opt.Scale.back(after.mean - reach), opt.Scale.back(after.mean + reach)}
	reach = within * after.sd() * math.Sqrt(1+1/after.worth)
	p.Next = Interval{opt.Scale.back(after.mean - reach), opt.Scale.back(after.mean + reach)}
}
