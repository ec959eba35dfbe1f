package homecard

import (
	"strings"

	"kettlefrost/internal/composition"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// Nutrient is one line of what a serving holds, rounded as a panel of the United States rounds.
type Nutrient struct {
	Name    string   `json:"name"`
	Amount  string   `json:"amount"`            // "" while something that decides it is not known
	Percent string   `json:"percent,omitempty"` // of the daily value
	Missing []string `json:"missing,omitempty"` // ingredients that do not say how much of it they hold
}

// FactsSource is by what the figures of a serving are rounded.
const FactsSource = "21 CFR 101.9; compositions of the book and of USDA SR28, as planned for a home's pots; what sticks to them is left out"

// facts is what one of so many servings holds. An error means that nothing can be said.
func (a Ask) facts(t settled, items []*Item, makes unit.Mass) ([]Nutrient, error) {
	batch := nutrition.Batch{}
	for _, x := range items {
		batch.Parts = append(batch.Parts, nutrition.Part{Name: x.Name, Mass: x.Amount.Exact, Per100g: a.per100g(kitchen.IngredientID(x.Of))})
		batch.Finished += x.Amount.Exact
	}
	for _, s := range t.plan.Dishes[0].Steps {
		batch.Finished -= gone(s, "evaporation") + gone(s, "cooking water") + gone(s, "drained")
		if fat := gone(s, "rendered fat"); fat > 0 {
			batch.Skimmed = append(batch.Skimmed, nutrition.Skimmed{Mass: fat})
			batch.Finished -= fat
		}
	}
	food, err := nutrition.Of(batch)
	if err != nil {
		return []Nutrient{}, err
	}
	serving := food.In(makes).Times(1 / float64(a.People))
	all := []Nutrient{}
	for _, f := range nutrition.FDA.Facts(serving) {
		n := Nutrient{Name: a.speaker().Say(factName(f.Nutrient)), Amount: a.factAmount(f.Cells[0].Amount), Percent: f.Cells[0].Percent}
		if f.Cells[0].Open {
			n.Amount, n.Percent = "", ""
			for _, gap := range f.Cells[0].Actual.Missing {
				n.Missing = append(n.Missing, gap.Part)
			}
		}
		all = append(all, n)
	}
	return all, nil
}

func factName(n nutrition.Nutrient) string {
	if n == nutrition.Energy {
		return "calories"
	}
	return n.String()
}

// factAmount is an amount as a panel prints it: "4.5 g", "less than 5 mg".
func (a Ask) factAmount(printed string) string {
	in := a.speaker()
	if of, is := strings.CutPrefix(printed, "less than "); is {
		return in.Say("less than %s", in.Measure(of))
	}
	return in.Measure(printed)
}

func gone(s plan.Step, cause string) unit.Mass {
	var m unit.Mass
	for _, l := range s.Losses {
		if l.Cause == cause {
			m += l.Mass
		}
	}
	return m
}

// per100g is what 100 g of an ingredient hold.
func (a Ask) per100g(id kitchen.IngredientID) nutrition.Composition {
	c, _ := composition.Of(a.ingredient(id), a.Foods)
	return c
}
