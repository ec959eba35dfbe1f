package cooling

import (
	"errors"

	"kettlefrost/internal/conduction"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
)

// Pans are unstirred layers of food in air. All pans of the load go in at once, each filled to DepthM but for the last. Heat through the
// sides is left out.
type Pans struct {
	Work
	LengthM, WidthM float64 // inside, 0.02 to 3
	DepthM          float64 // of the food, 0.001 to 1
	Have            int
	Top, Bottom     medium.Film // one of them may be all 0: closed
	AirC            float64
	Wet             float64 // share of the surface that evaporates, 0 under a lid to 1 for thin open soup

	// CoolingW is the heat that the cabinet's machine can take out at AirC, 0 if not known: then the air stays at AirC. When the pans give
	// off more, they warm the air, and no evaporation is counted.
	CoolingW  float64
	AirHeatJK float64 // of the air, shelves and pans in the cabinet; 0 is that of 40 kg of steel
}

// rackHeatJK is 40 kg of steel at 0.5 kJ/(kg·K), a rack and its pans (common practice). It counts for little: the pans' heat is some hundred
// times as much.
const rackHeatJK = 20e3

const (
	smallestPanM, largestPanM = 0.02, 3
	shallowestM, deepestPanM  = 0.001, 1
)

func (p Pans) check() error {
	if err := checkFilm("surface coefficient above", p.Top, true, largestFilmWM2K); err != nil {
		return err
	}
	if err := checkFilm("surface coefficient below", p.Bottom, true, largestFilmWM2K); err != nil {
		return err
	}
	for _, x := range []struct {
		what, unit         string
		value, least, most float64
	}{
		{"length of the pan", "m", p.LengthM, smallestPanM, largestPanM},
		{"width of the pan", "m", p.WidthM, smallestPanM, largestPanM},
		{"depth of the food", "m", p.DepthM, shallowestM, deepestPanM},
		{"air temperature", "°C", p.AirC, coldestMediumC, warmestAirC},
		{"wet share of the surface", "", p.Wet, 0, 1},
		{"cooling power", "W", p.CoolingW, 0, 1e7},
		{"heat capacity of the cabinet", "J/K", p.AirHeatJK, 0, 1e9},
	} {
		if err := heat.InRange(x.what, x.unit, x.value, x.least, x.most); err != nil {
			return err
		}
	}
	return nil
}

func (p Pans) stirs() bool { return false }
func (p Pans) work() Work  { return p.Work }

func (p Pans) vessels(f Food) Vessels {
	need := atLeast(f.volumeM3() / (p.LengthM * p.WidthM * p.DepthM))
	return Vessels{Need: need, Have: p.Have, FootprintM2: float64(need) * p.LengthM * p.WidthM}
}

// areaM2 is how much the whole load covers.
func (p Pans) areaM2(f Food) float64 { return f.volumeM3() / p.DepthM }

// firstW is what the load gives off when it goes in.
func (p Pans) firstW(f Food, startC float64, l level) float64 {
	return p.areaM2(f) * ((l.film(p.Top)+l.film(p.Bottom))*(startC-p.AirC) + l.wet(p.Wet)*evaporationWM2(startC, p.AirC))
}

func (p Pans) follow(f Food, startC float64, _ int, e errand) (leg, error) {
	// More is given off at first with a better film, but it is the same machine: whether it is overloaded is asked of the high film for all
	// three, so that they are computed alike.
	overloaded := p.CoolingW > 0 && p.firstW(f, startC, high) > p.CoolingW
	top := conduction.Face{FilmWM2K: e.level.film(p.Top), Wet: e.level.wet(p.Wet)}
	bottom := conduction.Face{FilmWM2K: e.level.film(p.Bottom)}
	if overloaded {
		top.Wet = 0 // warm air that is shut in with the pans is damp and takes up no more, and its vapour is the machine's to carry too
	} else {
		top.Medium, bottom.Medium = conduction.Steady(p.AirC), conduction.Steady(p.AirC)
	}
	b := solidBody{axes: []conduction.Axis{{Shape: heat.Slab, SizeM: p.DepthM, Low: bottom, High: top}}, count: p.areaM2(f), airC: p.AirC}
	if overloaded {
		b.pool = &conduction.Pool{StartC: p.AirC, HeatCapacityJK: p.AirHeatJK, SetC: p.AirC, PowerW: p.CoolingW, Cools: true, AmbientC: p.AirC}
		if p.AirHeatJK == 0 {
			b.pool.HeatCapacityJK = rackHeatJK
		}
	}
	l, err := b.simulate(f, startC, e)
	if err != nil {
		return leg{}, err
	}
	l.peakW = p.firstW(f, startC, e.level)
	if p.Wet > 0 {
		l.cautions = append(l.cautions, Caution{Code: Uncovered, Value: p.Wet})
	}
	return l, nil
}

// solidBody is unstirred food: a number of equal bodies (m² of a layer), in steady air or in a pool.
type solidBody struct {
	axes  []conduction.Axis
	count float64
	airC  float64
	pool  *conduction.Pool
}

const (
	nearestK = 1e-3 // nearer to the temperature of the air, food is not followed
	warmsK   = 0.5  // air that warms by less is as cold as it was
)

func (b solidBody) simulate(f Food, startC float64, e errand) (leg, error) {
	material, err := conduction.Food(f.Props)
	if err != nil {
		return leg{}, err
	}
	body := conduction.Body{Material: material, Axes: b.axes, StartC: startC}
	// What the air cannot do is followed as far as it goes.
	ask := conduction.Ask{CoreC: max(e.endC, b.airC+nearestK), MarksC: below(e.marksC, startC, e.endC), WithinS: max(1, e.withinS)}
	if ask.CoreC >= startC {
		return b.stays(startC, ask.WithinS), nil
	}
	l := leg{formula: FiniteVolume}
	var r conduction.Result
	if b.pool == nil {
		r, err = body.Simulate(ask)
	} else {
		l.formula = SharedAir
		var all conduction.PoolResult
		if all, err = b.pool.Simulate([]conduction.Batch{{Body: body, Count: b.count}}, ask); err == nil {
			r = all.Batches[0]
			if most := warmest(all.Points); most > b.airC+warmsK {
				l.cautions = append(l.cautions, Caution{Code: AirWarms, Value: most})
			}
		}
	}
	var never *heat.NeverError
	if errors.As(err, &never) {
		return b.stays(startC, ask.WithinS), nil
	}
	if err != nil {
		return leg{}, err
	}
	l.reached, l.timeS = r.Reached && ask.CoreC == e.endC, r.TimeS
	l.taken.MediumJ = r.GivenOffJ * b.count
	for _, p := range r.Points {
		l.points = append(l.points, point{p.TimeS, p.CoreC, p.MeanC, p.MediumC})
	}
	l.endC = l.points[len(l.points)-1].coreC
	if l.reached {
		l.endC = e.endC
	}
	for _, m := range r.Passed {
		if m.Reached {
			l.passed = append(l.passed, passing{m.TempC, m.TimeS})
		}
	}
	if n := len(r.Profiles); n > 0 {
		l.profile = r.Profiles[n-1].Places
	}
	l.cautions = append(l.cautions, Caution{Code: OnlyConducts})
	if b.airC < f.Props.FreezingPointC {
		l.cautions = append(l.cautions, Caution{Code: SurfaceFreezes, Value: b.airC})
	}
	return l, nil
}

// stays is food that the air does not cool.
func (b solidBody) stays(startC, timeS float64) leg {
	return leg{formula: FiniteVolume, timeS: timeS, endC: startC, points: []point{{0, startC, startC, b.airC}, {timeS, startC, startC, b.airC}}}
}

func warmest(points []conduction.PoolPoint) float64 {
	most := points[0].TempC
	for _, p := range points {
		most = max(most, p.TempC)
	}
	return most
}
