package packlabel

import (
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/composition"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// composition is what 100 g of an ingredient hold, and why its added sugars are what they are.
func (m *maker) composition(id kitchen.IngredientID) (nutrition.Composition, nutrition.AddedAnswer) {
	return composition.Of(m.Book.Ingredients[id], m.Foods)
}

// of is a share of a composition as the mass flow takes it: what is not given counts as none there.
func of(c nutrition.Composition, n nutrition.Nutrient) float64 { return c[n].Or(0) / 100 }

// solidsOf is what neither evaporates nor renders. Of an ingredient that nothing is known of that is all.
func solidsOf(c nutrition.Composition) float64 {
	return 1 - of(c, nutrition.Water) - of(c, nutrition.Fat) - of(c, nutrition.Alcohol)
}

// fewSolids are too few to tell by how much of an ingredient is left.
const fewSolids = 0.02

// food is what is in one pack. What sticks to pots, or goes into another output, is gone from every part alike; its solids tell how much of a part
// that was. A part without solids (water, oil) has lost as much as all of them together.
func (m *maker) food() (nutrition.Food, error) {
	var in, out float64
	for _, h := range m.inside.Held {
		c, _ := m.composition(h.Of)
		in += solidsOf(c) * h.PutIn
		out += solids(h)
	}
	usual := left(in, out, 1)
	b := nutrition.Batch{Finished: unit.MassKg(m.inside.Kg())}
	for _, h := range m.inside.Held {
		c, _ := m.composition(h.Of)
		kept := usual
		if solidsOf(c) > fewSolids {
			kept = left(solidsOf(c)*h.PutIn, solids(h), usual)
		}
		p := nutrition.Part{Name: m.partName(h.Of), Mass: unit.MassKg(kept * h.PutIn), Per100g: c, Kept: m.Book.Ingredients[h.Of].Retention}
		if p.Mass <= 0 {
			continue
		}
		if c[nutrition.Fat].Or(0) > 0 {
			p.FatLeft = foodtable.Given(1000 * h.Fat)
		}
		if c[nutrition.Alcohol].Or(0) > 0 {
			p.AlcoholLeft = foodtable.Given(1000 * h.Alcohol)
		}
		b.Parts = append(b.Parts, p)
	}
	return nutrition.Of(b)
}

func solids(h plan.Held) float64 { return h.Kg() - h.Water - h.Fat - h.Alcohol }

// rendered tells of parts whose fat has gone: what a gram of fat took along of cholesterol and vitamin D is not known, and is left in.
func (m *maker) rendered() {
	for _, h := range m.inside.Held {
		c, _ := m.composition(h.Of)
		lean := of(c, nutrition.Protein)
		if lean <= 0 || h.Protein <= 0 || c[nutrition.Cholesterol].Or(0) <= 0 {
			continue
		}
		whole := of(c, nutrition.Fat) / lean * h.Protein // with as much protein as is left
		if gone := 1 - left(whole, h.Fat, 1); gone > muchFat {
			m.advise(finding.Finding{Code: CodeRendered, Severity: finding.Note, Where: "nutrition, cholesterol", Message: fmt.Sprintf("%.0f %% of the fat of %s has come out, and the cholesterol and vitamin D in it are counted as if they had stayed: both are too high", 100*gone, m.nameOf(h.Of)),
				Source: "nothing was read that says what fat takes along; of fried bacon the food table has 4/7 of the cholesterol that is reckoned so", Fix: "have it analysed if it matters"})
		}
	}
}

// muchFat is the share of a part's fat from which on it is told that it has gone.
const muchFat = 0.1

// takenSugars tells which added sugars were taken from the kind of food.
func (m *maker) takenSugars() {
	var taken []string
	var said nutrition.AddedAnswer
	for _, h := range m.inside.Held {
		_, a := m.composition(h.Of)
		if grams, is := a.Per100g.Get(); is {
			taken = append(taken, fmt.Sprintf("%s (%g g in 100 g: %s)", m.nameOf(h.Of), grams, a.Why))
			said = a
		}
	}
	if len(taken) == 0 {
		return
	}
	m.advise(finding.Finding{Code: CodeAdded, Severity: finding.Note, Where: "nutrition, added sugars", Path: "ingredients", Message: "the food table has no added sugars; they are taken from the kind of food of " + strings.Join(taken, ", "),
		Source: said.Source + " (to be confirmed: " + said.Confirm + ")", Fix: "write added-sugars at an ingredient to settle it"})
}

// partName is by what a gap in a figure names an ingredient: its name, with its id where another has the same.
func (m *maker) partName(id kitchen.IngredientID) string {
	name := m.nameOf(id)
	same := func(h plan.Held) bool { return h.Of != id && m.nameOf(h.Of) == name }
	if slices.ContainsFunc(m.inside.Held, same) {
		return name + " (" + string(id) + ")"
	}
	return name
}

// ingredientOf is the ingredient of a gap.
func (m *maker) ingredientOf(part string) kitchen.IngredientID {
	for _, h := range m.inside.Held {
		if m.partName(h.Of) == part {
			return h.Of
		}
	}
	return ""
}
