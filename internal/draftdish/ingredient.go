package draftdish

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"kettlefrost/internal/kitchen"
)

// ingredient is one of the book, or a new one.
func (d *drafter) ingredient(id kitchen.IngredientID) kitchen.Ingredient {
	if ing, ok := d.fresh[id]; ok {
		return ing
	}
	return d.book.Ingredients[id]
}

// newIngredient is a new ingredient by its name and its row of the table, made once however many lines name it.
func (d *drafter) newIngredient(name, ndb string) kitchen.IngredientID {
	for _, id := range slices.Sorted(maps.Keys(d.fresh)) {
		if x := d.fresh[id]; ndb != "" && x.Food == ndb || ndb == "" && x.Name == name {
			return id
		}
	}
	taken := func(s string) bool {
		_, old := d.book.Ingredients[kitchen.IngredientID(s)]
		_, new := d.fresh[kitchen.IngredientID(s)]
		return old || new
	}
	id := kitchen.IngredientID(unlike(slug(name), "ingredient", taken))
	ing := kitchen.Ingredient{Name: name, Food: ndb}
	if density, ok := d.foods.Density(ndb, ""); ok && ndb != "" {
		ing.Density = density.KgPerL
	}
	d.fresh[id] = ing
	return id
}

// onlyUsed leaves out new ingredients that nothing goes in of.
func (d *drafter) onlyUsed() {
	maps.DeleteFunc(d.fresh, func(id kitchen.IngredientID, _ kitchen.Ingredient) bool {
		return !slices.ContainsFunc(d.lines, func(l *Line) bool { return l.Is == id && !l.Out && len(d.stepsOf(l)) > 0 })
	})
}

// askOfNew asks what only the kitchen can say of new ingredients.
func (d *drafter) askOfNew() {
	for _, id := range slices.Sorted(maps.Keys(d.fresh)) {
		ing := d.fresh[id]
		at, answer := d.asks.put(Ask{Key: "allergens-" + string(id), About: ing.Name, Kind: AskAllergens, Grave: true, Question: "Which major allergens are in it? Write none, or their names with commas, from its label.",
			Source: "left open, every label of the dish is withheld"})
		if answer != "" {
			if err := ing.Allergens.SetNames(names(answer)); err != nil {
				d.asks.refuse(at, err.Error())
			} else if wrong := unknownAllergen(ing, d.knowsFood); wrong != "" {
				ing.Allergens = kitchen.Allergens{}
				d.asks.refuse(at, wrong)
			}
		}
		at, answer = d.asks.put(Ask{Key: "class-" + string(id), About: ing.Name, Kind: AskClass, Question: "What is it, as far as hazards go?", Source: "left open, its hazard plan asks for it", Options: classes()})
		if answer != "" {
			if slices.ContainsFunc(classes(), func(o Option) bool { return o.Is == answer }) {
				ing.Class = kitchen.IngredientClass(answer)
			} else {
				d.asks.refuse(at, fmt.Sprintf("%q is none of them", answer))
			}
		}
		d.fresh[id] = ing
	}
}

// names are words with commas between them.
func names(text string) []string {
	var all []string
	for part := range strings.SplitSeq(text, ",") {
		if part = strings.TrimSpace(part); part != "" {
			all = append(all, strings.ToLower(part))
		}
	}
	return all
}

// unknownAllergen is what the book would say against the answer.
func unknownAllergen(ing kitchen.Ingredient, known func(string) bool) string {
	ing.Free = true
	for _, f := range kitchen.Check(kitchen.Book{Kitchen: kitchen.Kitchen{Name: "x"}, Ingredients: map[kitchen.IngredientID]kitchen.Ingredient{"x": ing}}, known) {
		if f.Code == string(kitchen.UnknownAllergen) {
			return f.Message + ": " + f.Fix
		}
	}
	return ""
}

func classes() []Option {
	return []Option{{"intact-meat", "meat in one piece"}, {"ground-meat", "ground meat"}, {"poultry", "poultry"}, {"fish", "fish or shellfish"}, {"eggs", "eggs"}, {"cooked-meat", "meat that is cooked already"}, {"dairy", "dairy"}, {"produce", "vegetables, fruit, herbs"},
		{"beans", "dry beans and lentils"}, {"starch", "flour, rice, pasta, potatoes"}, {"dry", "dry or canned goods"}, {"water", "water"}}
}
