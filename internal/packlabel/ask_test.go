package packlabel_test

import (
	"math"
	"strings"
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/nutrition"
	"kettlefrost/internal/packlabel"
	"kettlefrost/internal/plan"
	"kettlefrost/internal/unit"
)

// Examples of 21 CFR 101.105(m), 2015 (read): 1 1/2 lb and 3/4 lb; 680 g may claim 23.98 oz at most, as 24 oz are 680.39 g (by hand).
func TestNetQuantityOfAPack(t *testing.T) {
	for _, c := range []struct {
		net  unit.Mass
		want string
	}{{24 * unit.Ounce, "Net Wt 24 oz (1 lb 8 oz) 680 g"}, {12 * unit.Ounce, "Net Wt 12 oz (340 g)"}, {680 * unit.Gram, "Net Wt 23.98 oz (1 lb 7.98 oz) 680 g"}} {
		b := lentilSoup()
		edit(b.Packs, "pack", func(p *kitchen.Pack) { p.Fill[0].Mass = c.net })
		l := made(t, asked(t, b))
		if l.Net.Text != c.want || l.Content.Net[0] != c.want || l.Net.Declared > c.net {
			t.Errorf("%v: %s, declared %v; want %s", c.net, l.Net.Text, l.Net.Declared, c.want)
		}
		if got := l.Rules.Least[labelmaker.NetQuantity].LetterMm; len(l.Sides) == 0 || math.Abs(got-25.4*3/16) > 1e-9 { // the bag's face has 48 sq in
			t.Errorf("%v: letters of %v mm will do", c.net, got)
		}
	}
}

// FSIS policy book (quoted): 3 % or less raw meat and under 2 % cooked leave a product to FDA. 11 kg lose 1 kg here, so that 100 g of beef put in are
// 1 % raw of the finished food; a third of them goes as water with the rest's share.
func TestWhoInspects(t *testing.T) {
	for _, c := range []struct {
		name, class string
		grams       unit.Mass
		answer      string
		asks        finding.Severity
	}{
		{"a little beef", "ground-meat", 150, "", 0},
		{"more beef", "ground-meat", 400, "", finding.Caution},
		{"chicken under the line", "poultry", 150, "", 0},
		{"chicken over it", "poultry", 400, "", finding.Caution},
		{"the book has an answer", "ground-meat", 400, "exempt: letter of the state, 2026-03-01", finding.Note},
		{"inspected: the legend is wanted", "ground-meat", 400, "federal", finding.Caution},
		{"no meat", "beans", 400, "", 0},
	} {
		b := lentilSoup()
		b.Kitchen.Labels.Inspected = c.answer
		b.Ingredients["meat"] = kitchen.Ingredient{Name: "meat", Class: kitchen.IngredientClass(c.class), Food: "23572", Allergens: none()}
		s := &b.Dishes["soup"].Steps[0]
		s.Use = append(s.Use, kitchen.Use{Of: "meat", Amount: unit.Amount{Kind: unit.AmountMass, Mass: c.grams * unit.Gram}})
		l := made(t, asked(t, b))
		f := has(l.Open, packlabel.CodeAgency)
		switch {
		case c.asks == 0 && f != nil:
			t.Errorf("%s: asks %v", c.name, f)
		case c.asks > 0 && (f == nil || f.Severity != c.asks || f.Path != "kitchen.labels.inspected" || len(f.Figures) != 3):
			t.Errorf("%s: asks %v", c.name, f)
		}
		if f != nil && c.answer == "" && !strings.HasSuffix(f.Message, "?") {
			t.Errorf("%s: is no question: %s", c.name, f.Message)
		}
		if note := has(l.Advice, packlabel.CodeAgency); (note != nil) != (c.class != "beans" && c.asks == 0) {
			t.Errorf("%s: advice is %v", c.name, note)
		}
		if c.class == "ground-meat" {
			whole := (11*unit.Kilogram + c.grams*unit.Gram).Kg() * 10 / 11
			if got, want := l.Shares.RawMeat.F(), c.grams.Kg()*float64(unit.Gram)/whole; math.Abs(got-want) > 1e-6 {
				t.Errorf("%s: %v of it is raw meat, want %v", c.name, got, want)
			}
			if l.Shares.CookedMeat >= l.Shares.RawMeat {
				t.Errorf("%s: meat has lost nothing", c.name)
			}
		}
	}
}

// FDA Food Code 3-401.11: what no step brings to 165 °F is taken for raw, and 9 CFR 381.125(b) (read) asks for safe handling instructions then.
func TestRawMeatIsNoReadyMeal(t *testing.T) {
	b := lentilSoup()
	edit(b.Ingredients, "base", func(i *kitchen.Ingredient) { i.Class = "poultry" })
	if l := made(t, asked(t, b)); has(l.Advice, packlabel.CodeNotCooked) != nil || has(l.Open, "us-safe-handling") != nil {
		t.Errorf("it simmers at 205 °F: %v", l.Open)
	}
	warm := unit.Temp(0)
	if err := warm.UnmarshalText([]byte("150 °F")); err != nil {
		t.Fatal(err)
	}
	b.Dishes["soup"].Steps[0].HeatTo = &warm
	if l := made(t, asked(t, b)); has(l.Advice, packlabel.CodeNotCooked) == nil || has(l.Open, "us-safe-handling") == nil || !l.Withheld() {
		t.Error("raw poultry is sold like a meal")
	}
}

// What is missing is open, never zero: 21 CFR 101.9(c) knows no word for "not known".
func TestAMissingFigureIsNotZero(t *testing.T) {
	b := lentilSoup()
	edit(b.Ingredients, "base", func(i *kitchen.Ingredient) { a := *i.Analysis; a.VitaminD, a.AddedSugars = nil, nil; i.Analysis = &a })
	l := made(t, asked(t, b))
	if !l.Withheld() || l.Panel.Printable() || len(l.Sides) > 0 {
		t.Fatal("the panel is printed")
	}
	want := map[string]string{"nutrition, vitamin D": "ingredients.base.analysis.vitamin-d", "nutrition, added sugars": "ingredients.base.analysis.added-sugars"}
	for _, f := range l.Open {
		if path, is := want[f.Where]; f.Code == packlabel.CodeNutrient && (!is || f.Path != path || !strings.Contains(f.Message, "base")) {
			t.Errorf("asked is %v at %s", f, f.Path)
		}
		delete(want, f.Where)
	}
	if len(want) > 0 {
		t.Errorf("nobody asks for %v", want)
	}
	a := asked(t, b)
	a.Business.Staff, a.Business.YearlyUnits = 3, 1000
	if l = made(t, a); l.Withheld() || !l.NoPanel || l.Content.Panel != nil || has(l.Advice, packlabel.CodeExempt) == nil {
		t.Errorf("a kitchen so small may leave the panel out (21 CFR 101.9(j)(18), read), and says so: %v", l.Open)
	}
	for _, row := range l.Panel.Rows {
		if row.Nutrient == nutrition.VitaminD && row.Cells[0].Amount != "" {
			t.Errorf("vitamin D that nobody knows is %q", row.Cells[0].Amount)
		}
	}
}

// The order of the day by hand: peanuts in the pot until 08:00, the soup in it from 09:00, washed in between or not.
func TestWhoWasInThePotBefore(t *testing.T) {
	b := lentilSoup()
	b.Ingredients["peanut"] = kitchen.Ingredient{Name: "peanuts", Allergens: with("peanuts")}
	b.Dishes["sauce"] = kitchen.Dish{Name: "peanut sauce", Steps: []kitchen.Step{{ID: "toast", Use: []kitchen.Use{{Of: "peanut"}}}, {ID: "peel"}}}
	b.Packs["plain"] = kitchen.Pack{Dish: "sauce", Fill: []kitchen.Fill{{Of: "peel"}}}
	b.Packs["nutty"] = kitchen.Pack{Dish: "sauce", Fill: []kitchen.Fill{{Of: "toast"}}}
	for _, c := range []struct {
		name  string
		tasks []plan.Task
		want  finding.Severity
	}{
		{"not washed", []plan.Task{{Dish: "sauce", Step: "toast", Start: 420, End: 480, On: []string{"pot"}}, {Dish: "soup", Step: "simmer", Start: 540, End: 600, On: []string{"pot"}}}, finding.Caution},
		{"washed", []plan.Task{{Dish: "sauce", Step: "toast", Start: 420, End: 480, On: []string{"pot"}}, {Kind: plan.Washing, Start: 490, End: 500, On: []string{"pot"}}, {Dish: "soup", Step: "simmer", Start: 540, End: 600, On: []string{"pot"}}}, finding.Note},
		{"after it", []plan.Task{{Dish: "soup", Step: "simmer", Start: 300, End: 360, On: []string{"pot"}}, {Dish: "sauce", Step: "toast", Start: 420, End: 480, On: []string{"pot"}}}, 0},
		{"in another pot", []plan.Task{{Dish: "sauce", Step: "toast", Start: 420, End: 480, On: []string{"pan"}}, {Dish: "soup", Step: "simmer", Start: 540, End: 600, On: []string{"pot"}}}, 0},
		{"at the sealer, a pack without them", []plan.Task{{Kind: plan.Filling, Key: "plain/fill/1", Dish: "sauce", Start: 420, End: 480, On: []string{"sealer"}}, {Kind: plan.Filling, Key: "pack/fill/1", Dish: "soup", Start: 540, End: 600, On: []string{"sealer"}}}, 0},
		{"at the sealer, a pack with them", []plan.Task{{Kind: plan.Filling, Key: "nutty/fill/1", Dish: "sauce", Start: 420, End: 480, On: []string{"sealer"}}, {Kind: plan.Filling, Key: "pack/fill/1", Dish: "soup", Start: 540, End: 600, On: []string{"sealer"}}}, finding.Caution},
		{"before the peanuts go in", []plan.Task{{Dish: "sauce", Step: "peel", Start: 420, End: 480, On: []string{"pot"}}, {Dish: "soup", Step: "simmer", Start: 540, End: 600, On: []string{"pot"}}}, 0},
	} {
		a := asked(t, b)
		a.Plan.Timetable.Tasks = c.tasks
		l := made(t, a)
		f := has(l.Advice, packlabel.CodeCrossContact)
		if c.want == 0 && f != nil || c.want > 0 && (f == nil || f.Severity != c.want || !strings.HasPrefix(f.Message, "peanuts: peanut sauce")) {
			t.Errorf("%s: advice is %v", c.name, f)
		}
		if l.Statement.Contains != "" || strings.Contains(strings.ToLower(strings.Join(l.Content.Cautions, " ")), "peanut") {
			t.Errorf("%s: advice is printed", c.name)
		}
	}
}

// 21 CFR 101.22(a)(2) and (h) (read): garlic powder is no spice.
func TestGarlicIsNoSpice(t *testing.T) {
	for name, bad := range map[string]bool{"garlic powder": true, "paprika": true, "oregano": false} {
		b := lentilSoup()
		edit(b.Ingredients, "base", func(i *kitchen.Ingredient) { i.Name, i.Label = name, "spices" })
		if l := made(t, asked(t, b)); (has(l.Open, packlabel.CodeNotSpice) != nil) != bad {
			t.Errorf("%s as spices: %v", name, l.Open)
		}
	}
}

func TestDaysThatMakeNoSense(t *testing.T) {
	for _, c := range []struct {
		packed, best string
		stops        bool
	}{{"2026-12-01", "2027-03-02", false}, {"2026-12-01", "2026-12-01", false}, {"2026-12-01", "2026-11-30", true}, {"2026-12-01", "soon", true}, {"tomorrow", "", true}, {"", "2027-03-02", false}, {"", "", false}} {
		a := asked(t, lentilSoup())
		a.Lot.Packed, a.Lot.BestBefore = c.packed, c.best
		if f := has(made(t, a).Open, packlabel.CodeBestBefore); (f != nil && f.Severity == finding.Stop) != c.stops {
			t.Errorf("packed %q, best before %q: %v", c.packed, c.best, f)
		}
	}
}
