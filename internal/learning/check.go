package learning

import (
	"fmt"
	"math"
)

func (o Options) filled() Options {
	if o.Cover == 0 {
		o.Cover = 0.9
	}
	if o.Doubtful == 0 {
		o.Doubtful = 0.05
	}
	return o
}

// most keeps squares of values within what a float64 holds.
const most = 1e100

func check(p Prior, runs []Run, o Options) error {
	switch {
	case o.Scale != Plain && o.Scale != Ratio:
		return &InputError{"the scale", fmt.Sprintf("is %d", int(o.Scale)), "take Plain or Ratio"}
	case !(o.Cover > 0 && o.Cover < 1):
		return &InputError{"the cover", fmt.Sprintf("is %g", o.Cover), "take one between 0 and 1, such as 0.9"}
	case !(o.Doubtful > 0 && o.Doubtful < 0.5):
		return &InputError{"the doubt", fmt.Sprintf("is %g", o.Doubtful), "take one between 0 and 0.5, such as 0.05"}
	case !(o.Least >= 0 && o.Least < most):
		return &InputError{"the least change", fmt.Sprintf("is %g", o.Least), "give a share of 0 or more"}
	case !(p.Runs >= 0 && p.Runs < 1e6):
		return &InputError{"the worth of the book", fmt.Sprintf("is %g runs", p.Runs), "give 0 or more"}
	case !(p.SDRuns >= 0 && p.SDRuns < 1e6):
		return &InputError{"the worth of the book's spread", fmt.Sprintf("is %g runs", p.SDRuns), "give 0 or more"}
	case p.SDRuns > 0 && !(p.SD > 0 && p.SD < most):
		return &InputError{"the book's spread", fmt.Sprintf("is %g", p.SD), "give one above 0, or let it be worth no runs"}
	}
	if err := checkValue("the book's value", p.Value, o.Scale); err != nil {
		return err
	}
	seen := map[string]bool{}
	for i, r := range runs {
		what := fmt.Sprintf("run %d", i+1)
		if r.ID != "" {
			what = "run " + r.ID
		}
		if err := checkValue(what, r.Value, o.Scale); err != nil {
			return err
		}
		if r.ID != "" && seen[r.ID] {
			return &InputError{what, "is there twice", "count it once"}
		}
		seen[r.ID] = true
	}
	return nil
}

func checkValue(what string, x float64, s Scale) error {
	switch {
	case math.IsNaN(x) || math.Abs(x) > most:
		return &InputError{what, fmt.Sprintf("is %g", x), "correct it or leave it out"}
	case s == Ratio && !(x > 1/most):
		return &InputError{what, fmt.Sprintf("is %g, which has no ratio to anything", x), "give a figure above 0, or take the plain scale"}
	}
	return nil
}
