package homecard_test

import (
	"math"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/draftdish"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/homecard"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

// A home recipe that becomes a dish for production and then a card for a home again comes back as it was, within what rounding may do: nothing is
// lost or won on the way. The recipe is invented.
func TestThereAndBack(t *testing.T) {
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	book := bookfile.Read(demo.Book()).Book
	d, err := draftdish.Make(draftdish.Recipe{Title: "Cream of carrot", Ingredients: "3 tbsp butter\n2 lb carrots, sliced\n1 1/2 quarts vegetable broth\n1/4 cup flour\n1 cup heavy cream\n2 tsp salt",
		Method: "Melt the butter in a pot. Add the carrots and sweat for 10 minutes. Stir in the flour. Add the broth and simmer, covered, for 25 minutes. Stir in the cream and salt and heat for 5 minutes."}, nil, book, foods)
	if err != nil || !d.Savable {
		t.Fatal(err, d.Findings)
	}
	book = d.Into(book)
	serving := d.Gives / 6
	book.Packs["carrot"] = kitchen.Pack{Name: "carrot", Dish: d.ID, Fill: []kitchen.Fill{{Of: "food", Mass: serving}}, Serving: serving, Bag: "bag-8x12", Pace: unit.Minute}
	c, err := homecard.Make(t.Context(), homecard.Ask{Book: book, Foods: foods, Pack: "carrot", People: 6})
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, l := range d.Lines {
		for _, x := range c.Items {
			if x.Of != string(l.Is) {
				continue
			}
			seen++
			if off := x.Amount.Exact.Kg()/l.Mass.Kg() - 1; math.Abs(off) > 0.001 {
				t.Errorf("%s: %s comes back as %s", l.Text, l.Mass, x.Amount.Exact)
			}
			if off := x.Amount.Said.Kg()/l.Mass.Kg() - 1; math.Abs(off) > 0.101 { // 5 % by the measure, and what goes by a partner that is 5 % off
				t.Errorf("%s: %s comes back as %s", l.Text, l.Mass, x.Amount.Text)
			}
		}
	}
	if seen != 6 {
		t.Errorf("%d of 6 lines came back", seen)
	}
}

// Books that lack what a card likes to have: no equipment, nothing of what is in the food.
func TestPoorBooks(t *testing.T) {
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	lb := func(n unit.Mass) unit.Amount { return unit.Amount{Kind: unit.AmountMass, Mass: n * unit.Pound} }
	hot := unit.TempC(95)
	for name, change := range map[string]func(*kitchen.Book){
		"nothing more":   func(*kitchen.Book) {},
		"no composition": func(b *kitchen.Book) { b.Ingredients["stuff"] = kitchen.Ingredient{Name: "stuff"} },
		"equipment of a kind": func(b *kitchen.Book) {
			b.Equipment = map[kitchen.EquipmentID]kitchen.Equipment{"pot": {Name: "pot", Kind: kitchen.Vessel, Count: 1}}
		},
		"open, and hot": func(b *kitchen.Book) {
			d := b.Dishes["d"]
			d.Steps[0].HeatTo, d.Steps[0].Time, d.Steps[0].Loses.Open = &hot, 20*unit.Minute, true
		},
	} {
		book := kitchen.Book{Ingredients: map[kitchen.IngredientID]kitchen.Ingredient{"stuff": {Name: "stuff", Food: "11124"}, "water": {Name: "water", Food: "14429", Density: 1}},
			Dishes: map[kitchen.DishID]kitchen.Dish{"d": {Name: "d", Steps: []kitchen.Step{{ID: "boil", Do: "Boil.", Use: []kitchen.Use{{Of: "stuff", Amount: lb(2)}, {Of: "water", Amount: lb(3)}}}}}},
			Packs:  map[kitchen.PackID]kitchen.Pack{"p": {Name: "p", Dish: "d", Fill: []kitchen.Fill{{Of: "boil", Mass: unit.Pound}}}}}
		change(&book)
		for people := homecard.Fewest; people <= homecard.Most; people += 2 {
			c, err := homecard.Make(t.Context(), homecard.Ask{Book: book, Foods: foods, Pack: "p", People: people})
			if err != nil {
				t.Errorf("%s for %d: %v", name, people, err)
				continue
			}
			if len(c.Items) < 2 || len(c.Steps) != 1 || len(c.Keep) == 0 {
				t.Errorf("%s for %d: %d amounts, %d steps, %d pieces of advice", name, people, len(c.Items), len(c.Steps), len(c.Keep))
			}
		}
	}
}

func BenchmarkMake(b *testing.B) {
	foods, err := foodtable.Default()
	if err != nil {
		b.Fatal(err)
	}
	book := bookfile.Read(demo.Book()).Book
	for b.Loop() {
		if _, err := homecard.Make(b.Context(), homecard.Ask{Book: book, Foods: foods, Pack: "meatballs-six", People: 6}); err != nil {
			b.Fatal(err)
		}
	}
}
