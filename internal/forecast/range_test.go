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

// The range holds as often as it promises, where the future is like the past: counts that are independent, 300 histories of 60 weeks.
func TestRangeHoldsAsOftenAsPromised(t *testing.T) {
	for _, ahead := range []int{1, 3} {
		r := rand.New(rand.NewPCG(7, uint64(ahead)))
		draw := func() float64 { return float64(r.IntN(10) + r.IntN(10) + r.IntN(20)) }
		held, promised := 0.0, 0.0
		for range 300 {
			counts := make([]float64, 60)
			for i := range counts {
				counts[i] = draw()
			}
			f := forecastOf(t, counts, forecast.Options{Ahead: ahead})
			sum := 0.0
			for range ahead {
				sum += draw()
			}
			if f.Range.Low <= sum && sum <= f.Range.High {
				held++
			}
			promised += f.Range.Cover
		}
		if math.Abs(held-promised)/300 > 0.07 { // three standard errors of 300 at 0.8; choosing among methods costs a little
			t.Errorf("%d ahead: %g of 300 held, %.0f were promised", ahead, held, promised)
		}
	}
}
