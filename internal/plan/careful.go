package plan

import (
	"slices"

	"kettlefrost/internal/caution"
	"kettlefrost/internal/kitchen"
)

// rawAnimal are the classes of ingredients that carry germs while they are raw.
var rawAnimal = []kitchen.IngredientClass{"intact-meat", "ground-meat", "poultry", "fish", "eggs"}

// careful is what whoever does a task must be told.
func (p *planner) careful(t task) []caution.Caution {
	var acts []caution.Act
	switch t.kind {
	case Filling:
		if p.firstOf(kitchen.Sealer) != "" {
			acts = append(acts, caution.SealingVacuum)
		}
		acts = append(acts, caution.Allergens)
	case Cool:
		if t.dish != nil && p.chillsHot(t) {
			acts = append(acts, caution.MovingHot)
		}
	case Cook:
		for _, s := range t.segs {
			acts = append(acts, p.actsOf(t.dish, s.step)...)
		}
	}
	return caution.For(acts...)
}

// chillsHot tells whether what a task cools scalds when it comes.
func (p *planner) chillsHot(t task) bool {
	for i, s := range t.dish.dish.Steps {
		if slices.ContainsFunc(s.Outputs(), func(o kitchen.Output) bool { return o.ID == t.chills }) {
			return p.outC(t.dish, i) > caution.ScaldsC
		}
	}
	return false
}

// actsOf are the acts of a step of a dish.
func (p *planner) actsOf(d *cooked, step int) (acts []caution.Act) {
	if p.blendsHot(d, step) {
		acts = append(acts, caution.BlendingHot)
	}
	for _, u := range d.dish.Steps[step].Use {
		if slices.Contains(rawAnimal, p.book.Ingredients[u.Of].Class) {
			acts = append(acts, caution.RawAnimal)
		}
	}
	return acts
}

// blendsHot tells whether a step has a blender turn what scalds.
func (p *planner) blendsHot(d *cooked, step int) bool {
	v := d.vesselOf(step)
	return v != "" && p.book.Equipment[v].Kind == kitchen.Blender && (p.mixC(d, step) > caution.ScaldsC || p.outC(d, step) > caution.ScaldsC)
}
