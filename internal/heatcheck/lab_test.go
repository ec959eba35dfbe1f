package heatcheck

import (
	"kettlefrost/internal/conduction"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
)

// lab runs the simulations and remembers what the section on numerics looks at.
type lab struct {
	closures []float64
	cases    []solved
}

// solved is a case with an independent answer.
type solved struct {
	body         conduction.Body
	coreC, wantS float64
	engineeringS float64
	exact        bool // the answer is an exact series
}

func (l *lab) run(b conduction.Body, a conduction.Ask) (conduction.Result, error) {
	r, err := b.Simulate(a)
	if err == nil {
		l.closures = append(l.closures, r.Closure)
	}
	return r, err
}

// coreS is how long the core of a body takes, at the usual accuracy.
func (l *lab) coreS(b conduction.Body, coreC float64) (float64, error) {
	r, err := l.run(b, conduction.Ask{CoreC: coreC})
	return r.TimeS, err
}

// against is coreS beside an independent answer, which then takes part in the measurement of the accuracies; unitS is the unit of want.
func (l *lab) against(want, unitS float64, b conduction.Body, coreC float64) value {
	s, err := l.coreS(b, coreC)
	l.cases = append(l.cases, solved{body: b, coreC: coreC, wantS: want * unitS, engineeringS: s})
	return of(want)(s/unitS, err)
}

const minuteS, hourS = 60.0, 3600.0

// times scales an answer; in is the unit wanted.
func times(scale float64) func(x float64, err error) (float64, error) {
	return func(x float64, err error) (float64, error) { return x * scale, err }
}

var (
	inMinutes = times(1 / minuteS)
	inHours   = times(1 / hourS)
)

// The foods of the derived figures. Soup and braise are assumed recipes with rounded constants; the gel is round numbers near a
// methyl-cellulose gel, from memory. Cold and hot differ in the conductivity of the unfrozen food.
var (
	soupCold   = sevenConstants(1030, 3850, 2040, 282e3, -0.8, 0.54, 1.89)
	soupHot    = sevenConstants(1030, 3850, 2040, 282e3, -0.8, 0.59, 1.89)
	braiseCold = sevenConstants(1050, 3560, 2200, 219e3, -1.2, 0.49, 1.36)
	braiseHot  = sevenConstants(1050, 3560, 2200, 219e3, -1.2, 0.53, 1.36)
	gel        = sevenConstants(1000, 3710, 1900, 215e3, -0.6, 0.50, 1.65)
	crossFood  = sevenConstants(1050, 3600, 2000, 250e3, -1, 0.5, 1.6)
	soupSolid  = heat.Solid{DensityKgM3: 1030, SpecificHeatJKgK: 3850, ConductivityWMK: 0.59}
)

func sevenConstants(rho, cu, cf, a, tf, ku, kf float64) heat.FreezingFood {
	return heat.FreezingFood{DensityKgM3: rho, UnfrozenHeatJKgK: cu, FrozenHeatJKgK: cf, FreezableJKg: a, FreezingPointC: tf,
		UnfrozenConductivityWMK: ku, FrozenConductivityWMK: kf}
}

// stuff is a food or a solid as a material. What is wrong with it comes out in the simulation, which refuses a nil material.
func stuff(what any) conduction.Material {
	var m conduction.Material
	switch w := what.(type) {
	case heat.FreezingFood:
		m, _ = conduction.Food(w)
	case heat.Solid:
		m, _ = conduction.Solid(w)
	case conduction.Pure:
		m = w
	}
	return m
}

func face(filmWM2K, mediumC float64) conduction.Face {
	return conduction.Face{FilmWM2K: filmWM2K, Medium: conduction.Steady(mediumC)}
}

func slab(what any, startC, sizeM float64, f conduction.Face) conduction.Body {
	return conduction.Body{Material: stuff(what), Axes: []conduction.Axis{conduction.Both(sizeM, f)}, StartC: startC}
}

func round(what any, s heat.Shape, startC, diameterM float64, f conduction.Face) conduction.Body {
	return conduction.Body{Material: stuff(what), Axes: []conduction.Axis{{Shape: s, SizeM: diameterM, High: f}}, StartC: startC}
}

func brick(what any, startC float64, f conduction.Face, sizesM ...float64) conduction.Body {
	b := conduction.Body{Material: stuff(what), StartC: startC}
	for _, s := range sizesM {
		b.Axes = append(b.Axes, conduction.Both(s, f))
	}
	return b
}

// layer stands on its bottom.
func layer(what any, startC, depthM float64, bottom, top conduction.Face) conduction.Body {
	return conduction.Body{Material: stuff(what), Axes: []conduction.Axis{{Shape: heat.Slab, SizeM: depthM, Low: bottom, High: top}}, StartC: startC}
}

func can(what any, startC, diameterM, heightM float64, f conduction.Face) conduction.Body {
	return conduction.Body{Material: stuff(what), Axes: []conduction.Axis{{Shape: heat.Cylinder, SizeM: diameterM, High: f}, conduction.Both(heightM, f)}, StartC: startC}
}

func stack(what any, startC, sizeM float64, f conduction.Face, layers int, gapM2KW float64) conduction.Body {
	a := conduction.Both(sizeM, f)
	a.Layers, a.GapM2KW = layers, gapM2KW
	return conduction.Body{Material: stuff(what), Axes: []conduction.Axis{a}, StartC: startC}
}

// known is a film that is known exactly.
func known(wm2k float64) medium.Film {
	return medium.Film{LowWM2K: wm2k, UsualWM2K: wm2k, HighWM2K: wm2k}
}

var (
	solverRow   = source{"second finite-volume program, in another language", derived}
	solverFilm  = source{"second finite-volume program, in another language", assumed}
	explicitRow = source{"explicit three-dimensional program, refined to 0.3 %", derived}
	apart       = source{"the published formula worked out apart from this code", derived}
)
