package demo_test

import (
	"testing"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// The salt equivalent (sodium × 2.542) of canned soups in the USDA table runs from 0.44 to 1.03 % for the middle 80 %; sauces and
// meatballs are eaten with something plain and may have a little more. Evaporation and residue are left out here: they move these
// figures by a tenth at most.
func TestSaltOfWhatPacksDrawOn(t *testing.T) {
	b, foods := book(t)
	for id, pack := range b.Packs {
		for _, f := range pack.Fill {
			w := recipe{t: t, book: b, foods: foods, dish: b.Dishes[pack.Dish]}
			kg, sodiumKg := w.output(f.Of)
			if salt := 100 * 2.542 * sodiumKg / kg; !(salt >= 0.6 && salt <= 1.3) {
				t.Errorf("%s: %s has %.2f %% salt", id, f.Of, salt)
			}
		}
	}
}

// recipe adds up one dish as written.
type recipe struct {
	t     *testing.T
	book  kitchen.Book
	foods *foodtable.Table
	dish  kitchen.Dish
}

// output is the mass and the sodium of one output, by way of all that goes into its step.
func (r recipe) output(id kitchen.OutputID) (kg, sodiumKg float64) {
	for _, s := range r.dish.Steps {
		for _, o := range outputs(s) {
			if o.ID != id {
				continue
			}
			in, na := r.input(s)
			if o.Part == kitchen.Fat { // sodium stays with the lean
				return in * o.Takes.F(), 0
			}
			kept := 1 - s.Loses.Water.F() - s.Loses.Fat.F()
			if s.Loses.ReduceTo > 0 {
				kept = s.Loses.ReduceTo.F()
			}
			for _, other := range s.Gives {
				kept -= other.Takes.F()
			}
			return in * kept, na
		}
	}
	r.t.Fatalf("no step gives %s", id)
	return 0, 0
}

func (r recipe) input(s kitchen.Step) (kg, sodiumKg float64) {
	for _, u := range s.Use {
		switch {
		case u.Of != "":
			m := kilograms(r.t, r.book, u)
			kg += m
			sodiumKg += m * r.sodium(u.Of)
		case u.Take.Given && u.Take.Share == unit.Whole:
			m, na := r.output(u.From)
			kg += m
			sodiumKg += na
		case u.Or != "": // fat, with fat to stand in for it
			kg += u.Amount.Mass.Kg()
		default:
			r.t.Fatalf("%s takes part of %s, which this sum does not know", s.ID, u.From)
		}
	}
	return kg, sodiumKg
}

// sodium is the share of sodium in an ingredient.
func (r recipe) sodium(id kitchen.IngredientID) float64 {
	ing := r.book.Ingredients[id]
	if ing.Analysis != nil {
		return *ing.Analysis.Sodium / 100_000
	}
	food, _ := r.foods.Lookup(ing.Food)
	mg, given := food.Per100g.SodiumMg.Get()
	if !given {
		r.t.Fatalf("the table gives no sodium for %s", id)
	}
	return mg / 100_000
}

func outputs(s kitchen.Step) []kitchen.Output {
	if len(s.Gives) == 0 {
		return []kitchen.Output{{ID: kitchen.OutputID(s.ID)}}
	}
	return s.Gives
}

func step(t *testing.T, d kitchen.Dish, id string) kitchen.Step {
	t.Helper()
	for _, s := range d.Steps {
		if s.ID == id {
			return s
		}
	}
	t.Fatalf("%s has no step %s", d.Name, id)
	return kitchen.Step{}
}

func kilograms(t *testing.T, b kitchen.Book, u kitchen.Use) float64 {
	t.Helper()
	m, ok := b.Ingredients[u.Of].Weigh(u.Amount)
	if !ok {
		t.Fatalf("nothing says what %s of %s weighs", u.Amount, u.Of)
	}
	return m.Kg()
}
