package plan

import (
	"cmp"
	"context"
	"fmt"
	"maps"
	"slices"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/massflow"
	"kettlefrost/internal/unit"
)

// Inside is what one pack holds, what it is filled beyond its label included.
type Inside struct {
	Net    unit.Mass // on the label
	Filled unit.Mass // on average
	Held   []Held    // in the order of their ids
	KgPerL float64   // of all of it at 20 °C, from its composition and without air in it; 0 when nothing is known
}

// Kg is the mass of what is held, with what it has lost taken off.
func (in Inside) Kg() float64 {
	kg := 0.0
	for _, h := range in.Held {
		kg += h.Kg()
	}
	return kg
}

// inside is what a pack holds that is filled with so many kilograms of each output.
func (d *cooked) inside(each map[kitchen.OutputID]float64) Inside {
	at := map[kitchen.IngredientID]*Held{}
	var all Inside
	for _, id := range slices.Sorted(maps.Keys(each)) { // in one order, so that sums come out the same to the last bit
		kg, ref := each[id], d.outputs[id]
		out := d.flow.Steps[ref.Step].Out[ref.Output]
		if out.Kg <= 0 {
			continue
		}
		for _, h := range d.held(out.Stream) {
			if at[h.Of] == nil {
				at[h.Of] = &Held{Of: h.Of}
			}
			at[h.Of].add(h, kg/out.Kg)
		}
	}
	for _, h := range at {
		all.Held = append(all.Held, *h)
	}
	slices.SortFunc(all.Held, func(a, b Held) int { return cmp.Compare(a.Of, b.Of) })
	all.KgPerL = all.density(d.graph.DensityKgL)
	return all
}

// add adds a share of another.
func (h *Held) add(other Held, share float64) {
	h.PutIn += share * other.PutIn
	h.Water += share * other.Water
	h.Protein += share * other.Protein
	h.Fat += share * other.Fat
	h.Carb += share * other.Carb
	h.Fibre += share * other.Fibre
	h.Ash += share * other.Ash
	h.Alcohol += share * other.Alcohol
	h.OtherMass += share * other.OtherMass
}

// density is that of a mixture: its volumes add up.
func (in Inside) density(alone massflow.Fractions) float64 {
	litres := 0.0
	for _, h := range in.Held {
		left := massflow.Fractions{massflow.Water: h.Water, massflow.Protein: h.Protein, massflow.Fat: h.Fat, massflow.Carbohydrate: h.Carb,
			massflow.Fibre: h.Fibre, massflow.Ash: h.Ash, massflow.Alcohol: h.Alcohol, massflow.Other: h.OtherMass}
		for component, kg := range left {
			if alone[component] > 0 {
				litres += kg / alone[component]
			}
		}
	}
	if litres <= 0 {
		return 0
	}
	return in.Kg() / litres
}

// InsideOf is what one pack holds when its dish is cooked at the scale that it is written for, filled to its label. Errors: a pack that is not
// there, or whose dish cannot be solved.
func InsideOf(book kitchen.Book, foods *foodtable.Table, id kitchen.PackID) (Inside, error) {
	pack, there := book.Packs[id]
	if !there {
		return Inside{}, fmt.Errorf("there is no pack %q", id)
	}
	p := newPlanner(context.Background(), book, foods, kitchen.Request{})
	if _, there := book.Dishes[pack.Dish]; !there {
		return Inside{}, fmt.Errorf("pack %s: there is no dish %q", id, pack.Dish)
	}
	d, err := p.compile(pack.Dish)
	if err == nil {
		d.flow, err = massflow.Uniform(d.graph, 1)
	}
	if err != nil {
		return Inside{}, fmt.Errorf("dish %s: %s", pack.Dish, p.named(d, err))
	}
	each := map[kitchen.OutputID]float64{}
	net := unit.Mass(0)
	for _, f := range pack.Fill {
		if _, there := d.outputs[f.Of]; !there {
			return Inside{}, fmt.Errorf("pack %s: no step of dish %s gives %q", id, pack.Dish, f.Of)
		}
		m := p.fillMass(d, f)
		each[f.Of] += m.Kg()
		net += m
	}
	all := d.inside(each)
	all.Net, all.Filled = net, net
	return all, nil
}
