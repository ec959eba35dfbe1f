package controlchart

import (
	"math"
	"testing"
)

// TestPrintedFactors: two printed tables that agree (quality textbooks; a third digit of D4 differs by rounding between tables, so 0.002).
func TestPrintedFactors(t *testing.T) {
	for _, c := range []struct {
		n                              int
		a2, d3, d4, d2, c4, a3, b3, b4 float64
	}{
		{2, 1.880, 0, 3.267, 1.128, 0.7979, 2.659, 0, 3.267},
		{3, 1.023, 0, 2.574, 1.693, 0.8862, 1.954, 0, 2.568},
		{4, 0.729, 0, 2.282, 2.059, 0.9213, 1.628, 0, 2.266},
		{5, 0.577, 0, 2.114, 2.326, 0.9400, 1.427, 0, 2.089},
		{6, 0.483, 0, 2.004, 2.534, 0.9515, 1.287, 0.030, 1.970},
		{7, 0.419, 0.076, 1.924, 2.704, 0.9594, 1.182, 0.118, 1.882},
		{8, 0.373, 0.136, 1.864, 2.847, 0.9650, 1.099, 0.185, 1.815},
		{9, 0.337, 0.184, 1.816, 2.970, 0.9693, 1.032, 0.239, 1.761},
		{10, 0.308, 0.223, 1.777, 3.078, 0.9727, 0.975, 0.284, 1.716},
		{25, 0.153, 0.459, 1.541, 3.931, 0.9896, 0.606, 0.565, 1.435}, // last row of the usual table, from memory
	} {
		f, err := FactorsOf(c.n)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range []struct {
			name            string
			got, want, room float64
		}{
			{"A2", f.A2, c.a2, 6e-4}, {"D3", f.D3, c.d3, 2e-3}, {"D4", f.D4, c.d4, 2e-3}, {"d2", f.D2, c.d2, 6e-4},
			{"c4", f.C4, c.c4, 6e-5}, {"A3", f.A3, c.a3, 6e-4}, {"B3", f.B3, c.b3, 6e-4}, {"B4", f.B4, c.b4, 6e-4},
		} {
			if math.Abs(p.got-p.want) > p.room {
				t.Errorf("n = %d: %s is %.4f, printed %.4f", c.n, p.name, p.got, p.want)
			}
		}
	}
	for _, n := range []int{0, 1, 26} {
		if _, err := FactorsOf(n); err == nil {
			t.Errorf("groups of %d: no error", n)
		}
	}
}

// TestRangeByIntegration: with P for the normal distribution function, the mean of the range of n is the integral of 1-P^n-(1-P)^n, and
// its mean square twice the double integral over x < y of 1-P(y)^n-(1-P(x))^n+(P(y)-P(x))^n (L. H. C. Tippett, Biometrika 17, 1925).
func TestRangeByIntegration(t *testing.T) {
	const h, steps = 0.02, 700 // from -7 to 7, trapezoids
	cdf := make([]float64, steps+1)
	for i := range cdf {
		cdf[i] = math.Erfc(-(-7+h*float64(i))/math.Sqrt2) / 2
	}
	for n := 2; n <= maxSize; n++ {
		power := func(p float64) float64 { return math.Pow(p, float64(n)) }
		first, second := 0.0, 0.0
		for i, x := range cdf {
			first += h * (1 - power(x) - power(1-x))
			second += h * h * (1 - power(x) - power(1-x)) / 2 // half of the diagonal cell
			for _, y := range cdf[i+1:] {
				second += h * h * (1 - power(y) - power(1-x) + power(y-x))
			}
		}
		if math.Abs(first-d2[n]) > 6e-6 {
			t.Errorf("d2 of %d: table %.5f, integral %.5f", n, d2[n], first)
		}
		if sd := math.Sqrt(2*second - first*first); math.Abs(sd-d3[n]) > 5e-5 {
			t.Errorf("d3 of %d: table %.5f, integral %.5f", n, d3[n], sd)
		}
	}
}
