package hazards

import (
	"fmt"
	"strings"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/kitchen"
)

// classes of the book in the words of the hazard plan.
var classes = map[kitchen.IngredientClass]haccp.Class{
	"intact-meat": haccp.IntactMeat, "ground-meat": haccp.GroundMeat, "poultry": haccp.Poultry, "fish": haccp.Fish, "eggs": haccp.Eggs, "cooked-meat": haccp.Cooked,
	"dairy": haccp.Dairy, "produce": haccp.Produce, "beans": haccp.Beans, "starch": haccp.Starch, "dry": haccp.Dry, "water": haccp.Water,
}

func (c *composer) ingredient(id kitchen.IngredientID, standsIn string) haccp.Ingredient {
	g := c.book.Ingredients[id]
	in := haccp.Ingredient{ID: string(id), Name: c.name(id), Storage: g.Storage, Allergens: g.Allergens.Names, AllergensKnown: g.Allergens.Answered, StandsIn: standsIn}
	in.Class, in.Guess = Class(g, c.foods)
	if g.Class == "" {
		c.found = append(c.found, askClass(in))
	}
	return in
}

// Class is what an ingredient is: as the book says, or else a guess and what it is guessed from. Where there is nothing to guess from it is
// unknown.
func Class(g kitchen.Ingredient, foods *foodtable.Table) (class haccp.Class, guess string) {
	if said, ok := classes[g.Class]; ok {
		return said, ""
	}
	if g.Free {
		return haccp.Water, "it comes from the tap"
	}
	food, ok := foods.Lookup(g.Food)
	if !ok {
		return haccp.Unknown, ""
	}
	class = guessed(food)
	if class == haccp.Unknown {
		return class, ""
	}
	return class, fmt.Sprintf("the food table has it as “%s” under %s", food.Description, food.Group)
}

func askClass(g haccp.Ingredient) finding.Finding {
	f := finding.Finding{Code: CodeClassUnknown, Severity: finding.Stop, Where: "ingredient " + g.Name, Path: "ingredients." + g.ID + ".class",
		Message: "nobody has said what it is as far as hazards go, so the hazard plan cannot know what it brings in",
		Fix:     "write class: intact-meat, ground-meat, poultry, fish, eggs, cooked-meat, dairy, produce, beans, starch, dry or water"}
	if g.Guess == "" {
		return f
	}
	f.Code, f.Severity = CodeClassGuessed, finding.Caution
	f.Message = fmt.Sprintf("nobody has said what it is as far as hazards go; it is taken as %s, because %s", g.Class, g.Guess)
	if g.Class.Animal() {
		f.Severity = finding.Stop
		f.Message += ": raw food of animals is not to be guessed at"
	}
	f.Fix = "confirm or correct it: " + strings.TrimPrefix(f.Fix, "write ")
	return f
}

// guessed is what a food of the table most likely is. Where two could be, the one that asks for more is taken: meat counts as ground, since
// nobody has said that it is whole and was not tenderised.
func guessed(food foodtable.Food) haccp.Class {
	is := func(words ...string) bool { return anyIn(strings.ToLower(food.Description), words) }
	raw := is("raw", "uncooked", "unheated", "unprepared")
	switch food.Group {
	case "Poultry Products":
		return either(raw, haccp.Poultry, haccp.Cooked)
	case "Beef Products", "Pork Products", "Lamb, Veal, and Game Products", "Sausages and Luncheon Meats":
		return either(raw && !is("fully cooked"), haccp.GroundMeat, haccp.Cooked)
	case "Finfish and Shellfish Products":
		return either(is("canned", "cooked"), haccp.Cooked, haccp.Fish)
	case "Dairy and Egg Products":
		return dairyOrEggs(is)
	case "Spices and Herbs":
		return either(is("fresh"), haccp.Produce, haccp.Dry)
	case "Vegetables and Vegetable Products":
		return vegetable(is)
	case "Fruits and Fruit Juices":
		return either(is("canned", "bottled", "dried", "raisins", "dates"), haccp.Dry, haccp.Produce)
	case "Legumes and Legume Products":
		return either(is("mature seeds, raw", "raw") && !is("peanut"), haccp.Beans, either(is("tofu"), haccp.Unknown, haccp.Dry))
	case "Cereal Grains and Pasta", "Breakfast Cereals", "Baked Products":
		return haccp.Starch
	case "Nut and Seed Products", "Sweets":
		return haccp.Dry
	case "Fats and Oils":
		return either(is("salad dressing", "mayonnaise"), haccp.Unknown, haccp.Dry)
	case "Beverages":
		return either(is("water, tap"), haccp.Water, haccp.Dry)
	}
	return haccp.Unknown
}

func dairyOrEggs(is func(...string) bool) haccp.Class {
	switch {
	case is("egg") && !is("hard-boiled"):
		return haccp.Eggs
	case is("egg"):
		return haccp.Cooked
	case is("dry", "canned"):
		return haccp.Dry
	}
	return haccp.Dairy
}

func vegetable(is func(...string) bool) haccp.Class {
	switch {
	case is("potato", "cassava"):
		return haccp.Starch
	case is("canned", "dried", "dehydrated", "sun-dried"):
		return haccp.Dry
	}
	return haccp.Produce
}

func either(first bool, a, b haccp.Class) haccp.Class {
	if first {
		return a
	}
	return b
}

func anyIn(text string, words []string) bool {
	for _, w := range words {
		if strings.Contains(text, w) {
			return true
		}
	}
	return false
}
