package packlabel_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/labelrule"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/packlabel"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/statement"
	"kettlefrost/internal/unit"
)

// Sodium leaves no pot: all that the recipe puts in, by the figures of its ingredients, is in what the pot gives. Added up here apart from any flow;
// only the mass of what the pot gives is the plan's.
func TestSodiumOfARecipeAddsUp(t *testing.T) {
	b, table := bookfile.Read(demo.Book()).Book, foods(t)
	for pack, output := range map[kitchen.PackID]kitchen.OutputID{"lentil-squash-2lb": "soup", "ale-cheddar-lb": "sauce", "mushroom-filling-2lb": "filling", "bean-pot-2lb": "pot"} {
		dish := b.Dishes[b.Packs[pack].Dish]
		mg := 0.0
		for _, s := range dish.Steps {
			for _, u := range s.Use {
				ing, there := b.Ingredients[u.Of]
				if !there {
					continue
				}
				m, weighed := ing.Weigh(u.Amount)
				if !weighed {
					t.Fatalf("%s of %s is not weighed", u.Amount, u.Of)
				}
				mg += 10 * m.Kg() * sodium(t, table, ing)
			}
		}
		given, err := plan.Contents(b, table, b.Packs[pack].Dish)
		if err != nil {
			t.Fatal(err)
		}
		l := made(t, packlabel.Asked{Book: b, Foods: table, Pack: pack})
		for _, g := range given {
			if g.Output != output {
				continue
			}
			residue := 0.0
			for _, s := range dish.Steps {
				residue += s.Loses.Residue.Kg()
			}
			want := mg / (g.Kg + residue) / 10 // what sticks to pots is as the rest is
			got := l.Food.Per100g()[nutrition.Sodium].Least
			if math.Abs(got-want) > 0.01*want {
				t.Errorf("%s: %.1f mg of sodium in 100 g, by adding up %.1f", pack, got, want)
			}
		}
	}
}

func sodium(t *testing.T, table *foodtable.Table, ing kitchen.Ingredient) float64 {
	if ing.Analysis != nil {
		return *ing.Analysis.Sodium
	}
	food, _ := table.Lookup(ing.Food)
	mg, given := food.Per100g.SodiumMg.Get()
	if !given {
		t.Fatalf("the table gives no sodium for %s", ing.Name)
	}
	return mg
}

// USDA Table of Nutrient Retention Factors, release 6 (2007), row 3005: greens boiled in water that is drained keep 85 % of their potassium.
func TestWhatCookingLeaves(t *testing.T) {
	b := lentilSoup()
	edit(b.Ingredients, "base", func(i *kitchen.Ingredient) { i.Retention = "3005" })
	whole, kept := made(t, asked(t, lentilSoup())), made(t, asked(t, b))
	if got, want := kept.PerPack()[nutrition.Potassium].Least, 0.85*whole.PerPack()[nutrition.Potassium].Least; math.Abs(got-want) > 1e-6*want {
		t.Errorf("%v mg of potassium are left of %v", got, want)
	}
	edit(b.Ingredients, "base", func(i *kitchen.Ingredient) { i.Retention = "9999" })
	if l := made(t, asked(t, b)); !l.Withheld() || has(l.Open, packlabel.CodeNutrition) == nil {
		t.Error("there is no such row")
	}
}

// What cannot be declared is told where the book has it, every line of it.
func TestLinesThatMakeNoSense(t *testing.T) {
	b := lentilSoup()
	edit(b.Ingredients, "base", func(i *kitchen.Ingredient) { i.Label = "lentils (red), whole" })
	edit(b.Ingredients, "water", func(i *kitchen.Ingredient) { i.Allergens = with("melk") })
	l := made(t, asked(t, b))
	var paths []string
	for _, f := range l.Open {
		if f.Code == packlabel.CodeStatement {
			paths = append(paths, f.Path)
		}
	}
	if got := strings.Join(paths, " "); !l.Withheld() || got != "ingredients.base ingredients.water" {
		t.Errorf("told are %s: %v", got, l.Open)
	}
	if _, err := packlabel.Of(packlabel.Asked{Book: b, Foods: foods(t), Pack: "pie"}); err == nil {
		t.Error("there is no such pack")
	}
}

// 21 CFR 101.4(a)(2) (read): what is 2 % or less at the end. 4.5 % of the soup are cream, 0.1 % each are salt and pepper.
func TestTwoPerCentOrLess(t *testing.T) {
	b := creamSoup()
	for _, id := range []kitchen.IngredientID{"salt", "pepper"} {
		b.Ingredients[id] = kitchen.Ingredient{Name: string(id), Class: "dry", Analysis: &kitchen.Analysis{Ash: 100, Source: "test"}, Allergens: none()}
		s := &b.Dishes["soup"].Steps[0]
		s.Use = append(s.Use, kitchen.Use{Of: id, Amount: unit.Amount{Kind: unit.AmountMass, Mass: 10 * unit.Gram}})
	}
	a := asked(t, b)
	a.Business, a.WithoutPanel, a.Style = labelrule.Business{Staff: 3, YearlyUnits: 1000}, true, statement.Style{Last: 2 * unit.PerCent}
	l := made(t, a)
	list, _ := text(l.Content.Ingredients)
	if want := "Ingredients: water, lentils, cream (milk fat). Contains 2 % or less of: fish sauce (seasoning), pepper, salt."; list != want {
		t.Errorf("%s (%v)", list, l.Open)
	}
	if has(l.Advice, packlabel.CodeNearTie) != nil {
		t.Error("salt and pepper weigh the same, and where no order is asked for that is told")
	}
}

// GS1 General Specifications: 01 is the number, 15 best before, 10 the lot. Thirteen weeks after 2026-12-01 is 2027-03-02, by a calendar.
func TestCodes(t *testing.T) {
	for _, c := range []struct {
		name         string
		labels       kitchen.Labels
		gtin         string
		bars, square string
		asks         bool
	}{
		{"the lot alone", kitchen.Labels{}, "", "L-0917", "", false},
		{"none", kitchen.Labels{Barcode: kitchen.BarsNone}, "", "", "", false},
		{"GS1", kitchen.Labels{Barcode: kitchen.BarsGS1}, "09521234543213", "01095212345432131527030210L-0917", "", false},
		{"GS1 without a number", kitchen.Labels{Barcode: kitchen.BarsGS1}, "", "", "", true},
		{"a link", kitchen.Labels{QR: kitchen.QRLink, Link: "https://kitchen.example/p/"}, "", "L-0917", "https://kitchen.example/p/pack?lot=L-0917", false},
		{"a link nowhere", kitchen.Labels{QR: kitchen.QRLink}, "", "L-0917", "", true},
		{"the same as data", kitchen.Labels{QR: kitchen.QRData}, "09521234543213", "L-0917", "(01)09521234543213(15)270302(10)L-0917", false},
	} {
		b := lentilSoup()
		c.labels.Wide, c.labels.High, c.labels.Address = 6*unit.Inch, 7*unit.Inch, "somewhere"
		b.Kitchen.Labels = c.labels
		edit(b.Packs, "pack", func(p *kitchen.Pack) { p.GTIN = c.gtin })
		l := made(t, asked(t, b))
		bars, square := "", ""
		if l.Content.Bars != nil {
			bars = l.Content.Bars.Data
		}
		if l.Content.Square != nil {
			square = l.Content.Square.Data
		}
		if bars != c.bars || square != c.square || (has(l.Open, packlabel.CodeBars) != nil) != c.asks {
			t.Errorf("%s: bars %q, square %q, %v", c.name, bars, square, l.Open)
		}
	}
}

// 21 U.S.C. 343(e) (read): no label without a place.
func TestWhatIsMissingOfWords(t *testing.T) {
	b := lentilSoup()
	b.Kitchen.Labels.Address = ""
	edit(b.Packs, "pack", func(p *kitchen.Pack) { p.Identity, p.BestBefore, p.Reference = "", kitchen.Keeping{}, "" })
	b.Bags["bag"] = kitchen.Bag{Name: "bag"}
	a := asked(t, b)
	a.Lot = packlabel.Lot{}
	l := made(t, a)
	for code, severity := range map[string]finding.Severity{packlabel.CodeFirm: finding.Stop, packlabel.CodeReference: finding.Stop, packlabel.CodeIdentity: finding.Caution, packlabel.CodeBestBefore: finding.Caution,
		packlabel.CodeLot: finding.Caution, packlabel.CodeArea: finding.Caution, packlabel.CodeCard: finding.Caution} {
		if f := has(l.Open, code); f == nil || f.Severity != severity || f.Fix == "" {
			t.Errorf("%s: %v", code, f)
		}
	}
	if l.Panel != nil || len(l.Sides) > 0 {
		t.Error("a label is printed")
	}
}

// A product of meat is told whose panel and whose reference amounts it has.
func TestAgricultureHasRulesOfItsOwn(t *testing.T) {
	b := bookfile.Read(demo.Book()).Book
	l := made(t, packlabel.Asked{Book: b, Foods: foods(t), Pack: "meatballs-six"})
	if has(l.Advice, packlabel.CodePanelRules) == nil || has(l.Advice, packlabel.CodeReference) == nil {
		t.Errorf("advice: %v", l.Advice)
	}
	if l := made(t, packlabel.Asked{Book: b, Foods: foods(t), Pack: "bean-pot-2lb"}); has(l.Advice, packlabel.CodeFunction) == nil || has(l.Advice, packlabel.CodeReference) != nil {
		t.Errorf("bacon has sodium nitrite, and soups have one reference amount at both: %v", l.Advice)
	}
}

func ExampleOf() {
	table, err := foodtable.Default()
	if err != nil {
		panic(err)
	}
	b := bookfile.Read(demo.Book()).Book
	l, err := packlabel.Of(packlabel.Asked{Book: b, Foods: table, Pack: "tomato-fennel-lb", Lot: packlabel.Lot{Code: "L-0917", Packed: "2026-12-01"}})
	if err != nil {
		panic(err)
	}
	fmt.Println(l.Name)
	fmt.Println(l.Statement.Ingredients)
	fmt.Println(l.Net.Text)
	fmt.Println("withheld:", l.Withheld())
	for _, f := range l.Open {
		fmt.Printf("%s: %s\n  %s\n", f.Severity, f.Where, f.Path)
	}
	// Output:
	// Tomato and fennel sauce
	// Ingredients: crushed tomatoes (tomatoes, tomato puree, salt, citric acid), water, fennel, onions, tomato paste, olive oil, garlic, salt, sugar, oregano, black pepper.
	// Net Wt 16 oz (1 lb) 453 g
	// withheld: false
	// caution: pack tomato-fennel-lb
	//   bags.bag-6x9
}

func BenchmarkOf(b *testing.B) {
	a := asked(b, lentilSoup())
	for b.Loop() {
		made(b, a)
	}
}

func BenchmarkTouched(b *testing.B) {
	before := bookfile.Read(demo.Book()).Book
	after := copied(before)
	edit(after.Ingredients, "milk", func(i *kitchen.Ingredient) { i.Allergens = with("milk", "soybeans") })
	table := foods(b)
	for b.Loop() {
		packlabel.Touched(before, after, table, nil)
	}
}

// Parts whose shares the book has stand in the list by themselves, the salt of the can with the salt of the pot.
func TestPartsSpreadOut(t *testing.T) {
	b := bookfile.Read(demo.Book()).Book
	can := b.Ingredients["crushed-tomato"]
	can.Contains = append([]kitchen.SubIngredient(nil), can.Contains...)
	for i, share := range []unit.Share{600, 395, 4, 1} {
		can.Contains[i].Share = share * unit.PerCent / 10
	}
	b.Ingredients["crushed-tomato"] = can
	nested := made(t, packlabel.Asked{Book: b, Foods: foods(t), Pack: "tomato-fennel-lb"}).Statement.Ingredients
	b.Kitchen.Labels.Spread = true
	spread := made(t, packlabel.Asked{Book: b, Foods: foods(t), Pack: "tomato-fennel-lb"}).Statement.Ingredients
	if !strings.Contains(nested, "crushed tomatoes (") || strings.Contains(spread, "crushed tomatoes") || !strings.HasPrefix(spread, "Ingredients: tomatoes, tomato puree, ") || strings.Count(spread, "salt") != 1 {
		t.Errorf("in brackets: %s\nspread out: %s", nested, spread)
	}
}
