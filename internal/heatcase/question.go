package heatcase

import (
	"math"

	"kettlefrost/internal/conduction"
	"kettlefrost/internal/coolrule"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/medium"
	"kettlefrost/internal/unit"
	"kettlefrost/internal/vessel"
)

// question is a checked case in the numbers of the engines.
type question struct {
	Case
	asked    Case    // before the defaults
	from, to float64 // °C
	r        resolved
	food     heat.FreezingFood
	marks    []Mark // temperatures to follow, without times
}

func (c Case) question() (question, error) {
	if found := c.Check(); len(found) > 0 {
		return question{}, &CaseError{found}
	}
	q := question{Case: c.WithDefaults(), asked: c}
	q.from, q.to = q.From.C(), q.To.C()
	var err error
	if q.r, err = c.Food.resolve(); err != nil {
		return question{}, err
	}
	q.marks = q.marksOf()
	q.food, err = q.constants(q.r)
	return q, err
}

// marksOf is what is worth knowing on the way, in its order, and the target itself last.
func (q question) marksOf() []Mark {
	var all []Mark
	freezing := Mark{Name: "begins to freeze", TempC: q.r.freezesC}
	switch q.Process {
	case Cool:
		for _, t := range ruleTemps(coolrule.FoodCodeCooked()) {
			all = append(all, Mark{TempC: t})
		}
	case Freeze:
		all = []Mark{freezing, {TempC: -10}, {TempC: -18}}
	default:
		freezing.Name = "thawed"
		all = []Mark{freezing, {TempC: unit.TempF(41).C()}, {TempC: unit.TempF(135).C()}, {TempC: unit.TempF(165).C()}}
	}
	var on []Mark
	low, high := min(q.from, q.to), max(q.from, q.to)
	for _, m := range all {
		if m.TempC > low+sameC && m.TempC < high-sameC {
			on = append(on, m)
		}
	}
	return append(on, Mark{Name: "the target", TempC: q.to})
}

// sameC is the same temperature but for the rounding of a conversion.
const sameC = 1e-6

// ruleTemps is the temperatures of a rule, falling.
func ruleTemps(r coolrule.Rule) []float64 {
	var temps []float64
	for _, s := range r.Stages {
		for _, t := range []float64{s.FromC, s.ToC} {
			if n := len(temps); n == 0 || t < temps[n-1] {
				temps = append(temps, t)
			}
		}
	}
	return temps
}

// body is the food as conduction takes it, with one level of films.
func (q question) body(l level) (conduction.Body, error) {
	material, err := conduction.Food(q.food)
	if err != nil {
		return conduction.Body{}, err
	}
	around, below, above := q.sides()
	s := q.Shape
	up := conduction.Axis{Shape: heat.Slab, Low: q.face(below, l), High: q.face(above, l)}
	if q.Open {
		up.High.Wet = wetness[l]
	}
	b := conduction.Body{Material: material, StartC: q.from}
	switch s.Kind {
	case Pot:
		up.SizeM = s.Depth.M()
		b.Axes = []conduction.Axis{up, {Shape: heat.Cylinder, SizeM: s.Diameter.M(), High: q.face(around, l)}}
	case Brick:
		up.SizeM = s.Height.M()
		b.Axes = []conduction.Axis{up, conduction.Both(s.Length.M(), q.face(around, l)), conduction.Both(s.Width.M(), q.face(around, l))}
	default:
		up.Layers = max(1, s.Stack)
		up.SizeM = s.Thickness.M() * float64(up.Layers)
		if up.Layers > 1 && !s.Touching {
			up.GapM2KW = medium.AirGapM2KW
		}
		b.Axes = []conduction.Axis{up}
	}
	return b, nil
}

// wetness is the share of an open surface that evaporates; the low level takes what the published table may be too high by.
var wetness = [...]float64{usualFilm: 1, lowFilm: 1 - vessel.EvaporationSpread, highFilm: 1}

func (q question) face(s side, l level) conduction.Face {
	return conduction.Face{FilmWM2K: l.of(q.through(s)), Medium: conduction.Steady(s.tempC)}
}

// volumeM3 is that of a pot or brick; 0 for what is flat, whose face is not known.
func (s Shape) volumeM3() float64 {
	switch s.Kind {
	case Pot:
		return math.Pi / 4 * s.Diameter.M() * s.Diameter.M() * s.Depth.M()
	case Brick:
		return s.Length.M() * s.Width.M() * s.Height.M()
	}
	return 0
}

// pieceKg is what one piece weighs; 0 when that is not known.
func (q question) pieceKg() float64 {
	if v := q.Shape.volumeM3(); v > 0 {
		return v * q.food.DensityKgM3
	}
	return q.Piece.Kg()
}

// simulate follows the food with one level of films.
func (q question) simulate(l level) (Run, []Reach, error) {
	b, err := q.body(l)
	if err != nil {
		return Run{}, nil, err
	}
	ask := conduction.Ask{CoreC: q.to}
	if q.Shape.flat() { // quick enough in one direction, and a smoother picture
		ask.Accuracy = conduction.Fine
	}
	last := len(q.marks) - 1
	for _, m := range q.marks[:last] {
		ask.MarksC = append(ask.MarksC, m.TempC)
	}
	x, err := b.Simulate(ask)
	if err != nil {
		return Run{}, nil, err
	}
	var reached []Reach
	for _, p := range x.Passed {
		reached = append(reached, Reach{p.Reached, p.TimeS})
	}
	reached = append(reached, Reach{x.Reached, x.TimeS})
	run := Run{Film: filmNames[l], Reached: x.Reached, TimeS: x.TimeS, Closure: x.Closure, Cells: x.Cells, Steps: x.Steps, Curve: curve(x.Points), Profiles: profiles(x.Profiles)}
	if n := len(x.Points); n > 0 {
		run.EndCoreC = x.Points[n-1].CoreC
	}
	return run, reached, nil
}

var filmNames = [...]string{usualFilm: "usual", lowFilm: "low", highFilm: "high"}
