package homecard

import (
	"slices"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/language"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// Item is an ingredient that goes in at one step.
type Item struct {
	Step   int       `json:"step"` // its number on the card, from 1
	Of     string    `json:"of"`   // the ingredient's ID
	Name   string    `json:"name"`
	Extra  bool      `json:"extra,omitempty"` // water that makes up for what a small pot loses more
	Buy    unit.Mass `json:"buy_g,omitempty"` // as purchased, where some of it is trimmed off
	Amount Amount    `json:"amount"`
	kind   kind
	use    unit.Amount // as the dish is written
	step   string
}

// items is all that goes in, in the order of cooking, with amounts as the small pots ask for them and nothing rounded yet.
func (a Ask) items(t settled) []*Item {
	var all []*Item
	number := 0
	for _, s := range t.steps() {
		number++
		step := stepOf(t.dish, s.ID)
		for k, l := range s.In {
			id, m := kitchen.IngredientID(l.ID), l.Mass
			var use unit.Amount
			switch {
			case l.Kind == plan.Earlier && l.Short > 0:
				id, m = step.Use[k].Or, l.Short
			case l.Kind == plan.Earlier:
				continue
			default:
				use = step.Use[k].Amount
			}
			if m < traceMass {
				continue
			}
			ing := a.ingredient(id)
			all = append(all, &Item{Step: number, Of: string(id), Name: ing.Name, Extra: t.water[s.ID] && id == tapWater, Buy: beforeTrim(m, ing.Trim),
				Amount: Amount{Exact: m, Need: m}, kind: a.kindOf(id), use: use, step: s.ID})
		}
	}
	return all
}

// Called is what goes in, by the name that the book has for it.
func (x *Item) Called(in language.Speaker) string {
	if x.Extra {
		return in.Say("%s, for what a small pot boils off more", x.Name)
	}
	return x.Name
}

// traceMass is below what anybody weighs.
const traceMass = 10 * unit.Milligram

func beforeTrim(m unit.Mass, trim unit.Share) unit.Mass {
	if trim <= 0 || trim >= unit.Whole {
		return 0
	}
	return unit.MassKg(m.Kg() / (1 - trim.F()))
}

// steps are those in which something is done, in the order of cooking.
func (t settled) steps() []plan.Step {
	var done []plan.Step
	for _, s := range t.plan.Dishes[0].Steps {
		if s.Scale > 0 && slices.ContainsFunc(s.In, func(l plan.Line) bool { return l.Mass >= traceMass }) {
			done = append(done, s)
		}
	}
	return done
}
