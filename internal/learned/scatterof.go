package learned

import (
	"fmt"
	"math"

	"kettlefrost/internal/learning"
)

// fillScatter learns how packs scatter within a filling.
func (f *Figure) fillScatter() error {
	var runs []learning.Weighed
	for _, x := range f.Seen {
		runs = append(runs, learning.Weighed{ID: x.Run, Count: x.Count, SD: x.Value, LeftOut: x.LeftOut})
	}
	return f.scatterOf(f.Scatter.Worth, runs)
}

// runScatter learns how pots scatter from run to run, about their own mean: what they have in common is for the figures of the steps.
func (f *Figure) runScatter() error {
	var values []float64
	for _, x := range f.Seen {
		if x.LeftOut == "" {
			values = append(values, x.Value)
		}
	}
	if len(values) < 2 {
		f.Scatter.Before, f.Scatter.After = f.Value, f.Value
		return nil
	}
	mean, squares := 0.0, 0.0
	for _, x := range values {
		mean += x / float64(len(values))
	}
	for _, x := range values {
		squares += (x - mean) * (x - mean)
	}
	if err := f.scatterOf(writtenWorth, []learning.Weighed{{ID: "runs", Count: len(values), SD: math.Sqrt(squares / float64(len(values)-1))}}); err != nil {
		return err
	}
	return f.askOfPots(mean, squares, float64(len(values)))
}

// askOfPots asks about pots that lie far from the others.
func (f *Figure) askOfPots(mean, squares, n float64) error {
	var runs []learning.Run
	for _, x := range f.Seen {
		runs = append(runs, learning.Run{ID: x.Run, Value: x.Value, LeftOut: x.LeftOut})
	}
	p, err := learning.Update(learning.Prior{}, runs, options(learning.Plain))
	if err != nil {
		return fmt.Errorf("%s: %w", f.Key, err)
	}
	for _, q := range p.Asked {
		if off := q.Run.Value - mean; math.Abs(off) > nearEnough {
			rest := max(0, squares-off*off*n/(n-1)) // the others', about their own mean
			f.ask(q.Run.ID, q.Why.String(), math.Sqrt((writtenWorth*f.Value*f.Value+rest)/(writtenWorth+n-2)))
		}
	}
	return nil
}

func (f *Figure) scatterOf(worth float64, runs []learning.Weighed) error {
	var err error
	if f.Scatter, err = learning.UpdateSpread(f.Value, worth, runs, options(learning.Plain)); err != nil {
		return fmt.Errorf("%s: %w", f.Key, err)
	}
	for _, q := range f.Scatter.Asked {
		f.ask(q.Run.ID, "its packs scatter more than those of the other runs", q.AfterWithout)
	}
	f.Rounded = f.Kind.rounded(f.Scatter.After, f.Before)
	return nil
}
