package tastetrial

import (
	"math"
	"testing"
)

func near(t *testing.T, what string, got, want, room float64) {
	t.Helper()
	if !(math.Abs(got-want) <= room) {
		t.Errorf("%s: got %.12g, want %.12g ± %g", what, got, want, room)
	}
}

func must[T any](v T, err error) func(*testing.T) T {
	return func(t *testing.T) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// Student 1908, hours of sleep gained with two drugs (data from memory; results derived in the reference notes).
func TestStudentSleep(t *testing.T) {
	a := []float64{0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2}
	b := []float64{1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4}
	r := must(PairedTest(b, a, 0.95))(t)
	near(t, "mean", r.Estimate, 1.58, 1e-12)
	near(t, "sd", r.SD, 1.229995, 5e-7)
	near(t, "t", r.T, 4.06213, 5e-6)
	near(t, "p", r.P, 0.00283289, 5e-9)
	near(t, "low", r.Interval.Low, 0.700114, 5e-7)
	near(t, "high", r.Interval.High, 2.459886, 5e-7)
}

// Hollander and Wolfe 1973, p. 29, as quoted in the documentation of a general statistics system: depression before and after.
var before, after = []float64{1.83, 0.50, 1.62, 2.48, 1.68, 1.88, 1.55, 3.06, 1.30}, []float64{0.878, 0.647, 0.598, 2.05, 1.06, 1.29, 1.06, 3.14, 1.29}

func TestHollanderWolfeDepression(t *testing.T) {
	r := must(SignedRankTest(before, after, 0.95))(t)
	near(t, "V", r.Plus, 40, 0)
	near(t, "p", r.P, 20.0/512, 1e-15)
	near(t, "Hodges-Lehmann", r.Estimate, 0.46, 0.0005)
	near(t, "low", r.Interval.Low, 0.01, 0.0005)
	near(t, "high", r.Interval.High, 0.786, 0.0005)
	near(t, "attained", r.Interval.Level, 1-20.0/512, 1e-15)
	p := must(PairedTest(before, after, 0.95))(t)
	near(t, "mean", p.Estimate, 0.431889, 5e-7)
	near(t, "t", p.T, 3.03538, 5e-6)
	near(t, "p of t", p.P, 0.0161766, 5e-8)
}

// Critical values of the smaller rank sum, exact and without ties (derived in the reference notes; the printed tables give the same). They
// are met by the cut of the interval too, for it is the same distribution.
func TestWilcoxonCriticalValues(t *testing.T) {
	for i, n := range []int{6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 18, 20, 25} {
		two := []int{0, 2, 3, 5, 8, 10, 13, 17, 21, 25, 29, 40, 52, 89}[i]
		one := []int{2, 3, 5, 8, 10, 13, 17, 21, 25, 30, 35, 47, 60, 100}[i]
		chance := signedSums(whole(n))
		critical := func(alpha float64) int {
			sum := 0.0
			for v, p := range chance {
				if sum += p; sum > alpha {
					return v - 1
				}
			}
			return -1
		}
		if got := critical(0.025); got != two {
			t.Errorf("n = %d, two-sided: %d, want %d", n, got, two)
		}
		if got := critical(0.05); got != one {
			t.Errorf("n = %d, one-sided: %d, want %d", n, got, one)
		}
	}
}

// Hollander and Wolfe 1973, p. 140 (from memory): rounding first base, 22 runners by three ways.
var firstBase = [][]float64{
	{5.40, 5.50, 5.55}, {5.85, 5.70, 5.75}, {5.20, 5.60, 5.50}, {5.55, 5.50, 5.40}, {5.90, 5.85, 5.70}, {5.45, 5.55, 5.60}, {5.40, 5.40, 5.35},
	{5.45, 5.50, 5.35}, {5.25, 5.15, 5.00}, {5.85, 5.80, 5.70}, {5.25, 5.20, 5.10}, {5.65, 5.55, 5.45}, {5.60, 5.35, 5.45}, {5.05, 5.00, 4.95},
	{5.50, 5.50, 5.40}, {5.45, 5.55, 5.50}, {5.55, 5.55, 5.35}, {5.45, 5.50, 5.55}, {5.50, 5.45, 5.25}, {5.65, 5.60, 5.40}, {5.70, 5.65, 5.55},
	{6.30, 6.30, 6.25},
}

func TestHollanderWolfeFirstBase(t *testing.T) {
	f := must(FriedmanTest(firstBase, 1))(t)
	for v, want := range []float64{53, 47, 32} {
		near(t, "rank sum", f.RankSums[v], want, 0)
	}
	near(t, "chi-square", f.ChiSquare, 11.142857, 5e-7)
	near(t, "p of chi-square", f.PChiSquare, 0.003805041, 5e-10)
	near(t, "W", f.W, 0.2532468, 5e-8)
	if f.Method != Exact || math.Abs(f.P-f.PChiSquare) > 0.0015 {
		t.Errorf("p %g, %v: want it near that of chi-square, and exact", f.P, f.Method)
	}
	// The third against the first: 21 apart, of which the multiple comparison in the book says the same (critical 15 or 16 at 5 %, from memory).
	if p := f.Pairs[1]; p.Difference != 21 || p.PHolm > 0.01 || f.Pairs[0].PHolm < 0.2 {
		t.Errorf("pairs: %+v", f.Pairs)
	}
}

// Exact tails of Friedman's statistic for few blocks (tables in Siegel and in Hollander and Wolfe; from memory).
func TestFriedmanTables(t *testing.T) {
	for _, c := range []struct {
		name      string
		rows      [][]float64
		chi, tail float64
	}{
		{"3 of 3", [][]float64{{1, 2, 3}, {1, 2, 3}, {1, 2, 3}}, 6, 0.028},
		{"3 of 4", [][]float64{{1, 2, 3}, {1, 2, 3}, {1, 2, 3}, {2, 1, 3}}, 6.5, 0.042},
		{"3 of 5", [][]float64{{1, 2, 3}, {1, 2, 3}, {1, 2, 3}, {1, 3, 2}, {2, 1, 3}}, 6.4, 0.039},
		{"3 of 4, all alike", [][]float64{{1, 2, 3}, {1, 2, 3}, {1, 2, 3}, {1, 2, 3}}, 8, 0.0046},
		{"4 of 2", [][]float64{{1, 2, 3, 4}, {1, 2, 3, 4}}, 6, 0.042},
		{"4 of 3", [][]float64{{1, 2, 3, 4}, {1, 2, 3, 4}, {2, 1, 4, 3}}, 7.4, 0.033},
	} {
		f := must(FriedmanTest(c.rows, 1))(t)
		near(t, c.name+": statistic", f.ChiSquare, c.chi, 1e-12)
		near(t, c.name+": tail", f.P, c.tail, 0.0005)
	}
}

// By hand, two blocks of three: two variants differ by 2 in a block in 2 of 6 orders, so by 4 in both in 2/36; by 3 or more in 2/36 + 4
// times 1/6 x 1/3.
func TestRankPairByHand(t *testing.T) {
	f := must(FriedmanTest([][]float64{{1, 2, 3}, {1, 2, 3}}, 1))(t)
	near(t, "first to third", f.Pairs[1].P, 2.0/36, 1e-15)
	near(t, "adjusted", f.Pairs[1].PHolm, 6.0/36, 1e-15)
	f = must(FriedmanTest([][]float64{{1, 2, 3}, {2, 1, 3}}, 1))(t)
	near(t, "3 apart", f.Pairs[1].P, 2.0/36+4.0/18, 1e-15)
}

// Holm 1979 by hand: the smallest times four, then the largest so far of the next times three, two, one.
func TestHolmByHand(t *testing.T) {
	for i, want := range []float64{0.06, 0.04, 0.06, 0.9} {
		near(t, "adjusted", Holm([]float64{0.02, 0.01, 0.025, 0.9})[i], want, 1e-15)
	}
}

// Fewest right answers at 5 % and 1 %, the quantity that ISO 4120 tabulates (derived in the reference notes; the standard was not read).
func TestTriangleTable(t *testing.T) {
	five := []int{5, 5, 6, 6, 7, 7, 8, 8, 9, 9, 9, 10, 10, 11, 11, 12, 12, 12, 13, 13, 14, 14, 15, 15, 15}
	one := []int{6, 6, 7, 7, 8, 8, 9, 9, 10, 10, 11, 11, 12, 12, 13, 13, 14, 14, 15, 15, 15, 16, 16, 17, 17}
	for i := range five {
		if got := leastRight(i+6, 0.05); got != five[i] {
			t.Errorf("%d tasters, 5 %%: %d, want %d", i+6, got, five[i])
		}
		if got := leastRight(i+6, 0.01); got != one[i] {
			t.Errorf("%d tasters, 1 %%: %d, want %d", i+6, got, one[i])
		}
	}
	for _, c := range []struct {
		n, right int
		p        float64
	}{{12, 8, 0.018758}, {24, 13, 0.028441}, {30, 15, 0.043482}} {
		near(t, "tail", must(TriangleTest(c.n, c.right, 0.3, 0.95))(t).P, c.p, 5e-7)
	}
}

// Tasters for a triangle test at 5 %, one-sided: rows of 50, 40, 30 and 20 % who tell apart, for a power of 0.8, 0.9 and 0.95 (ISO 4120,
// annex, and ASTM E1885; from memory). All twelve are met, which says something for the memory too.
func TestTriangleSizes(t *testing.T) {
	for _, c := range []struct {
		share float64
		sizes [3]int
	}{{0.5, [3]int{16, 20, 23}}, {0.4, [3]int{23, 30, 40}}, {0.3, [3]int{40, 53, 66}}, {0.2, [3]int{87, 117, 147}}} {
		for i, power := range []float64{0.8, 0.9, 0.95} {
			if got := must(TriangleNeeded(Aim{c.share, power, 0.95}))(t); got != c.sizes[i] {
				t.Errorf("%g apart, power %g: %d tasters, want %d", c.share, power, got, c.sizes[i])
			}
		}
	}
}

// Powers of the paired t test by the noncentral t distribution, two-sided at 5 % (printed by common power programs; from memory).
func TestPairedSizes(t *testing.T) {
	for _, c := range []struct {
		d, power float64
		pairs    int
	}{{0.5, 0.8, 34}, {0.8, 0.8, 15}, {0.2, 0.8, 199}, {1, 0.9, 13}, {0.5, 0.95, 54}} {
		if got := must(PairsNeeded(Aim{c.d, c.power, 0.95}, 1))(t); got != c.pairs {
			t.Errorf("d = %g, power %g: %d pairs, want %d", c.d, c.power, got, c.pairs)
		}
	}
	// NIST/SEMATECH e-Handbook 7.2.2.2 (from memory): one standard deviation, one-sided at 5 %, power 0.9: 9 by the normal, 11 by t. Two-sided
	// at 10 % is the same but for a chance below 1e-4.
	if got := must(PairsNeeded(Aim{1, 0.9, 0.9}, 1))(t); got != 11 {
		t.Errorf("the handbook's case: %d, want 11", got)
	}
}

// NIST/SEMATECH e-Handbook 7.2.2 (from memory): particles on ten wafers against 50: mean 53.7, s 6.567, t 1.782, which is within 2.262.
func TestHandbookParticles(t *testing.T) {
	counts := []float64{50, 48, 44, 56, 61, 52, 53, 55, 67, 51}
	fifty := make([]float64, len(counts))
	for i := range fifty {
		fifty[i] = 50
	}
	r := must(PairedTest(counts, fifty, 0.95))(t)
	near(t, "mean", r.Estimate, 3.7, 1e-12)
	near(t, "s", r.SD, 6.567, 0.0005)
	near(t, "t", r.T, 1.782, 0.0005)
	near(t, "half of the interval", r.Interval.High-r.Estimate, 2.262*6.567/math.Sqrt(10), 0.001)
	if r.P < 0.05 || Judge(r.Interval, 5, 0.95) != CannotTell {
		t.Errorf("%+v", r)
	}
}

// The power by the noncentral t, against its definition: the normal mean beyond the critical t times each standard deviation, weighted by how the
// standard deviation scatters, by Simpson's rule.
func TestPowerByItsDefinition(t *testing.T) {
	for _, c := range []struct {
		n     int
		delta float64
	}{{3, 1}, {6, 0.5}, {10, 1}, {34, 0.5}, {199, 0.2}} {
		df := float64(c.n - 1)
		critical := student(c.n - 1).Quantile(0.975)
		lgamma, _ := math.Lgamma(df / 2)
		beyond := func(s float64) float64 { // of a sample with this standard deviation, true 1
			density := math.Exp(math.Ln2 + df/2*math.Log(df/2) - lgamma + (df-1)*math.Log(s) - df*s*s/2)
			shift := c.delta * math.Sqrt(float64(c.n))
			return density * (math.Erfc((critical*s-shift)/math.Sqrt2) + math.Erfc((critical*s+shift)/math.Sqrt2)) / 2
		}
		const panels, end = 20000, 6.0
		sum := beyond(end)
		for i := 1; i < panels; i++ {
			sum += float64(2+2*(i%2)) * beyond(end*float64(i)/panels)
		}
		near(t, "power", PowerPaired(c.n, c.delta, 1, 0.95), sum*end/panels/3, 1e-7)
	}
}
