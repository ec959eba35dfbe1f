package forecast_test

import (
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"kettlefrost/internal/forecast"
	"pgregory.net/rapid"
)

// What is always sold alike is forecast as that, without an error, by every method but the one that is meant to say less.
func TestAlwaysTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := float64(rapid.IntRange(0, 100_000).Draw(t, "count")) / 8
		n := rapid.IntRange(5, 40).Draw(t, "periods")
		opt := forecast.Options{Ahead: rapid.IntRange(1, 6).Draw(t, "ahead"), Season: rapid.IntRange(0, 8).Draw(t, "season")}
		f := forecastOf(t, repeat(n, c), opt)
		if want := float64(opt.Ahead) * c; f.Method != forecast.Naive || f.Total != want || f.Range.Low != want || f.Range.High != want {
			t.Fatalf("%d times %g: %+v", n, c, f)
		}
		for _, tr := range f.Tried {
			if none := tr.Error == (forecast.Measure{Origins: n - tr.From}); !none && tr.Method != forecast.SBA {
				t.Fatalf("%d times %g: %s errs by %+v", n, c, tr.Method, tr.Error)
			}
		}
	})
}

// The last count is always tried, and nothing that would have erred more is taken; of any counts that can be given, none at all and the
// highest among them, no figure is beyond all numbers, and the same question has the same answer.
func TestNoFigureIsBeyondNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		count := rapid.OneOf(rapid.Just(0.0), rapid.Just(1e12), rapid.Float64Range(0, 1e12), rapid.Float64Range(0, 1e-300), rapid.Float64Range(0, 50))
		counts := rapid.SliceOfN(count, 1, 60).Draw(t, "counts")
		opt := forecast.Options{Ahead: rapid.IntRange(0, 1000).Draw(t, "ahead"), Season: rapid.IntRange(0, 20).Draw(t, "season"), Cover: rapid.Float64Range(0, 0.999).Draw(t, "cover")}
		f := forecastOf(t, counts, opt)
		if naive := f.Tried[0]; naive.Method != forecast.Naive || f.Error.Origins > 0 && f.Error.RMSE > naive.Error.RMSE {
			t.Fatalf("%s is taken with %g, the last count has %g", f.Method, f.Error.RMSE, naive.Error.RMSE)
		}
		finite(t, "forecast", reflect.ValueOf(f))
		if again := forecastOf(t, counts, opt); !reflect.DeepEqual(f, again) {
			t.Fatal("asked again, another answer")
		}
	})
}

// finite looks into every number of a value.
func finite(t *rapid.T, where string, v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		if x := v.Float(); math.IsNaN(x) || math.IsInf(x, 0) {
			t.Fatalf("%s is %g", where, x)
		}
	case reflect.Slice:
		for i := range v.Len() {
			finite(t, where, v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			finite(t, where+"."+v.Type().Field(i).Name, v.Field(i))
		}
	}
}

// What is made covers the need, by less than a batch too much, and nothing is made where there is enough.
func TestToMakeCoversWithoutABatchTooMany(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		packs := func(what string) int64 {
			return rapid.OneOf(rapid.Int64Range(0, 50), rapid.Int64Range(0, 1e12)).Draw(t, what)
		}
		s := forecast.Stock{Demand: float64(packs("halves")) / 2, Open: packs("open"), Keep: packs("keep"), OnHand: packs("there"), Planned: packs("planned"), Batch: max(1, packs("batch"))}
		n, err := forecast.ToMake(s)
		if err != nil {
			t.Fatal(err)
		}
		ends := s.OnHand + s.Planned + n.Make - s.Open - s.Keep - n.Demand // what there will be beyond all that is wanted
		if n.Make < 0 || n.Make != n.Batches*s.Batch || ends < 0 || ends != n.Over || n.Make > 0 && n.Over >= s.Batch {
			t.Fatalf("%+v: %+v", s, n)
		}
	})
}

// A hundred products over three years of weeks.
func BenchmarkHundredProducts(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 1))
	products := make([][]float64, 100)
	for p := range products {
		for range 156 {
			products[p] = append(products[p], float64(max(0, r.IntN(60+p)-p)))
		}
	}
	b.ReportAllocs()
	for b.Loop() {
		for _, counts := range products {
			forecastOf(b, counts, forecast.Options{Ahead: 3, Season: 52})
		}
	}
}
