package coolforecast

import (
	"math"

	"kettlefrost/internal/coollog"
)

// What readings are worth.
const (
	readK     = 0.5   // scatter of one reading: where in the pot, and the last digit (common practice)
	strayPart = 0.018 // the standard deviation of what no curve explains, as a part of the way still to go
	strayK    = 0.2   // and at least
	strayS    = 3600  // for how long it stays
	mostRead  = 24    // readings are taken together to so many
	lightest  = 1e-4  // of the heaviest: what is lighter is left out
)

// fit is the food at one point: a mixture of courses.
type fit struct {
	fromS   float64
	lastS   float64 // last reading
	timesS  []float64
	vWeight []float64 // Σ⁻¹v, where v is what ties the stray of each reading to that of later times
	vSize   float64   // vᵀΣ⁻¹v
	courses []course
}

// course is one shape gone along at one pace.
type course struct {
	shape  shape
	pace   float64 // times as fast
	after  float64 // and from the bend on
	weight float64
	a, m   float64    // start and end, °C
	cov    [3]float64 // of a and m: aa, am, mm
	xv     [2]float64 // Xᵀ Σ⁻¹ v
	left   float64    // vᵀ Σ⁻¹ (y - X β)
	fromS  float64
}

// prior is normal for the start and the end of the way.
type prior struct{ aC, aK, mC, mK float64 }

// fitted works out the courses from readings, all at or after fromS; there may be none.
func fitted(shapes []shape, fromS float64, readings []coollog.Reading, p prior) fit {
	f := fit{fromS: fromS, lastS: fromS}
	times, temps, counts := together(readings)
	f.timesS = times
	n := len(times)
	if n > 0 {
		f.lastS = readings[len(readings)-1].TimeS
	}
	inverse, v := f.ties(times, temps, counts, p)
	f.vWeight = apply(inverse, v)
	f.vSize = dot(v, f.vWeight)
	best := math.Inf(-1)
	var logs []float64
	for _, s := range shapes {
		for i, x := range s.paces {
			for _, after := range s.after {
				c := course{shape: s, pace: math.Exp(x), after: after.pace, fromS: fromS}
				fits := c.solve(times, temps, inverse, f.vWeight, p)
				weight := math.Log(s.weight*after.weight*width(s.paces, i)) + fits
				if s.doubt > 0 {
					weight += studentLog(x, s.doubt)
				}
				f.courses, logs, best = append(f.courses, c), append(logs, weight), max(best, weight)
			}
		}
	}
	f.keep(logs, best)
	return f
}

// width is the part of the grid that a pace stands for.
func width(paces []float64, i int) float64 {
	return (paces[min(i+1, len(paces)-1)] - paces[max(i-1, 0)]) / 2
}

// keep leaves the light courses out and makes the weights a sum of 1.
func (f *fit) keep(logs []float64, best float64) {
	sum, kept := 0.0, f.courses[:0]
	for i, c := range f.courses {
		if c.weight = math.Exp(logs[i] - best); c.weight > lightest {
			kept, sum = append(kept, c), sum+c.weight
		}
	}
	for i := range kept {
		kept[i].weight /= sum
	}
	f.courses = kept
}

// together is the means of readings in mostRead equal spaces of time; few readings stay as they are.
func together(readings []coollog.Reading) (timesS, tempsC, counts []float64) {
	if len(readings) <= mostRead {
		for _, r := range readings {
			timesS, tempsC, counts = append(timesS, r.TimeS), append(tempsC, r.TempC), append(counts, 1)
		}
		return timesS, tempsC, counts
	}
	first, last := readings[0].TimeS, readings[len(readings)-1].TimeS
	space, in := (last-first)/mostRead, -1
	for _, r := range readings {
		if i := min(mostRead-1, int((r.TimeS-first)/space)); i != in || len(counts) == 0 {
			in = i
			timesS, tempsC, counts = append(timesS, 0), append(tempsC, 0), append(counts, 0)
		}
		k := len(counts) - 1
		counts[k]++
		timesS[k] += (r.TimeS - timesS[k]) / counts[k]
		tempsC[k] += (r.TempC - tempsC[k]) / counts[k]
	}
	return timesS, tempsC, counts
}

// ties is the inverse of the covariance of the readings, and what ties each to the stray at the last of them.
func (f *fit) ties(timesS, tempsC, counts []float64, p prior) (inverse [][]float64, v []float64) {
	n := len(timesS)
	cov := make([][]float64, n)
	size := func(i int) float64 { return max(strayK, strayPart*(tempsC[i]-p.mC)) }
	for i := range n {
		cov[i] = make([]float64, n)
		for j := range n {
			cov[i][j] = size(i) * size(j) * math.Exp(-math.Abs(timesS[i]-timesS[j])/strayS)
		}
		cov[i][i] += readK * readK / counts[i]
		v = append(v, size(i)*math.Exp(-(f.lastS-timesS[i])/strayS))
	}
	return inverted(cov), v
}

// solve is the normal posterior of start and end for one shape and pace; it returns the logarithm of how well they explain the readings, but for a
// constant.
func (c *course) solve(timesS, tempsC []float64, inverse [][]float64, vWeight []float64, p prior) float64 {
	n := len(timesS)
	precision := [3]float64{1 / (p.aK * p.aK), 0, 1 / (p.mK * p.mK)}
	theta, off := make([]float64, n), make([]float64, n)
	for i, t := range timesS {
		theta[i] = c.theta(t)
		off[i] = tempsC[i] - p.aC*theta[i] - p.mC*(1-theta[i])
	}
	var u [2]float64
	fits := 0.0
	for i := range n {
		offW := dot(inverse[i], off)
		fits -= off[i] * offW / 2
		u[0] += theta[i] * offW
		u[1] += (1 - theta[i]) * offW
		c.xv[0] += theta[i] * vWeight[i]
		c.xv[1] += (1 - theta[i]) * vWeight[i]
		for j := range n {
			w := inverse[i][j]
			precision[0] += theta[i] * w * theta[j]
			precision[1] += theta[i] * w * (1 - theta[j])
			precision[2] += (1 - theta[i]) * w * (1 - theta[j])
		}
	}
	det := precision[0]*precision[2] - precision[1]*precision[1]
	c.cov = [3]float64{precision[2] / det, -precision[1] / det, precision[0] / det}
	da, dm := c.cov[0]*u[0]+c.cov[1]*u[1], c.cov[1]*u[0]+c.cov[2]*u[1]
	c.a, c.m = p.aC+da, p.mC+dm
	for i := range n {
		c.left += vWeight[i] * (off[i] - da*theta[i] - dm*(1-theta[i]))
	}
	return fits + (u[0]*da+u[1]*dm)/2 - math.Log(det)/2
}

func (c course) theta(timeS float64) float64 {
	tauS := c.pace * (timeS - c.fromS)
	if bend := c.shape.bendS; bend > 0 && tauS > bend {
		tauS = bend + (tauS-bend)*c.after/c.pace
	}
	return c.shape.theta(tauS)
}

// at is the normal distribution of the temperature at a time from the last reading on.
func (f fit) at(c course, timeS float64) (meanC, sdK float64) {
	theta := c.theta(timeS)
	line := c.a*theta + c.m*(1-theta)
	size := max(strayK, strayPart*(line-c.m))
	q := size * math.Exp(-(timeS-f.lastS)/strayS)
	h0, h1 := theta-q*c.xv[0], 1-theta-q*c.xv[1]
	variance := size*size - q*q*f.vSize + c.cov[0]*h0*h0 + 2*c.cov[1]*h0*h1 + c.cov[2]*h1*h1
	return line + q*c.left, math.Sqrt(max(1e-6, variance))
}

// over is the chance that it is warmer than a temperature at a time.
func (f fit) over(timeS, tempC float64) float64 {
	sum := 0.0
	for _, c := range f.courses {
		mean, sd := f.at(c, timeS)
		sum += c.weight * normal((mean-tempC)/sd)
	}
	return sum
}

// normal is the chance that a standard normal variable is less than x.
func normal(x float64) float64 {
	switch {
	case x > 5: // less than a millionth is left
		return 1
	case x < -5:
		return 0
	}
	return 0.5 * math.Erfc(-x/math.Sqrt2)
}

// quantiles are the temperatures that it is below with some chances, at a time.
func (f fit) quantiles(timeS float64) (low, middle, high float64) {
	means, sds := make([]float64, len(f.courses)), make([]float64, len(f.courses))
	least, most := math.Inf(1), math.Inf(-1)
	for i, c := range f.courses {
		means[i], sds[i] = f.at(c, timeS)
		least, most = min(least, means[i]-4*sds[i]), max(most, means[i]+4*sds[i])
	}
	below := func(chance float64) float64 {
		low, high := least, most
		for high-low > 0.02 {
			middle, sum := (low+high)/2, 0.0
			for i, c := range f.courses {
				sum += c.weight * normal((middle-means[i])/sds[i])
			}
			if sum < chance {
				low = middle
			} else {
				high = middle
			}
		}
		return (low + high) / 2
	}
	return below(goodChance), below(0.5), below(badChance)
}

// pace is the median of the paces.
func (f fit) pace() float64 {
	low, high := math.Exp(-2*mostPace), math.Exp(2*mostPace)
	for range 40 {
		middle, below := math.Sqrt(low*high), 0.0
		for _, c := range f.courses {
			if c.pace <= middle {
				below += c.weight
			}
		}
		if below < 0.5 {
			low = middle
		} else {
			high = middle
		}
	}
	return math.Sqrt(low * high)
}
