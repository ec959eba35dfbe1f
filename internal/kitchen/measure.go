package kitchen

import "kettlefrost/internal/unit"

// Weigh is the mass of an amount of an ingredient, by what the book says of it: a mass as it is, a volume or a count by a measure of
// the same kind and form ("cup, shredded" serves 2 1/2 cups, shredded and 3 tbsp, shredded), otherwise a volume by the density.
// Not exact for volumes and counts. It is false when the book does not say; the composition table may.
func (g Ingredient) Weigh(a unit.Amount) (unit.Mass, bool) {
	if a.Kind == unit.AmountMass {
		return a.Mass, true
	}
	for key, weighs := range inOrder(g.Measures) {
		one, err := unit.ParseAmount("1 " + key)
		if err != nil || one.Kind != a.Kind || one.Measure != a.Measure || weighs.Kind != unit.AmountMass {
			continue
		}
		if a.Kind == unit.AmountVolume {
			return unit.MassKg(weighs.Mass.Kg() * a.Volume.L() / one.Volume.L()), true
		}
		return unit.MassKg(weighs.Mass.Kg() * a.Count.N()), true
	}
	if a.Kind == unit.AmountVolume && g.Density > 0 {
		return a.Volume.Times(g.Density), true
	}
	return 0, false
}
