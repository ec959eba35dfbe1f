package plan

import (
	"cmp"
	"context"
	"maps"
	"slices"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/heat"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/massflow"
	"kettlefrost/internal/unit"
)

// MadeFood is what a step of a dish gives, at the scale that the dish is written for.
type MadeFood struct {
	Dish        kitchen.DishID
	Output      kitchen.OutputID
	Name        string           // of the output; the dish's name and the output's id where it has none
	DishName    string           // of the dish
	Mass        unit.Mass        // all of it, what later steps take included
	Composition heat.Composition // adds up to 1
	FreezesC    float64          // from the salt, sugars and alcohol in it
	Assumed     bool             // FreezesC is a soup's usual one, for want of better
	From        unit.Temp        // how warm it leaves its step: as the book says, or that of the mixture to a tenth of a degree
}

// ID names a made food within its book: dish/output.
func (m MadeFood) ID() string { return string(m.Dish) + "/" + string(m.Output) }

// Made is every output of every dish at the scale it is written for, in the order of dishes and outputs. Left out are dishes that cannot
// be solved by themselves (something is missing, or a step gives nothing), outputs of which nothing comes, and those whose composition
// is not known or not that of a food, such as a spirit.
func Made(book kitchen.Book, foods *foodtable.Table) []MadeFood {
	p := newPlanner(context.Background(), book, foods, kitchen.Request{})
	list := []MadeFood{}
	for _, id := range slices.Sorted(maps.Keys(book.Dishes)) {
		d, err := p.compile(id)
		if err != nil {
			continue
		}
		if d.flow, err = massflow.Uniform(d.graph, 1); err != nil {
			continue
		}
		for _, output := range slices.Sorted(maps.Keys(d.outputs)) {
			if m, ok := p.madeOf(d, output); ok {
				list = append(list, m)
			}
		}
	}
	return list
}

func (p *planner) madeOf(d *cooked, id kitchen.OutputID) (MadeFood, bool) {
	ref := d.outputs[id]
	out := d.flow.Steps[ref.Step].Out[ref.Output]
	if !(out.Kg > traceKg) {
		return MadeFood{}, false
	}
	c := contentsOf(d, out, out.Kg)
	x, err := composition(c.fractions)
	if err != nil {
		return MadeFood{}, false
	}
	from := unit.TempC(p.outC(d, ref.Step))
	if s := d.dish.Steps[ref.Step]; s.ReadyAt == nil && s.HeatTo == nil {
		from = tenth(from.C())
	}
	freezes, dishName := p.freezingPointC(c), cmp.Or(d.dish.Name, string(d.id))
	return MadeFood{Dish: d.id, Output: id, Name: cmp.Or(p.output(d, id).Name, dishName+": "+string(id)), DishName: dishName, Mass: mass(out.Kg), Composition: x,
		FreezesC: freezes, Assumed: freezes == heat.DefaultFreezingPointC, From: from}, true
}
