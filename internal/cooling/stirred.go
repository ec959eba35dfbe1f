package cooling

import (
	"math"

	"kettlefrost/internal/vessel"
)

// Heat that has left the food since the start, and what the room has put into the bath, all of one pot, J.
const (
	wall = iota
	top
	vapour
	paddle
	room
	flows
)

type flowsJ [flows]float64

func (y flowsJ) plus(d flowsJ, timeS float64) flowsJ {
	for i := range y {
		y[i] += d[i] * timeS
	}
	return y
}

// stirred is one pot that is followed: the food, its bath and the paddles in it, each at one temperature (ice and water of a bath or paddle
// at 0 °C while there is both). The temperatures follow from the heat that has flowed, so none is lost:
//
//	C·dT/dt = -UA·(T - Tbath) - hA·(T - Tair) - A·wet·e(T) - Σ UA·(T - Tpaddle)
type stirred struct {
	startC, capacityJK      float64
	wallWK, topWK, vapourM2 float64
	airC                    float64
	paddleWK                float64 // of one
	bath                    Bath    // this pot's share
	bathJ                   float64 // heat of the bath at the start, if it can warm
	rack                    rack
	rackJ                   float64 // y[paddle] when the paddles in the pot were put in

	timeS float64
	y     flowsJ
}

// stir sets up one of n pots.
func (p Pot) stir(f Food, startC float64, n int, l level) *stirred {
	share := 1 / float64(n)
	b := p.Bath
	b.IceKg, b.WaterKg, b.LossWK = b.IceKg*share, b.WaterKg*share, b.LossWK*share
	s := &stirred{startC: startC, capacityJK: f.heatJK() * share, bath: b, airC: p.AirC}
	s.wallWK = l.film(p.Wall) * p.wetM2(f, n)
	s.topWK = l.film(p.Top) * circleM2(p.DiameterM)
	s.vapourM2 = l.wet(p.Wet) * circleM2(p.DiameterM)
	s.bathJ = iceJ(b.IceKg, b.IceC) + b.WaterKg*vessel.WaterHeatJKgK*b.WaterC
	s.rack = rack{Paddles: p.Paddles, fresh: p.Paddles.Have / n}
	s.paddleWK = l.film(p.Paddles.Film) * p.Paddles.AreaM2
	return s
}

func (s *stirred) foodC(y flowsJ) float64 {
	return s.startC - (y[wall]+y[top]+y[vapour]+y[paddle])/s.capacityJK
}

func (s *stirred) bathC(y flowsJ) float64 {
	if s.bath.Ice != OnceOnly {
		return s.bath.TempC
	}
	return melt{s.bath.IceKg + s.bath.WaterKg}.tempC(s.bathJ + y[wall] + y[room])
}

// eachJ is the heat in each paddle of the pot.
func (s *stirred) eachJ(y flowsJ) float64 {
	return s.rack.inJ + (y[paddle]-s.rackJ)/float64(s.rack.in)
}

// rate is how fast heat flows, W.
func (s *stirred) rate(y flowsJ) flowsJ {
	foodC, bathC := s.foodC(y), s.bathC(y)
	d := flowsJ{wall: s.wallWK * (foodC - bathC), top: s.topWK * (foodC - s.airC)}
	if s.vapourM2 > 0 {
		d[vapour] = s.vapourM2 * evaporationWM2(foodC, s.airC)
	}
	if s.rack.in > 0 {
		d[paddle] = float64(s.rack.in) * s.paddleWK * (foodC - s.rack.tempC(s.eachJ(y)))
	}
	if s.bath.Ice == OnceOnly {
		d[room] = s.bath.LossWK * (s.bath.AmbientC - bathC)
	}
	return d
}

// step is one of the classical Runge-Kutta method.
func (s *stirred) step(y flowsJ, stepS float64) flowsJ {
	a := s.rate(y)
	b := s.rate(y.plus(a, stepS/2))
	c := s.rate(y.plus(b, stepS/2))
	d := s.rate(y.plus(c, stepS))
	return y.plus(a, stepS/6).plus(b, stepS/3).plus(c, stepS/3).plus(d, stepS/6)
}

// Bounds of the march.
const (
	stepsPerConstant = 30      // steps in the shortest time constant
	mostMarchSteps   = 100_000 // then the rest counts as not reached
	// steepestEvaporationWM2K is how fast evaporation can rise with temperature: 240 near 95 °C by the table.
	steepestEvaporationWM2K = 300
	pointEveryS             = 300 // steps are not longer than this
)

// stepS is a part of the shortest time constant of food, bath and the paddles in the pot.
func (s *stirred) stepS() float64 {
	shortest := math.Inf(1)
	consider := func(capacityJK, lossWK float64) {
		if lossWK > 0 {
			shortest = min(shortest, capacityJK/lossWK)
		}
	}
	consider(s.capacityJK, s.wallWK+s.topWK+s.vapourM2*steepestEvaporationWM2K+float64(s.rack.in)*s.paddleWK)
	if s.bath.Ice == OnceOnly {
		consider((s.bath.IceKg+s.bath.WaterKg)*vessel.IceHeatJKgK, s.wallWK+s.bath.LossWK)
	}
	if s.rack.in > 0 {
		consider(s.rack.WaterKg*vessel.IceHeatJKgK, s.paddleWK)
	}
	return min(pointEveryS, shortest/stepsPerConstant)
}

// run marches until the food is at the end of the errand, or would warm up again: then it is taken out.
func (s *stirred) run(e errand) leg {
	l := leg{formula: StirredPot, points: []point{{0, s.startC, s.startC, s.bathC(s.y)}}, endC: s.startC}
	marks := below(e.marksC, s.startC, e.endC)
	iceGone := s.bath.Ice != OnceOnly
	for range mostMarchSteps {
		if s.rack.Have > 0 {
			s.swap()
		}
		nowC := s.foodC(s.y)
		rate := s.rate(s.y)
		watts := rate[wall] + rate[top] + rate[vapour] + rate[paddle]
		l.peakW = max(l.peakW, watts)
		if s.timeS >= e.withinS || s.stalls(e, nowC, watts) {
			break
		}
		if watts < 0 {
			l.cautions = append(l.cautions, Caution{Code: WarmsAgain, Value: s.timeS})
			break
		}
		dt := min(s.stepS(), e.withinS-s.timeS)
		next := s.step(s.y, dt)
		thenC := s.foodC(next)
		along := 1.0
		if thenC <= e.endC {
			along, l.reached = (nowC-e.endC)/(nowC-thenC), true
		}
		for len(marks) > 0 && thenC <= marks[0] {
			l.passed = append(l.passed, passing{marks[0], s.timeS + dt*(nowC-marks[0])/(nowC-thenC)})
			marks = marks[1:]
		}
		for i := range next {
			s.y[i] += along * (next[i] - s.y[i])
		}
		s.timeS += along * dt
		foodC := s.foodC(s.y)
		if l.reached {
			foodC = e.endC
		}
		if s.rack.in > 0 {
			s.rack.inJ, s.rackJ = s.eachJ(s.y), s.y[paddle]
		}
		l.points = append(l.points, point{s.timeS, foodC, foodC, s.bathC(s.y)})
		if !iceGone && s.bathJ+s.y[wall]+s.y[room] >= 0 {
			iceGone = true
			l.cautions = append(l.cautions, Caution{Code: IceGone, Value: s.timeS})
		}
		if l.reached {
			break
		}
	}
	return s.close(l)
}

func (s *stirred) swap() {
	if s.rack.change(s.timeS, s.foodC(s.y)) {
		s.rackJ = s.y[paddle]
	}
}

// stalls says that the food will not get there in the time it is followed: with no paddle to come, heat leaves it ever more slowly.
func (s *stirred) stalls(e errand, nowC, watts float64) bool {
	bathCools := s.bath.Ice == OnceOnly && s.bath.LossWK > 0 && s.bath.AmbientC < s.bathC(s.y)
	slow := watts/s.capacityJK*(e.withinS-s.timeS) < nowC-e.endC
	return e.withinS >= longestS && slow && !bathCools && !s.rack.pending()
}

func (s *stirred) close(l leg) leg {
	l.timeS, l.endC = s.timeS, l.points[len(l.points)-1].coreC
	l.taken = Taken{MediumJ: s.y[wall] + s.y[top], VapourJ: s.y[vapour], PaddlesJ: s.y[paddle]}
	l.paddles = s.rack.used
	if s.rack.emptied {
		l.cautions = append(l.cautions, Caution{Code: PaddlesGone, Value: s.rack.goneS})
	}
	return l
}

// below is the marks under startC and not under endC, which fall.
func below(marksC []float64, startC, endC float64) []float64 {
	var in []float64
	for _, c := range marksC {
		if c < startC && c >= endC {
			in = append(in, c)
		}
	}
	return in
}
