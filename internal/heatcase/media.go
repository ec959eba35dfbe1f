package heatcase

import (
	"math"

	"kettlefrost/internal/medium"
)

// The media inside a stirred pot.
const (
	insideThin  = "stirred-broth"
	insideThick = "stirred-thick"
)

// side is what one side of the food meets, package not included.
type side struct {
	name   string // "all round", "below", "above"
	medium medium.Medium
	film   medium.Film // of the medium itself
	tempC  float64
	closed bool
	given  bool // the film is the cook's own
}

// sides is what the three sides meet. An unknown medium gives a side with nothing known; Check finds it first.
func (c Case) sides() (around, below, above side) {
	around = resolveSide("all round", c.Around)
	below, above = c.inherit("below", c.Below, around), c.inherit("above", c.Above, around)
	return around, below, above
}

func resolveSide(name string, s Surroundings) side {
	m, _ := medium.Find(s.Medium)
	r := side{name: name, medium: m, film: m.Film, tempC: m.TempC, closed: s.Medium == Closed}
	if s.At != nil {
		r.tempC = s.At.C()
	}
	if s.Film != nil {
		r.film, r.given = medium.Spread(float64(*s.Film)), true
	}
	return r
}

// inherit is a side that is like the one all round but for what is said of it.
func (c Case) inherit(name string, s Surroundings, around side) side {
	if s.Medium != "" {
		return resolveSide(name, s)
	}
	r := around
	r.name = name
	if s.At != nil {
		r.tempC = s.At.C()
	}
	if s.Film != nil {
		r.film, r.given = medium.Spread(float64(*s.Film)), true
	}
	return r
}

// met is the sides that the food exchanges heat through.
func (c Case) met() []side {
	around, below, above := c.sides()
	all := []side{below, above}
	if !c.Shape.flat() {
		all = append(all, around)
	}
	var open []side
	for _, s := range all {
		if !s.closed {
			open = append(open, s)
		}
	}
	return open
}

// coldest is the lowest temperature around the food.
func (c Case) coldest() (float64, bool) {
	low := math.Inf(1)
	for _, s := range c.met() {
		low = min(low, s.tempC)
	}
	return low, !math.IsInf(low, 0)
}

// warmestC is the highest temperature around the food; minus infinity when nothing is.
func (c Case) warmestC() float64 {
	high := math.Inf(-1)
	for _, s := range c.met() {
		high = max(high, s.tempC)
	}
	return high
}

// resistanceM2KW is that of the package, m²·K/W, on one side.
func (c Case) resistanceM2KW(s side) float64 {
	switch c.Package {
	case Film:
		if s.medium.ID == "simmering-water" && !s.given {
			return 0 // its coefficients are those through a bag's film already
		}
		return medium.BagFilmM2KW
	case Carton:
		return medium.CartonM2KW
	case AirGap:
		return medium.AirMmM2KW
	}
	return 0
}

// through is the film of a side as the food meets it, package included; nothing for a closed side.
func (c Case) through(s side) medium.Film {
	if s.closed {
		return medium.Film{}
	}
	return s.film.Through(c.resistanceM2KW(s))
}

// level is one end or the middle of the range of films.
type level int

const (
	usualFilm level = iota
	lowFilm
	highFilm
)

func (l level) of(f medium.Film) float64 {
	switch l {
	case lowFilm:
		return f.LowWM2K
	case highFilm:
		return f.HighWM2K
	}
	return f.UsualWM2K
}
