package plan

import (
	"context"
	"fmt"
	"maps"
	"math"
	"slices"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/massflow"
	"kettlefrost/internal/unit"
)

// Given is one output of a dish at the scale that it is written for.
type Given struct {
	Output kitchen.OutputID
	Step   int       // of the dish, that gives it
	Piece  unit.Mass // of one piece, when it is counted in pieces
	Kg     float64   // all of it, what later steps take included
	FreeKg float64   // of that, what no later step takes
	Held   []Held    // in the order in which the dish first uses them
}

// Held is what an output holds of one ingredient, kilograms: what was put in for it, and what is left of that after all losses. What an
// analysis leaves over 100 %, of either sign, is Other, so that the parts add up.
type Held struct {
	Of                                                        kitchen.IngredientID
	PutIn                                                     float64
	Water, Protein, Fat, Carb, Fibre, Ash, Alcohol, OtherMass float64 // carbohydrate without fibre
}

// Kg is what is left of it.
func (h Held) Kg() float64 {
	return h.Water + h.Protein + h.Fat + h.Carb + h.Fibre + h.Ash + h.Alcohol + h.OtherMass
}

// Contents is what each output of a dish holds, in the order of its steps. Errors: a dish that is not there, or that cannot be solved.
func Contents(book kitchen.Book, foods *foodtable.Table, id kitchen.DishID) ([]Given, error) {
	p := newPlanner(context.Background(), book, foods, kitchen.Request{})
	if _, there := book.Dishes[id]; !there {
		return nil, fmt.Errorf("there is no dish %q", id)
	}
	d, err := p.compile(id)
	if err == nil {
		d.flow, err = massflow.Uniform(d.graph, 1)
	}
	if err != nil {
		return nil, fmt.Errorf("dish %s: %s", id, p.named(d, err))
	}
	var all []Given
	for i, s := range d.dish.Steps {
		for o, output := range s.Outputs() {
			out := d.flow.Steps[i].Out[o]
			all = append(all, Given{Output: output.ID, Step: i, Piece: output.Piece, Kg: out.Kg, FreeKg: out.LeftKg, Held: d.held(out.Stream)})
		}
	}
	return all, nil
}

// held is a stream, ingredient by ingredient.
func (d *cooked) held(s massflow.Stream) []Held {
	var all []Held
	for i, in := range s.PutIn {
		if !(in > 0) {
			continue
		}
		left := s.Parts[i]
		all = append(all, Held{Of: d.ingredients[i], PutIn: in, Water: left[massflow.Water], Protein: left[massflow.Protein], Fat: left[massflow.Fat], Carb: left[massflow.Carbohydrate],
			Fibre: left[massflow.Fibre], Ash: left[massflow.Ash], Alcohol: left[massflow.Alcohol], OtherMass: left[massflow.Other]})
	}
	return all
}

// packsAsWritten is how many of a pack a dish gives at the scale that it is written for, 1 at least: a small pot loses more of its water.
func packsAsWritten(book kitchen.Book, foods *foodtable.Table, id kitchen.PackID) int {
	pack := book.Packs[id]
	given, err := Contents(book, foods, pack.Dish)
	if err != nil {
		return 1
	}
	count := math.Inf(1)
	for _, f := range pack.Fill {
		for _, g := range given {
			each := f.Mass.Kg()
			if f.Pieces > 0 {
				each = float64(f.Pieces) * g.Piece.Kg()
			}
			if g.Output == f.Of && each > 0 {
				count = min(count, g.FreeKg/each)
			}
		}
	}
	if math.IsInf(count, 1) {
		return 1
	}
	return max(1, int(count))
}

// FreezingOf is how one pack freezes by itself in each freezer of the kitchen as packs lie there, in the order of their ids. Errors: what keeps it from being known.
func FreezingOf(book kitchen.Book, foods *foodtable.Table, id kitchen.PackID) ([]PackFreeze, error) {
	if _, there := book.Packs[id]; !there {
		return nil, fmt.Errorf("there is no pack %q", id)
	}
	p := newPlanner(context.Background(), book, foods, kitchen.Request{Want: []kitchen.Want{{Pack: id, Count: packsAsWritten(book, foods, id)}}})
	p.cook()
	p.fill()
	if len(p.dishes) == 0 || len(p.out.Fill) == 0 {
		return nil, fmt.Errorf("pack %s cannot be filled: see the findings of its dish", id)
	}
	pack, err := p.frozenPack(p.out.Fill[0])
	if err != nil {
		return nil, fmt.Errorf("pack %s: %w", id, err)
	}
	var all []PackFreeze
	for _, id := range slices.Sorted(maps.Keys(book.Freezers)) {
		show, err := p.asItLies(frozenPack{p.out.Fill[0], pack}, book.Freezers[id])
		if err != nil {
			return all, fmt.Errorf("freezer %s: %w", id, err)
		}
		all = append(all, show)
	}
	return all, nil
}
