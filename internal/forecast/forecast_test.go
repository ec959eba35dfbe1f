package forecast_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/forecast"
	"pgregory.net/rapid"
)

func forecastOf(t interface{ Fatal(...any) }, counts []float64, opt forecast.Options) forecast.Forecast {
	f, err := forecast.Make(counts, opt)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func trial(t *testing.T, f forecast.Forecast, m forecast.Method) forecast.Trial {
	t.Helper()
	i := slices.IndexFunc(f.Tried, func(t forecast.Trial) bool { return t.Method == m })
	if i < 0 {
		t.Fatalf("%s was not tried", m)
	}
	return f.Tried[i]
}

// Eight weeks by hand; weeks 5 to 8 are measured. The last count says 12, 20, 10, 16 for 20, 10, 16, 14: off by -8, 10, -6, 2, so
// MAE 26/4 = 6.5, RMSE sqrt(204/4) = 7.141, bias -2/4. The changes 2, 6, 2, 8, 10, 6, 2 have a mean of 36/7. The mean of all says 11,
// 12.8, 12.333, 12.857: off by -9, 2.8, -3.667, -1.143.
func TestMeasuresByHand(t *testing.T) {
	f := forecastOf(t, []float64{10, 8, 14, 12, 20, 10, 16, 14}, forecast.Options{})
	naive, mean := trial(t, f, forecast.Naive), trial(t, f, forecast.Mean)
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"RMSE", naive.Error.RMSE, math.Sqrt(51)}, {"MAE", naive.Error.MAE, 6.5}, {"bias", naive.Error.Bias, -0.5}, {"MASE", naive.Error.MASE, 6.5 * 7 / 36},
		{"bias of the mean", mean.Error.Bias, (-9 + 2.8 - 11./3 - 8./7) / 4}, {"next by the mean", mean.Next[0], 13}, {"next by the last", naive.Next[0], 14},
	} {
		if math.Abs(c.got-c.want) > 1e-12 {
			t.Errorf("%s: got %g, want %g", c.what, c.got, c.want)
		}
	}
	if naive.Error.Origins != 4 || naive.From != 4 || !slices.Equal(naive.Said, []float64{12, 20, 10, 16}) {
		t.Errorf("%+v", naive)
	}
}

func repeat(n int, pattern ...float64) []float64 { return slices.Repeat(pattern, n) }

// What a series plainly is, is what is taken.
func TestTheFittingMethodIsTaken(t *testing.T) {
	line := make([]float64, 30)
	for i := range line {
		line[i] = 5 + 3*float64(i)
	}
	step := slices.Concat(repeat(20, 10), repeat(20, 50))
	for _, c := range []struct {
		name   string
		counts []float64
		opt    forecast.Options
		method forecast.Method
		total  float64
	}{
		{"always the same: the simplest", repeat(20, 12), forecast.Options{Ahead: 3}, forecast.Naive, 36},
		{"a step: the last count", step, forecast.Options{}, forecast.Naive, 50},
		{"up by 3 each week", line, forecast.Options{Ahead: 2}, forecast.Holt, 95 + 98},
		{"a week's pattern by days", repeat(6, 2, 3, 5, 8, 20, 30, 0), forecast.Options{Ahead: 3, Season: 7}, forecast.SeasonalNaive, 10},
		{"high and low by turns: the mean of an even number", repeat(20, 10, 20), forecast.Options{}, forecast.MovingAverage, 15},
	} {
		f := forecastOf(t, c.counts, c.opt)
		if f.Method != c.method || math.Abs(f.Total-c.total) > 1e-6 {
			t.Errorf("%s: %s (%s) says %g, want %s and %g", c.name, f.Method, f.Setting, f.Total, c.method, c.total)
		}
	}
}

// A product that is sold in one week of four must not be forecast at nothing, which has the least mean absolute error.
func TestWhatSellsSeldomIsNotNothing(t *testing.T) {
	r := rand.New(rand.NewPCG(4, 4))
	counts := make([]float64, 200)
	sum := 0.0
	for i := range counts {
		if r.IntN(4) == 0 {
			counts[i] = float64(4 + r.IntN(8))
		}
		sum += counts[i] / 200
	}
	if f := forecastOf(t, counts, forecast.Options{}); math.Abs(f.Total-sum) > 0.35*sum {
		t.Errorf("%s says %g a week, and it was %g", f.Method, f.Total, sum)
	}
}

func TestDoubts(t *testing.T) {
	faster, walk, r := make([]float64, 30), []float64{2000}, rand.New(rand.NewPCG(5, 5))
	for i := range faster {
		faster[i] = float64(i * i)
	}
	for i := range 300 {
		walk = append(walk, walk[i]+float64(10*r.IntN(2)-5))
	}
	for _, c := range []struct {
		name   string
		counts []float64
		opt    forecast.Options
		want   []forecast.Why
	}{
		{"one week", []float64{7}, forecast.Options{}, []forecast.Why{forecast.FewPeriods, forecast.NarrowRange}},
		{"nothing sold", repeat(30, 0), forecast.Options{}, []forecast.Why{forecast.NothingSold}},
		{"thirty weeks of two seasons of 52", repeat(30, 5), forecast.Options{Season: 52}, []forecast.Why{forecast.SeasonUnseen}},
		{"twelve weeks: eight measured, eight errors promise 7 of 9 cases", repeat(6, 5, 7), forecast.Options{}, []forecast.Why{forecast.FewPeriods, forecast.NarrowRange}},
		{"ever faster: every method is behind", faster, forecast.Options{}, []forecast.Why{forecast.Biased}},
		{"up or down by 5 at random: all changes are 5 and so are the errors", walk, forecast.Options{}, []forecast.Why{forecast.NoBetter}},
	} {
		f := forecastOf(t, c.counts, c.opt)
		var got []forecast.Why
		for _, d := range f.Doubts {
			got = append(got, d.Why)
			if strings.Contains(d.String(), "%!") {
				t.Errorf("%s: %s", c.name, d)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %v", c.name, f.Doubts)
		}
	}
	f := forecastOf(t, faster, forecast.Options{})
	squares := 0.0 // about the bias
	for i, s := range f.Said {
		e := s - faster[f.From+i] - f.Error.Bias
		squares += e * e
	}
	n := float64(len(f.Said))
	if d := f.Doubts[0]; d.Have != f.Error.Bias || math.Abs(d.Limit-2*math.Sqrt(squares/(n-1)/n)) > 1e-9 {
		t.Errorf("%+v, with squares of %g over %g periods", d, squares, n)
	}
	if f := forecastOf(t, []float64{4, 8}, forecast.Options{}); f.Method != forecast.Mean || f.Total != 6 || f.Range.Errors != 0 {
		t.Errorf("two weeks, nothing measured: %+v", f)
	}
}

// Nothing peeks: what a method is said to have said for a period is what it says when the past ends there. And a forecast in other
// units is the same forecast.
func TestNoMethodSeesTheFuture(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var counts, fourfold []float64
		for _, n := range rapid.SliceOfN(rapid.IntRange(0, 30), 1, 30).Draw(t, "counts") {
			counts, fourfold = append(counts, float64(n)), append(fourfold, 4*float64(n))
		}
		opt := forecast.Options{Season: rapid.IntRange(0, 7).Draw(t, "season"), Ahead: rapid.IntRange(1, 4).Draw(t, "ahead")}
		f := forecastOf(t, counts, opt)
		for i := range f.Said {
			then := forecastOf(t, counts[:f.From+i], opt)
			for _, now := range f.Tried {
				for _, was := range then.Tried {
					if was.Method == now.Method && was.Next[0] != now.Said[i] {
						t.Fatalf("%s: said %g for period %d, and then %g", now.Method, now.Said[i], f.From+i, was.Next[0])
					}
				}
			}
		}
		least := math.Inf(1)
		for _, tr := range f.Tried {
			least = min(least, tr.Error.RMSE)
		}
		simplest := slices.IndexFunc(f.Tried, func(tr forecast.Trial) bool { return tr.Error.RMSE <= forecast.Tie*least })
		if measured := len(f.Said) > 0; measured && f.Method != f.Tried[simplest].Method || !measured && f.Method != forecast.Mean {
			t.Fatalf("%s is taken of %+v", f.Method, f.Tried)
		}
		if f.Range.Low < 0 || f.Range.High < f.Range.Low || len(f.Next) != opt.Ahead {
			t.Fatalf("%+v", f)
		}
		g := forecastOf(t, fourfold, opt)
		if g.Method != f.Method || g.Total != 4*f.Total || g.Range.High != 4*f.Range.High || g.Error.MASE != f.Error.MASE {
			t.Fatalf("four times the counts: %+v, not %+v", g.Trial, f.Trial)
		}
	})
}

func TestToMake(t *testing.T) {
	tenth := 0.1
	for _, c := range []struct {
		name string
		s    forecast.Stock
		want forecast.Next
	}{
		{"42 sold, 10 ordered, 12 to stay, 20 there, 8 planned: 36, three batches of 16", forecast.Stock{Demand: 41.2, Open: 10, Keep: 12, OnHand: 20, Planned: 8, Batch: 16},
			forecast.Next{Demand: 42, Need: 36, Make: 48, Batches: 3, Over: 12}},
		{"just a batch", forecast.Stock{Demand: 16, Batch: 16}, forecast.Next{Demand: 16, Need: 16, Make: 16, Batches: 1}},
		{"one pack more", forecast.Stock{Demand: 16.01, Batch: 16}, forecast.Next{Demand: 17, Need: 17, Make: 32, Batches: 2, Over: 15}},
		{"singly", forecast.Stock{Demand: (tenth + tenth + tenth) * 10}, forecast.Next{Demand: 3, Need: 3, Make: 3, Batches: 3}}, // 0.1 three times is over 0.3 in floating point
		{"more than enough", forecast.Stock{Demand: 5, OnHand: 9, Batch: 4}, forecast.Next{Demand: 5, Need: -4, Over: 4}},
	} {
		if got, err := forecast.ToMake(c.s); err != nil || got != c.want {
			t.Errorf("%s: %+v, %v", c.name, got, err)
		}
	}
}

func TestWhatMakesNoSense(t *testing.T) {
	make := func(counts []float64, opt forecast.Options) error { _, err := forecast.Make(counts, opt); return err }
	toMake := func(s forecast.Stock) error { _, err := forecast.ToMake(s); return err }
	for _, c := range []struct {
		says string
		err  error
	}{
		{"history", make(nil, forecast.Options{})},
		{"period 2", make([]float64{1, -1}, forecast.Options{})},
		{"period 1", make([]float64{math.NaN()}, forecast.Options{})},
		{"ahead", make([]float64{1}, forecast.Options{Ahead: -1})},
		{"season", make([]float64{1}, forecast.Options{Season: -7})},
		{"season", make([]float64{1}, forecast.Options{Season: math.MaxInt})},
		{"cover", make([]float64{1}, forecast.Options{Cover: 1})},
		{"open orders", toMake(forecast.Stock{Open: -1})},
		{"batch", toMake(forecast.Stock{Batch: -1})},
		{"demand", toMake(forecast.Stock{Demand: math.Inf(1)})},
	} {
		var input *forecast.InputError
		if !errors.As(c.err, &input) || input.Where != c.says || input.Fix == "" || !strings.Contains(c.err.Error(), c.says) {
			t.Errorf("%s: %v", c.says, c.err)
		}
	}
}
