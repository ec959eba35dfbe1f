package coolforecast

import (
	"math"
	"sort"

	"kettlefrost/internal/cooling"
)

// shape is a way of going from one temperature to another: the natural logarithm of the part still to go, at points in time. Beyond the last
// it goes on as it went at the end, which is what conduction and a stirred pot do.
type shape struct {
	timesS, logs []float64
	rateS        float64 // 1/s at the end
	weight       float64
	doubt        float64 // scale of the logarithm of the pace
	paces        []float64
	bendS        float64     // from there on another way goes at a pace of its own, whatever that of the first; 0 for none
	after        []laterPace // of that
}

// laterPace is one pace that the second way may have.
type laterPace struct{ pace, weight float64 }

// leastToGo is where a curve is cut off: nearer to its end it says nothing of how fast it goes.
const leastToGo = 1e-4

// theta is the part still to go.
func (s shape) theta(tauS float64) float64 {
	n := len(s.timesS)
	switch {
	case tauS <= 0:
		return 1
	case n == 0:
		return math.Exp(-s.rateS * tauS)
	case tauS >= s.timesS[n-1]:
		return math.Exp(s.logs[n-1] - s.rateS*(tauS-s.timesS[n-1]))
	}
	i := sort.SearchFloat64s(s.timesS, tauS)
	along := (tauS - s.timesS[i-1]) / (s.timesS[i] - s.timesS[i-1])
	return math.Exp(s.logs[i-1] + along*(s.logs[i]-s.logs[i-1]))
}

// reaches is when the part still to go is theta, 0 to 1.
func (s shape) reaches(theta float64) float64 {
	goal, n := math.Log(theta), len(s.timesS)
	if n == 0 {
		return -goal / s.rateS
	}
	if goal <= s.logs[n-1] {
		return s.timesS[n-1] + (s.logs[n-1]-goal)/s.rateS
	}
	i := sort.Search(n, func(i int) bool { return s.logs[i] <= goal })
	if i == 0 {
		return 0
	}
	return s.timesS[i-1] + (s.timesS[i]-s.timesS[i-1])*(s.logs[i-1]-goal)/(s.logs[i-1]-s.logs[i])
}

// curveShape is the shape of one line of a predicted curve; false when it does not cool.
func curveShape(curve []cooling.CurvePoint, pick func(cooling.CurvePoint) float64, endC float64) (shape, bool) {
	startC := pick(curve[0])
	if startC-endC < 1 {
		return shape{}, false
	}
	s := shape{}
	for _, p := range curve {
		toGo := (pick(p) - endC) / (startC - endC)
		n := len(s.logs)
		if toGo < leastToGo || n > 0 && math.Log(toGo) > s.logs[n-1]-1e-9 && toGo < 0.9 { // once at its end, food is drawn as staying there
			break
		}
		last := 0.0
		if n > 0 {
			last = s.logs[n-1]
		}
		s.timesS, s.logs = append(s.timesS, p.TimeS), append(s.logs, min(last, math.Log(min(1, toGo))))
	}
	n := len(s.logs)
	if n < 3 || s.logs[n-1] > -0.05 {
		return shape{}, false
	}
	// The very last point may be the first at which the food was drawn as staying: the rate is taken before it.
	s.timesS, s.logs = s.timesS[:n-1], s.logs[:n-1]
	n--
	i := max(0, n-1-n/5)
	if i == n-1 {
		i = n - 2
	}
	s.rateS = (s.logs[i] - s.logs[n-1]) / (s.timesS[n-1] - s.timesS[i])
	return s, s.rateS > 0
}

// The widths of the priors. They are common practice, and were set on the drawn cases of one seed; others measure what they are worth.
const (
	paceDoubt    = 0.13 // scale of the logarithm of the pace beside the range of the surface coefficients: depth, filling, lids
	mediumDoubtK = 0.7  // what is around the food is as the model has it, to this
	openStartK   = 3.0  // doubt of the start when only readings are known
)

// shapes are the ways in which food may cool by a predicted curve.
func (m Model) shapes(endC float64) []shape {
	low, okLow := curveShape(m.Curve, func(p cooling.CurvePoint) float64 { return p.LowC }, endC)
	usual, ok := curveShape(m.Curve, func(p cooling.CurvePoint) float64 { return p.CoreC }, endC)
	high, okHigh := curveShape(m.Curve, func(p cooling.CurvePoint) float64 { return p.HighC }, endC)
	if !ok {
		return nil
	}
	band := 0.2
	if okLow && okHigh {
		band = max(0.1, math.Log(low.reaches(0.3)/high.reaches(0.3))/3.3) // from the 5 % to the 95 % of a normal distribution
	}
	usual.weight, usual.doubt = 0.45, paceDoubt
	newton := shape{rateS: -math.Log(0.2) / usual.reaches(0.2), weight: 0.15, doubt: math.Hypot(band, paceDoubt)}
	all := []shape{usual, newton}
	for _, s := range []struct {
		shape
		ok bool
	}{{low, okLow}, {high, okHigh}} {
		if s.ok {
			s.shape.weight, s.shape.doubt = 0.2, paceDoubt
			all = append(all, s.shape)
		}
	}
	for i := range all {
		all[i].paces, all[i].after = grid(all[i].doubt), []laterPace{{1, 1}}
		if m.BendS > 0 {
			all[i].bendS = m.BendS * usual.reaches(0.2) / all[i].reaches(0.2)
			if i != 1 { // the curves have their own bend; Newton's law has none
				all[i].bendS = m.BendS
			}
			wide := math.Exp(1.22 * math.Hypot(band, paceDoubt)) // three points with the variance of a normal distribution
			all[i].after = []laterPace{{1 / wide, 1.0 / 3}, {1, 1.0 / 3}, {wide, 1.0 / 3}}
		}
	}
	return all
}

const (
	paceSteps = 40 // on each side of 1
	mostPace  = 2.4
)

// grid is logarithms of paces, close to each other around 0, out to eleven times as fast or slow.
func grid(doubt float64) []float64 {
	paces := make([]float64, 0, 2*paceSteps+1)
	for i := -paceSteps; i <= paceSteps; i++ {
		x := float64(i) / paceSteps
		paces = append(paces, mostPace*math.Sinh(5*x)/math.Sinh(5)*max(1, doubt/0.3))
	}
	return paces
}

// studentLog is the logarithm of Student's density with 3 degrees of freedom, but for a constant.
func studentLog(x, scale float64) float64 {
	return -2*math.Log1p(x*x/(3*scale*scale)) - math.Log(scale)
}

// openShape is Newton's law with hardly any idea of the pace: flat in its logarithm, from a time constant of a quarter of an hour to one of
// fifteen hours.
func openShape() shape {
	s := shape{rateS: 1 / 6970.0, weight: 1, after: []laterPace{{1, 1}}} // the geometric mean of the two
	for i := -60; i <= 60; i++ {
		s.paces = append(s.paces, float64(i)/60*2.05)
	}
	return s
}
