package plan

import (
	"fmt"
	"math"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// weigh is an amount of an ingredient in kilograms: a mass as it is, a volume or a count through the kitchen's own measures, then
// its density, then the measures of the composition table.
func (p *planner) weigh(id kitchen.IngredientID, a unit.Amount) (float64, error) {
	ing := p.book.Ingredients[id]
	if a.Kind == unit.AmountMass {
		return a.Mass.Kg(), nil
	}
	if kg, ok := byOwnMeasure(ing, a); ok {
		return kg, nil
	}
	if a.Kind == unit.AmountVolume {
		if ing.Density > 0 {
			return a.Volume.L() * float64(ing.Density), nil
		}
		if d, ok := p.foods.Density(ing.Food, a.Measure); ok {
			return a.Volume.L() * float64(d.KgPerL), nil
		}
	} else if kg, ok := p.byTableMeasure(ing.Food, a); ok {
		return kg, nil
	}
	text, _ := a.MarshalText()
	return 0, fmt.Errorf("nothing says what %s of %s weighs", text, ing.Name)
}

// byOwnMeasure looks for a measure of the same kind and form: "cup, shredded" serves 2 1/2 cups, shredded and 3 tbsp, shredded.
func byOwnMeasure(ing kitchen.Ingredient, a unit.Amount) (float64, bool) {
	for key, weighs := range ing.Measures {
		one, err := unit.ParseAmount("1 " + key)
		if err != nil || one.Kind != a.Kind || weighs.Kind != unit.AmountMass || one.Measure != a.Measure {
			continue
		}
		if a.Kind == unit.AmountVolume {
			return weighs.Mass.Kg() * float64(a.Volume) / float64(one.Volume), true
		}
		return weighs.Mass.Kg() * float64(a.Count) / float64(one.Count), true
	}
	return 0, false
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

// span is seconds as a typed span, up to the next second.
func span(s float64) unit.Span { return unit.SpanS(math.Ceil(s - 1e-6)) }
