package web

import (
	"math"
	"net/url"

	"kettlefrost/internal/heatcase"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/medium"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// trial is a simple way of chilling as a question whose depth can be moved.
type trial struct {
	url.Values
	way kitchen.Chilling
	own unit.Film // what the book knows of the way's medium; 0 is the published range
}

// tryAddress asks about pans or a pot left alone, of what is to be cooled; "" for other ways. A pot is taken as full as the book lets it
// be.
func tryAddress(book kitchen.Book, c plan.Chill, o plan.ChillOption, r reader) string {
	way, ok := book.Chilling[kitchen.ChillingID(o.ID)]
	if !ok {
		return ""
	}
	t := trial{url.Values{ofKey: {c.Dish + "/" + c.Output}, "process": {string(heatcase.Cool)}, "in": {airOf(way)}, "from": {readableTemp(c.From, r.units)}, "units": {r.units.String()}},
		way, book.Media[way.In].Usual}
	if way.Medium != nil {
		t.Set("at", readableTemp(*way.Medium, r.units))
	}
	switch way.Method {
	case kitchen.ShallowPans:
		t.pan(r.units)
	case kitchen.PotInAir:
		shape, ok := fullPot(book.Equipment[way.Vessel])
		if !ok || t.film(way.Wall) == 0 && way.In == "" {
			return ""
		}
		t.pot(shape, r.units)
	default:
		return ""
	}
	return heatPath + "?" + t.Encode()
}

// film is a face's surface coefficient: its own, or what the book knows of the medium.
func (t trial) film(face unit.Film) unit.Film {
	if face > 0 {
		return face
	}
	return t.own
}

func (t trial) pan(units unit.System) {
	t.Set("pan", readable(t.way.Depth, units, unit.ParseLength))
	if t.way.Open {
		t.Set("open", "yes")
	}
	if top := t.film(t.way.Top); top > 0 && top == t.film(t.way.Bottom) {
		t.Set("film", top.String())
		return
	}
	t.side("above", t.way.Top)
	t.side("below", t.way.Bottom)
}

func (t trial) pot(shape heatcase.Shape, units unit.System) {
	t.Set("pot", sizes(shape, units))
	if wall := t.film(t.way.Wall); wall > 0 {
		t.Set("film", wall.String())
	}
	t.side("above", t.way.Top)
	t.side("below", t.way.Bottom)
}

// side says a face's coefficient. One that neither the way nor its medium says is closed, as the plan has it; one that only the medium
// says has to name it where another face's coefficient stands already.
func (t trial) side(key string, face unit.Film) {
	switch film := t.film(face); {
	case film > 0:
		t.Set(key+"-film", film.String())
	case t.way.In == "":
		t.Set(key, heatcase.Closed)
	case t.Has("film"):
		t.Set(key, string(t.way.In))
		if t.Has("at") {
			t.Set(key+"-at", t.Get("at"))
		}
	}
}

// airOf is what a way stands in. Where the book gives coefficients alone, it is the cold air that has such.
func airOf(way kitchen.Chilling) string {
	if way.In != "" {
		return string(way.In)
	}
	const moving, still = "walk-in-fan", "still-air"
	if m, ok := medium.Find(moving); ok && float64(max(way.Top, way.Bottom, way.Wall)) >= m.Film.LowWM2K {
		return moving
	}
	return still
}

// fullPot is the food in a pot at its working volume, its depth to a millimetre.
func fullPot(e kitchen.Equipment) (heatcase.Shape, bool) {
	litres := e.Volume.L()
	if e.Working > 0 {
		litres *= e.Working.F()
	}
	d := e.Diameter.M()
	if !(d > 0 && litres > 0) {
		return heatcase.Shape{}, false
	}
	depth := litres / 1000 / (math.Pi / 4 * d * d)
	return heatcase.Shape{Kind: heatcase.Pot, Diameter: e.Diameter, Depth: unit.LengthM(math.Round(depth*1000) / 1000)}, true
}
