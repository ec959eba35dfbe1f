package formula

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/stability"
	"kettlefrost/internal/unit"
)

// The codes of what is asked. They are stable, for programs.
const (
	AskRole        = "role-not-said"
	AskGum         = "gum-not-said"
	AskStarch      = "starch-not-said"
	AskComposition = "composition-not-known"
	AskProtein     = "protein-not-known"
	AskCalcium     = "calcium-not-known"
	AskSodium      = "sodium-not-known"
	AskPH          = "ph-not-measured"
	AskKeeps       = "keeping-not-said"
	AskScale       = "scale-not-said"
	AskFront       = "front-not-known"
	AskFreezer     = "freezer-not-said"
)

// cheddarCalcium is what a cheese is taken to have where nobody says: 710 mg in 100 g, USDA SR28, NDB 01009.
const cheddarCalcium = 710

func (c *composer) say(a Ask) {
	if !slices.ContainsFunc(c.pot.Asks, func(x Ask) bool { return x.Code == a.Code && x.Path == a.Path }) {
		c.pot.Asks = append(c.pot.Asks, a)
	}
}

// ask is what nobody has said of an ingredient.
func (c *composer) ask(p Part, k known, of kitchen.IngredientID) {
	path := "ingredients." + string(of)
	f := factsOf(c.book.Ingredients[of], c.foods)
	if k.guess != "" {
		a := Ask{Code: AskRole, Path: path + ".role", Where: p.Name, Asks: "What does it do in the pot?", Assumed: fmt.Sprintf("%s, by %s", k.role, k.guess), Grave: delicate[k.role] || k.guess == byNothing}
		c.say(a)
	}
	switch {
	case k.role == stability.Gum && k.kind == "":
		c.say(Ask{Code: AskGum, Path: path + ".made-from", Where: p.Name, Asks: "Which gum is it? Xanthan protects, guar does not, and each has its own dose.", Assumed: "a gum of which nothing is known: it protects nothing and has no dose", Grave: true})
	case k.role == stability.NativeStarch && k.kind == "":
		c.say(Ask{Code: AskStarch, Path: path + ".made-from", Where: p.Name, Asks: "What is the starch made from?", Assumed: "corn, which weeps most", Grave: true})
	}
	if !f.compositionKnown {
		c.say(Ask{Code: AskComposition, Path: path + ".food", Where: p.Name, Asks: "What is it made of? Give the number of a food of the table (food) or the supplier's figures (analysis).",
			Assumed: "something without water, fat, protein and salt", Grave: true})
		if cheesy[k.role] {
			c.say(Ask{Code: AskCalcium, Path: path + ".analysis.calcium", Where: p.Name, Asks: "How much calcium has this cheese, mg in 100 g? The emulsifying salt goes by it.", Assumed: calciumAssumed, Grave: true})
		}
		return
	}
	if cheesy[k.role] && (!f.proteinKnown || f.proteinG == 0) {
		c.say(Ask{Code: AskProtein, Path: path + ".analysis.protein", Where: p.Name, Asks: "How much protein has this cheese? Its supplier's sheet says it.", Assumed: "none, so that nothing is reckoned by it", Grave: true})
	}
	if k.role == stability.HardCheese && f.calciumMg == nil {
		c.say(Ask{Code: AskCalcium, Path: path + ".analysis.calcium", Where: p.Name, Asks: "How much calcium has this cheese, mg in 100 g? The emulsifying salt goes by it.", Assumed: calciumAssumed, Grave: true})
	}
	if f.sodiumMg == nil {
		c.say(Ask{Code: AskSodium, Path: path + ".analysis.sodium", Where: p.Name, Asks: "How much sodium has it, mg in 100 g?", Assumed: "none: the dish may be saltier than is reckoned"})
	}
}

var calciumAssumed = fmt.Sprintf("%d mg, as in cheddar", cheddarCalcium)

var cheesy = map[stability.Role]bool{stability.HardCheese: true, stability.SoftCheese: true, stability.ProcessCheese: true}

// delicate are the roles that the freezer is hard on: to take something for one of them, or not, changes what is said.
var delicate = map[stability.Role]bool{stability.HardCheese: true, stability.SoftCheese: true, stability.ProcessCheese: true, stability.Cream: true, stability.CulturedCream: true, stability.Yogurt: true,
	stability.Flour: true, stability.NativeStarch: true, stability.Potato: true, stability.Pasta: true, stability.Rice: true, stability.EggWhite: true, stability.Egg: true,
	stability.EggInShell: true, stability.Custard: true, stability.Mayonnaise: true, stability.Gelatin: true, stability.Gum: true, stability.EmulsifyingSalt: true, stability.Topping: true}

// askPot is what nobody has said of the dish and its pack.
func (c *composer) askPot() {
	p := &c.pot
	dish, pack := "dishes."+string(p.Dish), "packs."+string(p.Pack)
	if p.PH == 0 && p.has(stability.Acid) && p.curdles() {
		c.say(Ask{Code: AskPH, Path: dish + ".ph", Where: p.Name, Asks: "What is its pH? There is dairy in it and something sour. A strip or a meter tells it in a minute.", Assumed: "not known: judged by how much of it is sour", Grave: true})
	}
	if p.Pack != "" && p.Weeks == 0 {
		c.say(Ask{Code: AskKeeps, Path: pack + ".best-before", Where: p.Name, Asks: "How many weeks is it to keep?", Assumed: fmt.Sprintf("%d to %d weeks, the published life of soups and stews", chartLow, chartHigh)})
	}
	if p.Front.UsualMMH == 0 && p.thickened() {
		a := Ask{Code: AskFront, Path: pack, Where: p.Name, Asks: "How does it freeze? Give the pack its bag and the kitchen its freezers.", Assumed: "slower than 1 mm/h, which is hard on starch", Grave: true}
		if p.Pack == "" {
			a.Path, a.Asks = "packs", "In what pack is it frozen? Write one for the dish."
		}
		c.say(a)
	}
}

// has says whether the pot, pieces apart, has something of some roles.
func (p Pot) has(roles ...stability.Role) bool {
	return slices.ContainsFunc(p.Parts, func(x Part) bool { return slices.Contains(roles, x.Component.Role) && !x.Component.Inside })
}

// curdles says whether there is something that acid curdles, a hundredth of the pot or more.
func (p Pot) curdles() bool {
	kg := p.sum(func(x Part) float64 {
		switch x.Component.Role {
		case stability.Milk, stability.Cream, stability.HardCheese, stability.SoftCheese:
			return cond(!x.Component.Plant, x.Kg)
		}
		return 0
	})
	return kg >= 0.01*p.Mass.Kg()
}

func (p Pot) thickened() bool {
	return p.has(stability.Flour, stability.NativeStarch, stability.WaxyStarch, stability.ModifiedStarch)
}

// usualScale is what small amounts are taken to be weighed on where the book does not say: a kitchen's platform scale.
const usualScale = unit.Gram

// scale is what small amounts are weighed on.
func (c *composer) scale() {
	s := c.book.Kitchen.FineScale
	c.pot.Scale, c.pot.Holds = cmp.Or(s.Division, usualScale), s.Capacity
	c.pot.Table = cmp.Or(c.book.Kitchen.NetContents.Scale, usualScale)
	if s.Division == 0 {
		c.say(Ask{Code: AskScale, Path: "kitchen.fine-scale", Where: "the kitchen", Asks: "What is the finest scale, and what does it hold?", Assumed: "steps of " + strings.TrimSpace(usualScale.String())})
	}
}
