package scatter

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"kettlefrost/internal/unit"
)

// TestNormal holds the deviates to the standard normal distribution: moments and the shares beyond 1, 1.645 and 2 standard deviations
// (NIST/SEMATECH e-Handbook 1.3.6.7.1, from memory). The sum of twelve uniform deviates has an excess of -0.1 (12/10n, exact).
func TestNormal(t *testing.T) {
	const n = 200_000
	s := New(1, 0)
	var sum, squares, fourths float64
	beyond := map[float64]int{1: 0, 1.6449: 0, 2: 0}
	for range n {
		x := float64(s.deviate()) / one
		sum, squares, fourths = sum+x, squares+x*x, fourths+x*x*x*x
		for limit := range beyond {
			if math.Abs(x) > limit {
				beyond[limit]++
			}
		}
	}
	for _, c := range []struct {
		what            string
		got, want, room float64
	}{
		{"mean", sum / n, 0, 0.01}, {"variance", squares / n, 1, 0.01}, {"fourth moment", fourths / n, 2.9, 0.05},
		{"beyond 1", float64(beyond[1]) / n, 0.3173, 0.006}, {"beyond 1.645", float64(beyond[1.6449]) / n, 0.1000, 0.004}, {"beyond 2", float64(beyond[2]) / n, 0.0455, 0.004},
	} {
		if math.Abs(c.got-c.want) > c.room {
			t.Errorf("%s: got %.4f, want %.4f ± %g", c.what, c.got, c.want, c.room)
		}
	}
}

// TestSameOnEveryMachine: the first draws of a seed, written down. PCG is that of math/rand/v2, whose row is fixed.
func TestSameOnEveryMachine(t *testing.T) {
	s := New(7, 3)
	var got []unit.Mass
	for range 4 {
		got = append(got, s.Factor(3*unit.PerCent).Mass(unit.Kilogram))
	}
	again, other := New(7, 3), New(7, 4)
	if again.Factor(3*unit.PerCent).Mass(unit.Kilogram) != got[0] || other.Factor(3*unit.PerCent).Mass(unit.Kilogram) == got[0] {
		t.Error("a seed and a stream do not give their own row")
	}
	want := []unit.Mass{1027049348102, 975662158639, 1011067977612, 1001547889027}
	if !slices.Equal(got, want) {
		t.Errorf("got %d, want %d", got, want)
	}
}

func TestFactors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := New(rapid.Uint64().Draw(t, "seed"), 0)
		spread := unit.Share(rapid.Int64Range(0, int64(unit.Whole)).Draw(t, "spread"))
		mass := unit.Mass(rapid.Int64Range(0, int64(10_000*unit.Kilogram)).Draw(t, "mass"))
		f := s.Factor(spread)
		if got := f.Mass(mass); got < 0 || math.Abs(float64(got)-f.F()*float64(mass)) > 1+1e-12*float64(mass) {
			t.Fatalf("%v times %v is %v", mass, f.F(), got)
		}
		if spread == 0 && f != Sure {
			t.Fatalf("without spread the factor is %v", f.F())
		}
		if f.F() < 0.01-1e-9 || f.F() > 1+6*spread.F()+1e-9 {
			t.Fatalf("a factor of %v with a spread of %v", f.F(), spread.F())
		}
	})
}

// TestRange: by hand, the nearest ranks of ten numbers and of one.
func TestRange(t *testing.T) {
	for _, c := range []struct {
		draws []int64
		want  Range
	}{
		{nil, Range{}},
		{[]int64{7}, Range{7, 7, 7, 7, 7, 7}},
		{[]int64{10, 9, 8, 7, 6, 5, 4, 3, 2, 1}, Range{1, 5, 9, 1, 10, 5}},
		{[]int64{math.MaxInt64, math.MaxInt64 - 2}, Range{math.MaxInt64 - 2, math.MaxInt64 - 2, math.MaxInt64, math.MaxInt64 - 2, math.MaxInt64, math.MaxInt64 - 1}},
	} {
		if got := RangeOf(c.draws); got != c.want {
			t.Errorf("%v: got %+v, want %+v", c.draws, got, c.want)
		}
	}
}
