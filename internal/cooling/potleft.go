package cooling

import (
	"math"

	"kettlefrost/internal/conduction"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
	"kettlefrost/internal/series"
)

// PotLeft is thick food left alone in covered pots in air or in water, unstirred: conduction to all sides. It shows why not.
type PotLeft struct {
	Work
	DiameterM         float64 // inside, 0.02 to 3
	FillM3            float64 // food that one may hold
	Have              int
	Side, Top, Bottom medium.Film // Top or Bottom may be all 0: closed
	AirC              float64
}

func (p PotLeft) check() error {
	if err := heat.InRange("diameter of the pot", "m", p.DiameterM, 0.02, 3); err != nil {
		return err
	}
	if err := heat.InRange("filling of the pot", "m³", p.FillM3, 1e-5, 20); err != nil {
		return err
	}
	if err := heat.InRange("air temperature", "°C", p.AirC, coldestMediumC, warmestAirC); err != nil {
		return err
	}
	if err := checkFilm("surface coefficient of the side", p.Side, false, largestFilmWM2K); err != nil {
		return err
	}
	if err := checkFilm("surface coefficient above", p.Top, true, largestFilmWM2K); err != nil {
		return err
	}
	return checkFilm("surface coefficient below", p.Bottom, p.Top != medium.Film{}, largestFilmWM2K)
}

func (p PotLeft) stirs() bool { return false }
func (p PotLeft) work() Work  { return p.Work }

func (p PotLeft) vessels(f Food) Vessels { return potsFor(f, p.FillM3, p.DiameterM, p.Have) }

func (p PotLeft) follow(f Food, startC float64, n int, e errand) (leg, error) {
	depthM := f.volumeM3() / float64(n) / circleM2(p.DiameterM)
	side, top, bottom := e.level.film(p.Side), e.level.film(p.Top), e.level.film(p.Bottom)
	firstW := float64(n) * (side*math.Pi*p.DiameterM*depthM + (top+bottom)*circleM2(p.DiameterM)) * (startC - p.AirC)
	var l leg
	var err error
	if p.AirC < f.Props.FreezingPointC {
		air := conduction.Steady(p.AirC)
		l, err = solidBody{axes: []conduction.Axis{
			{Shape: heat.Cylinder, SizeM: p.DiameterM, High: conduction.Face{FilmWM2K: side, Medium: air}},
			{Shape: heat.Slab, SizeM: depthM, Low: conduction.Face{FilmWM2K: bottom, Medium: air}, High: conduction.Face{FilmWM2K: top, Medium: air}},
		}, count: float64(n), airC: p.AirC}.simulate(f, startC, e)
		l.profile = nil // across the pot, not of its depth
	} else {
		solid := heat.Solid{DensityKgM3: f.Props.DensityKgM3, SpecificHeatJKgK: f.Props.UnfrozenHeatJKgK, ConductivityWMK: f.Props.UnfrozenConductivityWMK}
		l, err = cylinder{
			across: series.Body{Solid: solid, Axes: []series.Axis{{Shape: heat.Cylinder, HalfM: p.DiameterM / 2, FilmWM2K: side}}},
			along:  series.Sheet{Solid: solid, ThicknessM: depthM, BottomFilmWM2K: bottom, TopFilmWM2K: top},
			startC: startC, mediumC: p.AirC, heatJK: f.heatJK(),
		}.follow(e)
	}
	l.peakW = max(0, firstW)
	return l, err
}

// cylinder is a pot as the product of two exact solutions: of a long cylinder and of a layer (Carslaw and Jaeger). The hottest point is
// where both are hottest.
type cylinder struct {
	across          series.Body
	along           series.Sheet
	startC, mediumC float64
	heatJK          float64 // of all pots
}

// core is the part of the way still to go for the hottest point.
func (c cylinder) core(timeS float64) (float64, error) {
	round, err := c.across.TempC(series.Centre, 1, 0, timeS)
	if err != nil {
		return 0, err
	}
	flat, err := c.along.CoreTempC(1, 0, timeS)
	return round * flat, err
}

// mean is the same for the mean.
func (c cylinder) mean(timeS float64) (float64, error) {
	if timeS < c.untouchedS() {
		return 1, nil
	}
	round, err := c.across.TempC(series.Mean, 1, 0, timeS)
	if err != nil {
		return 0, err
	}
	flat, err := c.along.MeanTempC(1, 0, timeS)
	return round * flat, err
}

// untouchedS is up to when the series of the means are not summed: seconds.
func (c cylinder) untouchedS() float64 {
	largestM := max(c.along.ThicknessM, c.across.Axes[0].HalfM)
	alpha, err := c.along.Solid.DiffusivityM2S()
	if err != nil { // the series say so too
		return 0
	}
	return series.LowestFourier * largestM * largestM / alpha
}

func (c cylinder) tempC(theta float64) float64 { return c.mediumC + (c.startC-c.mediumC)*theta }

// timeS is when the hottest point passes tempC, which lies between start and medium: halving with a secant in the logarithm, in which
// the fall is nearly a straight line. False if not by withinS.
func (c cylinder) timeS(tempC, withinS float64) (float64, bool, error) {
	goal := math.Log((tempC - c.mediumC) / (c.startC - c.mediumC))
	excess := func(timeS float64) (float64, error) {
		core, err := c.core(timeS)
		return math.Log(max(core, 1e-300)) - goal, err
	}
	early, late := 0.0, withinS
	atEarly := -goal
	atLate, err := excess(late)
	if err != nil || atLate > 0 {
		return withinS, false, err
	}
	for range 60 {
		if late-early <= 1e-6*late {
			break
		}
		at := early + (late-early)*atEarly/(atEarly-atLate)
		at = min(max(at, early+0.02*(late-early)), late-0.02*(late-early))
		over, err := excess(at)
		if err != nil {
			return 0, false, err
		}
		if over > 0 {
			early, atEarly = at, over
		} else {
			late, atLate = at, over
		}
	}
	return late, true, nil
}

// seriesPoints are enough to draw a smooth curve.
const seriesPoints = 32

func (c cylinder) follow(e errand) (leg, error) {
	l := leg{formula: PotSeries, timeS: e.withinS, endC: c.startC, cautions: []Caution{{Code: OnlyConducts}}}
	if c.mediumC < min(c.startC, e.endC) {
		for _, m := range below(e.marksC, c.startC, e.endC) {
			t, ok, err := c.timeS(m, e.withinS)
			if err != nil {
				return leg{}, err
			}
			if ok {
				l.passed = append(l.passed, passing{m, t})
			}
		}
		var err error
		if l.timeS, l.reached, err = c.timeS(e.endC, e.withinS); err != nil {
			return leg{}, err
		}
	}
	for i := range seriesPoints + 1 {
		t := l.timeS * math.Pow(float64(i)/seriesPoints, 1.5)
		core, err := c.core(t)
		if err != nil {
			return leg{}, err
		}
		mean, err := c.mean(t)
		if err != nil {
			return leg{}, err
		}
		l.points = append(l.points, point{t, c.tempC(core), c.tempC(mean), c.mediumC})
	}
	last := &l.points[seriesPoints]
	if l.reached {
		last.coreC = e.endC
	}
	l.endC = last.coreC
	l.taken.MediumJ = c.heatJK * (c.startC - last.meanC)
	return l, nil
}
