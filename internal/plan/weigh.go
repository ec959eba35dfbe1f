package plan

import (
	"fmt"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// weigh is an amount of an ingredient in kilograms: as the book says, then by the measures and densities of the composition table.
func (p *planner) weigh(id kitchen.IngredientID, a unit.Amount) (float64, error) {
	ing := p.book.Ingredients[id]
	if m, ok := ing.Weigh(a); ok {
		return m.Kg(), nil
	}
	switch a.Kind {
	case unit.AmountVolume:
		if d, ok := p.foods.Density(ing.Food, a.Measure); ok {
			return a.Volume.Times(d.KgPerL).Kg(), nil
		}
	case unit.AmountCount:
		if kg, ok := p.byTableMeasure(ing.Food, a); ok {
			return kg, nil
		}
	}
	return 0, fmt.Errorf("nothing says what %s of %s weighs", a, ing.Name)
}

func (p *planner) byTableMeasure(ndb string, a unit.Amount) (float64, bool) {
	for _, m := range p.foods.Measures(ndb) {
		name, _, _ := strings.Cut(m.Name, " (")
		if strings.EqualFold(name, a.Measure) || strings.EqualFold(name, strings.TrimSuffix(a.Measure, "s")) {
			return m.Grams / 1000 / m.Amount * float64(a.Count) / float64(unit.One), true
		}
	}
	return 0, false
}

// mass is kilograms as a typed mass.
func mass(kg float64) unit.Mass { return unit.MassKg(kg) }
