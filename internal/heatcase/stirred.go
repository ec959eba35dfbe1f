package heatcase

import (
	"math"

	"kettlefrost/internal/medium"
	"kettlefrost/internal/vessel"
)

// wallM2KW is the wall of a pot, a few millimetres of metal: 1e-4 m²·K/W (judgement).
const wallM2KW = 1e-4

// overall is the overall coefficient of a stirred pot: the cook's own with 30 % either way, or the film inside, the wall and the film
// outside in series.
func (q question) overall() medium.Film {
	if q.U != nil {
		return medium.Spread(float64(*q.U))
	}
	id := insideThin
	if q.Stir == StirredThick {
		id = insideThick
	}
	in, _ := medium.Find(id)
	around, _, _ := q.sides()
	out := q.through(around)
	return medium.Film{LowWM2K: inSeries(in.Film.LowWM2K, out.LowWM2K), UsualWM2K: inSeries(in.Film.UsualWM2K, out.UsualWM2K), HighWM2K: inSeries(in.Film.HighWM2K, out.HighWM2K)}
}

func inSeries(insideWM2K, outsideWM2K float64) float64 {
	return 1 / (1/insideWM2K + wallM2KW + 1/outsideWM2K)
}

// exchangeM2 is what a stirred pot gives heat through: its side and base in a liquid, and the top as well in air.
func (q question) exchangeM2() float64 {
	around, _, _ := q.sides()
	area := math.Pi*q.Shape.Diameter.M()*q.Shape.Depth.M() + q.baseM2()
	if !around.medium.Wet {
		area += q.baseM2()
	}
	return area
}

// baseM2 is the base of a pot.
func (q question) baseM2() float64 { return math.Pi / 4 * q.Shape.Diameter.M() * q.Shape.Diameter.M() }

// vessel is the stirred pot with one level of films.
func (q question) vessel(l level) vessel.Vessel {
	return vessel.Vessel{HeatCapacityJK: q.pieceKg() * q.food.UnfrozenHeatJKgK, LossWK: l.of(q.overall()) * q.exchangeM2()}
}

// stirred follows a stirred pot by Newton's law of cooling.
func (q question) stirred(l level) (Run, []Reach, error) {
	v := q.vessel(l)
	around, _, _ := q.sides()
	var reached []Reach
	for _, m := range q.marks {
		t, err := v.TimeS(q.from, around.tempC, m.TempC)
		if err != nil {
			return Run{}, nil, err
		}
		reached = append(reached, Reach{true, t})
	}
	end := reached[len(reached)-1].TimeS
	run := Run{Film: filmNames[l], Reached: true, TimeS: end, EndCoreC: q.to}
	for i := range curvePoints {
		t := end * float64(i) / (curvePoints - 1)
		c, err := v.TempC(q.from, around.tempC, t)
		if err != nil {
			return Run{}, nil, err
		}
		run.Curve = append(run.Curve, CurvePoint{TimeS: t, CoreC: c, SurfaceC: c, MeanC: c, MediumC: around.tempC})
	}
	return run, reached, nil
}
