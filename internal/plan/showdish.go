package plan

import (
	"maps"
	"math"
	"slices"

	"kettlefrost/internal/kitchen"
)

// showDishes tells the solved flows in the book's words.
func (p *planner) showDishes() {
	for _, d := range p.dishes {
		show := Dish{ID: string(d.id), Name: d.dish.Name, Target: d.target, Limit: d.limit, Steps: []Step{}, Surplus: []Line{}, BoughtIn: []Line{}, Closure: d.flow.ClosureRel}
		for _, i := range d.flow.Order {
			show.Steps = append(show.Steps, p.showStep(d, i))
			show.Lost += mass(d.flow.Steps[i].Lost.Kg())
		}
		for i, kg := range d.flow.Bought {
			show.In += mass(kg)
			if bought := d.standIns(i); bought > 0 {
				show.BoughtIn = append(show.BoughtIn, Line{ID: string(d.ingredients[i]), Name: p.book.Ingredients[d.ingredients[i]].Name, Mass: mass(bought), Kind: Fresh})
			}
		}
		for _, id := range slices.Sorted(maps.Keys(d.outputs)) {
			left := p.leftOver(d, id)
			show.Out += mass(d.flow.Steps[d.outputs[id].Step].Out[d.outputs[id].Output].LeftKg)
			if left > traceKg {
				line := p.outLine(d, id, left)
				show.Surplus = append(show.Surplus, line)
				p.surplus(d, line)
			}
		}
		p.out.Dishes = append(p.out.Dishes, show)
	}
}

// traceKg is what counts as nothing: a tenth of a gram.
const traceKg = 1e-4

// standIns is how much of an ingredient is bought in for by-products.
func (d *cooked) standIns(ingredient int) float64 {
	kg := 0.0
	for i, s := range d.graph.Steps {
		for k, u := range s.Uses {
			if u.StandIn == ingredient {
				kg += d.flow.Steps[i].In[k].StandInKg
			}
		}
	}
	return kg
}

// leftOver is what neither a step nor a pack takes of an output, kilograms.
func (p *planner) leftOver(d *cooked, id kitchen.OutputID) float64 {
	ref := d.outputs[id]
	kg := d.flow.Steps[ref.Step].Out[ref.Output].LeftKg
	for _, f := range p.out.Fill {
		if f.Dish != string(d.id) {
			continue
		}
		for _, e := range f.Each {
			if e.ID == string(id) {
				kg -= e.Mass.Kg() * float64(f.Count)
			}
		}
	}
	return kg
}

func (p *planner) outLine(d *cooked, id kitchen.OutputID, kg float64) Line {
	o := p.output(d, id)
	line := Line{ID: string(id), Name: o.Name, Mass: mass(kg), Kind: Product}
	if o.ByProduct {
		line.Kind = ByProduct
	}
	if line.Name == "" {
		line.Name = string(id)
	}
	if o.Piece > 0 {
		line.Pieces = int(math.Floor(kg/o.Piece.Kg() + 1e-9))
	}
	return line
}
