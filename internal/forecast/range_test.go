package forecast_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"kettlefrost/internal/forecast"
)

// Nine errors promise 4 of 5 cases, from the lowest to the highest: (9-1)/(9+1). Thirteen weeks are nine measured.
func TestRangeByRanks(t *testing.T) {
	f := forecastOf(t, []float64{10, 10, 10, 10, 14, 9, 12, 8, 11, 10, 13, 7, 10}, forecast.Options{})
	low, high := math.Inf(1), math.Inf(-1)
	for i, s := range f.Said {
		e := []float64{14, 9, 12, 8, 11, 10, 13, 7, 10}[i] - s
		low, high = min(low, e), max(high, e)
	}
	if r := f.Range; r.Errors != 9 || math.Abs(r.Cover-0.8) > 1e-12 || r.Low != f.Total+low || r.High != f.Total+high {
		t.Errorf("%+v around %g", r, f.Total)
	}
}

// Nineteen errors promise 4 of 5 cases without the lowest and the highest: (18-2)/20.
func TestRangeLeavesOutTheEnds(t *testing.T) {
	counts := repeat(23, 10)
	counts[8], counts[15] = 90, 0 // the next weeks are far off too, if the last count is taken, but not as the mean is
	f := forecastOf(t, counts, forecast.Options{})
	var errs []float64
	for i, s := range f.Said {
		errs = append(errs, counts[f.From+i]-s)
	}
	slices.Sort(errs)
	if r := f.Range; r.Errors != 19 || math.Abs(r.Cover-0.8) > 1e-12 || r.Low != f.Total+errs[1] || r.High != f.Total+errs[17] {
		t.Errorf("%+v around %g, of %v", r, f.Total, errs)
	}
}

func TestSettingsAreTold(t *testing.T) {
	f := forecastOf(t, repeat(5, 2, 3, 5, 8, 20, 30, 0), forecast.Options{Season: 7})
	for m, want := range map[forecast.Method]string{forecast.Naive: "", forecast.Mean: "", forecast.SeasonalNaive: "season 7"} {
		if got := trial(t, f, m).Setting.String(); got != want {
			t.Errorf("%s: %q, want %q", m, got, want)
		}
	}
	same := forecastOf(t, repeat(30, 5), forecast.Options{}) // every setting is as good: the first is told
	for m, want := range map[forecast.Method]string{forecast.MovingAverage: "of 2", forecast.Smoothing: "alpha 0.05", forecast.Croston: "alpha 0.05", forecast.Holt: "alpha 0.10, beta 0.10"} {
		if got := trial(t, same, m).Setting.String(); got != want {
			t.Errorf("%s: %q, want %q", m, got, want)
		}
	}
}

// The range holds as often as it promises, or more often, where the future is like the past: independent counts, in 400 histories. Totals
// that overlap promise less than as many that do not.
func TestRangeHoldsAsOftenAsPromised(t *testing.T) {
	for _, c := range []struct{ periods, ahead, apart int }{{60, 1, 56}, {60, 3, 18}, {10, 2, 3}, {16, 4, 3}, {26, 8, 2}, {52, 8, 6}} {
		r := rand.New(rand.NewPCG(7, uint64(100*c.periods+c.ahead)))
		draw := func() float64 { return float64(r.IntN(10) + r.IntN(10) + r.IntN(20)) }
		held, promised := 0.0, 0.0
		for range 400 {
			counts := make([]float64, c.periods)
			for i := range counts {
				counts[i] = draw()
			}
			f := forecastOf(t, counts, forecast.Options{Ahead: c.ahead})
			sum := 0.0
			for range c.ahead {
				sum += draw()
			}
			if f.Range.Low <= sum && sum <= f.Range.High {
				held++
			}
			promised += f.Range.Cover
			if f.Range.Apart != c.apart {
				t.Fatalf("%+v: %d apart", c, f.Range.Apart)
			}
		}
		if held < promised-400*0.06 || c.ahead == 1 && held > promised+400*0.06 { // three standard errors of 400 at 0.8
			t.Errorf("%+v: %g of 400 held, %.0f were promised", c, held, promised)
		}
	}
}

// Twenty-eight months asked for half a year: nineteen errors, of which four share no month and promise 3 of 5 cases at most; and it is said.
func TestOverlappingTotalsPromiseLess(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 2))
	counts := make([]float64, 28)
	for i := range counts {
		counts[i] = float64(r.IntN(40))
	}
	f := forecastOf(t, counts, forecast.Options{Ahead: 6})
	if f.Range.Errors != 19 || f.Range.Apart != 4 || math.Abs(f.Range.Cover-0.6) > 1e-12 {
		t.Errorf("%+v", f.Range)
	}
	if !slices.ContainsFunc(f.Doubts, func(d forecast.Doubt) bool { return d.Why == forecast.NarrowRange && d.Have == f.Range.Cover }) {
		t.Errorf("%v", f.Doubts)
	}
}
