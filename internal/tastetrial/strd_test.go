package tastetrial

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat"
)

// NIST StRD, univariate: certified means and standard deviations. NumAcc are made as their descriptions say; in float64 the last has 8
// digits only, because its inputs are rounded already.
func TestStRDMoments(t *testing.T) {
	made := func(base float64) []float64 {
		values := []float64{base + 0.2}
		for range 500 {
			values = append(values, base+0.1, base+0.3)
		}
		return values
	}
	for _, c := range []struct {
		name         string
		values       []float64
		mean, sd     float64
		digits, atSD float64 // relative
	}{
		{"NumAcc1", []float64{10000001, 10000003, 10000002}, 10000002, 1, 1e-15, 1e-15},
		{"NumAcc2", made(1), 1.2, 0.1, 1e-15, 1e-14},
		{"NumAcc3", made(1000000), 1000000.2, 0.1, 1e-15, 1e-9},
		{"NumAcc4", made(10000000), 10000000.2, 0.1, 1e-15, 1e-7},
	} {
		mean, sd := moments(c.values)
		near(t, c.name+" mean", mean, c.mean, c.digits*c.mean)
		near(t, c.name+" sd", sd, c.sd, c.atSD*c.sd)
	}
}

// norris is NIST StRD, linear regression, Norris: y, x (data from memory; that the certified values come out to twelve digits says that
// they are right).
var norris = [][2]float64{
	{0.1, 0.2}, {338.8, 337.4}, {118.1, 118.2}, {888.0, 884.6}, {9.2, 10.1}, {228.1, 226.5}, {668.5, 666.3}, {998.5, 996.3}, {449.1, 448.6},
	{778.9, 777.0}, {559.2, 558.2}, {0.3, 0.4}, {0.1, 0.6}, {778.1, 775.5}, {668.8, 666.9}, {339.3, 338.0}, {448.9, 447.5}, {10.8, 11.6},
	{557.7, 556.0}, {228.3, 228.1}, {998.0, 995.8}, {888.8, 887.6}, {119.6, 120.2}, {0.3, 0.3}, {0.6, 0.3}, {557.6, 556.8}, {339.3, 339.1},
	{888.0, 887.2}, {998.5, 999.0}, {778.9, 779.0}, {10.2, 11.1}, {117.6, 118.3}, {228.9, 229.2}, {668.4, 669.1}, {449.2, 448.9}, {0.2, 0.5},
}

func TestStRDNorris(t *testing.T) {
	var x, y []float64
	for _, p := range norris {
		y, x = append(y, p[0]), append(x, p[1])
	}
	r := must(FitTrend(x, y, 0.95))(t)
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"B0", r.AtZero, -0.262323073774029}, {"sd of B0", r.AtZeroErr, 0.232818234301152},
		{"B1", r.Slope, 1.00211681802045}, {"sd of B1", r.SlopeError, 0.429796848199937e-03}, {"residual sd", r.SD, 0.884796396144373},
	} {
		near(t, c.what, c.got, c.want, 1e-12*math.Abs(c.want))
	}
	a, b := stat.LinearRegression(x, y, nil, false)
	near(t, "gonum's intercept", r.AtZero, a, 1e-10)
	near(t, "gonum's slope", r.Slope, b, 1e-13)
}
