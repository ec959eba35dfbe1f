package labelmaker

import (
	"testing"

	"kettlefrost/internal/barcode"
)

// soup is a label with everything on it: lentil soup as a shop sells it. The kitchen is invented; the panel is a worked example of rounding by 21 CFR
// 101.9 (reckoned by hand, 680 g of soup in servings of 245 g).
func soup(t testing.TB) Content {
	t.Helper()
	gs1, err := barcode.EncodeGS1(barcode.Elements{{AI: "01", Value: "09521234543213"}, {AI: "15", Value: "270531"}, {AI: "10", Value: "L-0917"}})
	if err != nil {
		t.Fatal(err)
	}
	qr, err := barcode.EncodeQR("https://kitchen.example/01/09521234543213/10/L-0917", barcode.Medium)
	if err != nil {
		t.Fatal(err)
	}
	return Content{
		Name: "Hill Road Pots", Identity: "Red Lentil and Squash Soup", Keep: "Keep frozen",
		Net: []string{"NET WT 24 OZ (1 LB 8 OZ) 680 g"},
		Ingredients: Plain("Ingredients: water, red lentils, butternut squash, onion, carrot, coconut milk (coconut, water, guar gum), tomato paste (tomatoes, salt, citric acid), " +
			"butter (milk, salt), wheat flour (wheat flour, niacin, iron, thiamine mononitrate, riboflavin, folic acid), garlic, ginger, salt, cumin, turmeric, black pepper."),
		Contains: Plain("Contains: Milk, Wheat."),
		Firm:     []string{"Made by Hill Road Kitchen", "12 Hill Road, Burlington, VT 05401"},
		Heating:  []string{"Stove: run hot water over the bag, slide the block into a pot with 2 tbsp water, cover, heat on medium 14 to 17 min, stirring, until 165 °F in the middle."},
		Cautions: []string{"Do not refreeze. Open the bag before thawing."},
		Dates:    []Fact{{"Best before", "2027-05-31"}, {"Packed", "2026-11-26"}},
		Lot:      Fact{"Lot", "L-0917"},
		Panel:    facts(),
		Bars:     &gs1, Square: &qr, SquareSays: "Scan for how to heat it and where it was made",
	}
}

func facts() *Panel {
	line := func(name string, strong bool, indent int, amount, percent, whole, wholePercent string) Line {
		return Line{Name: name, Strong: strong, Indent: indent, Amounts: []string{amount, whole}, Percents: []string{percent, wholePercent}}
	}
	vitaminD := line("Vitamin D", false, 0, "0 mcg", "0%", "0 mcg", "0%")
	vitaminD.Bar = true
	return &Panel{
		Title: "Nutrition Facts", Servings: "about 3 servings per container", Serving: Fact{"Serving size", "1 cup (245 g)"},
		Heads: []string{"Per serving", "Per container"}, Amount: "Amount per serving", Calories: Line{Name: "Calories", Amounts: []string{"190", "530"}}, PercentHead: "% Daily Value*", PercentOf: "DV",
		Lines: []Line{
			line("Total Fat", true, 0, "5 g", "6%", "13 g", "17%"), line("Saturated Fat", false, 1, "0.5 g", "3%", "2 g", "9%"), line("Trans Fat", false, 1, "0 g", "", "0 g", ""),
			line("Cholesterol", true, 0, "0 mg", "0%", "0 mg", "0%"), line("Sodium", true, 0, "610 mg", "27%", "1,700 mg", "74%"),
			line("Total Carbohydrate", true, 0, "27 g", "10%", "76 g", "28%"), line("Dietary Fiber", false, 1, "8 g", "27%", "21 g", "75%"),
			line("Total Sugars", false, 1, "4 g", "", "12 g", ""), line("Includes %s Added Sugars", false, 2, "0 g", "0%", "less than 1 g", "2%"),
			line("Protein", true, 0, "10 g", "", "27 g", ""), vitaminD, line("Calcium", false, 0, "60 mg", "4%", "170 mg", "15%"),
			line("Iron", false, 0, "3.3 mg", "20%", "9 mg", "50%"), line("Potassium", false, 0, "650 mg", "15%", "1,810 mg", "40%"),
		},
		Footnote: "*The % Daily Value (DV) tells you how much a nutrient in a serving of food contributes to a daily diet. 2,000 calories a day is used for general nutrition advice.",
	}
}

// oneColumn is the panel with its servings alone.
func oneColumn() *Panel {
	p := facts()
	p.Heads = nil
	p.Calories.Amounts = p.Calories.Amounts[:1]
	for i := range p.Lines {
		p.Lines[i].Amounts, p.Lines[i].Percents = p.Lines[i].Amounts[:1], p.Lines[i].Percents[:1]
	}
	return p
}

func stockOf(t testing.TB, name string) Stock {
	t.Helper()
	for _, s := range Stocks() {
		if s.Name == name {
			return s
		}
	}
	t.Fatalf("no stock %q", name)
	return Stock{}
}

// sample is a label to look at.
type sample struct {
	name    string
	content Content
	stock   Stock
	rules   Rules
}

func samples(t testing.TB) []sample {
	t.Helper()
	with := func(change func(*Content)) Content {
		c := soup(t)
		c.Panel = oneColumn()
		change(&c)
		return c
	}
	return []sample{
		{"all", with(func(*Content) {}), stockOf(t, "4 x 6 in"), US(20)},
		{"two-columns", soup(t), stockOf(t, "letter, 2 of 8 x 5 in"), US(30)},
		{"linear", with(func(c *Content) { c.Panel.Linear, c.Bars, c.Square, c.SquareSays = true, nil, nil, "" }), stockOf(t, "100 x 100 mm"), US(20)},
		{"no-panel", with(func(c *Content) { c.Panel = nil }), stockOf(t, "100 x 100 mm"), US(20)},
		{"front", with(func(c *Content) {
			*c = Content{Name: c.Name, Identity: c.Identity, Keep: c.Keep, Net: []string{"NET WT 12 OZ (340 G)"}}
		}), stockOf(t, "3 x 2 in"), US(20)},
		{"lot", with(func(c *Content) { *c = Content{Name: c.Identity, Keep: c.Keep, Dates: c.Dates, Lot: c.Lot} }), stockOf(t, "2 x 1 in"), US(4)},
		{"narrow", with(func(c *Content) {
			*c = Content{Identity: c.Identity, Keep: c.Keep, Net: []string{"NET WT 12 OZ (340 G)"}, Bars: c.Bars, Lot: c.Lot, Dates: c.Dates[:1], Contains: c.Contains, Firm: c.Firm}
		}), Roll(50.8, 101.6), US(20)},
		{"europe", with(func(c *Content) {
			c.Panel, c.Net, c.Identity = europe(), []string{"680 g"}, "Rote-Linsen-Suppe mit Kürbis"
			c.Ingredients = []Run{{"Zutaten: Wasser, rote Linsen, Butternusskürbis, Zwiebeln, Kokosmilch, ", false}, {"Butter", true}, {", ", false}, {"Weizenmehl", true}, {", Salz.", false}}
			c.Contains, c.Keep = nil, "Bei –18 °C lagern"
		}), stockOf(t, "100 x 100 mm"), EU(150, 680)},
	}
}

// europe is a declaration per 100 g; its energy is reckoned by hand from the factors of Regulation (EU) No 1169/2011, Annex XIV.
func europe() *Panel {
	line := func(name, amount string, indent int) Line {
		return Line{Name: name, Indent: indent, Amounts: []string{amount}}
	}
	return &Panel{Title: "Nährwerte", Heads: []string{"je 100 g"}, Lines: []Line{line("Energie", "370 kJ / 88 kcal", 0), line("Fett", "3,4 g", 0), line("davon gesättigte Fettsäuren", "1,2 g", 1),
		line("Kohlenhydrate", "8,6 g", 0), line("davon Zucker", "2,1 g", 1), line("Eiweiß", "4,9 g", 0), line("Salz", "0,78 g", 0)}}
}
