package forecast

import (
	"fmt"
	"math"
)

// Doubt is a reason not to lean on a forecast, with the figures that were compared.
type Doubt struct {
	Why   Why
	Have  float64
	Limit float64
}

// Why is the kind of a doubt.
type Why int

const (
	FewPeriods   Why = iota + 1 // fewer periods were measured than a choice of method needs
	NarrowRange                 // there are too few errors to promise the cover that was asked for
	NoBetter                    // MAE is no better than the mean change of the past: the last count would do as well
	Biased                      // the bias is more than two of its standard errors: it says too much or too little all the time
	NothingSold                 // all counts are 0
	SeasonUnseen                // a season was named, and the past is shorter than two
)

var whyTexts = [...]string{
	FewPeriods:   "measured on %g past periods, fewer than %g: the choice of method is hardly more than chance",
	NarrowRange:  "the range can promise %.2g of all cases, not %.2g: there are too few past errors",
	NoBetter:     "MASE %.2f is no lower than %.0f: the last count would do as well",
	Biased:       "bias %.2g, more than %.2g, which is two standard errors: it is off to one side all the time",
	NothingSold:  "%g was sold in all %g periods",
	SeasonUnseen: "%g periods of history, fewer than %g, which are two seasons: the season is left out",
}

// String is the doubt with its figures.
func (d Doubt) String() string {
	if d.Why < FewPeriods || d.Why > SeasonUnseen {
		return fmt.Sprintf("doubt(%d)", int(d.Why))
	}
	return fmt.Sprintf(whyTexts[d.Why], d.Have, d.Limit)
}

func (f Forecast) doubt(counts []float64, opt Options) []Doubt {
	var all []Doubt
	add := func(is bool, d Doubt) {
		if is {
			all = append(all, d)
		}
	}
	e, n := f.Error, float64(f.Error.Origins)
	add(e.Origins < FewOrigins, Doubt{FewPeriods, n, FewOrigins})
	add(f.Range.Cover < opt.Cover-1e-9, Doubt{NarrowRange, f.Range.Cover, opt.Cover})
	add(e.MASE >= 1, Doubt{NoBetter, e.MASE, 1})
	if n > 1 {
		twoErrors := 2 * math.Sqrt(max(0, e.RMSE*e.RMSE-e.Bias*e.Bias)/(n-1))
		add(math.Abs(e.Bias) > twoErrors+1e-9*e.MAE, Doubt{Biased, e.Bias, twoErrors})
	}
	sold := 0.0
	for _, y := range counts {
		sold += y
	}
	add(sold == 0, Doubt{NothingSold, 0, float64(f.Past)})
	add(opt.Season > 1 && f.Past < 2*opt.Season, Doubt{SeasonUnseen, float64(f.Past), float64(2 * opt.Season)})
	return all
}
