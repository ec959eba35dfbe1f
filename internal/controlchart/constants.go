package controlchart

import "math"

// maxSize is the largest subgroup that the table knows.
const maxSize = 25

// d2 and d3 are the mean and the standard deviation of the range of n values drawn from a normal distribution of standard deviation 1,
// for n from 2: the published factors for control charts (ASTM Manual on Presentation of Data and Control Chart Analysis) to two more
// digits, as R 4.2 gives them from ptukey; the test integrates both.
var (
	d2 = [maxSize + 1]float64{2: 1.12838, 1.69257, 2.05875, 2.32593, 2.53441, 2.70436, 2.84720, 2.97003, 3.07751, 3.17287, 3.25846, 3.33598,
		3.40676, 3.47183, 3.53198, 3.58788, 3.64006, 3.68896, 3.73495, 3.77834, 3.81938, 3.85832, 3.89535, 3.93063}
	d3 = [maxSize + 1]float64{2: 0.85250, 0.88837, 0.87981, 0.86408, 0.84804, 0.83321, 0.81983, 0.80783, 0.79705, 0.78732, 0.77848, 0.77042,
		0.76302, 0.75621, 0.74991, 0.74405, 0.73859, 0.73348, 0.72869, 0.72417, 0.71992, 0.71589, 0.71207, 0.70844}
)

// c4 is the mean of the sample standard deviation of n values drawn from a normal distribution of standard deviation 1:
// sqrt(2/(n-1)) Γ(n/2)/Γ((n-1)/2).
func c4(n int) float64 {
	high, _ := math.Lgamma(float64(n) / 2)
	low, _ := math.Lgamma(float64(n-1) / 2)
	return math.Sqrt(2/float64(n-1)) * math.Exp(high-low)
}

// Factors are the published multipliers for subgroups of one size. Limits are the mean of the subgroup means ± A2 times the mean range
// or ± A3 times the mean standard deviation; those of the range are D3 and D4 times the mean range, those of the standard deviation
// B3 and B4 times its mean.
type Factors struct {
	Size           int
	D2, C4         float64 // mean range and mean standard deviation over the process's standard deviation
	A2, D3, D4     float64
	A3, B3, B4     float64
	rangeSD, sdDev float64 // standard deviation of the range and of the standard deviation, in those of the process
}

// FactorsOf are the factors for subgroups of size 2 to 25. Errors are *InputError.
func FactorsOf(size int) (Factors, error) {
	if size < 2 || size > maxSize {
		return Factors{}, wrongSize(size)
	}
	return factors(size), nil
}

// factors are those of a size in the table.
func factors(size int) Factors {
	root := math.Sqrt(float64(size))
	f := Factors{Size: size, D2: d2[size], C4: c4(size), rangeSD: d3[size]}
	f.sdDev = math.Sqrt(1 - f.C4*f.C4)
	f.A2 = 3 / (f.D2 * root)
	f.A3 = 3 / (f.C4 * root)
	f.D3, f.D4 = max(0, 1-3*f.rangeSD/f.D2), 1+3*f.rangeSD/f.D2
	f.B3, f.B4 = max(0, 1-3*f.sdDev/f.C4), 1+3*f.sdDev/f.C4
	return f
}
