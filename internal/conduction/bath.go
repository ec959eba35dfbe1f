package conduction

import (
	"math"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/vessel"
)

// bath is a pool with its enthalpy, counted from the start (small numbers add up better). Floating ice is a plateau of it.
type bath struct {
	pool    *Pool
	count   map[*field]float64 // how many there are of each
	e       [stages]float64    // J
	powerJ  [stages]float64    // what machine and walls brought in the step
	gainedJ float64            // from machine and walls up to now
	startJ  float64            // above all of it as water (or air) of 0 °C
	rateW   float64            // of e in the last step, for a guess
}

// thermostatBandK is the band over which the power goes from nothing to all of it.
const thermostatBandK = 0.1

func newBath(p *Pool) *bath {
	b := &bath{pool: p, count: map[*field]float64{}}
	switch {
	case p.StartC > 0: // ice put into warm water starts to melt at once
		b.startJ = b.warm()*p.StartC - p.IceKg*(heat.LatentHeatIceJKg+vessel.WaterHeatJKgK*p.StartC)
	default:
		b.startJ = b.cold()*p.StartC - p.IceKg*heat.LatentHeatIceJKg
	}
	return b
}

func (b *bath) warm() float64   { return b.pool.HeatCapacityJK + b.pool.IceKg*vessel.WaterHeatJKgK }
func (b *bath) cold() float64   { return b.pool.HeatCapacityJK + b.pool.IceKg*vessel.IceHeatJKgK }
func (b *bath) frozen() float64 { return -b.pool.IceKg * heat.LatentHeatIceJKg }

// at is the temperature at an enthalpy and its slope.
func (b *bath) at(e float64) (tempC, slopeKJ float64) {
	e += b.startJ
	switch {
	case e > 0:
		return e / b.warm(), 1 / b.warm()
	case e < b.frozen():
		return (e - b.frozen()) / b.cold(), 1 / b.cold()
	case b.pool.IceKg == 0:
		return 0, 1 / b.warm()
	}
	return 0, 0
}

func (b *bath) tempC(e float64) float64 { t, _ := b.at(e); return t }

func (b *bath) iceKg(e float64) float64 {
	if b.pool.IceKg == 0 {
		return 0
	}
	return min(max(-(e+b.startJ)/heat.LatentHeatIceJKg, 0), b.pool.IceKg)
}

// powerW is what the machine or burner moves, positive, and its slope.
func (b *bath) powerW(tempC float64) (powerW, slopeWK float64) {
	part, sign := (b.pool.SetC-tempC)/thermostatBandK, -1.0
	if b.pool.Cools {
		part, sign = -part, 1
	}
	switch {
	case part <= 0:
		return 0, 0
	case part >= 1:
		return b.pool.PowerW, 0
	}
	return b.pool.PowerW * part, sign * b.pool.PowerW / thermostatBandK
}

// gainW is what machine and walls bring into the pool, and its slope.
func (b *bath) gainW(tempC float64) (gainW, slopeWK float64) {
	power, slope := b.powerW(tempC)
	if b.pool.Cools {
		power, slope = -power, -slope
	}
	return power - b.pool.LossWK*(tempC-b.pool.AmbientC), slope - b.pool.LossWK
}

const (
	mostPoolSteps = 60
	farthestC     = 400 // trial temperatures stay within this
)

// implicit finds the enthalpy of the pool at the end of a step such that it gained what machine, walls and bodies gave it then. The
// balance rises with the enthalpy, so a bracketed Newton search with the slope of every body's answer cannot miss.
func (b *bath) implicit(m *march, to, from stage, stepS, timeS float64) (bool, error) {
	e := b.guess(to, stepS)
	low, high := math.Inf(-1), math.Inf(1)
	for range mostPoolSteps {
		tempC, slope := b.at(e)
		if !(math.Abs(tempC) <= farthestC) {
			return false, nil
		}
		gain, gainSlope := b.gainW(tempC)
		bodiesJ, bodiesSlope, ok, err := b.bodies(m, to, from, stepS, timeS, tempC)
		if err != nil || !ok {
			return false, err
		}
		balanced := b.e[from] + gain*stepS + bodiesJ
		excess := e - balanced
		if excess < 0 {
			low = e
		} else {
			high = e
		}
		move := -excess / (1 - (gainSlope*stepS+bodiesSlope)*slope)
		if math.Abs(move) <= b.exactJ(m) || high-low <= b.exactJ(m) {
			b.e[to], b.powerJ[to] = balanced, gain*stepS
			return true, nil
		}
		next := e + move
		if next <= low || next >= high {
			next = (low + high) / 2
		}
		e = next
	}
	return false, nil
}

func (b *bath) exactJ(m *march) float64 { return b.warm() * 1e-2 * m.tolerance }

func (b *bath) guess(to stage, stepS float64) float64 {
	switch to {
	case middle:
		return (b.e[now] + b.e[coarse]) / 2
	case fine:
		return b.e[coarse]
	}
	return b.e[now] + b.rateW*stepS
}

func (b *bath) bodies(m *march, to, from stage, stepS, timeS, tempC float64) (givenJ, slopeJK float64, ok bool, err error) {
	for _, f := range m.fields {
		if err := f.meet(timeS, tempC); err != nil {
			return 0, 0, false, err
		}
		if !f.relax(to, from, stepS, m.newtonJKg, true) {
			return 0, 0, false, nil
		}
		givenJ += b.count[f] * f.out[to].toPoolJ
		slopeJK += b.count[f] * f.out[to].toPoolJPK
	}
	return givenJ, slopeJK, true, nil
}

// excess is the error of a step in the temperature of the pool, as a part of the kelvins that matter.
func (b *bath) excess() float64 {
	return math.Abs(b.tempC(b.e[fine])-b.tempC(b.e[coarse])) / poolMattersK
}

const poolMattersK = 40

// extrapolate does as the fields do, with the same weights.
func (b *bath) extrapolate() {
	b.e[coarse] = 2*b.e[fine] - b.e[coarse]
	b.powerJ[coarse] = 2*(b.powerJ[middle]+b.powerJ[fine]) - b.powerJ[coarse]
}

func (b *bath) accept(stepS float64) {
	b.rateW = (b.e[coarse] - b.e[now]) / stepS
	b.e[now] = b.e[coarse]
	b.gainedJ += b.powerJ[coarse]
}
