package heatcase

import (
	"fmt"
	"math"

	"kettlefrost/internal/freezing"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/series"
)

// What the methods are called and where they come from.
const (
	seriesName   = "exact series"
	seriesSource = "Carslaw and Jaeger; any textbook of heat transfer"
	phamName     = "Pham"
	phamSource   = "Pham (1986), formula from memory"
	plankName    = "Plank"
	plankSource  = "Plank; Encyclopaedia of Food Sciences and Nutrition"
)

// methods are the handbook formulas for the same question at the usual film, against the simulated time.
func (q question) methods(simulatedS float64) []Method {
	switch {
	case q.Stir != Unstirred:
		return []Method{}
	case q.Process == Freeze:
		return q.freezingFormulas(simulatedS)
	}
	return []Method{q.exactSeries().against(simulatedS)}
}

func (m Method) against(simulatedS float64) Method {
	if m.Applies && simulatedS > 0 {
		m.OffPct = 100 * (m.TimeS/simulatedS - 1)
	}
	return m
}

// not is a method that does not apply.
func (m Method) not(why string) Method {
	m.Note = why
	return m
}

// done is a method with its time, or why it has none.
func (m Method) done(timeS float64, err error, note string) Method {
	if err != nil {
		return m.not(plainRange(err))
	}
	m.Applies, m.TimeS, m.Note = true, timeS, note
	return m
}

// exactSeries is the solution for constant properties without freezing or evaporation.
func (q question) exactSeries() Method {
	m := Method{Name: seriesName, Source: seriesSource}
	around, below, above := q.sides()
	solid := heat.Solid{DensityKgM3: q.food.DensityKgM3, SpecificHeatJKgK: q.food.UnfrozenHeatJKgK, ConductivityWMK: q.food.UnfrozenConductivityWMK}
	note := "nothing freezes or evaporates in it"
	switch b, alike := q.upright(below, above); {
	case min(q.from, q.to) < q.r.freezesC:
		return m.not("it knows no thawing")
	case q.Shape.Stack > 1 && !q.Shape.Touching:
		return m.not("it knows no gaps between bags")
	case !oneTemp(q.met()):
		return m.not("it knows one temperature all round only")
	case q.Shape.flat():
		s := series.Sheet{Solid: solid, ThicknessM: q.Shape.Thickness.M() * float64(max(1, q.Shape.Stack)), BottomFilmWM2K: q.through(below).UsualWM2K, TopFilmWM2K: q.through(above).UsualWM2K}
		t, err := s.CoreTimeS(q.from, q.met()[0].tempC, q.to)
		return m.done(t, err, note)
	case !alike:
		return m.not("it knows the same coefficient below and above only")
	default:
		b := series.Body{Solid: solid, Axes: append(q.acrossAxes(q.through(around).UsualWM2K), b)}
		t, err := b.CentreTimeS(q.from, around.tempC, q.to)
		return m.done(t, err, note)
	}
}

// upright is the upright direction of a pot or brick, if below and above are alike or one is closed.
func (q question) upright(below, above side) (series.Axis, bool) {
	height := q.Shape.Depth.M() + q.Shape.Height.M() // one of them is 0
	low, high := q.through(below).UsualWM2K, q.through(above).UsualWM2K
	switch {
	case low == high:
		return series.Axis{Shape: heat.Slab, HalfM: height / 2, FilmWM2K: low}, true
	case low == 0 || high == 0:
		return series.Axis{Shape: heat.Slab, HalfM: height, FilmWM2K: low + high}, true
	}
	return series.Axis{}, false
}

// acrossAxes is the other directions of a pot or brick.
func (q question) acrossAxes(filmWM2K float64) []series.Axis {
	if q.Shape.Kind == Pot {
		return []series.Axis{{Shape: heat.Cylinder, HalfM: q.Shape.Diameter.M() / 2, FilmWM2K: filmWM2K}}
	}
	return []series.Axis{{Shape: heat.Slab, HalfM: q.Shape.Length.M() / 2, FilmWM2K: filmWM2K}, {Shape: heat.Slab, HalfM: q.Shape.Width.M() / 2, FilmWM2K: filmWM2K}}
}

func oneTemp(sides []side) bool {
	for _, s := range sides {
		if math.Abs(s.tempC-sides[0].tempC) > sameC {
			return false
		}
	}
	return true
}

// freezingFormulas is Pham's and Plank's, where they hold: one film and one temperature, a slab or a brick.
func (q question) freezingFormulas(simulatedS float64) []Method {
	pham, plank := Method{Name: phamName, Source: phamSource}, Method{Name: plankName, Source: plankSource}
	f, shapeNote, why := q.freezingBody()
	if why != "" {
		return []Method{pham.not(why), plank.not(why)}
	}
	t, err := f.TimeS()
	pham = pham.done(t, err, join("0.91 to 1.12 of a full solution in the cases tried (derived)", shapeNote))
	p, err := f.Plank()
	if err == nil {
		t, err = p.TimeS()
	}
	plank = plank.done(t/dimensions(f), err, join("leaves out all sensible heat: 13 to 34 % short in the cases tried (derived)", shapeNote))
	return []Method{pham.against(simulatedS), plank.against(simulatedS)}
}

func join(a, b string) string {
	if b == "" {
		return a
	}
	return a + "; " + b
}

// dimensions is what a brick's time is divided by: Plank's formula here is that of a slab.
func dimensions(f freezing.Freeze) float64 { return max(1, f.Dimensionality) }

// freezingBody is the food for the formulas, or why they do not hold.
func (q question) freezingBody() (f freezing.Freeze, note, why string) {
	around, below, above := q.sides()
	low, high := q.through(below).UsualWM2K, q.through(above).UsualWM2K
	film, size := max(low, high), q.Shape.Thickness.M()*float64(max(1, q.Shape.Stack))
	switch {
	case !oneTemp(q.met()):
		return f, "", "it knows one temperature all round only"
	case q.Shape.Kind == Pot:
		return f, "", "no formula for a short cylinder is at hand"
	case q.Shape.Stack > 1 && !q.Shape.Touching:
		return f, "", "it knows no gaps between bags"
	case low != high && low != 0 && high != 0, q.Shape.Kind == Brick && (low != high || low != q.through(around).UsualWM2K):
		return f, "", "it knows one surface coefficient all round only"
	case low != high: // one face closed: half of a layer twice as thick
		size *= 2
	}
	f = freezing.Freeze{Food: q.food, Shape: heat.Slab, SizeM: size, FilmWM2K: film, StartC: q.from, AirC: q.met()[0].tempC, CoreC: q.to, Dimensionality: 1}
	if q.Shape.Kind == Brick {
		return q.brick(f)
	}
	return f, "", ""
}

// brick divides the slab's time by how many slabs' worth of surface work on a brick.
func (q question) brick(f freezing.Freeze) (freezing.Freeze, string, string) {
	a, b, c := sorted(q.Shape.Length.M(), q.Shape.Width.M(), q.Shape.Height.M())
	f.SizeM = a
	frozenK, err := q.food.ConductivityWMK(q.to)
	if err == nil {
		f.Dimensionality, err = freezing.Dimensionality(f.FilmWM2K*a/2/frozenK, b/a, c/a)
	}
	if err != nil {
		return f, "", plainRange(err)
	}
	return f, fmt.Sprintf("divided by %.3g for a brick, which is 5 to 22 %% too much (derived)", f.Dimensionality), ""
}

func sorted(a, b, c float64) (float64, float64, float64) {
	low, high := min(a, b, c), max(a, b, c)
	return low, a + b + c - low - high, high
}
