package hazards_test

import (
	"slices"
	"strings"
	"testing"

	"kettlefrost/demo"
	"kettlefrost/internal/bookfile"
	"kettlefrost/internal/finding"
	"kettlefrost/internal/foodcode"
	"kettlefrost/internal/foodtable"
	"kettlefrost/internal/haccp"
	"kettlefrost/internal/hazards"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/unit"
)

func table(t testing.TB) *foodtable.Table {
	t.Helper()
	foods, err := foodtable.Default()
	if err != nil {
		t.Fatal(err)
	}
	return foods
}

func draft(t testing.TB, book kitchen.Book, pack kitchen.PackID) (haccp.Plan, finding.List) {
	t.Helper()
	p, found := hazards.Of(book, table(t), pack)
	plan, err := haccp.Draft(p)
	if err != nil {
		t.Fatal(err)
	}
	return plan, found
}

func points(p haccp.Plan) string {
	var all []string
	for _, x := range p.Points {
		all = append(all, x.Key)
	}
	return strings.Join(all, " ")
}

func opens(p haccp.Plan) string {
	var all []string
	for _, o := range p.Open {
		all = append(all, o.Code+"@"+o.Where)
	}
	return strings.Join(all, "; ")
}

// What a cook would say of the demo's packs: where each is cooked, and what is to be settled. Read by hand from the dishes.
func TestTheDemoByHand(t *testing.T) {
	book := bookfile.Read(demo.Book()).Book
	for _, c := range []struct {
		pack         kitchen.PackID
		points, open string
	}{
		{"meatballs-six", "bake/cooking cooling/cooling labelling/labelling storing and selling/frozen", "heat-not-written@step bake; vacuum-not-approved@pack; team-not-named@team; flow-not-walked@flow; shelf-life-not-said@shelf life"},
		{"tomato-fennel-lb", "cooling/cooling storing and selling/frozen", "vacuum-not-approved@pack; team-not-named@team; flow-not-walked@flow; shelf-life-not-said@shelf life"}, // the sauce alone: no turkey, no wheat
	} {
		plan, found := draft(t, book, c.pack)
		if got := points(plan); got != c.points {
			t.Errorf("%s: points %s, want %s", c.pack, got, c.points)
		}
		if got := opens(plan); got != c.open {
			t.Errorf("%s: open %s, want %s", c.pack, got, c.open)
		}
		if len(found) != 0 {
			t.Errorf("%s: %v", c.pack, found)
		}
	}
}

// The pot of beans comes to the boil and then stands off the heat for an hour: that hour is no hour of boiling, and 205 °F is no boil.
func TestStandingOffTheHeatIsNoBoiling(t *testing.T) {
	plan, _ := draft(t, bookfile.Read(demo.Book()).Book, "bean-pot-2lb")
	i := slices.IndexFunc(plan.Open, func(o haccp.Open) bool { return o.Code == haccp.BeansNotBoiled })
	if i < 0 || plan.Open[i].Stop {
		t.Fatalf("open: %s", opens(plan)) // from memory, so it stops nothing
	}
	if got, want := points(plan), "sweat/cooking finish/cooking cooling/cooling storing and selling/frozen"; got != want { // bacon goes both ways: as fat, and crisp
		t.Errorf("points %s, want %s", got, want)
	}
}

// What may stand in comes along: lard for bacon fat that falls short, onions for leeks.
func TestWhatMayStandIn(t *testing.T) {
	book := bookfile.Read(demo.Book()).Book
	for pack, want := range map[kitchen.PackID]string{"bean-pot-2lb": "lard", "mushroom-filling-2lb": "onion"} {
		p, _ := hazards.Of(book, table(t), pack)
		i := slices.IndexFunc(p.Ingredients, func(g haccp.Ingredient) bool { return g.ID == want })
		if i < 0 || p.Ingredients[i].StandsIn == "" {
			t.Errorf("%s: %+v", pack, p.Ingredients)
		}
	}
}

// Nobody has said: foods of the table as a cook would put them. Meat is taken as ground, since nobody has said that it is whole.
func TestGuesses(t *testing.T) {
	for name, want := range map[string]haccp.Class{
		"chicken thigh, skinless, raw": haccp.Poultry, "chicken thigh, skinless, roasted": haccp.Cooked, "ground turkey, raw": haccp.Poultry, "beef stew meat (chuck), lean and fat, raw": haccp.GroundMeat,
		"beef stew meat (chuck), lean and fat, braised": haccp.Cooked, "bacon, uncooked": haccp.GroundMeat, "cured ham, whole, lean only, unheated": haccp.GroundMeat, "kielbasa, fully cooked, unheated": haccp.Cooked,
		"Atlantic cod, raw": haccp.Fish, "haddock, smoked": haccp.Fish, "light tuna, canned in water, drained": haccp.Cooked, "egg, whole, raw": haccp.Eggs, "egg, hard-boiled": haccp.Cooked, "egg, whole, frozen, pasteurized, raw": haccp.Eggs,
		"cheddar": haccp.Dairy, "evaporated milk, canned, with added vitamin D": haccp.Dry, "milk powder, nonfat dry, without added vitamins A and D": haccp.Dry, "thyme, dried": haccp.Dry, "thyme, fresh": haccp.Produce,
		"onions, raw": haccp.Produce, "russet potatoes, with skin, raw": haccp.Starch, "shiitake mushrooms, dried": haccp.Dry, "kidney beans, dry": haccp.Beans, "kidney beans, canned": haccp.Dry, "lentils, dry": haccp.Beans,
		"rice, white long-grain, enriched, raw": haccp.Starch, "tap water": haccp.Water, "olive oil": haccp.Dry, "mayonnaise, regular": haccp.Unknown, "firm tofu, set with calcium sulfate and nigari": haccp.Unknown,
		"chicken stock, homemade": haccp.Unknown, "lemon juice, fresh": haccp.Produce, "pork liver, raw": haccp.GroundMeat, "venison, raw": haccp.GroundMeat,
	} {
		foods := table(t).Foods()
		i := slices.IndexFunc(foods, func(f foodtable.Food) bool { return f.Name == name })
		if i < 0 {
			t.Errorf("%s is not in the table", name)
			continue
		}
		got, guess := hazards.Class(kitchen.Ingredient{Food: foods[i].NDB}, table(t))
		if got != want || (guess == "") != (want == haccp.Unknown) {
			t.Errorf("%s (%s): %s, because %q", name, foods[i].Description, got, guess)
		}
	}
}

// Every raw food of animals in the table is guessed as one, or not at all: never as something that need not be cooked.
func TestNoRawAnimalIsGuessedHarmless(t *testing.T) {
	groups := []string{"Poultry Products", "Beef Products", "Pork Products", "Lamb, Veal, and Game Products", "Finfish and Shellfish Products", "Sausages and Luncheon Meats"}
	n := 0
	for _, f := range table(t).Foods() {
		if words := strings.ToLower(f.Description); slices.Contains(groups, f.Group) && (strings.Contains(words, "raw") || strings.Contains(words, "uncooked")) {
			n++
			if class, _ := hazards.Class(kitchen.Ingredient{Food: f.NDB}, table(t)); !class.Animal() {
				t.Errorf("%s: %s", f.Description, class)
			}
		}
	}
	if n < 80 {
		t.Errorf("only %d raw foods of animals", n)
	}
}

// A guess is told where the book would say it: as a stop for what comes of animals, to be confirmed for what does not.
func TestAGuessIsAskedAbout(t *testing.T) {
	book := bookfile.Read(demo.Book()).Book
	for _, c := range []struct {
		id       kitchen.IngredientID
		change   func(*kitchen.Ingredient)
		code     string
		severity finding.Severity
	}{
		{"turkey", func(g *kitchen.Ingredient) { g.Class = "" }, hazards.CodeClassGuessed, finding.Stop},
		{"milk", func(g *kitchen.Ingredient) { g.Class = "" }, hazards.CodeClassGuessed, finding.Caution},
		{"milk", func(g *kitchen.Ingredient) { g.Class, g.Food = "", "" }, hazards.CodeClassUnknown, finding.Stop},
	} {
		one := book
		one.Ingredients = map[kitchen.IngredientID]kitchen.Ingredient{}
		for id, g := range book.Ingredients {
			if id == c.id {
				c.change(&g)
			}
			one.Ingredients[id] = g
		}
		_, found := draft(t, one, "meatballs-six")
		if len(found) != 1 || found[0].Code != c.code || found[0].Severity != c.severity || found[0].Path != "ingredients."+string(c.id)+".class" || found[0].Fix == "" {
			t.Errorf("%s: %+v", c.id, found)
		}
	}
}

func TestNoSuchPack(t *testing.T) {
	if _, found := hazards.Of(kitchen.Book{}, table(t), "soup"); len(found) != 1 || found[0].Code != hazards.CodeNoPack {
		t.Errorf("%v", found)
	}
}

// The book of the demo asks 160 °F of what is ground, which is stricter; where a kitchen cools faster, its coolings are judged by that.
func TestRulesOfTheKitchen(t *testing.T) {
	book := bookfile.Read(demo.Book()).Book
	i := slices.IndexFunc(hazards.Rules(book), func(h foodcode.Held) bool { return h.ID == "fda-3-401.11-a-2" })
	if h := hazards.Rules(book)[i]; *h.TempF != 160 || h.Laxer || h.Was == nil || h.Words() != "160 °F for 17 s (published: 155 °F for 17 s)" || h.Reason == "" {
		t.Errorf("%+v: %s", h, h.Words())
	}
	if r := hazards.CoolRule(book); r.ID != "fda-3-501.14-a" || r.Stages[1].WithinS != 6*3600 {
		t.Errorf("%+v", r)
	}
	cold := unit.TempF(38)
	book.Safety.Rules = []kitchen.RuleChange{{Rule: "fda-3-501.14-a-2", Temp: &cold, Time: 5 * 3600, By: "Nora"}, {Rule: "fda-3-501.14-a-1", Time: 3 * 3600}} // the second is laxer without a reason
	r := hazards.CoolRule(book)
	if r.Stages[1].ToC != cold.C() || r.Stages[1].WithinS != 5*3600 || r.Stages[0].WithinS != 2*3600 || r.Stages[1].Name != "135 to 38 °F in all" {
		t.Errorf("%+v", r.Stages)
	}
	plan, _ := draft(t, book, "lentil-squash-lb")
	if l := plan.Points[0].Limit; l.Text != "135 to 70 °F within 2 h, and 135 to 38 °F within 5 h in all (published: 135 to 41 °F within 6 h in all)" || len(l.Figures) != 2 || l.Figures[1].TempC != cold.C() {
		t.Errorf("%+v", l)
	}
	book.Safety.Cooling = "maine-346-3-12-a"
	if r := hazards.CoolRule(book); r.ID != "maine-346-3-12-a" || r.Stages[0].WithinS != 2*3600 {
		t.Errorf("%+v", r)
	}
}

// Another limit opens the plan again, and so does another class; another price does not.
func TestWhatOpensThePlanAgain(t *testing.T) {
	book := bookfile.Read(demo.Book()).Book
	was, _ := draft(t, book, "meatballs-six")
	hot := unit.TempF(170)
	for name, change := range map[string]func(*kitchen.Book){
		"another price": func(b *kitchen.Book) { b.Kitchen.Currency = "£" },
		"a limit":       func(b *kitchen.Book) { b.Safety.Rules = []kitchen.RuleChange{{Rule: "fda-3-401.11-a-3", Temp: &hot}} },
		"cooling":       func(b *kitchen.Book) { b.Safety.Cooling = "fsis-b-1999-1" },
	} {
		changed := book
		change(&changed)
		now, _ := draft(t, changed, "meatballs-six")
		if (now.Basis == was.Basis) != (name == "another price") {
			t.Errorf("%s: the plan is open again: %v", name, now.Basis != was.Basis)
		}
	}
}

// Every rule of every topic is shown, with where it stands, and the one that the demo holds otherwise says so, and who decided it.
func TestTheSheetOfRules(t *testing.T) {
	book := bookfile.Read(demo.Book()).Book
	cold := unit.TempF(45)
	book.Safety.Rules = append(book.Safety.Rules, kitchen.RuleChange{Rule: "fda-3-501.16-a-2", Temp: &cold, Reason: "variance 7", By: "Nora"})
	sheet := hazards.SheetOf(book)
	n, changed := 0, ""
	for _, topic := range sheet.Topics {
		for _, r := range topic.Rules {
			n++
			if r.Changed != "" {
				changed += r.ID + " " + r.Changed + " " + r.Limit + " by " + r.By + "; "
			}
			if r.Gate != (r.Confirm == "") || r.Source == "" || r.Limit == "" {
				t.Errorf("%+v", r)
			}
		}
	}
	if want := "fda-3-401.11-a-2 stricter 160 °F for 17 s by ; fda-3-501.16-a-2 laxer 45 °F or colder by Nora; "; changed != want {
		t.Errorf("%s, want %s", changed, want)
	}
	if n != len(hazards.Rules(book)) || !sheet.Judged || sheet.Jurisdiction != "US-VT" || len(sheet.Cooling.Stages) != 2 {
		t.Errorf("%d rules, %+v", n, sheet.Cooling)
	}
	if empty := hazards.SheetOf(kitchen.Book{}); empty.Judged || empty.Jurisdiction != "US" {
		t.Errorf("%+v", empty)
	}
}
