package netcontents

import "math"

// below is the share of a standard normal distribution below z.
func below(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// quantile is the z below which the share p of a standard normal distribution lies, 0 < p < 1.
func quantile(p float64) float64 { return -math.Sqrt2 * math.Erfcinv(2*p) }

// chiSquareBelow is the share of the chi-square distribution of df degrees of freedom below x: the regularised lower incomplete gamma
// function of df/2 and x/2 by its series (Abramowitz and Stegun 6.5.29), whose terms are all positive.
func chiSquareBelow(df int, x float64) float64 {
	if x <= 0 {
		return 0
	}
	a, half := float64(df)/2, x/2
	term := 1 / a
	sum := term
	for k := 1.0; term > sum*1e-17; k++ {
		term *= half / (a + k)
		sum += term
	}
	gamma, _ := math.Lgamma(a)
	return min(1, sum*math.Exp(a*math.Log(half)-half-gamma))
}

// chiSquareQuantile is the x below which the share p lies, by halving.
func chiSquareQuantile(df int, p float64) float64 {
	return least(func(x float64) bool { return chiSquareBelow(df, x) >= p })
}

// least is the smallest x of 0 or more at which ok holds, from above and to about a part in 10^15; once it holds it must hold for all larger
// ones. It is +Inf if it holds nowhere.
func least(ok func(float64) bool) float64 {
	if ok(0) {
		return 0
	}
	low, high := 0.0, 1.0
	for !ok(high) {
		low, high = high, 2*high
		if math.IsInf(high, 1) {
			return high
		}
	}
	for range 60 {
		middle := (low + high) / 2
		if middle <= low || middle >= high {
			break
		}
		if ok(middle) {
			high = middle
		} else {
			low = middle
		}
	}
	return high
}

// chi is how the standard deviation of a sample scatters, in true standard deviations: its values and their weights for integrating, by
// Simpson's rule.
type chi struct{ at, weight []float64 }

// chiPanels keeps the error of a chance below 1e-7 for two packs, where the sample error limit is steepest, and far below for more.
const chiPanels = 1000

// chiOf is for samples of n packs, 2 or more. Its density is that of sqrt(chi-square/df): 2 (df/2)^(df/2)/Γ(df/2) s^(df-1) exp(-df s²/2).
func chiOf(n int) chi {
	df := float64(n - 1)
	gamma, _ := math.Lgamma(df / 2)
	scale := math.Ln2 + df/2*math.Log(df/2) - gamma
	end := 1 + 8/math.Sqrt(df) // 8 standard deviations and more beyond the mean
	h := end / chiPanels
	c := chi{make([]float64, chiPanels+1), make([]float64, chiPanels+1)}
	for i := range c.at {
		s := float64(i) * h
		simpson := 2 * h / 3
		switch {
		case i == 0 || i == chiPanels:
			simpson = h / 3
		case i%2 == 1:
			simpson = 4 * h / 3
		}
		density := 0.0
		if s > 0 || df == 1 {
			density = math.Exp(scale - df*s*s/2)
			if df > 1 {
				density *= math.Pow(s, df-1)
			}
		}
		c.at[i], c.weight[i] = s, simpson*density
	}
	return c
}

// mean is the mean of f over the distribution.
func (c chi) mean(f func(s float64) float64) float64 {
	sum := 0.0
	for i, s := range c.at {
		if c.weight[i] > 0 {
			sum += c.weight[i] * f(s)
		}
	}
	return sum
}
