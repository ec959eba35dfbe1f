// Package forecast says what will probably be sold next, and what to make for it. It takes counts of one product, period by period,
// tries a few simple methods on the past, and uses the one that would have erred least.
//
// The methods are in the order of their simplicity: the last count, the mean of all, a moving average, the same period a season ago,
// exponential smoothing (Brown), Croston's method for what sells seldom, the same with the correction of Syntetos and Boylan, and
// smoothing with a trend (Holt). Every one is tried from rolling origins: each past period is forecast from nothing but what came
// before it, settings such as a smoothing factor included. All methods are measured on the same periods.
//
// The error that decides is the root mean square. The mean absolute error is told too, but does not decide: where a product is sold in
// fewer than half of all periods it is least for a forecast of nothing. Of methods within Tie of the least error the simplest is taken.
//
// Counts are what was wanted. Where a product was sold out, less was sold than was wanted, and a forecast from that is too low.
package forecast

// Tie is how much more than the least error a simpler method may have and still be taken: 1 %.
const Tie = 1.01

// FewOrigins is the number of past periods measured below which a choice between methods is hardly more than chance (common practice).
const FewOrigins = 12

// learning is the number of periods that every method may look at before it is measured.
const learning = 4

// Options says what is asked. The zero value asks for one period, with a range for four cases out of five.
type Options struct {
	Ahead  int     // how many of the next periods to add up, at most 1000; 0: 1
	Season int     // periods after which a pattern comes again, such as 7 days or 52 weeks; 0: none; at most 1000. It is tried after two seasons
	Cover  float64 // how often the range should hold, above 0 and below 1; 0: 0.8
}

// Forecast is what will probably be sold.
type Forecast struct {
	Trial          // the method that was taken
	Total  float64 // of the periods asked for
	Range  Range   // of the total
	Past   int     // periods of history
	Tried  []Trial // every method, the simplest first
	Doubts []Doubt
}

// Trial is one method, what it says and how it would have done.
type Trial struct {
	Method  Method
	Setting Setting   // that did best on the whole past
	Next    []float64 // for each of the next periods; nothing below 0
	From    int       // the first period measured, counted from 0
	Said    []float64 // what it would have said for each period from From on, one period before
	Error   Measure
}

// Measure is how far forecasts of one period were off, in counts.
type Measure struct {
	Origins int     // how many periods were forecast; 0: nothing was measured
	RMSE    float64 // root mean square, which decides
	MAE     float64 // mean, without the sign
	MASE    float64 // MAE over the mean change from one period to the next (Hyndman and Koehler, 2006); 0 if there was no change
	Bias    float64 // mean of forecast less count: above 0 it says too much
}

// Range is where the total will be in Cover of all cases, if the future errs like the past.
type Range struct {
	Low, High float64
	Cover     float64 // what the errors at hand can promise; below what was asked for if they are few
	Errors    int     // errors it is read from: totals of as many periods as were asked for
	Apart     int     // how many of those share no period with each other
}

// Make forecasts the periods after these counts, the oldest first. Errors are *InputError.
func Make(counts []float64, opt Options) (Forecast, error) {
	opt, err := opt.filled()
	if err != nil {
		return Forecast{}, err
	}
	if err := check(counts); err != nil {
		return Forecast{}, err
	}
	f := Forecast{Past: len(counts)}
	from := learning
	seasonal := opt.Season > 1 && len(counts) >= 2*opt.Season
	if seasonal {
		from = max(from, opt.Season)
	}
	var totals [][]float64 // of every method, the errors of its totals
	for m := Naive; m <= Holt; m++ {
		if m == SeasonalNaive && !seasonal {
			continue
		}
		t, errs := try(m, counts, from, opt)
		f.Tried, totals = append(f.Tried, t), append(totals, errs)
	}
	taken := take(f.Tried)
	f.Trial = f.Tried[taken]
	for _, n := range f.Next {
		f.Total += n
	}
	f.Range = rangeOf(f.Total, totals[taken], opt.Ahead, opt.Cover)
	f.Doubts = f.doubt(counts, opt)
	return f, nil
}
