package formula

import (
	"fmt"
	"strings"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/stability"
)

// known is what an ingredient does in a pot, and where that is from.
type known struct {
	role  stability.Role
	kind  string // of a gum or a starch: xanthan, corn; empty when nobody has said and the name does not tell
	guess string // what it was guessed from; empty when the book says it
}

// roleOf is what an ingredient does: as the book says, or else by its name, by what the food table calls it, by its class and its function. What
// fits nothing is Other, and that is a guess too.
func roleOf(g kitchen.Ingredient, foods *foodtable.Table) known {
	food, listed := foods.Lookup(g.Food)
	text := plainly.Replace(words(g.Name, g.Label, food.Name, g.Source))
	if g.Role != "" {
		role := stability.Role(strings.ReplaceAll(string(g.Role), "-", " "))
		return known{role: role, kind: kindOf(role, words(g.Source), text)}
	}
	if fleshy(g, food) && !hasAny(text, "tallow|suet|lard|fat|grease|dripping") {
		return known{stability.Meat, "", byMeat}
	}
	if hasAny(text, "tofu|tempeh|seitan") { // no table says what becomes of them
		return known{stability.Other, "", byNothing}
	}
	for _, x := range byName {
		if x.fits(text) && (x.class == nil || x.class(g, food)) {
			return known{x.role, kindOf(x.role, words(g.Source), text), byItsName}
		}
	}
	role, why := byClass(g.Class)
	if role == "" && listed {
		role, why = byGroup(food.Group)
	}
	if role == "" {
		return known{stability.Other, "", byNothing}
	}
	return known{role, kindOf(role, words(g.Source), text), why}
}

// What a role was guessed from.
const (
	byItsName = "its name"
	byMeat    = "its class or the food table, by which it is meat or fish"
	byNothing = "nothing: neither its name nor its class tells"
)

// plainly takes out of a name what would be mistaken for what the thing is.
var plainly = strings.NewReplacer(" without salt", "", " no salt added", "", " with salt", "", " salt added", "", " canned in water", "", " canned in oil", "", " canned in juice", "", " packed in juice", "",
	" packed in water", "", " packed in oil", "", " in water", "", " in oil", "")

// fleshy says whether something is meat, poultry or fish.
func fleshy(g kitchen.Ingredient, food foodtable.Food) bool {
	role, _ := byClass(g.Class)
	if role == "" && g.Class == "" {
		role, _ = byGroup(food.Group)
	}
	return role == stability.Meat
}

// words is text in lower case between single spaces, so that whole words can be looked for.
func words(texts ...string) string {
	clean := strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r > 127 {
			return r
		}
		return ' '
	}, strings.ToLower(strings.Join(texts, " ")))
	return " " + strings.Join(strings.Fields(clean), " ") + " "
}

// has looks for a word or a few in a row, singular or plural.
func has(text, phrase string) bool {
	return strings.Contains(text, " "+phrase+" ") || strings.Contains(text, " "+phrase+"s ") || strings.Contains(text, " "+phrase+"es ")
}

func hasAny(text string, phrases string) bool {
	for phrase := range strings.SplitSeq(phrases, "|") {
		if phrase != "" && has(text, phrase) {
			return true
		}
	}
	return false
}

// named is a role by the words of a name: any of Words and none of Not.
type named struct {
	words, not string
	role       stability.Role
	class      func(kitchen.Ingredient, foodtable.Food) bool // what else must be so; nil for nothing
}

func (n named) fits(text string) bool { return hasAny(text, n.words) && !hasAny(text, n.not) }

func dairy(g kitchen.Ingredient, f foodtable.Food) bool {
	return g.Class == "dairy" || g.Class == "" && f.Group == "Dairy and Egg Products" || g.Class == "" && f.Group == ""
}

// byName are the names that tell, the particular before the general.
var byName = []named{
	{words: "xanthan|guar|locust bean|carrageenan|gellan|agar|konjac|pectin|alginate|cmc|carboxymethylcellulose", role: stability.Gum},
	{words: "citrate|hexametaphosphate|disodium phosphate|trisodium phosphate|emulsifying salt", not: "calcium citrate|potassium citrate|magnesium citrate", role: stability.EmulsifyingSalt},
	{words: "gelatin|gelatine", role: stability.Gelatin},
	{words: "mayonnaise|mayo|salad dressing|aioli", role: stability.Mayonnaise},
	{words: "custard|pudding|pastry cream", role: stability.Custard},
	{words: "sour cream|creme fraiche|crème fraîche|clabber", role: stability.CulturedCream},
	{words: "yogurt|yoghurt|kefir|skyr", role: stability.Yogurt},
	{words: "process cheese|processed cheese|american cheese|cheese food|cheese spread", role: stability.ProcessCheese},
	{words: "cream cheese|cottage cheese|ricotta|mascarpone|neufchatel|quark|farmer cheese|brie|camembert|fresh goat cheese|goat cheese soft|soft cheese", role: stability.SoftCheese},
	{words: "cheese|cheddar|gouda|gruyere|gruyère|parmesan|emmental|emmentaler|monterey|mozzarella|provolone|fontina|pecorino|colby|feta|manchego|asiago", not: "cheesecake|sauce|macaroni", role: stability.HardCheese},
	{words: "peanut butter|almond butter|cashew butter|tahini|almond|cashew|walnut|hazelnut|pecan|pine nut|pistachio|pumpkin seed|sunflower seed|sesame seed|flaxseed|coconut meat|dried coconut", not: "milk|oil|cream", role: stability.Other},
	{words: "sugar|honey|syrup|molasses|baking soda|baking powder|yeast|cocoa|chocolate", not: "peas|pea|snap|sugar free|sauce", role: stability.Other},
	{words: "bread|crumb|pita|tortilla|pastry|phyllo", role: stability.Other},
	{words: "butter|oil|lard|shortening|margarine|ghee|dripping|schmaltz|tallow|suet", not: "buttermilk|butter bean|butternut|butter lettuce", role: stability.Fat},
	{words: "coconut milk|coconut cream|half and half|creamer", role: stability.Cream},
	{words: "cream", not: "ice cream|cream of tartar|cream of wheat", role: stability.Cream, class: dairy},
	{words: "buttermilk|milk|evaporated milk", not: "chocolate", role: stability.Milk},
	{words: "egg noodle|pasta|noodle|macaroni|spaghetti|couscous|orzo|penne|gnocchi|ravioli|tortellini|lasagna", not: "sauce", role: stability.Pasta},
	{words: "hard boiled egg|boiled egg|egg hard boiled|cooked egg", role: stability.EggWhite},
	{words: "egg in shell|shell egg", role: stability.EggInShell},
	{words: "egg|egg yolk|yolk", not: "eggplant|egg plant", role: stability.Egg},
	{words: "modified starch|modified food starch|modified corn starch|modified tapioca starch", role: stability.ModifiedStarch},
	{words: "waxy|sweet rice flour|glutinous rice flour|mochiko", role: stability.WaxyStarch},
	{words: "starch|cornstarch|arrowroot|tapioca|cornflour", role: stability.NativeStarch},
	{words: "rice flour", role: stability.NativeStarch},
	{words: "flour|semolina|cornmeal|polenta|masa|grits", not: "tortilla", role: stability.Flour},
	{words: "rice", not: "vinegar|rice milk|wine|paper|bran", role: stability.Rice},
	{words: "sweet potato|yam", role: stability.Vegetable},
	{words: "potato", not: "chip", role: stability.Potato},
	{words: "broth|stock|bouillon|water|beer|ale|stout|cider|juice|dashi|consomme|coffee|spirit|brandy|whiskey|rum|gin|vodka", not: "lemon|lime|vinegar|stock cube|powder|tomato|chestnut|chestnuts", role: stability.Liquid},
	{words: "vinegar|wine|lemon|lime|tomato|tomatillo|verjuice|tamarind|citric acid", not: "sun dried|zest|powder|lime leaf|lemongrass", role: stability.Acid},
	{words: "mustard|soy sauce|fish sauce|worcestershire|ketchup|hot sauce|garlic|ginger|shallot|salt|pepper|paprika|parsley|cilantro|basil|thyme|oregano|dill|chive|mint|sage|rosemary|bay leaf|bay leave|cumin|coriander|turmeric|nutmeg|clove|cinnamon|miso|chili powder|curry powder|vanilla|horseradish|scallion",
		not: "bell pepper|sweet pepper|green pepper|red pepper|mustard green|salt pork", role: stability.Seasoning},
	{words: "lettuce|cucumber|radish|cabbage|celery|sprout|watercress|arugula|endive|bok choy", not: "celery seed|celery salt|celery root|brussels sprout", role: stability.WateryVegetable},
}

// byClass is a role by what an ingredient is as far as hazards go.
func byClass(c kitchen.IngredientClass) (stability.Role, string) {
	role, ok := map[kitchen.IngredientClass]stability.Role{"intact-meat": stability.Meat, "ground-meat": stability.Meat, "poultry": stability.Meat, "fish": stability.Meat,
		"cooked-meat": stability.Meat, "eggs": stability.Egg, "beans": stability.Pulses, "produce": stability.Vegetable, "water": stability.Liquid}[c]
	if !ok {
		return "", ""
	}
	return role, fmt.Sprintf("its class, %s", c)
}

// byGroup is a role by where the food table has it.
func byGroup(group string) (stability.Role, string) {
	role, ok := map[string]stability.Role{"Poultry Products": stability.Meat, "Beef Products": stability.Meat, "Pork Products": stability.Meat,
		"Lamb, Veal, and Game Products": stability.Meat, "Sausages and Luncheon Meats": stability.Meat, "Finfish and Shellfish Products": stability.Meat,
		"Spices and Herbs": stability.Seasoning, "Vegetables and Vegetable Products": stability.Vegetable, "Fruits and Fruit Juices": stability.Vegetable,
		"Legumes and Legume Products": stability.Pulses, "Fats and Oils": stability.Fat, "Soups, Sauces, and Gravies": stability.Liquid}[group]
	if !ok {
		return "", ""
	}
	return role, fmt.Sprintf("the food table, which has it under %s", group)
}

// kind is which gum or starch something is, by the words of a name.
type kind struct{ words, kind string }

var (
	gums = []kind{{"xanthan", "xanthan"}, {"locust bean|lbg|carob", "locust bean"}, {"guar", "guar"}, {"carrageenan", "iota carrageenan"},
		{"cmc|carboxymethylcellulose|cellulose gum", "carboxymethylcellulose"}}
	starches = []kind{{"corn|cornstarch|cornflour|maize", "corn"}, {"potato", "potato"}, {"rice", "rice"}, {"tapioca|cassava", "tapioca"}}
)

// kindOf is which gum or starch something of a role is: by the first text that tells.
func kindOf(role stability.Role, texts ...string) string {
	list := map[stability.Role][]kind{stability.Gum: gums, stability.NativeStarch: starches}[role]
	for _, text := range texts {
		for _, x := range list {
			if hasAny(text, x.words) {
				return x.kind
			}
		}
	}
	return ""
}
