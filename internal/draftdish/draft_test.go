package draftdish

import (
	"encoding/json"
	"errors"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

func kitchenOf(t testing.TB) (kitchen.Book, *foodtable.Table) {
	t.Helper()
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	return bookfile.Read(demo.Book()).Book, foods
}

func draftOf(t testing.TB, name string, answers Answers) Draft {
	t.Helper()
	book, foods := kitchenOf(t)
	d, err := Make(Split(recipes[name]), answers, book, foods)
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return d
}

// Whatever a recipe leaves open, the book takes its draft without a stop, and so it does written out and read again.
func TestBookTakesEveryDraft(t *testing.T) {
	book, foods := kitchenOf(t)
	known := func(ndb string) bool { _, ok := foods.Lookup(ndb); return ok }
	for _, name := range slices.Sorted(maps.Keys(recipes)) {
		d := draftOf(t, name, nil)
		if !d.Savable {
			t.Errorf("%s: %v", name, d.Findings)
		}
		changes := []bookfile.Change{bookfile.Set("dishes."+string(d.ID), d.Dish)}
		for _, id := range slices.Sorted(maps.Keys(d.Ingredients)) {
			changes = append(changes, bookfile.Set("ingredients."+string(id), d.Ingredients[id]))
		}
		edited, err := bookfile.Edit(demo.Book(), changes...)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for _, f := range kitchen.Check(edited.Book, known) {
			if f.Severity == finding.Stop {
				t.Errorf("%s: %v", name, f)
			}
		}
		if len(edited.Book.Dishes) != len(book.Dishes)+1 {
			t.Errorf("%s: the book has %d dishes", name, len(edited.Book.Dishes))
		}
	}
}

// steps is a draft's dish in short: what each step does, in what, for how long, from what.
func steps(d Draft) []string {
	var all []string
	for _, s := range d.Dish.Steps {
		var in []string
		for _, u := range s.Use {
			in = append(in, strings.TrimPrefix(string(u.Of)+"<"+string(u.From), "<"))
		}
		text := s.ID + " " + strings.TrimSuffix(strings.ReplaceAll(strings.Join(in, " "), "< ", " "), "<")
		if s.Time > 0 {
			text += " " + s.Time.String()
		}
		if s.HeatTo != nil {
			text += " " + s.HeatTo.Show(unit.US)
		}
		if s.Stays {
			text += " stays"
		}
		all = append(all, text)
	}
	return all
}

func TestMethodsBecomeSteps(t *testing.T) {
	for name, want := range map[string][]string{
		"potato leek": {
			"melt butter 5 min 150 °F", "cut leek garlic", "sweat melt cut 9 min 200 °F stays", "cut-2 potatoes", "add sweat cut-2 vegetable-broth bay-leaf 2 min stays",
			"simmer add 25 min 205 °F stays", "puree simmer 3 min", "heat puree cream nutmeg parsley 5 min 190 °F", "season heat salt 2 min stays"},
		"chili": {
			"brown turkey canola 8 min", "cut onion carrot", "cook cut 10 min 200 °F", "add cook tomato-paste cumin smoked-paprika cayenne 1 min stays", "simmer add brown crushed-tomato white-beans water salt 45 min 205 °F stays"},
		"cheese sauce": {
			"melt butter flour 5 min 150 °F", "cook melt 2 min 200 °F stays", "simmer cook milk 5 min 205 °F stays", "stir cornstarch 2 min", "boil simmer stir 1 min 212 °F stays", "stir-2 boil cheddar mustard-powder worcestershire 2 min stays"},
		"meatballs": {
			"mix turkey crumbs milk egg fennel-seed salt 4 min", "bake mix 20 min", "simmer crushed-tomato 30 min 205 °F", "heat bake simmer 10 min 190 °F"},
		"gum by the cup": {
			"cut carrot", "simmer cut milk 20 min 205 °F", "blend simmer xanthan 3 min", "heat blend cream salt 5 min 180 °F"},
		"metric": {
			"cut onion", "saute cut olive-oil 8 min 200 °F", "stir saute turmeric 2 min stays", "add stir red-lentil vegetable-broth 2 min stays", "simmer add 27 min 30 s 205 °F stays", "simmer-2 simmer coconut-milk salt 10 min 205 °F stays"},
	} {
		if got := steps(draftOf(t, name, nil)); !slices.Equal(got, want) {
			t.Errorf("%s:\n got %s\nwant %s", name, strings.Join(got, "\n     "), strings.Join(want, "\n     "))
		}
	}
}

// Amounts by hand: USDA SR28 and the densities of the book. 4 tbsp of butter at 0.959 kg/L are 56.7 g; 2 cups of shredded cheddar 226 g; 3 leeks of
// 89 g; a 28 oz can is 794 g; two large eggs 100 g; 1 g of xanthan for each of 3 cups is 3 g.
func TestAmountsByHand(t *testing.T) {
	for _, c := range []struct {
		recipe  string
		line    int
		is      kitchen.IngredientID
		grams   float64
		assumed bool
	}{
		{"cheese sauce", 2, "butter", 56.7, false}, {"cheese sauce", 5, "cheddar", 226.2, false}, {"potato leek", 2, "leek", 267, true}, {"chili", 4, "crushed-tomato", 793.8, false}, {"chili", 5, "white-beans", 411, true},
		{"meatballs", 6, "egg", 100, true}, {"gum by the cup", 5, "xanthan", 3, true}, {"metric", 1, "red-lentil", 250, false}, {"odd", 5, "stock", 0, true},
	} {
		d := draftOf(t, c.recipe, nil)
		i := slices.IndexFunc(d.Lines, func(l *Line) bool { return l.Is == c.is })
		if i < 0 {
			t.Errorf("%s: no line is %s", c.recipe, c.is)
			continue
		}
		l := d.Lines[i]
		if c.grams > 0 && math.Abs(l.Mass.Kg()*1000-c.grams) > 0.006*c.grams || l.Assumed != c.assumed {
			t.Errorf("%s: %q is %.1f g (assumed %v), by hand %.1f (%v)", c.recipe, l.Text, l.Mass.Kg()*1000, l.Assumed, c.grams, c.assumed)
		}
	}
}

// What a line means, by the demo book and the table: corn is no corn oil, and what comes from a can is not what the book has dry.
func TestWhichFood(t *testing.T) {
	book, foods := kitchenOf(t)
	for line, want := range map[string]string{
		"1 cup milk": "book:milk", "2 tbsp unsalted butter": "book:butter", "1 yellow onion": "book:onion", "8 oz sharp cheddar cheese": "book:cheddar", "1 can corn": "food:11172", "1 can white beans": "food:16051",
		"2 cups flour": "book:flour", "1 tsp ground cumin": "book:cumin", "1 tbsp soy sauce": "food:16124", "1 lb zorblat": "new",
	} {
		d, err := Make(Recipe{Ingredients: line + "\n1 cup water", Method: "Boil all the ingredients."}, nil, book, foods)
		if err != nil {
			t.Fatal(err)
		}
		if got := d.Lines[0].May[0].Key; got != want {
			t.Errorf("%q is taken for %s (%s), not %s", line, got, d.Lines[0].May[0].Name, want)
		}
	}
}

// What is not decided is listed with what is assumed; what has no amount stays out and says so.
func TestWhatMustBeDecided(t *testing.T) {
	for _, c := range []struct {
		recipe, key, assumed string
		grave                bool
	}{
		{"potato leek", "much-9", "0.308 ml", false},          // a pinch
		{"potato leek", "much-8", "0.8 %", false},             // salt to taste
		{"chili", "much-5", "411 g", false},                   // 1 can
		{"chili", "is-5", "white beans, canned", false},       // the book has them dry
		{"chili", "lid-4", "off", false},                      //
		{"meatballs", "much-11", "", true},                    // some olive oil
		{"cheese sauce", "allergens-cornstarch", "", true},    //
		{"gum by the cup", "much-4", "of all liquid", false},  // 1 g per cup
		{"odd", "much-4", "", true},                           // a jar
		{"odd", "much-3", "it does", false},                   // 1,5 l
		{"metric", "makes", "by the amounts", false},          //
		{"potato leek", "where-10", "step 6", false},          // parsley
		{"potato leek", "time-2", "9 min, the middle", false}, // 8 to 10 minutes
	} {
		d := draftOf(t, c.recipe, nil)
		i := slices.IndexFunc(d.Asks, func(q Ask) bool { return q.Key == c.key })
		if i < 0 {
			t.Errorf("%s: %s is not asked", c.recipe, c.key)
			continue
		}
		if q := d.Asks[i]; q.Grave != c.grave || !strings.Contains(q.Assumed, c.assumed) || q.Question == "" || q.Answered {
			t.Errorf("%s: %+v", c.recipe, q)
		}
	}
	d := draftOf(t, "odd", nil)
	if last := d.Dish.Steps[len(d.Dish.Steps)-1]; !strings.Contains(last.How, "Not decided yet") || !strings.Contains(last.How, "some carrots") {
		t.Errorf("%q", last.How)
	}
	if open := d.Open(); len(open) == 0 || !open[0].Grave {
		t.Error("what is grave does not come first")
	}
}

func TestAnswersAreTaken(t *testing.T) {
	d := draftOf(t, "odd", Answers{"much-4": "350 g", "is-4": "food:11333", "much-8": "2.5 g", "where-8": "1", "time-1": "1 h 30 min", "allergens-stock": "none", "class-stock": "dry", "makes": "1 kg", "name": "Sunday stew"})
	by := map[int]*Line{}
	for _, l := range d.Lines {
		by[l.Number] = l
	}
	if by[4].Mass != 350*unit.Gram || by[4].Out || by[4].Assumed {
		t.Errorf("%+v", by[4])
	}
	if d.ID != "sunday-stew" || d.Ingredients["stock"].Class != "dry" || !d.Ingredients["stock"].Allergens.Answered {
		t.Errorf("%s, %+v", d.ID, d.Ingredients["stock"])
	}
	if got := d.Dish.Steps[len(d.Dish.Steps)-1].Time; got != 90*unit.Minute {
		t.Errorf("it takes %s", got)
	}
	if !slices.ContainsFunc(d.Concerns, func(c Concern) bool { return strings.Contains(c.Says, "were weighed") }) {
		t.Error("a yield that is far from the draft's is no concern")
	}
}

func TestAnswersThatMakeNoSense(t *testing.T) {
	given := Answers{"much-4": "a lot", "is-4": "book:no-such", "much-2": "5 tons", "where-3": "99", "time-1": "soon", "heat-1": "very", "allergens-stock": "soya", "class-stock": "liquid", "makes": "enough", "no-such-key": "x"}
	d := draftOf(t, "odd", given)
	for key, text := range given {
		i := slices.IndexFunc(d.Asks, func(q Ask) bool { return q.Key == key })
		switch {
		case key == "no-such-key":
			if !slices.Contains(d.Unused, key) {
				t.Error("an answer to nothing is not told")
			}
		case i < 0:
			t.Errorf("%s is not asked any more", key)
		case d.Asks[i].Problem == "" || d.Asks[i].Answer != text || d.Asks[i].Answered:
			t.Errorf("%s: %+v", key, d.Asks[i])
		}
	}
	if !d.Savable {
		t.Error("a wrong answer spoils the draft")
	}
}

// A sauce thickened with cornstarch goes to the freezer: its review says so. What boils off at home is told.
func TestConcerns(t *testing.T) {
	for name, want := range map[string]string{"cheese sauce": "amylose", "potato leek": "goes off at home", "chili": "in many loads", "meatballs": "not in the dish"} {
		d := draftOf(t, name, nil)
		if !slices.ContainsFunc(d.Concerns, func(c Concern) bool { return strings.Contains(c.Says, want) }) {
			t.Errorf("%s: nothing says %q: %v", name, want, d.Concerns)
		}
	}
	d := draftOf(t, "potato leek", nil)
	// 25 min at 95-98 °C from π/4 (0.254 m)² of 1.95 kg: some 16 % by the table
	for _, s := range d.Dish.Steps {
		if s.ID == "simmer" && (s.Loses.Water < 10*unit.PerCent || s.Loses.Water > 22*unit.PerCent) {
			t.Errorf("%s goes off", s.Loses.Water)
		}
	}
}

func TestRecipesOfWhichNothingCanBeMade(t *testing.T) {
	book, foods := kitchenOf(t)
	for name, r := range map[string]Recipe{
		"nothing":      {},
		"no method":    {Ingredients: "1 cup milk"},
		"no amounts":   {Ingredients: "some love\nto taste", Method: "Stir."},
		"too long":     {Ingredients: strings.Repeat("1 cup milk\n", 5000), Method: "Stir."},
		"not text":     {Ingredients: "1 cup milk\xff", Method: "Stir."},
		"only a title": {Title: "Soup", Method: "Stir."},
	} {
		var bad *RecipeError
		if _, err := Make(r, nil, book, foods); !errors.As(err, &bad) || bad.Fix == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestSplit(t *testing.T) {
	for name, want := range map[string][2]string{"potato leek": {"Potato and leek soup", "Serves 6"}, "chili": {"", ""}, "cheese sauce": {"Cheddar sauce for greens", "makes 3 cups"}, "meatballs": {"Baked meatballs", ""}, "odd": {"Grandmother's stew", ""}, "metric": {"Lentil pot", "Makes 2 litres"}} {
		r := Split(recipes[name])
		if r.Title != want[0] || r.Makes != want[1] || r.Ingredients == "" || r.Method == "" {
			t.Errorf("%s: %q, %q, %d and %d bytes", name, r.Title, r.Makes, len(r.Ingredients), len(r.Method))
		}
	}
}

func TestTimesAndTemperatures(t *testing.T) {
	for _, c := range []struct {
		text   string
		span   unit.Span
		ranged bool
		tempF  float64
	}{
		{"Simmer for 45 minutes, stirring every 10 minutes.", 45 * unit.Minute, false, 0},
		{"Stir every 5 minutes and cook 20 min.", 20 * unit.Minute, false, 0},
		{"Bake 1 hour 20 minutes at 350°F.", 80 * unit.Minute, false, 350},
		{"Roast at 180 C for 30 to 40 minutes.", 35 * unit.Minute, true, 356},
		{"Cook for half an hour.", 30 * unit.Minute, false, 0},
		{"Simmer 1-2 hours.", 90 * unit.Minute, true, 0},
		{"Boil for 90 seconds.", 90, false, 0},
		{"Heat to 165 degrees.", 0, false, 165},
		{"Fry until golden.", 0, false, 0},
		{"Wait a minute.", unit.Minute, false, 0},
	} {
		s := read(c.text)
		if s.time != c.span || s.ranged != c.ranged {
			t.Errorf("%q: %s, %v", c.text, s.time, s.ranged)
		}
		if (s.temp != nil) != (c.tempF > 0) || s.temp != nil && math.Abs(s.temp.C()*9/5+32-c.tempF) > 0.5 {
			t.Errorf("%q: %v", c.text, s.temp)
		}
	}
}

// Whatever is pasted: no panic, the book takes what comes of it, the same text gives the same draft, and it can be written as JSON.
func FuzzMake(f *testing.F) {
	for _, text := range recipes {
		f.Add(text, "much-1", "250 g")
	}
	f.Add("1 cup milk\n\nBoil; boil. Return. Set aside. Meanwhile chop it.", "is-1", "new")
	f.Add("Ingredients\n1 can can\nMethod\nReduce by half; reduce to a third. Bake at 999 F for 99 hours.", "time-1", "9 h")
	book, foods := kitchenOf(f)
	f.Fuzz(func(t *testing.T, text, key, answer string) {
		if len(text) > 3000 {
			return
		}
		d, err := Make(Split(text), Answers{key: answer}, book, foods)
		if err != nil {
			return
		}
		if !d.Savable {
			t.Fatalf("the book does not take it: %v", d.Findings)
		}
		one, err := json.Marshal(d)
		if err != nil {
			t.Fatal(err)
		}
		again, _ := Make(Split(text), Answers{key: answer}, book, foods)
		if two, _ := json.Marshal(again); string(one) != string(two) {
			t.Fatal("the same text gives another draft")
		}
	})
}

func BenchmarkMake(b *testing.B) {
	book, foods := kitchenOf(b)
	r := Split(recipes["potato leek"])
	for b.Loop() {
		if _, err := Make(r, nil, book, foods); err != nil {
			b.Fatal(err)
		}
	}
}

// Whatever a method says: it is read without panic, no sentence is empty, times and temperatures stay within what can be meant.
func FuzzRead(f *testing.F) {
	for _, text := range recipes {
		f.Add(text)
	}
	f.Add("1. Bake at 350 for 1 1/2 hours; reduce by half. e.g. 2 tbsp. oil\r\n- - Stir 9999999 hours, every 5 min")
	f.Fuzz(func(t *testing.T, text string) {
		for _, s := range sentencesOf(text) {
			if strings.TrimSpace(s) == "" {
				t.Fatalf("an empty sentence in %q", text)
			}
			x := read(s)
			if x.time < 0 || x.time > 48*unit.Hour {
				t.Fatalf("%q takes %s", s, x.time)
			}
			if x.temp != nil && (x.temp.C() < 0 || x.temp.C() > 320) {
				t.Fatalf("%q is %v", s, x.temp)
			}
			if x.reduce < 0 || x.reduce > unit.Whole {
				t.Fatalf("%q leaves %v", s, x.reduce)
			}
		}
		r := Split(text)
		if len(r.Ingredients)+len(r.Method)+len(r.Title)+len(r.Makes) > len(text)+8 {
			t.Fatalf("more came out than went in: %+v", r)
		}
	})
}
