package conduction

import "math"

// line solves one line of cells over one implicit step. It owns the scratch, so nothing is allocated while marching.
type line struct {
	h, base []float64 // specific enthalpy sought, first its guess; and before the step

	tempC, potential, answer []float64 // of the cells; answer is d potential / d enthalpy
	factor, inverse, upper   []float64 // of the elimination
	delta                    []float64
	sense, senseBase         []float64 // d h / d (temperature of the pool), after and before the step
}

func newLine(cells int) *line {
	block := make([]float64, 11*cells)
	next := func() []float64 {
		part := block[:cells:cells]
		block = block[cells:]
		return part
	}
	return &line{next(), next(), next(), next(), next(), next(), next(), next(), next(), next(), next()}
}

// givenOff is the heat through the two faces of a line (or a body) in a step, outwards, in J (per area of the line across).
type givenOff struct {
	allJ      float64
	toPoolJ   float64 // the part through faces that meet the pool
	toPoolJPK float64 // its slope in the temperature of the pool at the end of the step
}

func (g *givenOff) add(o givenOff, weight float64) {
	g.allJ += weight * o.allJ
	g.toPoolJ += weight * o.toPoolJ
	g.toPoolJPK += weight * o.toPoolJPK
}

const maxNewton = 25

// relax takes an implicit (backward Euler) step of stepS from base to h by Newton's method in the enthalpy: its slopes are bounded, so
// it passes the kink at the freezing point and a plateau. The fluxes reported are those of the last linear system, whose sum over the
// cells is exactly what they gained: conservation does not depend on convergence. It is false if it does not converge within tolJKg.
func (l *line) relax(m Material, d *direction, stepS, tolJKg float64, sensed bool) (givenOff, bool) {
	n := d.cells
	heavy := m.DensityKgM3() / stepS
	half := d.widthM / 2
	for range maxNewton {
		for i, h := range l.h[:n] {
			t, slope, k := m.At(h)
			l.tempC[i] = t
			l.potential[i], _ = m.Potential(t)
			l.answer[i] = slope * k
		}
		low := surface(m, d.low, l.tempC[0], l.potential[0], half, d.lowC)
		high := surface(m, d.high, l.tempC[n-1], l.potential[n-1], half, d.highC)
		l.eliminate(m, d, heavy, &low, &high)
		largest := l.substitute(n)
		if !(largest <= math.MaxFloat64) {
			return givenOff{}, false
		}
		if largest > tolJKg {
			continue
		}
		lowW := d.area[0] * (low.fluxWM2 + low.perPotential*l.answer[0]*l.delta[0])
		highW := d.area[n] * (high.fluxWM2 + high.perPotential*l.answer[n-1]*l.delta[n-1])
		out := givenOff{allJ: (lowW + highW) * stepS}
		if d.lowPool {
			out.toPoolJ += lowW * stepS
		}
		if d.highPool {
			out.toPoolJ += highW * stepS
		}
		if sensed {
			out.toPoolJPK = stepS * l.sensePool(d, heavy, &low, &high)
		}
		return out, true
	}
	return givenOff{}, false
}

// eliminate sets up the tridiagonal system of a Newton step and runs down it.
func (l *line) eliminate(m Material, d *direction, heavy float64, low, high *crossing) {
	n := d.cells
	plain := 1 / d.widthM
	inW := -d.area[0] * low.fluxWM2 // into the cell through its lower face
	ownIn := d.area[0] * low.perPotential
	lower := 0.0 // how the flow in answers to the cell below, times -1
	before := 0.0
	h, base := l.h[:n], l.base[:n]
	potential, answer := l.potential[:n], l.answer[:n]
	for i := range h {
		var outW, ownOut, upper, lowerNext, ownInNext float64
		switch area := d.area[i+1]; {
		case i == n-1:
			outW, ownOut = area*high.fluxWM2, area*high.perPotential
		case d.gapM2KW != nil && d.gapM2KW[i+1] > 0:
			c := gap(m, l.tempC[i], potential[i], l.tempC[i+1], potential[i+1], d.widthM/2, d.gapM2KW[i+1])
			outW, ownOut = area*c.fluxWM2, area*c.perPotential
			ownInNext = area * c.perPotentialBeyond
			upper, lowerNext = -ownInNext*answer[i+1], -ownOut*answer[i]
		default:
			g := area * plain
			outW, ownOut, ownInNext = g*(potential[i]-potential[i+1]), g, g
			upper, lowerNext = -g*answer[i+1], -g*answer[i]
		}
		mass := d.volume[i] * heavy
		rest := inW - outW - mass*(h[i]-base[i])
		diagonal := mass + (ownIn+ownOut)*answer[i]
		if i > 0 {
			f := lower * l.inverse[i-1]
			l.factor[i] = f
			diagonal -= f * before
			rest -= f * l.delta[i-1]
		}
		l.inverse[i] = 1 / diagonal
		l.upper[i], l.delta[i] = upper, rest
		before, lower = upper, lowerNext
		inW, ownIn = outW, ownInNext
	}
}

// substitute runs back up, moves h, and returns the largest move.
func (l *line) substitute(n int) float64 {
	largest, above := 0.0, 0.0
	for i := n - 1; i >= 0; i-- {
		above = (l.delta[i] - l.upper[i]*above) * l.inverse[i]
		l.delta[i] = above
		l.h[i] += above
		if size := math.Abs(above); !(size <= largest) {
			largest = size
		}
	}
	return largest
}

// sensePool is how the heat flow to the pool answers to its temperature, W/K, and leaves how the cells do in sense: one more
// right-hand side of the same system.
func (l *line) sensePool(d *direction, heavy float64, low, high *crossing) float64 {
	n := d.cells
	var lowWK, highWK float64
	if d.lowPool {
		lowWK = d.area[0] * low.perMediumWM2K
	}
	if d.highPool {
		highWK = d.area[n] * high.perMediumWM2K
	}
	for i := range n {
		s := d.volume[i] * heavy * l.senseBase[i]
		if i == 0 {
			s += lowWK
		} else {
			s -= l.factor[i] * l.sense[i-1]
		}
		if i == n-1 {
			s += highWK
		}
		l.sense[i] = s
	}
	above := 0.0
	for i := n - 1; i >= 0; i-- {
		above = (l.sense[i] - l.upper[i]*above) * l.inverse[i]
		l.sense[i] = above
	}
	slope := -lowWK - highWK
	if d.lowPool {
		slope += d.area[0] * low.perPotential * l.answer[0] * l.sense[0]
	}
	if d.highPool {
		slope += d.area[n] * high.perPotential * l.answer[n-1] * l.sense[n-1]
	}
	return slope
}
