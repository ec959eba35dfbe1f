package learned

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// place is where a figure stands in the book.
type place struct {
	kind Kind
	dish kitchen.DishID
	step string
	part string // output, ingredient or pack
}

// key is the place as a path.
func (p place) key() string {
	step := fmt.Sprintf("dishes/%s/steps/%s", p.dish, p.step)
	switch p.kind {
	case Water, Fat, Drain, ReduceTo, Evaporation, Residue:
		return step + "/loses/" + string(p.kind)
	case Takes, Spread:
		return step + "/gives/" + p.part + "/" + string(p.kind)
	case Trim:
		return "ingredients/" + p.part + "/trim"
	case PackPace:
		return "packs/" + p.part + "/pace"
	case Fills:
		return "packs/" + p.part + "/checks"
	}
	return step + "/" + string(p.kind)
}

// placeOf reads a key; false when it is none of ours.
func placeOf(key string) (place, bool) {
	x := strings.Split(key, "/")
	p := place{}
	switch {
	case len(x) == 3 && x[0] == "ingredients" && x[2] == "trim":
		p = place{kind: Trim, part: x[1]}
	case len(x) == 3 && x[0] == "packs" && x[2] == "pace":
		p = place{kind: PackPace, part: x[1]}
	case len(x) == 3 && x[0] == "packs" && x[2] == "checks":
		p = place{kind: Fills, part: x[1]}
	case len(x) < 5 || x[0] != "dishes" || x[2] != "steps":
		return p, false
	case len(x) == 5:
		p = place{kind: Kind(x[4]), dish: kitchen.DishID(x[1]), step: x[3]}
	case len(x) == 6 && x[4] == "loses":
		p = place{kind: Kind(x[5]), dish: kitchen.DishID(x[1]), step: x[3]}
	case len(x) == 7 && x[4] == "gives":
		p = place{kind: Kind(x[6]), dish: kitchen.DishID(x[1]), step: x[3], part: x[5]}
	}
	return p, p.key() == key
}

// roundTo is the nearest multiple of one part of so many.
func roundTo(x, parts float64) float64 { return math.Round(x*parts) / parts }

const (
	ounceKg = 0.028349523125
	longS   = 120 // a pace from here on is told in minutes
)

// inOunces says whether the book writes a mass in ounces or pounds.
func inOunces(before string) bool {
	return strings.Contains(before, "oz") || strings.Contains(before, "lb")
}

// rounded is a value to what is worth writing: a thousandth of what goes in, a tenth of a kg/m²h, 5 g or a quarter of an ounce of residue, a
// second or a hundredth of a minute of pace, half a minute of time.
func (k Kind) rounded(x float64, before string) float64 {
	switch {
	case k == Evaporation || k == Fills:
		return roundTo(x, 10)
	case k == Residue && inOunces(before):
		return roundTo(x/ounceKg, 4) * ounceKg
	case k == Residue:
		return roundTo(x, 200)
	case k == Pace && x >= longS:
		return roundTo(x/60, 100) * 60
	case k == Pace || k == PackPace:
		return roundTo(x, 1)
	case k == Time:
		return roundTo(x/30, 1) * 30
	case k == Pot:
		return roundTo(x, 100)
	}
	return roundTo(x, 1000)
}

// written is a value as the book writes it.
func (k Kind) written(x float64) string {
	switch {
	case k == Evaporation:
		return unit.Evaporation(x).String()
	case k == Residue:
		return unit.MassKg(x).String()
	case k == Pace && x >= longS:
		return strconv.FormatFloat(roundTo(x/60, 100), 'f', -1, 64) + " min/kg"
	case k == Pace:
		return unit.Pace(x).String()
	case k == PackPace || k == Time:
		return unit.SpanS(x).String()
	case k == Fills:
		return unit.MassKg(roundTo(x, 10) / 1000).String()
	case k == Pot:
		return "as planned"
	}
	return unit.ShareOf(x).String()
}

// read is a value from how the book writes it; none is nothing.
func (k Kind) read(text string) (x float64, err error) {
	switch {
	case text == none || text == "":
		return 0, nil
	case k == Evaporation:
		e, err := unit.ParseEvaporation(text)
		return float64(e), err
	case k == Residue || k == Fills:
		m, err := unit.ParseMass(text)
		return m.Kg(), err
	case k == Pace:
		p, err := unit.ParsePace(text)
		return float64(p), err
	case k == PackPace || k == Time:
		d, err := unit.ParseSpan(text)
		return d.S(), err
	}
	share, err := unit.ParseShare(text)
	return share.F(), err
}

// Show is a value for reading, in a system of units.
func (k Kind) Show(x float64, s unit.System) string {
	switch k {
	case Evaporation:
		return unit.Evaporation(x).Show(s)
	case Residue:
		return unit.MassKg(x).Show(s)
	case Pace:
		return unit.Pace(x).Show(s)
	case PackPace:
		return fmt.Sprintf("%.0f s each", x)
	case Time:
		return fmt.Sprintf("%.3g min", x/60)
	case Fills:
		return fmt.Sprintf("%.2g g", x)
	case Pot:
		return fmt.Sprintf("%.2f × planned", x)
	}
	return fmt.Sprintf("%.3g %%", 100*x)
}

// possible keeps a value within what the book may hold: false when the runs say that there is nothing of it.
func (k Kind) possible(x float64) bool {
	switch k {
	case Water, Fat, Drain, ReduceTo, Takes, Trim, Spread:
		return x > 0 && x < 1
	}
	return x > 0
}

// in is the value of the figure in a book; false when there is none.
func (p place) in(b kitchen.Book) (float64, bool) {
	switch p.kind {
	case Trim:
		g, ok := b.Ingredients[kitchen.IngredientID(p.part)]
		return g.Trim.F(), ok && g.Trim > 0
	case PackPace:
		x, ok := b.Packs[kitchen.PackID(p.part)]
		return x.Pace.S(), ok && x.Pace > 0
	}
	i := slices.IndexFunc(b.Dishes[p.dish].Steps, func(s kitchen.Step) bool { return s.ID == p.step })
	if i < 0 {
		return 0, false
	}
	x := p.ofStep(b.Dishes[p.dish].Steps[i])
	return x, x > 0
}

func (p place) ofStep(s kitchen.Step) float64 {
	switch p.kind {
	case Water:
		return s.Loses.Water.F()
	case Fat:
		return s.Loses.Fat.F()
	case Drain:
		return s.Loses.Drain.F()
	case ReduceTo:
		return s.Loses.ReduceTo.F()
	case Evaporation:
		return float64(s.Loses.Evaporation)
	case Residue:
		return s.Loses.Residue.Kg()
	case Pace:
		return float64(s.Pace)
	case Time:
		return s.Time.S()
	}
	for _, o := range s.Gives {
		if string(o.ID) == p.part && p.kind == Takes {
			return o.Takes.F()
		}
		if string(o.ID) == p.part && p.kind == Spread {
			return o.Spread.F()
		}
	}
	return 0
}

// Put is the book with a figure set to a value, and false when it has no such place. Fills have no single value.
func Put(b kitchen.Book, key string, x float64) (kitchen.Book, bool) {
	p, ok := placeOf(key)
	if !ok {
		return b, false
	}
	switch p.kind {
	case Fills:
		return b, false
	case Trim:
		g, there := b.Ingredients[kitchen.IngredientID(p.part)]
		g.Trim = unit.ShareOf(x)
		b.Ingredients = with(b.Ingredients, kitchen.IngredientID(p.part), g)
		return b, there
	case PackPace:
		g, there := b.Packs[kitchen.PackID(p.part)]
		g.Pace = unit.SpanS(x)
		b.Packs = with(b.Packs, kitchen.PackID(p.part), g)
		return b, there
	}
	d := b.Dishes[p.dish]
	i := slices.IndexFunc(d.Steps, func(s kitchen.Step) bool { return s.ID == p.step })
	if i < 0 {
		return b, false
	}
	d.Steps = slices.Clone(d.Steps)
	ok = p.put(&d.Steps[i], x)
	b.Dishes = with(b.Dishes, p.dish, d)
	return b, ok
}

func with[K comparable, V any](m map[K]V, k K, v V) map[K]V {
	c := make(map[K]V, len(m)+1)
	for i, x := range m {
		c[i] = x
	}
	c[k] = v
	return c
}

func (p place) put(s *kitchen.Step, x float64) bool {
	switch p.kind {
	case Water:
		s.Loses.Water = unit.ShareOf(x)
	case Fat:
		s.Loses.Fat = unit.ShareOf(x)
	case Drain:
		s.Loses.Drain = unit.ShareOf(x)
	case ReduceTo:
		s.Loses.ReduceTo = unit.ShareOf(x)
	case Evaporation:
		s.Loses.Evaporation = unit.Evaporation(x)
	case Residue:
		s.Loses.Residue = unit.MassKg(x)
	case Pace:
		s.Pace = unit.Pace(x)
	case Time:
		s.Time = unit.SpanS(x)
	default:
		s.Gives = slices.Clone(s.Gives)
		i := slices.IndexFunc(s.Gives, func(o kitchen.Output) bool { return string(o.ID) == p.part })
		if i < 0 {
			return false
		}
		if p.kind == Takes {
			s.Gives[i].Takes = unit.ShareOf(x)
		} else {
			s.Gives[i].Spread = unit.ShareOf(x)
		}
	}
	return true
}
