package formula_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/formula"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/stability"
	"kettlefrost/internal/unit"
)

func review(t testing.TB, book kitchen.Book, s formula.Subject) formula.Review {
	t.Helper()
	r, err := pot(t, book, s).Review()
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func codes(r formula.Review, from stability.Severity) []string {
	var all []string
	for _, f := range r.Findings {
		if f.Severity >= from {
			all = append(all, f.Code)
		}
	}
	slices.Sort(all)
	return all
}

// The demo's dishes are made to be frozen, and nothing in them is to be changed. What each is spared, an expert would say so too: citrate and starch
// hold the cheese, the pulses and the sauces are among what freezes well, the lentils hold the coconut milk, the flour the cream, and the milk and
// egg are set in the meatballs (stability's tables; beans, stews and tomato sauce freeze well: common practice).
func TestTheDemoIsSound(t *testing.T) {
	book := demoBook(t)
	spared := map[kitchen.PackID]string{"ale-cheddar-lb": "cheese-sauce-breaks", "bean-pot-2lb": "vegetables-soft", "lentil-squash-2lb": "cream-cooked", "mushroom-filling-2lb": "cream-rich",
		"meatballs-six": "milk"}
	for _, s := range subjects(book) {
		r := review(t, book, s)
		if r.Worst() > stability.Note {
			t.Errorf("%s: %v", s.Pack, codes(r, stability.Change))
		}
		if code := spared[s.Pack]; code != "" && !slices.ContainsFunc(r.Passed, func(p stability.Passed) bool { return p.Code == code && p.Why != "" }) {
			t.Errorf("%s: %s is not passed: %+v", s.Pack, code, r.Passed)
		}
		if len(r.Assumed) > 0 || len(r.Unknown) > 0 {
			t.Errorf("%s: %v %v", s.Pack, r.Assumed, r.Unknown)
		}
	}
}

// The same sauce without its citrate, its flour and its gum: what the demo is spared is then found.
func TestWithoutWhatProtectsIt(t *testing.T) {
	book := demoBook(t)
	dish := book.Dishes["ale-cheddar"]
	dish.Steps = slices.Clone(dish.Steps)
	for i, s := range dish.Steps {
		dish.Steps[i].Use = slices.DeleteFunc(slices.Clone(s.Use), func(u kitchen.Use) bool { return u.Of == "sodium-citrate" || u.Of == "xanthan" || u.Of == "flour" })
	}
	book.Dishes["ale-cheddar"] = dish
	r := review(t, book, formula.Subject{Pack: "ale-cheddar-lb"})
	i := slices.IndexFunc(r.Findings, func(f stability.Finding) bool { return f.Code == "cheese-sauce-breaks" })
	if i < 0 || r.Findings[i].Severity != stability.Change || r.Findings[i].Remedies[0].ID != "citrate" {
		t.Fatalf("%+v", r.Findings)
	}
	// 8 lb of cheddar take 2 to 4 % of citrate: 72.6 to 145.1 g.
	m := pot(t, book, formula.Subject{Pack: "ale-cheddar-lb"}).Dosed(r.Findings[i].Remedies[0], 0)
	if low, high := m.Low.Kg()*1000, m.High.Kg()*1000; low < 72.5 || low > 72.7 || high < 145 || high > 145.3 {
		t.Errorf("%g to %g g", low, high)
	}
}

// dishes that a cook might write, each in two or three lines; the first word of a line is what is done: hot or cold.
const badDishes = larder + `
dishes:
  stroganoff: # cream thickened with plain flour, soured at the end, in a thick pack
    name: mushroom stroganoff sauce
    steps:
      - {id: boil, do: Boil up., use: [{of: half-and-half, amount: 3 kg}, {of: vegetable-broth, amount: 3 kg}, {of: flour, amount: 400 g}, {of: butter, amount: 300 g}], in: [kettle], heat-to: 95 °C, time: 5 min}
      - {id: sour, do: Stir in the sour cream when it has cooled., use: [{from: boil, take: all}, {of: sour-cream, amount: 1.5 kg}], in: [kettle], ready-at: 10 °C, time: 2 min, gives: [{id: sauce}]}
  chowder:
    name: potato chowder
    steps:
      - {id: boil, do: Simmer the potatoes in milk until just tender., use: [{of: potato, amount: 3 kg}, {of: milk, amount: 4 kg}, {of: corn-starch, amount: 250 g}], in: [kettle], heat-to: 95 °C, time: 20 min, gives: [{id: pot}]}
  macaroni-cheese:
    name: macaroni and cheese
    steps:
      - {id: boil, do: Boil the macaroni until soft., use: [{of: macaroni, amount: 2 kg}, {of: water, amount: 5 kg}], in: [kettle], heat-to: 98 °C, time: 10 min}
      - {id: melt, do: Stir in the cheese until smooth., use: [{from: boil, take: all}, {of: gruyere, amount: 2 kg}, {of: milk, amount: 2 kg}], in: [kettle], heat-to: 80 °C, time: 3 min, gives: [{id: pot}]}
  raita-soup:
    name: yogurt and cucumber soup
    steps:
      - {id: stir, do: Stir together., use: [{of: yogurt, amount: 3 kg}, {of: lettuce, amount: 1 kg}, {of: water, amount: 1 kg}], in: [kettle], gives: [{id: soup}]}
  egg-curry:
    name: egg curry
    steps:
      - {id: simmer, do: Simmer., use: [{of: crushed-tomato, amount: 3 kg}, {of: boiled-egg, amount: 1.5 kg}, {of: coconut-milk, amount: 1 kg}], in: [kettle], heat-to: 95 °C, time: 10 min, gives: [{id: pot}]}
  braise: # nothing wrong with it
    name: beef braised in wine
    steps:
      - {id: braise, do: Braise until tender., use: [{of: beef, amount: 5 kg}, {of: white-wine, amount: 1 kg}, {of: water, amount: 3 kg}, {of: onion, amount: 1 kg}, {of: carrot, amount: 1 kg}], in: [kettle], heat-to: 95 °C, time: 120 min, gives: [{id: pot}]}
  mash:
    name: mashed potato
    steps:
      - {id: boil, do: Boil until soft., use: [{of: potato, amount: 5 kg}, {of: water, amount: 1 kg}], in: [kettle], heat-to: 95 °C, time: 25 min}
      - {id: mash, do: Mash the potatoes with hot milk., use: [{from: boil, take: all}, {of: milk, amount: 500 g}, {of: butter, amount: 200 g}], in: [kettle], heat-to: 75 °C, time: 3 min, gives: [{id: mash}]}
packs:
  stroganoff-2lb: {name: stroganoff sauce, dish: stroganoff, fill: [{of: sauce, mass: 2 lb}], bag: bag-6x9, thickness: 3 in, pace: 40 s}
`

// What an expert says of dishes that freeze badly, and of some that do not: Oregon State SP 50-766, USDA Home and Garden Bulletin 40 and the other
// sources of stability's tables.
func TestDishesThatFreezeBadly(t *testing.T) {
	book := bookWith(t, badDishes)
	for _, c := range []struct {
		dish  kitchen.DishID
		worst stability.Severity
		must  string // codes that must be found at change or worse
		not   string // codes that must not be found at all
	}{
		{"stroganoff", stability.Change, "cultured-cream", ""}, // the flour holds it a little
		{"chowder", stability.LeaveOut, "potato-pieces starch-weeps", "potato-pureed"},
		{"macaroni-cheese", stability.Change, "pasta cheese-sauce-breaks", "cheese-crumbles"},
		{"raita-soup", stability.LeaveOut, "yogurt raw-watery", ""},
		{"egg-curry", stability.LeaveOut, "egg-white", "acid-curdles-dairy"}, // coconut milk has no casein
		{"braise", stability.Good, "", "vegetables-soft"},
		{"mash", stability.Good, "", "potato-pieces"},
	} {
		all := formula.SubjectsOf(book, c.dish)
		r := review(t, book, all[0])
		if r.Worst() != c.worst {
			t.Errorf("%s: %s, want %s: %v", c.dish, r.Worst(), c.worst, codes(r, stability.Note))
		}
		for code := range strings.FieldsSeq(c.must) {
			if !slices.Contains(codes(r, stability.Change), code) {
				t.Errorf("%s: no %s among %v", c.dish, code, codes(r, stability.Note))
			}
		}
		for code := range strings.FieldsSeq(c.not) {
			if slices.Contains(codes(r, stability.Note), code) {
				t.Errorf("%s: %s was found", c.dish, code)
			}
		}
		for _, f := range r.Findings {
			if f.Mechanism == "" || f.Source == "" || f.Severity > stability.Note && len(f.Remedies) == 0 {
				t.Errorf("%s: %+v", c.dish, f)
			}
		}
	}
}

// Three inches thick and stacked it freezes slowly; the flour then weeps, and xanthan, waxy starch or a flat pack would help (Ferrero et al. 1993).
func TestSlowlyFrozenFlour(t *testing.T) {
	book := bookWith(t, badDishes)
	for id, x := range book.Freezers {
		x.Lay, x.High = kitchen.Stacked, 4
		book.Freezers[id] = x
	}
	p := pot(t, book, formula.Subject{Pack: "stroganoff-2lb"})
	if !(p.Front.UsualMMH > 0 && p.Front.UsualMMH < 1) {
		t.Errorf("%+v", p.Front)
	}
	r := review(t, book, formula.Subject{Pack: "stroganoff-2lb"})
	i := slices.IndexFunc(r.Findings, func(f stability.Finding) bool { return f.Code == "starch-weeps" })
	if i < 0 {
		t.Fatal(codes(r, stability.Note))
	}
	helps := map[string]bool{}
	for _, m := range r.Findings[i].Remedies {
		helps[m.ID] = m.Tried && m.After < r.Findings[i].Severity
	}
	if !helps["xanthan"] || !helps["waxy"] || r.Slow < stability.Change {
		t.Errorf("%v, slow %s", helps, r.Slow)
	}
}

// What nobody said is asked, with what was taken meanwhile, and where the answer goes.
func TestWhatIsAsked(t *testing.T) {
	book := bookWith(t, larder+`
  farm-cheese: {name: farmhouse cheese, role: hard-cheese, storage: chilled, allergens: [milk], analysis: {water: 40, protein: 0, fat: 32, carbohydrate: 2, ash: 4, source: "the farm's sheet, half filled in"}}
  the-blend: {name: the blend, storage: dry, allergens: none}
  mystery-gum: {name: thickening gum, role: gum, analysis: {water: 10, protein: 0, fat: 0, carbohydrate: 90, ash: 0, source: a sheet}, storage: dry, allergens: none}
  thickener: {name: starch for sauces, role: native-starch, analysis: {water: 10, protein: 0, fat: 0, carbohydrate: 90, ash: 0, source: a sheet}, storage: dry, allergens: none}
dishes:
  odd:
    name: odd sauce
    steps:
      - {id: melt, do: Melt., use: [{of: farm-cheese, amount: 1 kg}, {of: the-blend, amount: 100 g}, {of: mystery-gum, amount: 10 g}, {of: thickener, amount: 50 g}, {of: milk, amount: 1 kg}, {of: white-wine, amount: 300 g}], in: [kettle], heat-to: 80 °C, time: 5 min, gives: [{id: sauce}]}
`)
	book.Kitchen.FineScale = kitchen.Scale{}
	p := pot(t, book, formula.Subject{Dish: "odd", Output: "sauce"})
	var got []string
	for _, a := range p.Asks {
		if a.Asks == "" || a.Assumed == "" || a.Path == "" || a.Where == "" {
			t.Errorf("%+v", a)
		}
		got = append(got, a.Code+"@"+a.Path)
	}
	for _, want := range []string{"protein-not-known@ingredients.farm-cheese.analysis.protein", "calcium-not-known@ingredients.farm-cheese.analysis.calcium", "sodium-not-known@ingredients.farm-cheese.analysis.sodium",
		"role-not-said@ingredients.the-blend.role", "composition-not-known@ingredients.the-blend.food", "gum-not-said@ingredients.mystery-gum.made-from", "starch-not-said@ingredients.thickener.made-from",
		"ph-not-measured@dishes.odd.ph", "scale-not-said@kitchen.fine-scale", "front-not-known@packs"} {
		if !slices.Contains(got, want) {
			t.Errorf("%s is not asked: %v", want, got)
		}
	}
	r, err := p.Review()
	if err != nil || !slices.Contains(r.Unknown, "the blend") {
		t.Errorf("%v: %v", err, r.Unknown)
	}
	d, err := p.Doses(formula.Want{})
	if err != nil {
		t.Fatal(err)
	}
	// A kilogram of cheese with the calcium of cheddar takes 2 to 4 % of citrate.
	if l := line(t, d, formula.KeyCitrate); fmt.Sprint(l.Doses[0].Low, l.Doses[0].High) != "20 g 40 g" && (l.Doses[0].Low.Kg() != 0.02 || l.Doses[0].High.Kg() != 0.04) {
		t.Errorf("%+v", l.Doses[0])
	}
}

// The guess of what foods of the table do, as a cook would put it.
func TestGuessedRoles(t *testing.T) {
	book := bookWith(t, larder+`
dishes:
  all:
    name: all of it
    steps:
      - {id: mix, do: Mix., use: [{of: sour-cream, amount: 1 kg}, {of: yogurt, amount: 1 kg}, {of: half-and-half, amount: 1 kg}, {of: cream-cheese, amount: 1 kg}, {of: gruyere, amount: 1 kg}, {of: mayonnaise, amount: 1 kg}, {of: potato, amount: 1 kg}, {of: macaroni, amount: 1 kg}, {of: rice, amount: 1 kg}, {of: corn-starch, amount: 1 kg}, {of: boiled-egg, amount: 1 kg}, {of: lettuce, amount: 1 kg}, {of: beef, amount: 1 kg}], in: [kettle], gives: [{id: pot}]}
`)
	p := pot(t, book, formula.Subject{Dish: "all", Output: "pot"})
	for of, want := range map[kitchen.IngredientID]stability.Role{"sour-cream": stability.CulturedCream, "yogurt": stability.Yogurt, "half-and-half": stability.Cream, "cream-cheese": stability.SoftCheese,
		"gruyere": stability.HardCheese, "mayonnaise": stability.Mayonnaise, "potato": stability.Potato, "macaroni": stability.Pasta, "rice": stability.Rice, "corn-starch": stability.NativeStarch,
		"boiled-egg": stability.EggWhite, "lettuce": stability.WateryVegetable, "beef": stability.Meat} {
		x := part(p, of)
		if x.Component.Role != want || x.Guessed == "" {
			t.Errorf("%s is taken as %q by %q, want %q", of, x.Component.Role, x.Guessed, want)
		}
	}
	if x := part(p, "corn-starch"); x.Component.Starch != stability.Corn {
		t.Errorf("%+v", x.Component)
	}
}

// The demo says what each ingredient does. Were it guessed, the guess would be the same but for those whose names do not tell.
func TestGuessesAgreeWithTheDemo(t *testing.T) {
	said, silent := demoBook(t), demoBook(t)
	for id, g := range silent.Ingredients {
		g.Role, g.Source = "", ""
		silent.Ingredients[id] = g
	}
	differ := map[kitchen.IngredientID]bool{}
	for _, s := range subjects(said) {
		a, b := pot(t, said, s), pot(t, silent, s)
		for _, x := range a.Parts {
			if y := part(b, x.Ingredient); y.Component.Role != x.Component.Role {
				differ[x.Ingredient] = true
				t.Logf("%s: said %q, guessed %q by %q", x.Name, x.Component.Role, y.Component.Role, y.Guessed)
			}
		}
	}
	if len(differ) > 3 {
		t.Errorf("%d guesses differ: %v", len(differ), differ)
	}
}

// Foods of the table as a cook would put them, none of which says what it does.
func TestGuessedRolesOfTheFoodTable(t *testing.T) {
	want := map[string]stability.Role{
		"canned in water, drained": stability.Meat, "beef tallow": stability.Fat, "lard": stability.Fat, "beef suet": stability.Fat, "anchovies": stability.Meat, "scallops, bay": stability.Meat,
		"chicken broth, ready to serve": stability.Liquid, "beer, regular": stability.Liquid, "orange juice": stability.Liquid, "tomato juice": stability.Acid, "lemon juice, fresh": stability.Acid,
		"crushed tomatoes": stability.Acid, "white wine": stability.Acid, "balsamic vinegar": stability.Acid, "white beans, boiled": stability.Pulses, "red lentils": stability.Pulses, "green split peas": stability.Pulses,
		"carrots, boiled": stability.Vegetable, "white mushrooms, boiled": stability.Vegetable, "butternut squash": stability.Vegetable, "eggplant, raw": stability.Vegetable, "sweet potato, baked": stability.Vegetable,
		"celery, raw": stability.WateryVegetable, "cabbage, boiled": stability.WateryVegetable, "cucumber": stability.WateryVegetable, "celery seed": stability.Seasoning, "garlic, raw": stability.Seasoning,
		"table salt": stability.Seasoning, "soy sauce, tamari": stability.Seasoning, "green bell peppers, raw": stability.Vegetable, "rice flour": stability.NativeStarch, "cornmeal": stability.Flour, "arrowroot": stability.NativeStarch,
		"wild rice, cooked": stability.Rice, "rice noodles, dry": stability.Pasta, "egg noodles": stability.Pasta, "couscous, dry": stability.Pasta, "russet potatoes": stability.Potato,
		"coconut milk, canned": stability.Cream, "half-and-half": stability.Cream, "buttermilk": stability.Milk, "evaporated milk": stability.Milk, "butter, unsalted": stability.Fat, "sour cream": stability.CulturedCream,
		"Greek yogurt, plain, nonfat": stability.Yogurt, "ricotta": stability.SoftCheese, "cottage cheese": stability.SoftCheese, "cream cheese": stability.SoftCheese, "parmesan, hard": stability.HardCheese, "feta": stability.HardCheese,
		"egg, hard-boiled": stability.EggWhite, "egg yolk": stability.Egg, "mayonnaise": stability.Mayonnaise, "gelatin powder": stability.Gelatin, "firm tofu": stability.Other, "sugar, granulated": stability.Other,
		"bread crumbs, dry": stability.Other,
	}
	book := demoBook(t)
	book.Ingredients = map[kitchen.IngredientID]kitchen.Ingredient{}
	step := kitchen.Step{ID: "mix", Do: "Mix.", Gives: []kitchen.Output{{ID: "pot"}}}
	for name := range want {
		i := slices.IndexFunc(table(t).Foods(), func(f foodtable.Food) bool { return strings.Contains(f.Name, name) })
		if i < 0 {
			t.Fatalf("the table has no %q", name)
		}
		f := table(t).Foods()[i]
		id := kitchen.IngredientID(name)
		book.Ingredients[id] = kitchen.Ingredient{Name: f.Name, Food: f.NDB}
		step.Use = append(step.Use, kitchen.Use{Of: id, Amount: unit.Amount{Kind: unit.AmountMass, Mass: unit.Kilogram}})
	}
	book.Dishes["all"] = kitchen.Dish{Name: "all of it", Steps: []kitchen.Step{step}}
	p := pot(t, book, formula.Subject{Dish: "all", Output: "pot"})
	for name, role := range want {
		if x := part(p, kitchen.IngredientID(name)); x.Component.Role != role {
			t.Errorf("%s is taken as %q by %q, want %q", x.Name, x.Component.Role, x.Guessed, role)
		}
	}
}
