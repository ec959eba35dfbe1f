package plan

import (
	"errors"

	"kettlefrost/internal/heat"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/massflow"
)

// Temperatures at which ingredients come to the table when the book says no more than where they are kept (common practice).
const (
	chilledC = 4
	frozenC  = -18
)

// outC is the temperature of what step i gives: as the book says, or that of the mixture.
func (p *planner) outC(d *cooked, i int) float64 {
	s := d.dish.Steps[i]
	switch {
	case s.ReadyAt != nil:
		return s.ReadyAt.C()
	case s.HeatTo != nil:
		return s.HeatTo.C()
	default:
		return p.mixC(d, i)
	}
}

// mixC is the temperature of what goes into step i, before it is heated: the mean by mass, which leaves out that watery things carry
// more heat than fat. The ice in frozen things is not in it: see iceJ.
func (p *planner) mixC(d *cooked, i int) float64 {
	sum, kg := 0.0, 0.0
	add := func(c, m float64) { sum, kg = sum+c*m, kg+m }
	for k, u := range d.graph.Steps[i].Uses {
		in := d.flow.Steps[i].In[k]
		if u.Ingredient < 0 {
			add(p.outC(d, u.From.Step), in.Kg-in.StandInKg)
		} else {
			add(p.storedC(d.ingredients[u.Ingredient]), in.Kg)
		}
	}
	if kg == 0 {
		return p.air.C()
	}
	return sum / kg
}

func (p *planner) storedC(id kitchen.IngredientID) float64 {
	switch p.book.Ingredients[id].Storage {
	case "chilled":
		return chilledC
	case "frozen":
		return frozenC
	default:
		return p.air.C()
	}
}

// composition is a mixture for the heat formulas: what analyses leave over is shared out.
func composition(f massflow.Fractions) (heat.Composition, error) {
	sum := 0.0
	for c, x := range f {
		if massflow.Component(c) != massflow.Other {
			sum += x
		}
	}
	if sum <= 0 {
		return heat.Composition{}, errors.New("nothing is known of what it is made of")
	}
	return heat.Composition{Water: f[massflow.Water] / sum, Protein: f[massflow.Protein] / sum, Fat: f[massflow.Fat] / sum, Carb: max(0, f[massflow.Carbohydrate]/sum),
		Fibre: f[massflow.Fibre] / sum, Ash: f[massflow.Ash] / sum, Alcohol: f[massflow.Alcohol] / sum}.Normalise()
}

func (d *cooked) headOf(i int) int {
	for range d.graph.Steps {
		if d.graph.Steps[i].After < 0 {
			break
		}
		i = d.graph.Steps[i].After
	}
	return i
}

// fractionsOf is a stream's composition per kilogram.
func fractionsOf(s massflow.Stream) massflow.Fractions {
	f := s.Composition()
	kg := s.Kg()
	if kg <= 0 {
		return massflow.Fractions{}
	}
	for c := range f {
		f[c] /= kg
	}
	return f
}
