package homecard

import (
	"strings"

	"kettlefrost/internal/homemeasure"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// kind is what an ingredient is to a measure and to the proportions of a dish.
type kind int

const (
	plain kind = iota
	liquid
	cheese
	starch
	gum
	emulsifier
	salt
	leavening
	seasoning
)

// kinds of the roles that the book knows.
var roleKinds = map[kitchen.IngredientRole]kind{
	"liquid": liquid, "milk": liquid, "cream": liquid, "hard-cheese": cheese, "soft-cheese": cheese, "process-cheese": cheese,
	"flour": starch, "native-starch": starch, "waxy-starch": starch, "modified-starch": starch, "gum": gum, "gelatin": gum, "emulsifying-salt": emulsifier,
}

// saltSodiumMg is the sodium in 100 g from which something is salt, whatever its name: table salt has 38,758 mg (USDA SR28 02047).
const saltSodiumMg = 30_000

// kindOf is what an ingredient is, by its role where the book gives one, else by its composition and its name.
func (a Ask) kindOf(id kitchen.IngredientID) kind {
	ing := a.ingredient(id)
	name := strings.ToLower(ing.Name)
	switch k, known := roleKinds[ing.Role]; {
	case known:
		return k
	case a.sodiumMg(ing) >= saltSodiumMg:
		return salt
	case hasAny(name, "baking powder", "baking soda", "bicarbonate", "yeast", "curing salt"):
		return leavening
	case ing.Role == "herb-or-spice":
		return seasoning
	case ing.Role == "acid" && ing.Density > 0 && ing.Density < 1.1:
		return plain
	case ing.Role != "":
		return plain
	case hasAny(name, "xanthan", "guar", "locust bean", "agar", "gelatin"):
		return gum
	case hasAny(name, "citrate", "sodium phosphate"):
		return emulsifier
	case hasAny(name, "cheese", "cheddar", "gruyere", "mozzarella"):
		return cheese
	case ing.Class == "starch", hasAny(name, "flour", "starch"):
		return starch
	case ing.Class == "water", hasAny(name, "milk", "cream", "broth", "stock", "wine", "beer", "ale", "water"):
		return liquid
	}
	return plain
}

func hasAny(name string, words ...string) bool {
	for _, w := range words {
		if wordAt(name, w, 0) >= 0 {
			return true
		}
	}
	return false
}

func (a Ask) sodiumMg(ing kitchen.Ingredient) float64 {
	if ing.Analysis != nil {
		if ing.Analysis.Sodium != nil {
			return *ing.Analysis.Sodium
		}
		return 0
	}
	food, _ := a.Foods.Lookup(ing.Food)
	return food.Per100g.SodiumMg.Or(0)
}

// ingredient is one of the book, or the water that makes up for small pots.
func (a Ask) ingredient(id kitchen.IngredientID) kitchen.Ingredient {
	if id == tapWater {
		return kitchen.Ingredient{Name: a.speaker().Say("water"), Food: waterInFood, Density: 1, Class: "water", Role: "liquid"}
	}
	return a.Book.Ingredients[id]
}

// classOf is how true an amount of it must be.
func (k kind) class() homemeasure.Class {
	switch k {
	case gum:
		return homemeasure.Gum
	case emulsifier, salt, leavening:
		return homemeasure.Tight
	}
	return homemeasure.Main
}

// volumeOf is what so much of an ingredient fills in the spoons and cups of a home, and in what form it is then ("shredded"); 0 where nothing
// says so. A form only counts where the ingredient comes in it, because its name says so: a cup of chopped onion is no measure of an onion.
func (a Ask) volumeOf(id kitchen.IngredientID, m unit.Mass) (v unit.Volume, form string) {
	ing := a.ingredient(id)
	for key, weighs := range ing.Measures {
		one, err := unit.ParseAmount("1 " + key)
		if err == nil && one.Kind == unit.AmountVolume && weighs.Kind == unit.AmountMass && weighs.Mass > 0 {
			return unit.VolumeL(one.Volume.L() * m.Kg() / weighs.Mass.Kg()), one.Measure
		}
	}
	if ing.Density > 0 {
		return m.Over(ing.Density), ""
	}
	if ing.Class == "produce" {
		return 0, ""
	}
	if d, ok := a.Foods.Density(ing.Food, ""); ok {
		return m.Over(d.KgPerL), ""
	}
	for _, d := range a.Foods.Densities(ing.Food) {
		if comesAs(ing.Name, d.Form) {
			return m.Over(d.KgPerL), ""
		}
	}
	return 0, ""
}

// comesAs says whether an ingredient comes in a form: ground pepper is ground, a seed is whole, a dried herb is leaves.
func comesAs(name, form string) bool {
	name = strings.ToLower(name)
	switch form {
	case "ground":
		return hasAny(name, "ground", "powder", "powdered")
	case "whole":
		return hasAny(name, "seed", "seeds", "whole")
	case "leaves":
		return hasAny(name, "dried", "leaves") && !hasAny(name, "ground", "powder")
	}
	return false
}
