package kitchen

import (
	"fmt"
	"math"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/unit"
)

func (c *checker) ingredients() {
	for id, g := range inOrder(c.book.Ingredients) {
		at := entrySpot("ingredients", string(id))
		c.id(at, string(id))
		c.text(at, "name", g.Name)
		c.composition(at, g)
		c.measures(at, g)
		c.within(at, "trim", inPerCent(g.Trim), trimmed)
		c.bought(at, g)
		c.within(at, "keeps", inPerCent(g.Keeps), perCent)
		c.stockLots(at, g)
		if g.Stock.Kind != 0 {
			c.weighable(at.key("stock"), g, g.Stock)
		}
		c.allergens(at, g)
	}
}

// composition checks that it is known what an ingredient consists of.
func (c *checker) composition(at spot, g Ingredient) {
	switch {
	case g.Food == "" && g.Analysis == nil:
		c.caution(CompositionMissing, at, "nothing says what it consists of: its heat, its freezing and the nutrition of what it goes into are guessed or left out", "write food: and the number of its row in the composition table, or analysis: from the supplier's sheet")
	case g.Food != "" && g.Analysis != nil:
		c.caution(CompositionTwice, at.key("food"), "it has a food number and an analysis of its own; the analysis counts", "take one of them out")
	}
	if g.Food != "" && !c.known(g.Food) {
		c.stop(UnknownFood, at.key("food"), fmt.Sprintf("the composition table has no row %s", g.Food), "look the food up by its name, and write its number with all its digits, leading zeros too")
	}
	if g.Analysis != nil {
		c.analysis(at, *g.Analysis)
	}
	if g.Figures != nil {
		c.figures(at, *g.Figures)
	}
}

// analysisSlack is how far from 100 g an analysis may add up: each of its six figures is rounded on the sheet, and carbohydrate
// that was measured, not taken as the difference, misses acids (common practice).
const analysisSlack = 2.0

func (c *checker) analysis(at spot, a Analysis) {
	at = spot{path: at.key("analysis").path, where: at.where}
	c.text(at, "source", a.Source)
	for _, part := range []struct {
		key  string
		gram float64
	}{
		{"water", a.Water}, {"protein", a.Protein}, {"fat", a.Fat}, {"carbohydrate", a.Carb}, {"ash", a.Ash}, {"alcohol", a.Alcohol},
	} {
		c.within(at, part.key, part.gram, per100g)
	}
	sum := a.Water + a.Protein + a.Fat + a.Carb + a.Ash + a.Alcohol
	if !(math.Abs(sum-100) <= analysisSlack) { // also when it is no number
		c.report(finding.Stop, AnalysisSum, at,
			fmt.Sprintf("water, protein, fat, carbohydrate, ash and alcohol add up to %s, but should to 100 g, give or take %s", per100g.say(sum), per100g.say(analysisSlack)),
			"check the sheet; carbohydrate is what the others leave over, fibre and acids included",
			finding.Figure{Name: "sum", Value: sum, Unit: "g", Text: per100g.say(sum)},
			finding.Figure{Name: "should be", Value: 100, Unit: "g", Text: per100g.say(100)})
	}
	c.partOf(at, "fibre", a.Fibre, "carbohydrate", a.Carb)
	c.partOf(at, "sugars", a.Sugars, "carbohydrate", a.Carb)
	c.partOf(at, "saturated-fat", a.SatFat, "fat", a.Fat)
	c.partOf(at, "trans-fat", a.TransFat, "fat", a.Fat)
	c.partOf(at, "added-sugars", a.AddedSugars, "carbohydrate", a.Carb)
	c.traces(at, a)
}

// figures checks single figures from a supplier's sheet.
func (c *checker) figures(at spot, f Figures) {
	at = spot{path: at.key("figures").path, where: at.where}
	c.text(at, "source", f.Source)
	for _, part := range []struct {
		key  string
		gram *float64
	}{{"saturated-fat", f.SatFat}, {"trans-fat", f.TransFat}, {"fibre", f.Fibre}, {"sugars", f.Sugars}, {"added-sugars", f.AddedSugars}} {
		if part.gram != nil {
			c.within(at, part.key, *part.gram, per100g)
		}
	}
	c.traces(at, Analysis{Cholesterol: f.Cholesterol, Sodium: f.Sodium, Calcium: f.Calcium, Iron: f.Iron, Potassium: f.Potassium, VitaminD: f.VitaminD})
}

// traces checks what is given in milligrams, and vitamin D.
func (c *checker) traces(at spot, a Analysis) {
	for _, trace := range []struct {
		key    string
		amount *float64
		most   limits
	}{
		{"sodium", a.Sodium, sodiumMg}, {"cholesterol", a.Cholesterol, traceMg}, {"calcium", a.Calcium, traceMg}, {"iron", a.Iron, traceMg},
		{"potassium", a.Potassium, traceMg}, {"vitamin-d", a.VitaminD, vitaminD},
	} {
		if trace.amount != nil {
			c.within(at, trace.key, *trace.amount, trace.most)
		}
	}
}

// partOf checks a figure that is contained in another.
func (c *checker) partOf(at spot, key string, part *float64, wholeKey string, whole float64) {
	if part == nil {
		return
	}
	c.within(at, key, *part, per100g)
	if *part > whole && per100g.hold(*part) {
		c.stop(AnalysisPart, at.key(key), fmt.Sprintf("%s is %s, more than the %s of %s it is a part of", key, per100g.say(*part), per100g.say(whole), wholeKey), "check both figures on the sheet")
	}
}

func (c *checker) measures(at spot, g Ingredient) {
	if g.Density != 0 {
		c.within(at, "density", float64(g.Density), density)
	}
	for measure, weighs := range inOrder(g.Measures) {
		here := spot{path: PathTo(at.key("measures").path, measure), where: Within(at.where, Entry("measures", measure))}
		one, err := unit.ParseAmount("1 " + measure)
		switch {
		case err != nil || one.Kind == unit.AmountMass:
			c.stop(MeasureNotMass, here, fmt.Sprintf("%q is no measure that amounts can be given in", measure), "name a volume, with a form if it matters, or what is counted: cup, or cup, shredded, or each")
		case weighs.Kind != unit.AmountMass || weighs.Mass <= 0:
			c.stop(MeasureNotMass, here, fmt.Sprintf("it says %s, not what one of it weighs", weighs), "weigh one and write its mass, such as 110 g")
		default:
			c.limit(here, measure, weighs.Mass.Kg(), packMass)
		}
	}
}

// bought checks how an ingredient is come by.
func (c *checker) bought(at spot, g Ingredient) {
	switch {
	case g.Free && len(g.Buy) > 0:
		c.caution(FreeButBought, at.key("free"), "it comes free from the tap, and can be bought too; nothing will be bought", "take free or buy out")
	case !g.Free && len(g.Buy) == 0:
		c.caution(PriceMissing, at, "nothing says what it costs: the cost of what it goes into is a lower bound", "write buy: with a pack and its price, or free: true")
	}
	for i, offer := range g.Buy {
		here := at.item("buy", i, "")
		if offer.Supplier == "" {
			c.caution(SupplierMissing, here, "nobody sells this offer", "write supplier: and the id of one")
		} else {
			c.refers(here.key("supplier"), "supplier", string(offer.Supplier), names(c.book.Suppliers))
		}
		c.weighable(here.key("pack"), g, offer.Pack)
		c.within(here, "price", offer.Price.Units(), money)
		c.offer(here, offer)
		if offer.Price == 0 {
			c.caution(PriceMissing, here.key("price"), "it costs nothing: the cost of what it goes into is a lower bound", "write the price of one pack")
		}
	}
}

// ingredientAmount checks an amount of an ingredient that may not be there.
func (c *checker) ingredientAmount(at spot, id IngredientID, a unit.Amount) {
	if g, ok := c.book.Ingredients[id]; ok {
		c.weighable(at, g, a)
	}
}

// weighable reports an amount that is nothing, or of which the book cannot say what it weighs. An ingredient with a row in the
// composition table is let through: the table may have the measure, and the plan says so when it has not.
func (c *checker) weighable(at spot, g Ingredient, a unit.Amount) {
	mass, ok := g.Weigh(a)
	switch {
	case ok && mass <= 0 || !ok && (a.Count <= 0 && a.Volume <= 0):
		c.report(finding.Stop, OutOfRange, at, "the amount is nothing, but should be more", "write how much it is")
	case ok && mass.Kg() > storedMass.high:
		c.report(finding.Stop, OutOfRange, at, fmt.Sprintf("%s is more than %s", a, storedMass.say(storedMass.high)), "check the figure and its unit")
	case !ok && g.Food == "":
		c.report(finding.Stop, AmountWithoutMass, at, fmt.Sprintf("nothing says what %s of %s weighs", a, g.Name), weighHint(a))
	}
}

// weighHint says what the ingredient lacks.
func weighHint(a unit.Amount) string {
	switch {
	case a.Kind == unit.AmountVolume && a.Measure != "":
		return fmt.Sprintf("weigh a cup of it and write measures: {\"cup, %s\": ...} at the ingredient, or write a mass here", a.Measure)
	case a.Kind == unit.AmountVolume:
		return "write the ingredient's density, or weigh a cup of it and write measures: {cup: ...}, or write a mass here"
	default:
		return fmt.Sprintf("weigh one and write measures: {%s: ...} at the ingredient, or write a mass here", a.Measure)
	}
}

// outputAmount checks a fixed amount of what a step gives: only its mass is known.
func (c *checker) outputAmount(at spot, a unit.Amount) {
	if a.Kind != unit.AmountMass {
		c.stop(AmountWithoutMass, at, fmt.Sprintf("nothing says what %s of an output weighs", a), "write a mass, or take: and a share of it")
		return
	}
	if a.Mass <= 0 {
		c.stop(OutOfRange, at, "the amount is nothing, but should be more", "write how much it is, or take the line out")
	}
}
