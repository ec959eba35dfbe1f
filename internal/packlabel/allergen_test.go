package packlabel_test

import (
	"slices"
	"strings"
	"testing"

	"kettlefrost/internal/finding"
	"kettlefrost/internal/kitchen"
	"kettlefrost/internal/labelmaker"
	"kettlefrost/internal/packlabel"
	"kettlefrost/internal/unit"
)

// 21 U.S.C. 343(w) (read): without an answer there is no label, wherever in the ingredients it is missing, and whatever else is right.
func TestNoLabelWithoutAnAnswer(t *testing.T) {
	for name, change := range map[string]func(*kitchen.Ingredient){
		"ingredients.base.allergens": func(i *kitchen.Ingredient) { i.Allergens = kitchen.Allergens{} },
		"ingredients.base.contains[1].allergens": func(i *kitchen.Ingredient) {
			i.Contains = []kitchen.SubIngredient{{Name: "lentils", Allergens: none()}, {Name: "seasoning"}}
		},
	} {
		for _, regime := range []kitchen.LabelRegime{kitchen.USLabels, kitchen.EULabels} {
			b := lentilSoup()
			edit(b.Ingredients, "base", change)
			a := asked(t, b)
			a.Regime, a.Business.Staff, a.Business.YearlyUnits, a.WithoutPanel = regime, 3, 1000, true
			a.Beyond = map[kitchen.IngredientID]kitchen.Allergens{"water": none(), "base": none()}
			l := made(t, a)
			f := has(l.Open, packlabel.CodeAllergens)
			if !l.Withheld() || len(l.Sides) > 0 || l.Hash != "" || len(l.Content.Ingredients) > 0 {
				t.Errorf("%s, %s: a label is printed", name, regime)
			}
			if f == nil || f.Severity != finding.Stop || f.Path != name || f.Fix == "" {
				t.Errorf("%s, %s: asked is %v", name, regime, f)
			}
			if l.Statement.Contains != "" {
				t.Errorf("%s: %q is said while something is open", name, l.Statement.Contains)
			}
		}
	}
}

func text(runs []labelmaker.Run) (all, strong string) {
	var set []string
	for _, r := range runs {
		all += r.Text
		if r.Strong {
			set = append(set, r.Text)
		}
	}
	return all, strings.Join(set, "|")
}

// creamSoup is the soup with half a kilogram of cream in place of as much water.
func creamSoup() kitchen.Book {
	b := lentilSoup()
	b.Ingredients["cream"] = kitchen.Ingredient{Name: "heavy cream", Label: "cream", Class: "dairy", Food: "01053", Allergens: with("milk"), Contains: []kitchen.SubIngredient{{Name: "milk fat", Allergens: with("milk")}}}
	b.Ingredients["sauce"] = kitchen.Ingredient{Name: "fish sauce", Class: "dry", Allergens: with("fish: anchovy"), Analysis: &kitchen.Analysis{Water: 70, Ash: 25, Protein: 5, Source: "test"}, Function: "seasoning"}
	s := &b.Dishes["soup"].Steps[0]
	grams := func(g unit.Mass) unit.Amount { return unit.Amount{Kind: unit.AmountMass, Mass: g * unit.Gram} }
	s.Use = []kitchen.Use{{Of: "base", Amount: grams(5000)}, {Of: "water", Amount: grams(5490)}, {Of: "cream", Amount: grams(500)}, {Of: "sauce", Amount: grams(10)}}
	return b
}

// Worked by hand: of 11 kg 5.49 kg are water as put in, which is first in the United States; in the European Union the kilogram that boils off does
// not count, and 4.49 kg are less than 5 kg of lentils (annex VII A.1, read). Cream needs its source named there (article 21, quoted).
func TestTwoListsOfOnePot(t *testing.T) {
	a := asked(t, creamSoup())
	a.Business.Staff, a.Business.YearlyUnits, a.WithoutPanel = 3, 1000, true
	us := made(t, a)
	list, _ := text(us.Content.Ingredients)
	if want := "Ingredients: water, lentils, cream (milk fat), fish sauce (seasoning)."; list != want {
		t.Errorf("US: %s\nwant %s", list, want)
	}
	if line, _ := text(us.Content.Contains); line != "Contains: Milk, Fish (anchovy)." {
		t.Errorf("US: %s", line)
	}
	a.Regime = kitchen.EULabels
	a.Beyond = map[kitchen.IngredientID]kitchen.Allergens{"water": none(), "cream": none(), "sauce": none(), "base": {Answered: true, Names: []string{"celery"}}}
	edit(a.Book.Ingredients, "sauce", func(i *kitchen.Ingredient) {
		z := 0.0
		i.Analysis.Fibre, i.Analysis.Sugars, i.Analysis.SatFat, i.Analysis.Sodium = &z, &z, &z, &z
	})
	eu := made(t, a)
	list, strong := text(eu.Content.Ingredients)
	if want := "Ingredients: lentils (50 %) (celery), water, cream (milk fat), seasoning: fish sauce."; list != want || strong != "celery|milk|fish" {
		t.Errorf("EU: %s, set off: %s\nwant %s (%v)", list, strong, want, eu.Open)
	}
	if len(eu.Content.Contains) > 0 {
		t.Error("EU: there is a line of allergens beside the list")
	}
}

// Nobody has answered beyond the nine: the European Union asks, and its words lead to the question.
func TestTheFourteenAreAsked(t *testing.T) {
	b := lentilSoup()
	edit(b.Ingredients, "base", func(i *kitchen.Ingredient) {
		i.Contains = []kitchen.SubIngredient{{Name: "celery", Allergens: none()}, {Name: "barley malt", Allergens: none()}}
	})
	a := asked(t, b)
	a.Regime = kitchen.EULabels
	l := made(t, a)
	said := ""
	for _, f := range l.Open {
		if f.Code == packlabel.CodeAllergens {
			said += f.Message + "\n"
		}
	}
	if !l.Withheld() || !strings.Contains(said, "celery") || !strings.Contains(said, "molluscs") {
		t.Errorf("it asks: %s", said)
	}
}

// What took the place of an ingredient in this lot stands on its label, allergens and all.
func TestWhatTookItsPlace(t *testing.T) {
	b := creamSoup()
	b.Ingredients["cashew"] = kitchen.Ingredient{Name: "cashew cream", Class: "dry", Analysis: b.Ingredients["base"].Analysis, Allergens: with("tree nuts: cashew")}
	a := asked(t, b)
	a.Business.Staff, a.Business.YearlyUnits, a.WithoutPanel = 3, 1000, true
	a.Lot.Instead = []packlabel.Instead{{Of: "cream", By: "cashew"}}
	l := made(t, a)
	if line, _ := text(l.Content.Contains); line != "Contains: Fish (anchovy), Tree nuts (cashew)." {
		t.Errorf("all of it: %s", line)
	}
	if has(l.Advice, packlabel.CodeInstead) == nil {
		t.Error("the dish does not name it as what may stand in, and nothing says so")
	}
	a.Lot.Instead[0].Share = 40 * unit.PerCent
	l = made(t, a)
	if line, _ := text(l.Content.Contains); line != "Contains: Milk, Fish (anchovy), Tree nuts (cashew)." {
		t.Errorf("a part of it: %s", line)
	}
	item := func(name string) unit.Mass {
		i := slices.IndexFunc(l.Statement.Items, func(x statementItem) bool { return x.Name == name })
		return l.Statement.Items[i].Mass
	}
	if ratio := item("cashew cream").Kg() / item("cream").Kg(); ratio < 0.4/0.6-1e-9 || ratio > 0.4/0.6+1e-9 {
		t.Errorf("40 %% were replaced, and there is %v of it to one of the other", ratio)
	}
	a.Lot.Instead[0].By = "nothing"
	if l = made(t, a); !l.Withheld() {
		t.Error("something that the book does not have is said to be in it")
	}
}

// A name says what its answer does not: somebody is asked to look again. Coconut milk is no milk, buckwheat no wheat, butternut no nut.
func TestANameThatSaysAnAllergen(t *testing.T) {
	for _, c := range []struct {
		name   string
		answer kitchen.Allergens
		us, eu bool
	}{
		{"skim milk powder", none(), true, true}, {"skim milk powder", with("milk"), false, false}, {"coconut milk", none(), false, false}, {"buckwheat", none(), false, false},
		{"butternut squash", none(), false, false}, {"mustard powder", none(), false, true}, {"ground almonds", with("tree nuts: almond"), false, false}, {"ground almonds", none(), true, true},
		{"barley malt", none(), false, true}, {"wheat flour", with("wheat"), false, false}, {"eggplant", none(), false, false},
	} {
		for regime, want := range map[kitchen.LabelRegime]bool{kitchen.USLabels: c.us, kitchen.EULabels: c.eu} {
			b := lentilSoup()
			edit(b.Ingredients, "base", func(i *kitchen.Ingredient) {
				i.Allergens, i.Contains = c.answer, []kitchen.SubIngredient{{Name: c.name, Allergens: c.answer}}
			})
			a := asked(t, b)
			a.Regime, a.Beyond = regime, map[kitchen.IngredientID]kitchen.Allergens{"base": none(), "water": none()}
			if f := has(made(t, a).Open, packlabel.CodeContradicted); (f != nil) != want {
				t.Errorf("%s, answered %v, %s: %v", c.name, c.answer.Names, regime, f)
			}
		}
	}
}
