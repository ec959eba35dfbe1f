package learned

import (
	"fmt"
	"slices"
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
