package plan

import (
	"math"

	"kettlefrost/internal/conduction"
	"kettlefrost/internal/freezing"
	"kettlefrost/internal/unit"
)

// curvePoints is how many moments of a curve are kept: enough for a picture as wide as a tablet.
const curvePoints = 48

// curveOf is a simulation as a curve, thinned evenly in time but with its first and last point.
func curveOf(points []conduction.Point) Curve {
	if len(points) == 0 {
		return Curve{}
	}
	end := points[len(points)-1].TimeS
	c := Curve{}
	nextS := 0.0
	for i, p := range points {
		if p.TimeS < nextS && i < len(points)-1 {
			continue
		}
		nextS = p.TimeS + end/curvePoints
		c = append(c, CurvePoint{Time: seconds(p.TimeS), Core: tenth(p.CoreC), Surface: new(tenth(p.SurfaceC)), Medium: new(tenth(p.MediumC))})
	}
	return c
}

// band puts the cores of two other simulations beside a curve.
func (c Curve) band(slow, fast []conduction.Point) Curve {
	for i := range c {
		at := c[i].Time.S()
		c[i].Slow, c[i].Fast = coreAt(slow, at), coreAt(fast, at)
	}
	return c
}

// cabinetCurve is how warm a freezer gets with its loads: its old stock as the core, its air as the medium.
func cabinetCurve(l freezing.Loaded) Curve {
	air := make([]conduction.Point, len(l.Air))
	for i, p := range l.Air {
		air[i] = conduction.Point{TimeS: p.TimeS, CoreC: p.TempC}
	}
	points := l.Stock
	if len(points) == 0 {
		points = air
	}
	c := curveOf(points)
	for i := range c {
		c[i].Surface, c[i].Medium = nil, nil
		if len(l.Stock) > 0 {
			c[i].Medium = coreAt(air, c[i].Time.S())
		}
	}
	return c
}

// coreAt is the core at a time, between two points by a straight line; nil when nothing was followed, the last when it ended before.
func coreAt(points []conduction.Point, timeS float64) *unit.Temp {
	if len(points) == 0 {
		return nil
	}
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		if timeS <= b.TimeS && b.TimeS > a.TimeS {
			return new(tenth(a.CoreC + (b.CoreC-a.CoreC)*max(0, timeS-a.TimeS)/(b.TimeS-a.TimeS)))
		}
	}
	return new(tenth(points[len(points)-1].CoreC))
}

func seconds(s float64) unit.Span { return unit.Span(math.Round(s)) * unit.Second }

// tenth is a temperature to a tenth of a degree: no prediction is finer.
func tenth(c float64) unit.Temp { return unit.TempC(math.Round(c*10) / 10) }
